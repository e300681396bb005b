//! Reach: what the job asks of the length in front of the face, and what is left.

use super::by_name::formulas;

/// Stick-out that a job needs.
///
/// # Formula
/// reach + clearance
/// # Units
/// mm.
/// # Source
/// Geometry.
#[must_use]
pub fn needed(reach: f64, clearance: f64) -> f64 {
    reach + clearance
}

/// A length that is there less the length that is needed.
///
/// # Formula
/// has − needs
/// # Units
/// mm; negative if it falls short.
/// # Source
/// Geometry.
#[must_use]
pub fn margin(has: f64, needs: f64) -> f64 {
    has - needs
}

/// By how much what follows the flutes is thicker than the cut.
///
/// # Formula
/// following diameter − cutting diameter
/// # Units
/// mm; negative if it clears the wall.
/// # Source
/// Geometry.
#[must_use]
pub fn rubbing_excess(following: f64, cutting_diameter: f64) -> f64 {
    following - cutting_diameter
}

/// Room between a round pocket and the nut, on the diameter, less the clearance on both sides.
///
/// # Formula
/// pocket − nut − 2 · clearance
/// # Units
/// mm; negative if the nut touches.
/// # Source
/// Geometry.
#[must_use]
pub fn nut_room(room_diameter: f64, nut_diameter: f64, side_clearance: f64) -> f64 {
    room_diameter - nut_diameter - 2.0 * side_clearance
}

/// How slender a length is.
///
/// # Formula
/// length / diameter
/// # Units
/// ratio; mm.
/// # Source
/// Geometry.
#[must_use]
pub fn overhang_ratio(length: f64, diameter: f64) -> f64 {
    length / diameter
}

/// Gauge plane to the cutting reference point of a pointed tool: the functional length LF.
///
/// # Formula
/// LPR − point length
/// # Units
/// mm; the point length of a flat tool is 0.
/// # Source
/// ISO 13399, functional and protruding length.
#[must_use]
pub fn functional_length(protruding_length: f64, point_length: f64) -> f64 {
    protruding_length - point_length
}

formulas! {
    "reach" {
        needed(reach, clearance);
        margin(has, needs);
        rubbing_excess(following, cutting_diameter);
        nut_room(room, nut, clearance);
        overhang_ratio(length, diameter);
        functional_length(protruding_length, point_length);
    } {}
}
