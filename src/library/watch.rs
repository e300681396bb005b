//! What the reader of a view is told besides values: that something of a kind was read.

use std::cell::Cell;

use super::{Field, LENGTHS};
use crate::units::Scalar;

/// What is watched for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Watched {
    /// A length that says how far the tool sticks out; see [`LENGTHS`].
    StickOut,
    /// A number or a text that a record states. Words, yes and no, and what is not stated are the
    /// same for many records; see [`super::Library::outline`].
    Amount,
}

/// A watch over what is read.
#[derive(Clone, Copy, Debug)]
pub struct Watch<'a> {
    /// What for.
    pub of: Watched,
    /// Set when it is read.
    pub seen: &'a Cell<bool>,
}

impl Watch<'_> {
    /// A field is asked for.
    pub(super) fn asks(self, field: Field) {
        if self.of == Watched::StickOut && LENGTHS.contains(&field) {
            self.seen.set(true);
        }
    }

    /// A record states this.
    pub(super) fn reads(self, value: Scalar<&str>) {
        if self.of == Watched::Amount && matches!(value, Scalar::Number(_) | Scalar::Text(_)) {
            self.seen.set(true);
        }
    }
}
