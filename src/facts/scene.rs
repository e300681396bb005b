//! One assembly, with at most one operation, and the facts about it computed so far.

use crate::units::Scalar;
use std::cell::OnceCell;
use std::rc::Rc;

use crate::library::{
    Corner, Field, Kind, Marks, OfOneField, Provenance, Reckoned, Setting, Settings, Trace, View,
};

use crate::mechanics::mouth::Mouth;
use crate::mechanics::side::SideCut;

use super::beside::Beside;
use super::memo::Memo;
use super::name::NameId;
use super::push::{End, side_cut};
use super::registry::Fact;
use super::worked_once::Kept;
use super::{contact, socket};

/// Computes facts about one view, each at most once; its values say what they rest on as a `P`.
pub struct Scene<'a, P = Trace> {
    /// What is looked at.
    pub view: View<'a, P>,
    settings: &'a Settings,
    memo: Memo<'a, P>,
    /// The scene of the assembly alone: its facts serve all its operations.
    assembly: Option<&'a Scene<'a, P>>,
    /// The same tool at another stick-out.
    beside: Option<&'a dyn Beside<P>>,
    /// The same at the ends of the ranges that stand for what nobody states, once asked for.
    corners: OnceCell<Corners<'a, P>>,
    /// The same with starred guesses withheld, once asked for.
    distrusting: OnceCell<Box<Scene<'a, P>>>,
    /// The same with marks alone, once asked for.
    quick: OnceCell<Box<Scene<'a, Marks>>>,
    side_cut: Kept<Reckoned<Rc<SideCut>, P>>,
    engaged_mouth: Kept<Reckoned<Mouth, P>>,
    full_mouth: Kept<Reckoned<f64, P>>,
}

type Corners<'a, P> = Box<[OnceCell<Scene<'a, P>>; Corner::COUNT]>;

impl<'a, P: Provenance> Scene<'a, P> {
    /// A scene with nothing computed yet.
    #[must_use]
    pub fn new(view: View<'a, P>, settings: &'a Settings) -> Scene<'a, P> {
        Scene {
            view,
            settings,
            memo: Memo::new(),
            assembly: None,
            beside: None,
            corners: OnceCell::new(),
            distrusting: OnceCell::new(),
            quick: OnceCell::new(),
            side_cut: Kept::new(),
            engaged_mouth: Kept::new(),
            full_mouth: Kept::new(),
        }
    }

    /// The scene of one of the assembly's operations, sharing the assembly's facts.
    #[must_use]
    pub fn with_operation(&'a self, view: View<'a, P>) -> Scene<'a, P> {
        Scene {
            assembly: Some(self),
            ..Scene::new(view, self.settings)
        }
    }

    /// The same tool at another stick-out, mm; `assembly` is the assembly there, if this is the
    /// scene of an operation. What does not depend on the stick-out is taken from here.
    #[must_use]
    pub fn at_stick_out<'s>(
        &'s self,
        stick_out: f64,
        assembly: Option<&'s Scene<'s, P>>,
    ) -> Scene<'s, P> {
        let view: View<'s, P> = View {
            stick_out: Some(stick_out),
            watch: None,
            ..self.view
        };
        Scene {
            assembly,
            beside: Some(self),
            ..Scene::new(view, self.settings)
        }
    }

    /// The same scene, whose values carry marks alone.
    #[must_use]
    pub fn quick(&self) -> &Scene<'a, Marks> {
        self.quick.get_or_init(|| {
            Box::new(Scene {
                assembly: self.assembly.map(Scene::quick),
                ..Scene::new(self.view.resting(), self.settings)
            })
        })
    }

    /// The same scene, in which a starred property that is only assumed is not known.
    #[must_use]
    pub fn distrusting(&self) -> &Scene<'a, P> {
        self.distrusting.get_or_init(|| {
            let view = View {
                distrusts_assumed: true,
                ..self.view
            };
            Box::new(Scene {
                assembly: self.assembly.map(Scene::distrusting),
                beside: self.beside.map(Beside::without_guesses),
                ..Scene::new(view, self.settings)
            })
        })
    }

    /// The scene at every corner of the ranges in a trace; those of other ranges stay at their
    /// lower end, where they do not matter. None where the trace holds no range.
    pub fn corners(&self, trace: P) -> impl Iterator<Item = &Scene<'a, P>> {
        let ranged = usize::from(trace.ranges());
        let numbers = (0..Corner::COUNT).filter(move |number| number & !ranged == 0);
        numbers
            .filter(move |_| ranged != 0)
            .filter_map(|number| self.corner(number))
    }

    pub(super) fn corner(&self, number: usize) -> Option<&Scene<'a, P>> {
        let corners = self
            .corners
            .get_or_init(|| Box::new(std::array::from_fn(|_| OnceCell::new())));
        let corner = corners.get(number)?;
        Some(corner.get_or_init(|| {
            let view = self.view.at(Corner::numbered(number));
            Scene {
                assembly: self.assembly.and_then(|base| base.corner(number)),
                beside: self.beside.and_then(|beside| beside.at_corner(number)),
                ..Scene::new(view, self.settings)
            }
        }))
    }

    /// The greatest that `reckon` gives over the ranges that it rests on: what is asked for must
    /// not come down because nobody states something.
    #[must_use]
    pub fn at_most(&self, reckon: impl Fn(&Scene<'a, P>) -> Reckoned<f64, P>) -> Reckoned<f64, P> {
        self.extreme(reckon, f64::max)
    }

    /// The least, likewise: what may be had must not go up.
    #[must_use]
    pub fn at_least(&self, reckon: impl Fn(&Scene<'a, P>) -> Reckoned<f64, P>) -> Reckoned<f64, P> {
        self.extreme(reckon, f64::min)
    }

    fn extreme(
        &self,
        reckon: impl Fn(&Scene<'a, P>) -> Reckoned<f64, P>,
        pick: fn(f64, f64) -> f64,
    ) -> Reckoned<f64, P> {
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
    pub fn of(&self, view: View<'a, P>) -> Scene<'a, P> {
        Scene::new(view, self.settings)
    }

    /// A fact's value.
    #[must_use]
    pub fn fact(&self, fact: Fact) -> Reckoned<Scalar<&'a str>, P> {
        if let (Some(assembly), false) = (self.assembly, fact.info().of_operation) {
            return assembly.fact(fact);
        }
        self.memo.recall(NameId::Fact(fact), self.view.seen(), || {
            if let Some(known) = self.unmoved_beside(NameId::Fact(fact)) {
                return known;
            }
            let found = fact.reckon(self);
            // An overflow is no number that a rule may compare.
            match found.value {
                Some(Scalar::Number(number)) if !number.is_finite() => {
                    Reckoned::unknown(found.trace)
                }
                _ => found,
            }
        })
    }

    /// The operation's milling cut at the low end, in slices.
    pub(super) fn side_cut(&self) -> Reckoned<Rc<SideCut>, P> {
        let beside = self.beside.and_then(Beside::unmoved_side_cut);
        let own = || {
            self.side_cut.recall(self.view.seen(), || {
                let cut = side_cut(self, End::Low);
                cut.map(|(cut, material, share)| Rc::new(SideCut::new(cut, material, share)))
            })
        };
        beside.unwrap_or_else(own)
    }

    /// What the collet puts into the socket's mouth as the tool is built.
    pub(super) fn engaged_mouth(&self) -> Reckoned<Mouth, P> {
        let reckon = || socket::engaged_mouth(self);
        self.engaged_mouth.recall(self.view.seen(), reckon)
    }

    /// What full grip puts into it.
    pub(super) fn full_mouth(&self) -> Reckoned<f64, P> {
        let beside = self.beside.and_then(Beside::unmoved_full_mouth);
        let own = || {
            self.full_mouth
                .recall(self.view.seen(), || socket::full_mouth(self))
        };
        beside.unwrap_or_else(own)
    }

    fn unmoved_beside(&self, key: NameId) -> Option<Reckoned<Scalar<&'a str>, P>> {
        self.beside?.unmoved(key)
    }

    /// Why a fact is not known though nothing is missing, where its model says so.
    #[must_use]
    pub fn outside(&self, fact: Fact) -> Option<&'static str> {
        match fact {
            Fact::DriveFlats | Fact::FlatInBore => contact::outside(self),
            Fact::MouthStressRatio => socket::outside(self),
            // These need a torque too: without one they wait for it.
            Fact::MouthStress | Fact::MouthStressUpper | Fact::MouthOpening => {
                let waits = self.fact(fact).trace.lacks();
                (!waits).then(|| socket::outside(self)).flatten()
            }
            _ => None,
        }
    }

    /// A fact that is a number, in its unit.
    #[must_use]
    pub fn number(&self, fact: Fact) -> Reckoned<f64, P> {
        self.fact(fact).number()
    }

    /// A fact that is yes or no.
    #[must_use]
    pub fn truth(&self, fact: Fact) -> Reckoned<bool, P> {
        self.fact(fact).truth()
    }

    /// A field's value.
    #[must_use]
    pub fn datum(&self, field: Field) -> Reckoned<Scalar<&'a str>, P> {
        if let (Some(assembly), false) = (self.assembly, field.kind() == Kind::Operation) {
            return assembly.datum(field);
        }
        self.memo
            .recall(NameId::Field(field), self.view.seen(), || {
                let beside = self.unmoved_beside(NameId::Field(field));
                beside.unwrap_or_else(|| self.view.datum(field))
            })
    }

    /// A field that is a number, in its canonical unit.
    #[must_use]
    pub fn field(&self, field: Field) -> Reckoned<f64, P> {
        self.datum(field).number()
    }

    /// A field that is a word or text.
    #[must_use]
    pub fn word(&self, field: Field) -> Reckoned<&'a str, P> {
        self.datum(field).text()
    }

    /// A field that is a word of the closed list that its property has for itself.
    #[must_use]
    pub fn listed<L: OfOneField>(&self) -> Reckoned<L, P> {
        self.datum(L::FIELD).listed()
    }

    /// A field that is yes or no.
    #[must_use]
    pub fn flag(&self, field: Field) -> Reckoned<bool, P> {
        self.datum(field).truth()
    }

    /// A setting.
    #[must_use]
    pub fn setting(&self, setting: Setting) -> Reckoned<f64, P> {
        self.settings.get(setting)
    }
}
