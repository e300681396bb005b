//! What an audit says in a minute: a comment on a merge request, or a mail in the morning. At most
//! sixty lines.

use std::fmt::Write as _;

use crate::audit::Status;
use crate::sheet::Wanted;
use crate::text::{cut, visible};
use crate::units::print::{self, DisplayUnits};

use super::Head;
use super::story::{Cause, News, Story, Told};

/// Most lines.
const LINES: usize = 60;
/// Longest line of a list, in characters.
const LONGEST: usize = 220;
/// Rules that are named as causes.
const CAUSES: usize = 6;

/// A list of the comment.
struct List {
    title: String,
    lines: Vec<String>,
    /// How many there are, whether or not they are named.
    count: usize,
}

/// The comment.
pub(crate) fn markdown(head: &Head, story: &Story, fails: bool) -> String {
    let mut text = String::new();
    for line in opening(head, story, fails) {
        text += &line;
        text.push('\n');
    }
    let lists = lists(story);
    let mut left = LINES.saturating_sub(text.lines().count() + closing(head).len());
    let causes = causes(story);
    left = left.saturating_sub(causes.len());
    let many = lists.len();
    for (at, list) in lists.into_iter().enumerate() {
        // Those behind it have their share: a heading and three lines each at least.
        let share = left / (many - at).max(1);
        let room = share.max(left.saturating_sub((many - at - 1) * 6));
        left = left.saturating_sub(put(&list, room, &mut text));
    }
    for line in causes.iter().chain(&closing(head)) {
        text += line;
        text.push('\n');
    }
    text
}

fn opening(head: &Head, story: &Story, fails: bool) -> Vec<String> {
    let [failing, grip_not_judged, warned, not_judged, nothing] = story.counts.groups;
    let roots: Vec<String> = head.roots.iter().map(|root| code(root)).collect();
    let verdict = if fails { "fails" } else { "does not fail" };
    let since = head.since.as_ref().map_or_else(String::new, |since| {
        format!(", compared with run {} of {}", short(&since.id), since.day)
    });
    let trouble = |wanted: Status| {
        let all = story.troubled.iter();
        all.filter(|(_, status, _)| *status == wanted).count()
    };
    let mut lines = vec![
        format!("# Audit of {}: {verdict}", roots.join(", ")),
        String::new(),
        format!("{}, run {}{since}.", head.day, short(&head.id)),
        String::new(),
        format!(
            "**{}: {failing} to fail, {warned} to check, {} not judged, {nothing} without a finding.** Grip judged on {} of {} tools that are held by a shank.",
            counted(story.counts.assemblies(), "tool"),
            grip_not_judged + not_judged,
            story.counts.grip_judged,
            story.counts.held_by_shank,
        ),
        format!(
            "{}: {} with tools that fail, {} read in part, {} unreadable, {} failed. Files seen: {}; ignored: {}; CSV or XML that is no library: {}; not to be looked at: {}.",
            counted(story.libraries, "library"),
            story.failing,
            trouble(Status::InPart),
            trouble(Status::Unreadable),
            trouble(Status::Failed),
            head.seen.files,
            head.seen.ignored,
            head.seen.unrecognised,
            head.seen.unreadable,
        ),
        String::new(),
    ];
    if head.since.is_some() {
        lines.extend(table(story));
    } else {
        let [errors, warnings, notes, open] = story.counts.levels;
        lines.push(format!(
            "Findings: {errors} errors, {warnings} warnings, {notes} notes, {open} not judged, {} accepted. There is no earlier run to compare with.",
            story.counts.accepted
        ));
    }
    lines
}

fn table(story: &Story) -> Vec<String> {
    let mut lines = vec![
        "| findings | errors | warnings | notes | not judged |".to_owned(),
        "|---|---|---|---|---|".to_owned(),
    ];
    let rows = [
        ("today", story.counts.levels),
        ("new", story.new.levels),
        ("worse", story.worse.levels),
        ("accepted no more", story.lapsed.levels),
        ("better", story.better.levels),
        ("gone", story.gone.levels),
        ("not compared", story.not_compared.levels),
    ];
    for (name, levels) in rows {
        let cells: Vec<String> = levels.iter().map(ToString::to_string).collect();
        lines.push(format!("| {name} | {} |", cells.join(" | ")));
    }
    lines
}

fn lists(story: &Story) -> Vec<List> {
    let mut lists = Vec::new();
    let of = |title: &str, news: &News| List {
        title: format!("{title}: {}", news.count()),
        lines: news.named.iter().map(told).collect(),
        count: news.count(),
    };
    let troubled = story
        .troubled
        .iter()
        .map(|(key, status, why)| format!("{}: {}; {}", code(key), status.name(), escaped(why)));
    let libraries = story
        .gone_libraries
        .iter()
        .map(|key| {
            format!(
                "{}: gone; its findings count as gone, not as cured",
                code(key)
            )
        })
        .chain(
            story
                .moved
                .iter()
                .map(|(was, is)| format!("{}: stood at {} before", code(is), code(was))),
        )
        .chain(
            story
                .new_libraries
                .iter()
                .map(|key| format!("{}: new", code(key))),
        );
    lists.push(List {
        title: format!("Not read, or not wholly: {}", story.troubled.len()),
        lines: troubled.collect(),
        count: story.troubled.len(),
    });
    lists.push(of("New", &story.new));
    lists.push(of("Worse", &story.worse));
    lists.push(of("Accepted no more", &story.lapsed));
    lists.push(of("On what is accepted", &story.acceptances));
    lists.push(of("Gone", &story.gone));
    lists.push(of("Not compared", &story.not_compared));
    let libraries: Vec<String> = libraries.collect();
    lists.push(List {
        title: format!("Libraries that came, went or moved: {}", libraries.len()),
        count: libraries.len(),
        lines: libraries,
    });
    lists.retain(|list| list.count > 0);
    lists
}

/// Writes a list in so many lines; how many it took.
fn put(list: &List, room: usize, text: &mut String) -> usize {
    // Heading, blank lines around it, and the line that counts the rest.
    let named = room.saturating_sub(4).max(1);
    let lines = list.lines.iter().take(named);
    let shown = lines.len();
    // Writing to a String cannot fail.
    let _ = writeln!(text, "\n## {}\n", list.title);
    for line in lines {
        let _ = writeln!(text, "- {}", cut(line, LONGEST));
    }
    let more = list.count - shown.min(list.count);
    if more > 0 {
        let _ = writeln!(text, "- and {more} more, in `findings.csv`");
    }
    3 + shown + usize::from(more > 0)
}

/// A finding in a line.
fn told(told: &Told) -> String {
    let noted = &told.noted;
    let tool = match (noted.tool_number.as_str(), noted.assembly.as_str()) {
        ("", "") => String::new(),
        ("", id) => format!(" {}", escaped(id)),
        (number, _) => format!(" tool {}", escaped(number)),
    };
    let machine = match noted.machine.as_str() {
        "" => String::new(),
        machine => format!(" ({})", escaped(machine)),
    };
    let level = match noted.level.as_str() {
        "none" => "not judged",
        level => level,
    };
    let mut line = format!("{}{tool}{machine}: {level}, ", code(&noted.library));
    match numbers(told) {
        Some(numbers) => {
            let _ = write!(line, "{}: {numbers}", escaped(&noted.title));
        }
        None => line += &escaped(&noted.message),
    }
    let _ = write!(line, " ({})", noted.rule);
    if !told.reason.is_empty() {
        let _ = write!(line, "; {}", escaped(&told.reason));
    } else if told.change.lapsed {
        line += "; was accepted";
    }
    line
}

/// From how much to how much, where that has changed.
fn numbers(told: &Told) -> Option<String> {
    let (value, needed) = told.change.before?;
    let now = told.noted.shortfall()?;
    let units = match told.noted.units.as_str() {
        "in" => DisplayUnits::new("in", "lbf·ft"),
        _ => DisplayUnits::new("mm", "N·m"),
    };
    let (from, to) = print::pair(value, now.value, now.unit, units);
    let side = match now.wanted {
        Wanted::AtLeast => "at least ",
        Wanted::AtMost => "at most ",
        Wanted::Equal | Wanted::Other => "",
    };
    let (was, is) = print::pair(needed, now.needed, now.unit, units);
    let moved = if was == is {
        String::new()
    } else {
        format!(" (before: {was})")
    };
    Some(format!("{from} -> {to}, wanted: {side}{is}{moved}"))
}

fn causes(story: &Story) -> Vec<String> {
    let mut causes: Vec<(&String, &Cause)> = story.causes.iter().collect();
    causes.sort_by_key(|(_, cause)| (cause.grave, std::cmp::Reverse(cause.findings)));
    if causes.is_empty() {
        return Vec::new();
    }
    let mut lines = vec![
        String::new(),
        "| most frequent, the gravest first | findings | new or worse | libraries |".to_owned(),
        "|---|---|---|---|".to_owned(),
    ];
    for (rule, cause) in causes.iter().take(CAUSES) {
        lines.push(format!(
            "| {} ({rule}) | {} | {} | {} |",
            escaped(&cause.title),
            cause.findings,
            cause.news,
            cause.libraries.len()
        ));
    }
    lines
}

fn closing(head: &Head) -> Vec<String> {
    vec![
        String::new(),
        format!(
            "Judged by rules {}, version {}. {}",
            short(&head.rules_sha256),
            env!("CARGO_PKG_VERSION"),
            super::super::NOTICE
        ),
    ]
}

fn counted(count: usize, what: &str) -> String {
    match (count, what) {
        (1, _) => format!("1 {what}"),
        (_, "library") => format!("{count} libraries"),
        _ => format!("{count} {what}s"),
    }
}

/// The beginning of a hash, which is enough to tell two apart.
fn short(hash: &str) -> &str {
    hash.get(..12).unwrap_or(hash)
}

/// A name as it is: no sign in it means anything, and no quotation mark of it ends it.
fn code(name: &str) -> String {
    let name = visible(name).replace('\n', " ");
    format!("`{}`", name.replace('`', "'"))
}

/// A text in which no sign means anything.
fn escaped(text: &str) -> String {
    let mut escaped = String::new();
    for c in visible(text).chars() {
        match c {
            '\\' | '`' | '*' | '_' | '[' | ']' | '<' | '>' | '|' | '#' | '&' | '~' | '!' => {
                escaped.push('\\');
                escaped.push(c);
            }
            '\n' | '\r' => escaped.push(' '),
            c => escaped.push(c),
        }
    }
    escaped
}
