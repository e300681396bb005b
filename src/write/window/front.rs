//! Words for what holds the tool.

use crate::sheet::Front;

/// The face that a stick-out is measured from.
pub(super) const fn face(front: Front) -> &'static str {
    match front {
        Front::Nut => "nut face",
        Front::Holder | Front::Unknown | Front::NoShank => "holder face",
    }
}

/// When it is measured.
pub(super) const fn closed(front: Front) -> &'static str {
    match front {
        Front::Nut => "once the nut is tight",
        Front::Holder | Front::Unknown | Front::NoShank => "once the tool is clamped",
    }
}

/// What stands around the tool, and may collide.
pub(super) const fn around(front: Front) -> &'static str {
    match front {
        Front::Nut => "holder and nut",
        Front::Holder | Front::Unknown | Front::NoShank => "what clamps it",
    }
}
