//! What of an earlier audit is not among today's findings, and why.

use std::collections::HashMap;
use std::rc::Rc;

/// Findings of an earlier audit that are not among today's. That may be all of them, so each is
/// kept as two numbers.
#[derive(Default)]
pub(super) struct Left {
    /// The number of each finding, with that of the reason.
    findings: Vec<(u32, u32)>,
    /// Why, and whether that means that it is gone; each once.
    reasons: Vec<(Rc<str>, bool)>,
    numbers: HashMap<(Rc<str>, bool), u32>,
}

impl Left {
    /// Adds a finding.
    pub(super) fn add(&mut self, finding: u32, reason: &str, is_gone: bool) {
        // What comes next mostly shares its reason with the last one.
        let last = self.findings.last().map(|(_, reason)| *reason);
        let is_same = |number: &u32| {
            let known = self.reasons.get(*number as usize);
            known.is_some_and(|(known, gone)| **known == *reason && *gone == is_gone)
        };
        let number = last.filter(is_same);
        let number = number.unwrap_or_else(|| self.number(reason, is_gone));
        self.findings.push((finding, number));
    }

    fn number(&mut self, reason: &str, is_gone: bool) -> u32 {
        let reason = (Rc::from(reason), is_gone);
        if let Some(known) = self.numbers.get(&reason) {
            return *known;
        }
        let next = u32::try_from(self.reasons.len()).unwrap_or(u32::MAX);
        self.reasons.push(reason.clone());
        self.numbers.insert(reason, next);
        next
    }

    /// The number of each finding, why it is here, and whether it is gone; in their order.
    pub(super) fn in_order(mut self) -> impl Iterator<Item = (u32, Rc<str>, bool)> {
        self.findings.sort_unstable();
        self.findings.into_iter().filter_map(move |(finding, at)| {
            let (reason, is_gone) = self.reasons.get(at as usize)?;
            Some((finding, Rc::clone(reason), *is_gone))
        })
    }
}
