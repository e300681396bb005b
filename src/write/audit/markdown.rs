//! What an audit says in a minute: a comment on a merge request, or a mail in the morning. At most
//! sixty lines.

use std::fmt::Write as _;

use crate::audit::{Noted, Status};
use crate::text::{counted, cut, visible};

use super::gone_lines::gone;
use super::news_lines::{Line, told};
use super::story::{Cause, News, Story};
use super::{Head, Verdict};

/// Most lines.
const LINES: usize = 60;
/// Longest line of a list, in characters.
const LONGEST: usize = 1000;
/// Rules that are named as causes, and how many where there is much to tell.
const CAUSES: (usize, usize) = (6, 3);
/// Lines of lists that are much to tell.
const MUCH: usize = 20;

/// A list of the comment.
struct List {
    title: String,
    lines: Vec<Line>,
}

/// The comment.
pub(crate) fn markdown(head: &Head, story: &Story, verdict: Verdict) -> String {
    let mut text = String::new();
    for line in opening(head, story, verdict) {
        text += &line;
        text.push('\n');
    }
    let lists = lists(head, story);
    let wanted: usize = lists.iter().map(|list| list.lines.len() + AROUND).sum();
    let causes = causes(story, if wanted > MUCH { CAUSES.1 } else { CAUSES.0 });
    let closing = closing(head);
    let left = LINES.saturating_sub(text.lines().count() + causes.len() + closing.len());
    for (list, most) in lists.iter().zip(shares(&lists, left)) {
        put(list, most, &mut text);
    }
    for line in causes.iter().chain(&closing) {
        text += line;
        text.push('\n');
    }
    text
}

fn opening(head: &Head, story: &Story, verdict: Verdict) -> Vec<String> {
    let [failing, grip_not_judged, warned, not_judged, nothing] = story.counts.groups;
    let roots: Vec<String> = head.roots.iter().map(|root| code(root)).collect();
    let verdict = match (verdict.unread, verdict.fails, head.options.only_new) {
        (true, true, _) => "fails, and not everything could be read",
        (true, false, _) => "not everything could be read, and what was not has not passed",
        (false, true, false) => "fails",
        (false, true, true) => "something new fails",
        (false, false, false) => "does not fail",
        (false, false, true) => "nothing new fails",
    };
    let since = head.since.as_ref().map_or_else(String::new, |since| {
        format!(", compared with run {} of {}", short(&since.id), since.day)
    });
    let trouble = |wanted: Status| {
        let all = story.troubled.iter();
        all.filter(|(_, status, _)| *status == wanted).count()
    };
    let uncounted = match trouble(Status::Unreadable) + trouble(Status::Failed) {
        0 => String::new(),
        many => format!(
            " **Not among them: the tools of {} that are not judged at all.**",
            counted(many, "library")
        ),
    };
    let mut lines = vec![
        format!("# Audit of {}: {verdict}", roots.join(", ")),
        String::new(),
        format!("{}, run {}{since}.", head.day, short(&head.id)),
        String::new(),
        format!(
            "**{}: {failing} not to be used as recorded, {warned} to check, {} not judged, {nothing} without a finding.** Grip judged on {} of {} tools that are held by a shank.{}",
            counted(story.counts.assemblies(), "tool"),
            grip_not_judged + not_judged,
            story.counts.grip_judged,
            story.counts.held_by_shank,
            uncounted,
        ),
        format!(
            "{}: {} that fail, {} read in part, {} unreadable, {} on which the program failed. Files seen: {}; ignored: {}; CSV or XML that is not a library: {}; that cannot be opened: {}.",
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
            "Findings: {}, {}, {}, {open} not judged, {} accepted. There is no earlier run to compare with.",
            counted(errors, "error"),
            counted(warnings, "warning"),
            counted(notes, "note"),
            story.counts.accepted
        ));
    }
    lines
}

/// What the table always counts; all else only where there is any.
const ALWAYS: [&str; 4] = ["today", "new", "worse", "gone"];

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
        ("accepted since", story.accepted.levels),
        ("better", story.better.levels),
        ("gone", story.gone.levels),
        ("not compared", story.not_compared.levels),
    ];
    let shown = rows
        .into_iter()
        .filter(|(name, levels)| ALWAYS.contains(name) || levels.iter().any(|count| *count > 0));
    for (name, levels) in shown {
        let cells: Vec<String> = levels.iter().map(ToString::to_string).collect();
        lines.push(format!("| {name} | {} |", cells.join(" | ")));
    }
    lines
}

fn lists(head: &Head, story: &Story) -> Vec<List> {
    let of = |title: &str, news: &News| List {
        title: format!("{title}: {}", news.count()),
        lines: told(news, 0),
    };
    let troubled = story.troubled.iter();
    let troubled = troubled
        .map(|(key, status, why)| format!("{}: {}; {}", code(key), status.name(), escaped(why)));
    let unread = story.unread.iter().chain(&head.unreadable);
    let unread = unread.map(|one| format!("{}: {}", code(&one.file), escaped(&one.reason)));
    let troubled: Vec<Line> = troubled.chain(unread).map(Line::from).collect();
    let lost = story.gone_libraries.iter();
    let lost = lost.map(|key| {
        format!(
            "{}: gone; its findings are gone with it, not corrected",
            code(key)
        )
    });
    let moved = story.moved.iter();
    let moved = moved.map(|(was, is)| format!("{}: was {} before", code(is), code(was)));
    let came = story.new_libraries.iter();
    let came = came.map(|key| format!("{}: new", code(key)));
    let libraries: Vec<Line> = lost.chain(moved).chain(came).map(Line::from).collect();
    let mut lapsed = of("Accepted no more", &story.lapsed);
    if story.lapsed_before > 0 {
        let before = counted(story.lapsed_before, "finding");
        let line = format!("counting again since an earlier audit: {before}");
        lapsed.lines.push(Line::from(line));
    }
    let (acceptances, over) = without_over(&story.acceptances, &story.lapsed);
    let mut lists = vec![
        List {
            title: format!("Not read, or not wholly: {}", troubled.len()),
            lines: troubled,
        },
        of("New", &story.new),
        of("Worse", &story.worse),
        lapsed,
        List {
            title: format!("About what is accepted: {}", acceptances.count() - over),
            lines: told(&acceptances, over),
        },
        List {
            title: format!("Gone: {}", story.gone.count()),
            lines: gone(&story.gone),
        },
        of("Accepted since", &story.accepted),
        of("Not compared, so still open", &story.not_compared),
        List {
            title: format!("Libraries that came, went or moved: {}", libraries.len()),
            lines: libraries,
        },
        of("Better", &story.better),
    ];
    lists.retain(|list| !list.lines.is_empty());
    lists
}

/// A list's title, and the blank line before it.
const AROUND: usize = 2;

/// How many lines each list has: two at least, then half of what is left to the first that wants
/// more, and so on.
fn shares(lists: &[List], lines: usize) -> Vec<usize> {
    let mut shares: Vec<usize> = lists.iter().map(|list| list.lines.len().min(2)).collect();
    let taken = shares.iter().map(|share| share + AROUND).sum();
    let mut left = lines.saturating_sub(taken);
    while left > 0 {
        let before = left;
        for (list, share) in lists.iter().zip(&mut shares) {
            let more = (list.lines.len() - *share).min(left.div_ceil(2));
            *share += more;
            left -= more;
        }
        if left == before {
            break;
        }
    }
    shares
}

/// Writes a list in so many lines; the last of them counts what is left out.
fn put(list: &List, most: usize, text: &mut String) {
    let shown = match list.lines.len() {
        all if all <= most => all,
        _ => most.saturating_sub(1),
    };
    // Writing to a String cannot fail.
    let _ = writeln!(text, "\n**{}**", list.title);
    for line in list.lines.iter().take(shown) {
        let _ = writeln!(text, "- {}", cut(&line.text, LONGEST));
    }
    let rest = list.lines.get(shown..).unwrap_or_default();
    let findings: usize = rest.iter().map(|line| line.findings).sum();
    let errors: usize = rest.iter().map(|line| line.errors).sum();
    let _ = match (rest.len(), findings) {
        (0, _) => Ok(()),
        (lines, 0) => writeln!(text, "- and {lines} more"),
        (_, findings) => writeln!(
            text,
            "- and {} more ({}), in `findings.csv`",
            counted(findings, "finding"),
            counted(errors, "error")
        ),
    };
}

/// The same without what a finding that counts again says itself, and how many these are.
fn without_over(news: &News, lapsed: &News) -> (News, usize) {
    let is_told = |one: &Noted| {
        let mut all = lapsed.named.iter().map(|told| &told.noted);
        all.any(|own| {
            let about = format!("tool {}, {}: ", own.tool_number, own.rule);
            let why = one.message.rsplit("; ").next().unwrap_or_default();
            own.library == one.library
                && one.message.starts_with(&about)
                && own.accepted_no_more.contains(why)
        })
    };
    let mut shown = news.clone();
    shown.named.retain(|one| !is_told(&one.noted));
    let over = news.named.len() - shown.named.len();
    (shown, over)
}

fn causes(story: &Story, most: usize) -> Vec<String> {
    let mut causes: Vec<(&String, &Cause)> = story.causes.iter().collect();
    causes.sort_by_key(|(_, cause)| (cause.grave, std::cmp::Reverse(cause.findings)));
    if causes.is_empty() {
        return Vec::new();
    }
    let mut lines = vec![
        String::new(),
        "| most frequent, the gravest first | findings | not judged | news | libraries |"
            .to_owned(),
        "|---|---|---|---|---|".to_owned(),
    ];
    for (rule, cause) in causes.iter().take(most) {
        lines.push(format!(
            "| {} ({rule}) | {} | {} | {} | {} |",
            escaped(&cause.title),
            cause.findings,
            cause.not_judged,
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

/// The beginning of a hash, which is enough to tell two apart.
fn short(hash: &str) -> &str {
    hash.get(..12).unwrap_or(hash)
}

/// A name as it is: no sign in it means anything, and no quotation mark of it ends it.
pub(super) fn code(name: &str) -> String {
    let name = visible(name).replace('\n', " ");
    format!("`{}`", name.replace('`', "'"))
}

/// A text in which no sign means anything.
pub(super) fn escaped(text: &str) -> String {
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
