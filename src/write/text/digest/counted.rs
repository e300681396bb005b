//! What is only counted: notes, what is not judged, what the shop accepts.

use std::collections::BTreeMap;

use crate::sheet::{Acceptance, Finding, Lapsed, Level, Outcome};
use crate::text::visible;

use super::super::super::wrap::{name, tools, wrapped_to};

/// Most rules or values that a line names.
const MOST: usize = 3;
/// Most accepted findings that are shown.
const ACCEPTED: usize = 20;

/// Counts by rule, or by the value that is missing.
#[derive(Default)]
pub(super) struct Counted {
    notes: BTreeMap<String, usize>,
    missing: BTreeMap<&'static str, usize>,
    /// Not judged though nothing is missing.
    never: BTreeMap<String, usize>,
    not_judged: usize,
    accepted: Vec<String>,
    more_accepted: usize,
    /// What was accepted once: a block may have it among others, or another rule in its place.
    lapsed: Vec<String>,
    more_lapsed: usize,
}

impl Counted {
    pub(super) fn take(&mut self, finding: &Finding) {
        if let Some(lapsed) = &finding.lapsed {
            if self.lapsed.len() < ACCEPTED {
                self.lapsed.push(lapsed_line(finding, lapsed));
            } else {
                self.more_lapsed += 1;
            }
        }
        if let Some(accepted) = &finding.accepted {
            if self.accepted.len() < ACCEPTED {
                self.accepted.push(accepted_line(finding, accepted));
            } else {
                self.more_accepted += 1;
            }
        } else if finding.outcome == Outcome::NotJudged {
            self.not_judged += 1;
            for field in &finding.missing {
                *self.missing.entry(field).or_default() += 1;
            }
            if finding.missing.is_empty() {
                *self.never.entry(finding.rule.clone()).or_default() += 1;
            }
        } else if finding.level == Some(Level::Note) {
            *self.notes.entry(finding.rule.clone()).or_default() += 1;
        }
    }

    pub(super) fn text(&self, width: usize) -> String {
        let mut text = String::new();
        let mut say = |words: &str| text.push_str(&wrapped_to(width, words, 0, 2));
        if self.not_judged > 0 {
            let missing = self.missing.iter().map(|(field, count)| (*field, *count));
            let never = self
                .never
                .iter()
                .map(|(rule, count)| (rule.as_str(), *count));
            let all = named(missing.chain(never));
            say(&format!(
                "{} not judged, because a value is missing: {all} (--show not-judged)",
                self.not_judged
            ));
        }
        let notes: usize = self.notes.values().sum();
        if notes > 0 {
            let all = self
                .notes
                .iter()
                .map(|(rule, count)| (rule.as_str(), *count));
            let all = named(all);
            let s = if notes == 1 { "" } else { "s" };
            say(&format!("{notes} note{s}: {all} (--show note)"));
        }
        for lapsed in &self.lapsed {
            text.push_str(&wrapped_to(width, lapsed, 0, 2));
        }
        if self.more_lapsed > 0 {
            text.extend([
                "no longer accepted: ",
                &self.more_lapsed.to_string(),
                " more\n",
            ]);
        }
        for accepted in &self.accepted {
            text.push_str(&wrapped_to(width, accepted, 0, 2));
        }
        if self.more_accepted > 0 {
            text.extend(["accepted: ", &self.more_accepted.to_string(), " more\n"]);
        }
        text
    }
}

/// `accepted: tool 34 reach/too-short-for-the-job at 21.0 mm of 24.0 mm, until 2027-01-31 (the
/// setter of cell 3)`.
fn accepted_line(finding: &Finding, accepted: &Acceptance) -> String {
    let until = accepted.until.as_deref();
    let until = until.map_or_else(String::new, |day| format!(", until {day}"));
    let tool = finding.tool_number.as_deref().into_iter();
    let tool = tools(&tool.collect::<Vec<_>>());
    let at = accepted.at.as_deref();
    let at = at.map_or_else(String::new, |at| format!(" at {}", visible(at)));
    let by = name(&accepted.by);
    format!("accepted: {tool} {}{at}{until} ({by})", finding.rule)
}

/// `no longer accepted: tool 34 grip/short-grip, it is 19.0 mm now (the setter of cell 3, until
/// 2027-01-31)`.
fn lapsed_line(finding: &Finding, lapsed: &Lapsed) -> String {
    let until = lapsed.until.as_deref();
    let until = until.map_or_else(String::new, |day| format!(", until {day}"));
    let tool = finding.tool_number.as_deref().into_iter();
    let tool = tools(&tool.collect::<Vec<_>>());
    let why = lapsed.why.join("; ");
    let by = name(&lapsed.by);
    format!(
        "no longer accepted: {tool} {}, {} ({by}{until})",
        finding.rule,
        visible(&why)
    )
}

/// The most frequent first, each with its count.
fn named<'n>(all: impl Iterator<Item = (&'n str, usize)>) -> String {
    let mut all: Vec<(&str, usize)> = all.collect();
    all.sort_by(|a, b| b.1.cmp(&a.1).then(a.0.cmp(b.0)));
    let more = all.len().saturating_sub(MOST);
    let shown = all.iter().take(MOST);
    let mut words: Vec<String> = shown
        .map(|(name, count)| format!("{name} {count}"))
        .collect();
    if more > 0 {
        words.push(format!("{more} more"));
    }
    words.join(", ")
}
