//! What stands below the blocks: notes, gaps, what is accepted, what is weakened.

use crate::judge::{Finding, Outcome, Report, fault_kind};
use crate::rulebook::Level;
use crate::text::visible;

use super::blocks::{self, Line, State};
use super::limits::Printed;
use super::wrap::{list, name, tools, wrapped};

/// Notes, one line for all that say the same.
pub(super) fn notes<'r>(findings: &'r [Finding], printed: &mut Printed<'r>) -> String {
    let wanted =
        |finding: &Finding| finding.accepted.is_none() && finding.level == Some(Level::Note);
    let mut text = String::new();
    for line in blocks::lines(findings, wanted) {
        let tools = tools(&line.tools);
        let subject = if tools.is_empty() {
            String::new()
        } else {
            format!("{tools}: ")
        };
        let rules: Vec<&str> = line
            .findings()
            .map(|finding| finding.rule.as_str())
            .collect();
        let messages = line.findings().map(|finding| visible(&finding.message));
        let messages: Vec<_> = messages.collect();
        let words = format!(
            "note {}: {subject}{}",
            rules.join(", "),
            messages.join("; and ")
        );
        text.push_str(&wrapped(&words, 0, 2));
        text.push_str(&wrapped(&format!("at: {}", places(&line)), 2, 6));
        let advice = visible(&line.first.advice);
        text.push_str(&wrapped(&format!("do: {advice}"), 2, 6));
        let limits = printed.line(line.findings());
        if !limits.is_empty() {
            let limits = visible(&limits);
            text.push_str(&wrapped(&format!("limits: {limits}"), 2, 10));
        }
        for assumption in &line.first.assumptions {
            let assumption = visible(assumption);
            text.push_str(&wrapped(&format!("assumed: {assumption}"), 2, 11));
        }
    }
    if !text.is_empty() {
        text.push('\n');
    }
    text
}

/// Where the findings of a line stand, file by file.
fn places(line: &Line<'_>) -> String {
    let places = line.places.iter().map(|(file, lines)| {
        let lines: Vec<String> = lines.iter().map(usize::to_string).collect();
        format!("{}:{}", visible(file), lines.join(", "))
    });
    let places: Vec<String> = places.collect();
    places.join("; ")
}

/// What no field that could be filled in would decide, in the rule's own words.
fn never_judged(findings: &[Finding]) -> String {
    let wanted = |finding: &Finding| {
        finding.accepted.is_none()
            && finding.outcome == Outcome::NotJudged
            && finding.missing.is_empty()
    };
    let lines = blocks::lines(findings, wanted).into_iter().map(|line| {
        let message = visible(&line.first.message);
        let words = format!("{} {}: {message}", places(&line), tools(&line.tools));
        wrapped(&words, 2, 6)
    });
    lines.collect()
}

/// What could not be judged, by the value that is missing.
pub(super) fn not_judged(findings: &[Finding]) -> String {
    let gaps = blocks::gaps(findings);
    let never = never_judged(findings);
    if gaps.is_empty() && never.is_empty() {
        return String::new();
    }
    let mut text = "Not judged, because a value is missing. Nothing here has passed:\n".to_owned();
    for gap in gaps {
        let place = gap.place;
        let states = [
            (State::NotStated, "not stated"),
            (State::Unreadable, "cannot be read"),
            (State::Assumed, "only assumed"),
        ];
        let missing: Vec<String> = states
            .into_iter()
            .map(|(state, words)| (gap.fields_that_are(state), words))
            .filter(|(fields, _)| !fields.is_empty())
            .map(|(fields, words)| format!("{} {words}", list(&fields)))
            .collect();
        let own = format!("tool {}", gap.tools.first().copied().unwrap_or_default());
        let waiting = match gap.tools.as_slice() {
            [_] if place.record == own => String::new(),
            many => format!("; in {}", tools(many)),
        };
        let rules = match gap.rules.as_slice() {
            [] => String::new(),
            rules => format!("; needed for {}", list(rules)),
        };
        let words = format!(
            "{}:{} {}: {}{waiting}{rules}",
            visible(&place.file),
            place.line,
            name(&place.record),
            missing.join("; "),
        );
        text.push_str(&wrapped(&words, 2, 6));
    }
    text.push_str(&never);
    text.push('\n');
    text
}

/// What the shop accepts is not hidden: somebody has to look at it again.
pub(super) fn accepted(findings: &[Finding]) -> String {
    let mut text = String::new();
    for finding in findings {
        let Some(accepted) = &finding.accepted else {
            continue;
        };
        let until = accepted.until.as_deref();
        let until = until.map_or_else(String::new, |day| format!(", until {day}"));
        let words = format!(
            "{} {}: {} ({}{until})",
            tools(
                &finding
                    .tool_number
                    .as_deref()
                    .into_iter()
                    .collect::<Vec<_>>()
            ),
            finding.rule,
            visible(&accepted.reason),
            visible(&accepted.by),
        );
        text.push_str(&wrapped(&words, 2, 6));
    }
    if text.is_empty() {
        return text;
    }
    format!("Accepted by the shop:\n{text}\n")
}

/// Most unknown columns that are listed one by one.
const MOST_COLUMNS: usize = 30;

/// Columns and elements that are not read, in one line, where their notes are not shown: what
/// stands in them may be a demand under another name.
pub(super) fn unknown_columns(findings: &[Finding], shown: impl Fn(&Finding) -> bool) -> String {
    let kinds = [fault_kind::UNKNOWN_COLUMN, fault_kind::UNKNOWN_ELEMENT];
    let hidden = findings.iter().filter(|finding| {
        kinds.contains(&finding.rule.as_str()) && finding.accepted.is_none() && !shown(finding)
    });
    let places: Vec<_> = hidden
        .filter_map(|finding| finding.places.first())
        .collect();
    let mut files: Vec<(&str, Vec<&str>)> = Vec::new();
    for place in places.iter().take(MOST_COLUMNS) {
        let column = match place.field.as_str() {
            "" => "(no name)",
            field => field,
        };
        match files.iter_mut().find(|(file, _)| *file == place.file) {
            Some((_, columns)) => columns.push(column),
            None => files.push((&place.file, vec![column])),
        }
    }
    if files.is_empty() {
        return String::new();
    }
    let mut all: Vec<String> = files
        .iter()
        .map(|(file, columns)| format!("{} of {}", list(columns), visible(file)))
        .collect();
    let more = places.len().saturating_sub(MOST_COLUMNS);
    if more > 0 {
        all.push(format!("{more} more"));
    }
    let words = format!("Columns not read: {}", all.join("; "));
    wrapped(&words, 0, 2) + "\n"
}

/// Inputs that were not read, and files that were passed over.
#[must_use]
pub fn not_read(report: &Report) -> String {
    let library = &report.library;
    let mut text = String::new();
    let kinds = [
        ("Not read, so nothing in it was judged:", &library.unread),
        ("Ignored:", &library.passed_over),
    ];
    for (title, inputs) in kinds {
        if inputs.is_empty() {
            continue;
        }
        text.push_str(title);
        text.push('\n');
        for input in inputs {
            let words = format!("{} {}", visible(&input.file), visible(&input.reason));
            text.push_str(&wrapped(&words, 2, 6));
        }
        text.push('\n');
    }
    text
}

/// What the library's own shop file weakens.
pub(super) fn weakened(report: &Report) -> String {
    if report.library.weakened.is_empty() {
        return String::new();
    }
    let mut text = "Relaxed by the library's own shankwise.toml:\n".to_owned();
    for change in &report.library.weakened {
        text.push_str(&wrapped(&visible(change), 2, 6));
    }
    text.push('\n');
    text
}

/// The shop's own values that stand in for what no record states.
pub(super) fn defaults(defaults: &[String]) -> String {
    if defaults.is_empty() {
        return String::new();
    }
    let mut text = "The shop's defaults, used where no record states a value:\n".to_owned();
    for default in defaults {
        text.push_str(&wrapped(&visible(default), 2, 6));
    }
    text.push('\n');
    text
}
