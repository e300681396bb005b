//! What holds the tool, as far as words need it: a nut is only spoken of where there is one.

use crate::facts::Scene;

/// What the tool ends flush with, and what closes on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Front {
    /// A collet under a nut.
    Nut,
    /// A holder whose own bore grips, with or without a sleeve.
    Holder,
    /// Something else, or nobody says what.
    Unknown,
    /// No shank is held.
    NoShank,
}

impl Front {
    pub(super) fn of(base: &Scene<'_>) -> Front {
        let view = &base.view;
        if view.held_by_shank().value == Some(false) {
            Front::NoShank
        } else if view.held_in_collet().value == Some(true) {
            Front::Nut
        } else if view.held_in_chuck().value == Some(true) {
            Front::Holder
        } else {
            Front::Unknown
        }
    }
}
