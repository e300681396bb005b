//! All rules on one assembly, changed or not: what a remedy is verified by.

use crate::facts::{Fact, Scene};
use crate::library::{Assembly, Library, Overrides, Trace};
use crate::rulebook::Level;

use super::finding::FactShown;
use super::judgement::{Judge, Judged, Worth};
use super::measure::State;
use super::shown;

/// What one rule says of one subject.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Said {
    /// It does not apply, whatever may still be stated.
    NotApplicable,
    /// It does not apply because something is not stated, and what.
    Silent(Trace),
    /// It holds.
    Holds,
    /// It fails, with the level that it has before assumptions lower it.
    Fails(Level),
    /// It cannot be judged.
    CannotBeJudged(Trace),
}

/// One rule on an assembly or on one of its operations.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ruling {
    /// Number of the rule in the rulebook.
    pub rule: usize,
    /// Which of the assembly's operations, if the rule is on one.
    pub operation: Option<usize>,
    /// What it says.
    pub said: Said,
}

impl Judge<'_> {
    /// Judges an assembly by all rules that are switched on, in their order.
    #[must_use]
    pub fn verdicts(
        &self,
        library: &Library,
        assembly: &Assembly,
        overrides: &Overrides<'_>,
    ) -> Vec<Ruling> {
        self.look(library, assembly, overrides, |base, operations| {
            let rules = self.book.rules.iter().enumerate();
            let asked = rules.filter(|(_, rule)| !rule.off && !rule.is_fault());
            let mut rulings = Vec::new();
            for (rule, of_operation) in asked.map(|(at, rule)| (at, rule.of_operation)) {
                if !of_operation {
                    rulings.push(self.ruling(rule, None, base));
                    continue;
                }
                for (at, scene) in operations.iter().enumerate() {
                    rulings.push(self.ruling(rule, Some(at), scene));
                }
            }
            rulings
        })
    }

    fn ruling(&self, rule: usize, operation: Option<usize>, scene: &Scene<'_>) -> Ruling {
        Ruling {
            rule,
            operation,
            said: self.said(rule, scene),
        }
    }

    fn said(&self, index: usize, scene: &Scene<'_>) -> Said {
        let Some(rule) = self.book.rules.get(index) else {
            return Said::NotApplicable;
        };
        match self.judge(index, rule, scene) {
            Judged::Holds => Said::Holds,
            Judged::NotApplicable => match self.measure(index, rule, scene).state {
                State::Waits(trace) => Said::Silent(trace),
                _ => Said::NotApplicable,
            },
            Judged::Worth(worth) => match *worth {
                Worth::Fails { full_level, .. } => Said::Fails(full_level),
                Worth::CannotBeJudged(trace) => Said::CannotBeJudged(trace),
            },
        }
    }

    /// A fact of a scene as it is shown.
    #[must_use]
    pub fn shown(&self, fact: Fact, scene: &Scene<'_>) -> FactShown {
        shown::fact_shown(fact.info(), scene, self.assumed_settings)
    }
}
