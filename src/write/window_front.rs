//! What holds the tool in a quick question, as far as words need it: a nut is only spoken of
//! where there is one.

use crate::facts::Scene;

/// What the tool ends flush with, and what closes on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Front {
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

    /// The face that a stick-out is measured from.
    pub(super) const fn face(self) -> &'static str {
        match self {
            Front::Nut => "nut face",
            Front::Holder | Front::Unknown | Front::NoShank => "holder face",
        }
    }

    /// When it is measured.
    pub(super) const fn closed(self) -> &'static str {
        match self {
            Front::Nut => "once the nut is tight",
            Front::Holder | Front::Unknown | Front::NoShank => "once the tool is clamped",
        }
    }

    /// What stands around the tool, and may collide.
    pub(super) const fn around(self) -> &'static str {
        match self {
            Front::Nut => "holder and nut",
            Front::Holder | Front::Unknown | Front::NoShank => "what clamps it",
        }
    }
}
