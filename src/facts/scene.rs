//! One assembly, with at most one operation, and the facts about it computed so far.

use std::cell::Cell;

use crate::library::{Datum, Field, Reckoned, Setting, Settings, View};

use super::registry::{Fact, FactValue};
use super::socket;

type Memo<'a> = Cell<Option<Reckoned<Datum<'a>>>>;

/// Computes facts about one view, each at most once.
pub struct Scene<'a> {
    /// What is looked at.
    pub view: View<'a>,
    settings: &'a Settings,
    memo: [Memo<'a>; Fact::COUNT],
    /// The scene of the assembly alone: its facts serve all its operations.
    assembly: Option<&'a Scene<'a>>,
}

impl<'a> Scene<'a> {
    /// A scene with nothing computed yet.
    #[must_use]
    pub fn new(view: View<'a>, settings: &'a Settings) -> Scene<'a> {
        Scene {
            view,
            settings,
            memo: std::array::from_fn(|_| Cell::new(None)),
            assembly: None,
        }
    }

    /// The scene of one of the assembly's operations, sharing the assembly's facts.
    #[must_use]
    pub fn with_operation(&'a self, view: View<'a>) -> Scene<'a> {
        Scene {
            assembly: Some(self),
            ..Scene::new(view, self.settings)
        }
    }

    /// A fact's value.
    #[must_use]
    #[expect(clippy::indexing_slicing, reason = "one memo for every fact")]
    pub fn fact(&self, fact: Fact) -> Reckoned<Datum<'a>> {
        let info = fact.info();
        if let (Some(assembly), false) = (self.assembly, info.of_operation) {
            return assembly.fact(fact);
        }
        let memo = &self.memo[fact as usize];
        if let Some(known) = memo.get() {
            return known;
        }
        let found = match info.value {
            FactValue::Number(_, reckon) => reckon(self).map(Datum::Number),
            FactValue::Word(_, reckon) => reckon(self).map(Datum::Text),
            FactValue::Truth(reckon) => reckon(self).map(Datum::Truth),
        };
        // An overflow is no number that a rule may compare.
        let found = match found.value {
            Some(Datum::Number(number)) if !number.is_finite() => Reckoned::unknown(found.trace),
            _ => found,
        };
        memo.set(Some(found));
        found
    }

    /// Why a fact is not known though nothing is missing, where its model says so.
    #[must_use]
    pub fn outside(&self, fact: Fact) -> Option<&'static str> {
        match fact {
            Fact::MouthStressRatio => socket::outside(self),
            // These need a torque too: without one they wait for it.
            Fact::MouthStress | Fact::MouthStressUpper | Fact::MouthOpening => {
                let waits = !self.fact(fact).trace.missing.is_empty();
                (!waits).then(|| socket::outside(self)).flatten()
            }
            _ => None,
        }
    }

    /// A fact that is a number, in its unit.
    #[must_use]
    pub fn number(&self, fact: Fact) -> Reckoned<f64> {
        let found = self.fact(fact);
        match found.value {
            Some(Datum::Number(number)) => Reckoned::known(number, found.trace),
            _ => Reckoned::unknown(found.trace),
        }
    }

    /// A field that is a number, in its canonical unit.
    #[must_use]
    pub fn field(&self, field: Field) -> Reckoned<f64> {
        self.view.number(field)
    }

    /// A setting.
    #[must_use]
    pub fn setting(&self, setting: Setting) -> Reckoned<f64> {
        self.settings.get(setting)
    }
}
