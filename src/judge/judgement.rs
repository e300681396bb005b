//! One rule on one subject.

use crate::facts::Scene;
use crate::library::{
    Corner, Datum, FieldSet, Overrides, PROPERTIES, SettingSet, Settings, Trace, Unstated, View,
};
use crate::rulebook::{
    Environment, Found, Level, Limit, Rule, Rulebook, Scalar, Tolerance, TraceLike, Values,
};

use super::certain::without;
use super::names::{Meant, meant};
use super::setup::{assumed_settings, ranges_of, settings_of};

/// The values of one scene, for the rulebook.
pub(super) struct SceneValues<'a, 's>(pub &'s Scene<'a>);

impl<'v, 'a: 'v> Values<'v> for SceneValues<'a, '_> {
    type Trace = Trace;

    fn value(&self, id: u32) -> Found<'v, Trace> {
        let found = match meant(id) {
            Some(Meant::Fact(fact)) => self.0.fact(fact),
            Some(Meant::Field(field)) => self.0.view.datum(field),
            None => crate::library::Reckoned::unknown(Trace::default()),
        };
        let value = found.value.map(|datum| match datum {
            Datum::Number(number) => Scalar::Number(number),
            Datum::Text(text) => Scalar::Text(text),
            Datum::Truth(truth) => Scalar::Truth(truth),
        });
        Found {
            value,
            trace: found.trace,
        }
    }
}

/// What came of one rule on one subject.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Judged {
    NotApplicable,
    Met,
    Worth(Box<Worth>),
}

/// A judgement worth a finding.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Worth {
    NotMet {
        level: Level,
        full_level: Level,
        /// Which milder case it is.
        case: Option<usize>,
        /// What it rests on.
        trace: Trace,
        /// What it points at: the cells of the condition that failed, and of the case.
        shown: Trace,
    },
    NotJudged(Trace),
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

fn truth(found: Found<'_, Trace>) -> Option<bool> {
    match found.value {
        Some(Scalar::Truth(truth)) => Some(truth),
        _ => None,
    }
}

/// Whether a starred property was only assumed.
fn rests_on_assumed_star(trace: Trace) -> bool {
    let starred = PROPERTIES.iter().filter(|property| property.starred);
    starred
        .into_iter()
        .any(|property| trace.assumed.contains(property.field))
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

    /// Judges rule number `index` on a scene as it is; what that rests on, too.
    pub(super) fn settled(&self, index: usize, rule: &Rule, scene: &Scene<'_>) -> (Judged, Trace) {
        let (judged, trace) = self.once(index, rule, scene);
        if judged != Judged::Met || !rests_on_assumed_star(trace) {
            return (judged, trace);
        }
        (self.distrusting(index, rule, scene, trace), trace)
    }

    /// Whether what is met with a guess, by its trace, is met without.
    fn distrusting(&self, index: usize, rule: &Rule, scene: &Scene<'_>, with: Trace) -> Judged {
        let overrides = Overrides {
            distrust_assumed: true,
            ..scene.view.overrides.clone()
        };
        let view = View {
            overrides: &overrides,
            ..scene.view
        };
        let bare = Scene::new(view, &self.settings);
        match self.once(index, rule, &bare) {
            (Judged::Met, _) => Judged::Met,
            // The rule asks for the value with `known()`, and a guess is none.
            (Judged::NotApplicable, _) => Judged::NotApplicable,
            (_, trace) => {
                let missing = trace.missing.union(assumed_stars(with, trace.missing));
                Judged::Worth(Box::new(Worth::NotJudged(Trace { missing, ..trace })))
            }
        }
    }

    pub(super) fn once(&self, index: usize, rule: &Rule, scene: &Scene<'_>) -> (Judged, Trace) {
        let values = SceneValues(scene);
        let environment = self.environment(index, &values);
        let mut trace = Trace::default();
        if let Some(when) = &rule.when {
            let found = when.evaluate(&environment);
            trace = found.trace;
            match truth(found) {
                None => return (Judged::Worth(Box::new(Worth::NotJudged(trace))), trace),
                Some(false) => return (Judged::NotApplicable, trace),
                Some(true) => {}
            }
        }
        let Some(expect) = &rule.expect else {
            return (Judged::NotApplicable, trace);
        };
        let found = expect.evaluate(&environment);
        let when_trace = trace;
        let trace = trace.union(found.trace);
        let judged = match truth(found) {
            None => Judged::Worth(Box::new(Worth::NotJudged(trace))),
            Some(true) => Judged::Met,
            Some(false) => {
                let (full_level, case, of_case) = level(rule, &environment);
                let trace = trace.union(of_case);
                let own = found.trace.union(of_case);
                let silent = own.used.is_empty() && own.absent.is_empty();
                Judged::Worth(Box::new(Worth::NotMet {
                    level: if self.lowers(without(trace, self.harmless(rule, &environment))) {
                        full_level.lowered()
                    } else {
                        full_level
                    },
                    full_level,
                    case,
                    trace,
                    shown: if silent { when_trace } else { own },
                }))
            }
        };
        (judged, trace)
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
