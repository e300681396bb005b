//! All rules on one assembly, changed or not: what a remedy is rechecked by, what each rule waits
//! for, and which rule forbids any advice.

use crate::facts::{Fact, Scene};
use crate::library::{Assembly, FieldSet, Library, Overrides};
use crate::rulebook::Rule;

use super::finding::FactShown;
use super::judgement::{Judge, SceneValues};
use super::outcome::{Outcome, Ruling};
use super::shown;

/// What a rule waits for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Waits {
    /// Which of the assembly's operations, if the rule is on one.
    pub operation: Option<usize>,
    /// What it lacks as far as it can be asked: where nobody knows whether it applies, what
    /// tells that. What it would then ask for may never be needed.
    pub first: FieldSet,
    /// All that its conditions lack.
    pub all: FieldSet,
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
        self.each(library, assembly, overrides, |rule, operation, scene| {
            self.ruling(rule, operation, scene)
        })
    }

    /// Those of some rules that an assembly does not meet, by their numbers; each once.
    #[must_use]
    pub fn failing(
        &self,
        library: &Library,
        assembly: &Assembly,
        overrides: &Overrides<'_>,
        is_asked: impl Fn(usize, &Rule) -> bool,
    ) -> Vec<usize> {
        let mut found = self.each(library, assembly, overrides, |index, _, scene| {
            let rule = self.book.rules.get(index)?;
            let fails =
                is_asked(index, rule) && self.judge(index, rule, scene).outcome == Outcome::NotMet;
            fails.then_some(index)
        });
        found.dedup();
        found
    }

    /// What each rule that is not judged waits for, and on which of the operations: all that
    /// its conditions lack, so that one more value does not only show the next gap.
    #[must_use]
    pub fn waiting(&self, library: &Library, assembly: &Assembly) -> Vec<Waits> {
        let as_it_is = Overrides::default();
        self.each(library, assembly, &as_it_is, |index, operation, scene| {
            let rule = self.book.rules.get(index)?;
            let judged = self.judge(index, rule, scene);
            if judged.outcome != Outcome::NotJudged {
                return None;
            }
            let trace = judged.trace;
            let values = SceneValues(scene);
            let expect = rule.expect.as_ref()?;
            let found = expect.evaluate(&self.environment(index, &values));
            let all = match found.value {
                None => trace.missing.union(found.trace.missing),
                Some(_) => trace.missing,
            };
            Some(Waits {
                operation,
                first: trace.missing,
                all,
            })
        })
    }

    /// The rule by which an assembly's record is wrong, so that no advice can be built on it.
    #[must_use]
    pub fn stopper(
        &self,
        library: &Library,
        assembly: &Assembly,
        overrides: &Overrides<'_>,
    ) -> Option<&Rule> {
        let rules = self.book.rules.iter().enumerate();
        let mut stop = rules
            .filter(|(_, rule)| rule.stands_for.stop && !rule.off)
            .peekable();
        stop.peek()?;
        self.look(library, assembly, overrides, |base, operations| {
            let fails = |at, rule: &Rule, scene: &Scene<'_>| {
                self.judge(at, rule, scene).outcome == Outcome::NotMet
            };
            let found = stop.find(|(at, rule)| {
                if rule.of_operation {
                    operations.iter().any(|scene| fails(*at, rule, scene))
                } else {
                    fails(*at, rule, base)
                }
            });
            found.map(|(_, rule)| rule)
        })
    }

    /// Asks every rule that is switched on about the assembly, or about each of its operations.
    fn each<R>(
        &self,
        library: &Library,
        assembly: &Assembly,
        overrides: &Overrides<'_>,
        ask: impl Fn(usize, Option<usize>, &Scene<'_>) -> Option<R>,
    ) -> Vec<R> {
        self.look(library, assembly, overrides, |base, operations| {
            let rules = self.book.rules.iter().enumerate();
            let asked = rules.filter(|(_, rule)| !rule.off && !rule.is_fault());
            let mut found = Vec::new();
            for (rule, of_operation) in asked.map(|(at, rule)| (at, rule.of_operation)) {
                if !of_operation {
                    found.extend(ask(rule, None, base));
                    continue;
                }
                let operations = operations.iter().enumerate();
                found.extend(operations.filter_map(|(at, scene)| ask(rule, Some(at), scene)));
            }
            found
        })
    }

    fn ruling(&self, index: usize, operation: Option<usize>, scene: &Scene<'_>) -> Option<Ruling> {
        let rule = self.book.rules.get(index)?;
        let judged = self.judge(index, rule, scene);
        let silent = || {
            // Most rules that do not apply lack nothing, which marks tell.
            self.measure(index, rule, scene.quick()).waits?;
            self.measure(index, rule, scene).waits
        };
        let lacks = match judged.outcome {
            Outcome::NotJudged => judged.trace.missing,
            Outcome::NotApplicable => silent().map_or(FieldSet::NONE, |trace| trace.missing),
            Outcome::Met | Outcome::NotMet => FieldSet::NONE,
        };
        Some(Ruling {
            rule: index,
            operation,
            outcome: judged.outcome,
            level: judged.failing.map(|failing| failing.level),
            full_level: judged.failing.map(|failing| failing.full_level),
            lacks,
        })
    }

    /// A fact of a scene as it is shown.
    #[must_use]
    pub fn shown(&self, fact: Fact, scene: &Scene<'_>) -> FactShown {
        shown::fact_shown(fact.info(), scene, self.assumed_settings)
    }
}
