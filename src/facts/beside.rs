//! The same tool at another stick-out. A window asks it at hundreds of them, and most of what is
//! asked does not depend on how far the tool sticks out: that is taken over from the first scene.

use crate::library::{Provenance, Reckoned};
use crate::units::Scalar;

use super::Scene;
use super::name::NameId;

/// A scene of the same tool, seen through whatever lifetime it has.
pub(super) trait Beside<P: Provenance> {
    /// A value that was worked out without asking for the stick-out; `None` if it asks for it.
    fn unmoved(&self, key: NameId) -> Option<Reckoned<Scalar<&str>, P>>;
    /// The same scene at a corner of the ranges.
    fn at_corner(&self, number: usize) -> Option<&dyn Beside<P>>;
    /// The same scene with starred guesses withheld.
    fn without_guesses(&self) -> &dyn Beside<P>;
}

impl<P: Provenance> Beside<P> for Scene<'_, P> {
    fn unmoved(&self, key: NameId) -> Option<Reckoned<Scalar<&str>, P>> {
        // Without a watch nobody knows what it asked for.
        let moved = self.view.moved?;
        moved.set(false);
        let found = match key {
            NameId::Fact(fact) => self.fact(fact),
            NameId::Field(field) => self.datum(field),
        };
        (!moved.get()).then_some(found)
    }

    fn at_corner(&self, number: usize) -> Option<&dyn Beside<P>> {
        Some(self.corner(number)?)
    }

    fn without_guesses(&self) -> &dyn Beside<P> {
        self.distrusting()
    }
}
