//! What stands below the blocks: notes, gaps, what is accepted, what is weakened.

use crate::judge::{Finding, Report};
use crate::rulebook::Level;
use crate::text::visible;

use super::blocks::{self, State};
use super::wrap::{list, tools, wrapped};

/// Notes, one line for all that say the same.
pub(super) fn notes(findings: &[Finding]) -> String {
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
        let words = format!(
            "note {}: {subject}{}",
            line.first.rule,
            visible(&line.first.message)
        );
        text.push_str(&wrapped(&words, 0, 2));
        let places = line.places.iter().map(|(file, lines)| {
            let lines: Vec<String> = lines.iter().map(usize::to_string).collect();
            format!("{}:{}", visible(file), lines.join(", "))
        });
        let places: Vec<String> = places.collect();
        text.push_str(&wrapped(&format!("at: {}", places.join("; ")), 2, 6));
        text.push_str(&wrapped(
            &format!("do: {}", visible(&line.first.advice)),
            2,
            6,
        ));
        for assumption in &line.first.assumptions {
            let words = format!("assumed: {}", visible(assumption));
            text.push_str(&wrapped(&words, 2, 11));
        }
    }
    if !text.is_empty() {
        text.push('\n');
    }
    text
}

/// What could not be judged, by the value that is missing.
pub(super) fn not_judged(findings: &[Finding]) -> String {
    let gaps = blocks::gaps(findings);
    let worded: Vec<&Finding> = findings
        .iter()
        .filter(|finding| finding.own_words && finding.accepted.is_none())
        .collect();
    if gaps.is_empty() && worded.is_empty() {
        return String::new();
    }
    let mut text = "Not judged, for want of a value. Nothing here has passed:\n".to_owned();
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
            visible(&place.record),
            missing.join("; "),
        );
        text.push_str(&wrapped(&words, 2, 6));
    }
    for finding in worded {
        let tool = finding
            .tool_number
            .as_deref()
            .map_or_else(String::new, |number| format!("tool {}: ", visible(number)));
        let words = format!("{tool}{} ({})", visible(&finding.message), finding.rule);
        text.push_str(&wrapped(&words, 2, 6));
    }
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

/// What the library's own shop file weakens.
pub(super) fn weakened(report: &Report) -> String {
    if report.library.weakened.is_empty() {
        return String::new();
    }
    let mut text = "Weakened by the library's own shankwise.toml:\n".to_owned();
    for change in &report.library.weakened {
        text.push_str(&wrapped(&visible(change), 2, 6));
    }
    text.push('\n');
    text
}
