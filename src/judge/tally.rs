//! What came of one assembly by the rules alone: findings, and what is counted.

use crate::facts::Scene;
use crate::library::{Field, FieldSet, RANGED};
use crate::rulebook::Rule;

use super::coverage::{Answered, Covered};
use super::finding::Finding;
use super::outcome::Outcome;
use super::report::AssemblyFacts;
use super::setup::Setup;

/// What is counted of rules that say nothing.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Counted {
    pub met: usize,
    pub not_applicable: usize,
    pub judgements: usize,
    pub grip: Answered,
    pub reach: Answered,
}

/// What came of one assembly by the rules alone.
#[derive(Default)]
pub(super) struct Tally {
    pub findings: Vec<Finding>,
    pub counted: Counted,
    pub in_collet: bool,
    pub covered: Covered,
    /// The ranges that it was judged over, mm.
    pub ranges: Vec<(Field, (f64, f64))>,
    pub facts: Option<AssemblyFacts>,
}

impl Counted {
    /// Counts what came of a rule that was asked.
    pub(super) fn count(&mut self, rule: &Rule, outcome: Outcome) {
        self.judgements += 1;
        self.answers(rule, outcome, true);
        match outcome {
            Outcome::NotApplicable => self.not_applicable += 1,
            Outcome::Met => self.met += 1,
            Outcome::NotMet | Outcome::NotJudged => {}
        }
    }

    /// What a rule answers of grip and reach, if it stands for them.
    pub(super) fn answers(&mut self, rule: &Rule, judged: Outcome, asked: bool) {
        if rule.stands_for.grip {
            self.grip.take(judged, asked);
        }
        if rule.stands_for.reach {
            self.reach.take(judged, asked);
        }
    }

    /// Adds what others came to.
    pub(super) fn add(&mut self, others: Counted) {
        self.met += others.met;
        self.not_applicable += others.not_applicable;
        self.judgements += others.judgements;
        self.grip.add(others.grip);
        self.reach.add(others.reach);
    }
}

impl Tally {
    /// Takes down the ranges that a judgement rests on.
    pub(super) fn rests_on(&mut self, ranged: FieldSet, scene: &Scene<'_>) {
        if ranged.is_empty() {
            return;
        }
        for field in RANGED.into_iter().filter(|field| ranged.contains(*field)) {
            let range = scene.view.range(field).map(|range| (field, range));
            if let Some(range) = range.filter(|range| !self.ranges.contains(range)) {
                self.ranges.push(range);
            }
        }
    }

    /// Where a length of the record is wrong, that is one finding: what else rests on the lengths
    /// says nothing of the tool. An accepted one proves no length wrong.
    pub(super) fn without_false_lengths(&mut self, setup: &Setup) {
        let stops = |finding: &Finding| {
            let rule = setup.book.rule(&finding.rule);
            finding.outcome == Outcome::NotMet && rule.is_some_and(|rule| rule.stands_for.stop)
        };
        let mut own = self.findings.iter().filter(|finding| stops(finding));
        if !own.any(|finding| finding.accepted.is_none()) {
            return;
        }
        let before = self.findings.len();
        self.findings
            .retain(|finding| stops(finding) || !finding.on_length);
        self.counted.not_applicable += before - self.findings.len();
    }
}
