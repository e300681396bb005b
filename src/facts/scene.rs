//! One assembly, with at most one operation, and the facts about it computed so far.

use std::cell::OnceCell;

use crate::library::{Corner, Datum, Field, RANGED, Reckoned, Setting, Settings, Trace, View};

use super::memo::Memo;
use super::registry::{Fact, FactValue};
use super::{shape, socket};

/// Computes facts about one view, each at most once.
pub struct Scene<'a> {
    /// What is looked at.
    pub view: View<'a>,
    settings: &'a Settings,
    memo: Memo<'a>,
    /// The scene of the assembly alone: its facts serve all its operations.
    assembly: Option<&'a Scene<'a>>,
    /// The same at the ends of the ranges that stand for what nobody states, once asked for.
    corners: OnceCell<Corners<'a>>,
}

type Corners<'a> = Box<[OnceCell<Scene<'a>>; Corner::COUNT]>;

impl<'a> Scene<'a> {
    /// A scene with nothing computed yet.
    #[must_use]
    pub fn new(view: View<'a>, settings: &'a Settings) -> Scene<'a> {
        Scene {
            view,
            settings,
            memo: Memo::new(),
            assembly: None,
            corners: OnceCell::new(),
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

    /// The scene at every corner of the ranges in a trace; those of other ranges stay at their
    /// lower end, where they do not matter. None where the trace holds no range.
    pub fn corners(&self, trace: Trace) -> impl Iterator<Item = &Scene<'a>> {
        let ranged: usize = RANGED
            .iter()
            .enumerate()
            .filter(|(_, field)| trace.ranged.contains(**field))
            .map(|(at, _)| 1 << at)
            .sum();
        let numbers = (0..Corner::COUNT).filter(move |number| number & !ranged == 0);
        numbers
            .filter(move |_| ranged != 0)
            .filter_map(|number| self.corner(number))
    }

    fn corner(&self, number: usize) -> Option<&Scene<'a>> {
        let corners = self
            .corners
            .get_or_init(|| Box::new(std::array::from_fn(|_| OnceCell::new())));
        let corner = corners.get(number)?;
        Some(corner.get_or_init(|| {
            let view = self.view.at(Corner::numbered(number));
            Scene {
                assembly: self.assembly.and_then(|base| base.corner(number)),
                ..Scene::new(view, self.settings)
            }
        }))
    }

    /// The greatest that `reckon` gives over the ranges that it rests on: what is asked for must
    /// not come down because nobody states something.
    #[must_use]
    pub fn at_most(&self, reckon: impl Fn(&Scene<'a>) -> Reckoned<f64>) -> Reckoned<f64> {
        self.extreme(reckon, f64::max)
    }

    /// The least, likewise: what may be had must not go up.
    #[must_use]
    pub fn at_least(&self, reckon: impl Fn(&Scene<'a>) -> Reckoned<f64>) -> Reckoned<f64> {
        self.extreme(reckon, f64::min)
    }

    fn extreme(
        &self,
        reckon: impl Fn(&Scene<'a>) -> Reckoned<f64>,
        pick: fn(f64, f64) -> f64,
    ) -> Reckoned<f64> {
        let open = reckon(self);
        let corners = self.corners(open.trace).map(&reckon);
        let all = corners.reduce(|a, b| a.zip(b).map(|(a, b)| pick(a, b)));
        all.map_or(open, |found| found.resting_on(open.trace))
    }

    /// The least and the greatest value of a fact over the ranges that it rests on, in its unit;
    /// `None` where it is no number, where it rests on none, or where it is not known at all of
    /// their ends.
    #[must_use]
    pub fn range(&self, fact: Fact) -> Option<(f64, f64)> {
        let mut ends: Option<(f64, f64)> = None;
        for corner in self.corners(self.fact(fact).trace) {
            let value = corner.number(fact).value?;
            let (low, high) = ends.unwrap_or((value, value));
            ends = Some((low.min(value), high.max(value)));
        }
        ends
    }

    /// A scene of another view, with the same settings and nothing computed yet.
    #[must_use]
    pub fn of(&self, view: View<'a>) -> Scene<'a> {
        Scene::new(view, self.settings)
    }

    /// A fact's value.
    #[must_use]
    pub fn fact(&self, fact: Fact) -> Reckoned<Datum<'a>> {
        let info = fact.info();
        if let (Some(assembly), false) = (self.assembly, info.of_operation) {
            return assembly.fact(fact);
        }
        if let Some(known) = self.memo.get(fact) {
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
        self.memo.set(fact, found);
        found
    }

    /// Why a fact is not known though nothing is missing, where its model says so.
    #[must_use]
    pub fn outside(&self, fact: Fact) -> Option<&'static str> {
        match fact {
            Fact::DriveFlats | Fact::FlatInBore => shape::outside(self),
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

    /// A fact that is yes or no.
    #[must_use]
    pub fn truth(&self, fact: Fact) -> Reckoned<bool> {
        let found = self.fact(fact);
        match found.value {
            Some(Datum::Truth(truth)) => Reckoned::known(truth, found.trace),
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
