//! The same tool at another stick-out. A window asks it at hundreds of them, and most of what is
//! asked does not depend on how far the tool sticks out: that is taken over from the first scene.

use std::rc::Rc;

use crate::library::{Provenance, Reckoned};
use crate::mechanics::side::SideCut;
use crate::units::Scalar;

use super::Scene;
use super::name::NameId;

/// A scene of the same tool, seen through whatever lifetime it has.
pub(super) trait Beside<P: Provenance> {
    /// A value that was worked out without asking for the stick-out; `None` if it asks for it.
    fn unmoved(&self, key: NameId) -> Option<Reckoned<Scalar<&str>, P>>;
    /// Its cut in slices, likewise.
    fn unmoved_side_cut(&self) -> Option<Reckoned<Rc<SideCut>, P>>;
    /// What full grip puts into the mouth, likewise.
    fn unmoved_full_mouth(&self) -> Option<Reckoned<f64, P>>;
    /// The same scene at a corner of the ranges.
    fn at_corner(&self, number: usize) -> Option<&dyn Beside<P>>;
    /// The same scene with starred guesses withheld.
    fn without_guesses(&self) -> &dyn Beside<P>;
}

impl<P: Provenance> Beside<P> for Scene<'_, P> {
    fn unmoved(&self, key: NameId) -> Option<Reckoned<Scalar<&str>, P>> {
        self.if_unmoved(|| match key {
            NameId::Fact(fact) => self.fact(fact),
            NameId::Field(field) => self.datum(field),
        })
    }

    fn unmoved_side_cut(&self) -> Option<Reckoned<Rc<SideCut>, P>> {
        self.if_unmoved(|| self.side_cut())
    }

    fn unmoved_full_mouth(&self) -> Option<Reckoned<f64, P>> {
        self.if_unmoved(|| self.full_mouth())
    }

    fn at_corner(&self, number: usize) -> Option<&dyn Beside<P>> {
        Some(self.corner(number)?)
    }

    fn without_guesses(&self) -> &dyn Beside<P> {
        self.distrusting()
    }
}

impl<P: Provenance> Scene<'_, P> {
    /// What is found, unless that reads how far the tool sticks out.
    fn if_unmoved<T>(&self, find: impl FnOnce() -> T) -> Option<T> {
        // Without a watch nobody knows what it asked for.
        let moved = self.view.seen()?;
        moved.set(false);
        let found = find();
        (!moved.get()).then_some(found)
    }
}
