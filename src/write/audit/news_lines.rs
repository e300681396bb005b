//! News of an audit in lines: rule by rule, in each library by library, with the numbers.

use std::fmt::Write as _;

use crate::audit::Noted;
use crate::sheet::Wanted;
use crate::text::counted;
use crate::units::print::{self, DisplayUnits};

use super::markdown::{code, escaped};
use super::story::{ACCEPTANCES, News, Told};

/// A line of a list, and how many findings it names.
#[derive(Default)]
pub(super) struct Line {
    pub text: String,
    pub findings: usize,
    pub errors: usize,
}

impl From<String> for Line {
    /// A line that names no finding.
    fn from(text: String) -> Line {
        Line {
            text,
            ..Line::default()
        }
    }
}

/// Findings that one line names.
const IN_LINE: usize = 8;

/// News, rule by rule, the gravest first, and in each library by library; so many are told
/// elsewhere.
pub(super) fn told(news: &News, elsewhere: usize) -> Vec<Line> {
    let mut groups: Vec<Vec<&Told>> = Vec::new();
    for one in &news.named {
        let same = |group: &&mut Vec<&Told>| {
            let first = group.first().map(|first| &first.noted);
            first.is_some_and(|first| {
                (&first.rule, &first.level) == (&one.noted.rule, &one.noted.level)
            })
        };
        match groups.iter_mut().find(same) {
            Some(group) => group.push(one),
            None => groups.push(vec![one]),
        }
    }
    let lines = groups.iter().flat_map(|group| {
        // What is said of an acceptance has no number that would say it in short.
        let whole = group
            .iter()
            .any(|one| one.noted.rule.starts_with(ACCEPTANCES));
        let parts = group.chunks(if whole { 1 } else { IN_LINE });
        parts.filter_map(move |part| line(part, whole || group.len() == 1))
    });
    let mut lines: Vec<Line> = alike(news).chain(lines).collect();
    lines.extend(rest(news, &lines, elsewhere));
    lines
}

/// Those that share a reason with others of their library.
pub(super) fn alike(news: &News) -> impl Iterator<Item = Line> {
    news.alike.iter().map(|one| Line {
        text: format!(
            "{}: {} ({}): {}",
            code(&one.library),
            counted(one.findings, "finding"),
            counted(one.errors, "error"),
            escaped(&one.reason)
        ),
        findings: one.findings,
        errors: one.errors,
    })
}

/// How many are in none of the lines.
pub(super) fn rest(news: &News, lines: &[Line], elsewhere: usize) -> Option<Line> {
    let named = elsewhere + lines.iter().map(|line| line.findings).sum::<usize>();
    let findings = news.count().checked_sub(named).filter(|more| *more > 0)?;
    Some(Line {
        text: format!("{} more, in `findings.csv`", counted(findings, "finding")),
        findings,
        errors: 0,
    })
}

/// What one rule says of some tools; all that it says if that is of one alone.
fn line(part: &[&Told], is_alone: bool) -> Option<Line> {
    let first = &part.first()?.noted;
    let level = match first.level.as_str() {
        "none" => "not judged",
        level => level,
    };
    let mut line = format!("{level}, {} ({}):", escaped(&first.title), first.rule);
    let mut library = None;
    for (at, told) in part.iter().enumerate() {
        let noted = &told.noted;
        line += if at == 0 { " " } else { "; " };
        if library != Some(&noted.library) {
            line += &code(&noted.library);
            line.push(' ');
            library = Some(&noted.library);
        }
        line += &name(noted);
        let again = &noted.accepted_no_more;
        // A place alone says nothing of what is wrong there.
        let of_none = noted.tool_number.is_empty() && noted.assembly.is_empty();
        let is_whole = (is_alone || of_none) && again.is_empty();
        match numbers(told) {
            Some(numbers) => {
                let _ = write!(line, " {numbers}");
            }
            None if is_whole => {
                let _ = write!(line, ": {}", escaped(&noted.message));
            }
            None => line += &shortfall(noted),
        }
        if !again.is_empty() {
            let _ = write!(line, " ({})", escaped(again));
        }
        line += &acceptance(noted);
    }
    Some(Line {
        text: line,
        findings: part.len(),
        errors: part.iter().filter(|one| one.noted.level == "error").count(),
    })
}

/// Who accepts it, and until when.
fn acceptance(noted: &Noted) -> String {
    match (noted.accepted_by.as_str(), noted.accepted_until.as_str()) {
        ("", _) => String::new(),
        (by, "") => format!(" (by {})", escaped(by)),
        (by, until) => format!(" (by {} until {})", escaped(by), escaped(until)),
    }
}

/// What a finding is about: its tool, the machine and the operation as far as they are stated.
pub(super) fn name(noted: &Noted) -> String {
    let tool = match (noted.tool_number.as_str(), noted.assembly.as_str()) {
        ("", "") if noted.sheet.is_empty() => format!("{}:{}", escaped(&noted.file), noted.line),
        ("", "") => escaped(&noted.spot()),
        ("", id) => escaped(id),
        (number, _) => format!("tool {}", escaped(number)),
    };
    let beside = [&noted.machine, &noted.operation];
    let beside: Vec<String> = beside
        .into_iter()
        .filter(|text| !text.is_empty())
        .map(|text| escaped(text))
        .collect();
    if beside.is_empty() {
        tool
    } else {
        format!("{tool} ({})", beside.join(", "))
    }
}

/// How much there is of how much.
fn shortfall(noted: &Noted) -> String {
    let Some(own) = noted.shortfall() else {
        return String::new();
    };
    let (value, needed) = print::pair(own.value, own.needed, own.unit, units(noted));
    format!(" {value}, wanted: {}{needed}", side(own.wanted))
}

/// From how much to how much, where that has changed.
fn numbers(told: &Told) -> Option<String> {
    let (value, needed) = told.change.before?;
    let now = told.noted.shortfall()?;
    let units = units(&told.noted);
    // The table of findings has nine digits.
    let is_same = |was: f64, is: f64| (was - is).abs() <= 1e-8 * was.abs().max(is.abs());
    if is_same(value, now.value) && is_same(needed, now.needed) {
        return None;
    }
    let (from, to) = print::pair(value, now.value, now.unit, units);
    let shown = |value| print::value(value, now.unit, units);
    let was = match (shown(needed), shown(now.needed)) {
        (was, is) if was == is => String::new(),
        (was, _) => format!(" (before: {was})"),
    };
    Some(format!(
        "{from} -> {to}, wanted: {}{}{was}",
        side(now.wanted),
        shown(now.needed)
    ))
}

fn units(noted: &Noted) -> DisplayUnits {
    match noted.units.as_str() {
        "in" => DisplayUnits::new("in", "lbf·ft"),
        _ => DisplayUnits::new("mm", "N·m"),
    }
}

const fn side(wanted: Wanted) -> &'static str {
    match wanted {
        Wanted::AtLeast => "at least ",
        Wanted::AtMost => "at most ",
        Wanted::Equal | Wanted::Other => "",
    }
}
