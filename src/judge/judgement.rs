//! The judge: asks one rule about one assembly or operation, first by marks, then in full.

use crate::facts::{NameId, Scene};
use crate::library::{
    Corner, FieldSet, PROPERTIES, Provenance, SettingSet, Settings, Trace, Unstated,
};
use crate::rulebook::{
    Environment, Found, Level, Limit, Rule, Rulebook, Tolerance, TraceLike, Values,
};
use crate::units::Scalar;

use super::certain::without;
use super::names::meant;
use super::outcome::{Failing, Judgement, Outcome};
use super::setup::{assumed_settings, ranges_of, settings_of};

/// The values of one scene, for the rulebook.
pub(super) struct SceneValues<'a, 's, P = Trace>(pub &'s Scene<'a, P>);

impl<'v, 'a: 'v, P: Provenance> Values<'v> for SceneValues<'a, '_, P> {
    type Trace = P;

    fn value(&self, id: u32) -> Found<'v, P> {
        let found = match meant(id) {
            Some(NameId::Fact(fact)) => self.0.fact(fact),
            Some(NameId::Field(field)) => self.0.datum(field),
            None => crate::library::Reckoned::unknown(P::default()),
        };
        Found {
            value: found.value,
            trace: found.trace,
        }
    }
}

/// How a rule comes out on one scene, and what that rests on.
#[derive(Clone, Copy)]
pub(super) struct Asked<P> {
    pub outcome: Outcome,
    /// What its condition of use rests on.
    when: P,
    /// What its demand rests on.
    expect: P,
}

impl<P: Provenance> Asked<P> {
    pub(super) fn trace(&self) -> P {
        Provenance::union(self.when, self.expect)
    }
}

/// Judges rules of one rulebook.
pub struct Judge<'b> {
    /// The rulebook.
    pub book: &'b Rulebook,
    /// What facts need and no record states.
    pub settings: Settings,
    pub(super) tolerance: Tolerance,
    /// What is taken for granted of what nobody states.
    pub(super) unstated: Unstated,
    pub(super) shared: Vec<f64>,
    /// The limits of each rule, in the order of the rules.
    pub(super) private: Vec<Vec<f64>>,
    pub(super) strict: bool,
    /// Settings from memory: assumed until the shop states them.
    pub(super) assumed_settings: SettingSet,
}

fn numbers(limits: &[Limit]) -> Vec<f64> {
    limits.iter().map(|limit| limit.value).collect()
}

fn truth<T>(found: &Found<'_, T>) -> Option<bool> {
    match found.value {
        Some(Scalar::Truth(truth)) => Some(truth),
        _ => None,
    }
}

impl<'b> Judge<'b> {
    /// A judge by a rulebook; a strict one does not lower what rests on assumptions.
    #[must_use]
    pub fn new(book: &'b Rulebook, strict: bool) -> Judge<'b> {
        Judge {
            book,
            settings: settings_of(book),
            tolerance: book.tolerance(),
            unstated: Unstated {
                ranges: ranges_of(book),
                corner: Corner::Open,
            },
            shared: numbers(&book.limits),
            private: book
                .rules
                .iter()
                .map(|rule| numbers(&rule.limits))
                .collect(),
            strict,
            assumed_settings: assumed_settings(book),
        }
    }
}

impl<'b> Judge<'b> {
    /// The same judge with every range that stands for what nobody states at one of its ends.
    #[must_use]
    pub fn at(&self, corner: Corner) -> Judge<'b> {
        let judge = Judge::new(self.book, self.strict);
        let unstated = Unstated {
            corner,
            ..self.unstated
        };
        Judge { unstated, ..judge }
    }
}

impl Judge<'_> {
    pub(super) fn environment<'e, V>(&'e self, rule: usize, values: &'e V) -> Environment<'e, V> {
        Environment {
            values,
            private: self.private.get(rule).map_or(&[], Vec::as_slice),
            shared: &self.shared,
            tolerance: self.tolerance,
            doubting: false,
        }
    }

    /// Asks rule number `index` about a scene as it is.
    pub(super) fn ask<P: Provenance>(
        &self,
        index: usize,
        rule: &Rule,
        scene: &Scene<'_, P>,
    ) -> Asked<P> {
        let values = SceneValues(scene);
        let environment = self.environment(index, &values);
        let asked = |outcome, when, expect| Asked {
            outcome,
            when,
            expect,
        };
        let mut when = P::default();
        if let Some(condition) = &rule.when {
            let found = condition.evaluate(&environment);
            when = found.trace;
            match truth(&found) {
                None => return asked(Outcome::NotJudged, when, P::default()),
                Some(false) => return asked(Outcome::NotApplicable, when, P::default()),
                Some(true) => {}
            }
        }
        let Some(expect) = &rule.expect else {
            return asked(Outcome::NotApplicable, when, P::default());
        };
        let found = expect.evaluate(&environment);
        let outcome = match truth(&found) {
            None => Outcome::NotJudged,
            Some(true) => Outcome::Met,
            Some(false) => Outcome::NotMet,
        };
        asked(outcome, when, found.trace)
    }

    /// The same, where what is met with a starred guess has to be met without it. What it rests
    /// on is told with the guess.
    pub(super) fn ask_surely<P: Provenance>(
        &self,
        index: usize,
        rule: &Rule,
        scene: &Scene<'_, P>,
    ) -> Asked<P> {
        let asked = self.ask(index, rule, scene);
        if asked.outcome != Outcome::Met || !asked.trace().rests_on_assumed_star() {
            return asked;
        }
        let outcome = match self.ask(index, rule, scene.distrusting()).outcome {
            sure @ (Outcome::Met | Outcome::NotApplicable) => sure,
            Outcome::NotMet | Outcome::NotJudged => Outcome::NotJudged,
        };
        Asked { outcome, ..asked }
    }

    /// Judges rule number `index` on a scene as it is; what that rests on, too.
    pub(super) fn settled(
        &self,
        index: usize,
        rule: &Rule,
        scene: &Scene<'_>,
    ) -> (Judgement, Trace) {
        let asked = self.ask(index, rule, scene);
        let trace = asked.trace();
        let judgement = match asked.outcome {
            Outcome::NotJudged => Judgement::waiting(trace),
            Outcome::NotMet => self.not_met(index, rule, scene, &asked),
            Outcome::Met if trace.rests_on_assumed_star() => {
                self.distrusting(index, rule, scene, trace)
            }
            silent => Judgement::unremarkable(silent),
        };
        (judgement, trace)
    }

    /// Whether what is met with a guess, by its trace, is met without. Where it then does not
    /// apply, the rule asks for the value with `known()`, and a guess is none.
    fn distrusting(&self, index: usize, rule: &Rule, scene: &Scene<'_>, with: Trace) -> Judgement {
        let asked = self.ask(index, rule, scene.distrusting());
        if !asked.outcome.is_found() {
            return Judgement::unremarkable(asked.outcome);
        }
        let trace = asked.trace();
        let missing = trace.missing.union(assumed_stars(with, trace.missing));
        Judgement::waiting(Trace { missing, ..trace })
    }

    /// What is said of a rule that is not met: its level, and what it points at.
    fn not_met(
        &self,
        index: usize,
        rule: &Rule,
        scene: &Scene<'_>,
        asked: &Asked<Trace>,
    ) -> Judgement {
        let values = SceneValues(scene);
        let environment = self.environment(index, &values);
        let (full_level, case, of_case) = level(rule, &environment);
        let trace = Provenance::union(asked.trace(), of_case);
        let own = Provenance::union(asked.expect, of_case);
        let silent = own.used.is_empty() && own.absent.is_empty();
        let lowered = self.lowers(without(trace, self.harmless(rule, &environment)));
        let failing = Failing {
            level: if lowered {
                full_level.lowered()
            } else {
                full_level
            },
            full_level,
            case,
            shown: if silent { asked.when } else { own },
        };
        Judgement {
            outcome: Outcome::NotMet,
            trace,
            failing: Some(failing),
        }
    }

    /// The level of a fault of form, whose words stand in for facts.
    pub(super) fn fault_level<'v, V: Values<'v>>(&self, rule: &'v Rule, values: &V) -> Level {
        level(rule, &self.environment(usize::MAX, values)).0
    }
}

/// The rule's level, or that of the first milder case if it is lower; and which case.
fn level<'v, V: Values<'v>>(
    rule: &'v Rule,
    environment: &Environment<'_, V>,
) -> (Level, Option<usize>, V::Trace) {
    let mut trace = V::Trace::default();
    let case = rule.milder.iter().position(|milder| {
        let found = milder.when.evaluate(environment);
        trace = trace.union(found.trace.presence());
        matches!(found.value, Some(Scalar::Truth(true)))
    });
    let milder = case.and_then(|case| rule.milder.get(case));
    let level = milder.map_or(rule.level, |milder| milder.level.min(rule.level));
    (level, case, trace)
}

/// What would have to be stated: the starred guesses, unless the bare run names them itself.
fn assumed_stars(trace: Trace, missing: FieldSet) -> FieldSet {
    if !missing.is_empty() {
        return FieldSet::default();
    }
    PROPERTIES
        .iter()
        .filter(|property| property.starred && trace.assumed.contains(property.field))
        .fold(FieldSet::default(), |set, property| {
            set.union(FieldSet::of(property.field))
        })
}
