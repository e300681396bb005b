//! The limits of a rule with their basis, once a rule.

use std::collections::BTreeSet;

use crate::sheet::{Finding, LimitShown};
use crate::units::Unit;

/// The rules whose limits were printed already.
#[derive(Default)]
pub(super) struct Printed(BTreeSet<String>);

impl Printed {
    /// The limits of the findings of rules that were not printed yet, in one line; those that are
    /// listed as assumed stand there with their basis already.
    pub(super) fn line<'r>(&mut self, findings: impl Iterator<Item = &'r Finding>) -> String {
        let mut words: Vec<String> = Vec::new();
        for finding in findings.filter(|finding| self.0.insert(finding.rule.clone())) {
            let listed = |limit: &&LimitShown| {
                let start = format!("{} ", limit.name);
                let mut assumed = finding.assumptions.iter();
                !assumed.any(|words| words.starts_with(&start))
            };
            for words_of in finding.limits.iter().filter(listed).map(limit_words) {
                if !words.contains(&words_of) {
                    words.push(words_of);
                }
            }
        }
        words.join("; ")
    }
}

/// `min_grip_fraction 2/3: common practice, no source`.
fn limit_words(limit: &LimitShown) -> String {
    let unit = match limit.unit {
        Unit::One => String::new(),
        unit if limit.written.ends_with(unit.symbol()) => String::new(),
        unit => format!(" {}", unit.shown()),
    };
    let source = match (limit.source.as_str(), limit.basis) {
        ("", "common practice" | "textbook" | "standard") => ", no source".to_owned(),
        ("", _) => String::new(),
        (source, _) => format!(", {source}"),
    };
    format!(
        "{} {}{unit}: {}{source}",
        limit.name, limit.written, limit.basis
    )
}
