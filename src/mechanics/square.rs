//! Geometry along the axis: a tap's square in the square of a tapping collet, and how far in it is
//! driven.
//!
//! Lengths as in [`axial`](super::axial): q is the length of the square at the tail, s the distance
//! from the front face to the gripping land and B the land's length.

use super::axial::Land;
use super::by_name::formulas;

/// How much of the square at the tail lies in the square of a tapping collet, which is somewhere
/// between its land and its rear end.
///
/// # Formula
/// min(insertion, rear) − max(insertion − q, s + B)
/// # Units
/// mm; up to q. Negative: the two lie that far apart.
/// # Source
/// Geometry. A collet's own square may be shorter than the stretch behind its land; its length is
/// not stated anywhere, so that this is the most that can be driven.
#[must_use]
pub fn square_engagement(insertion: f64, square_length: f64, land: Land, rear: f64) -> f64 {
    let land_end = land.bore_setback + land.bore_length;
    insertion.min(rear) - (insertion - square_length).max(land_end)
}

/// Least insertion at which a share of the square is in the collet's, behind its land.
///
/// # Formula
/// s + B + q · share
/// # Units
/// mm; the share is a ratio from 0 to 1.
/// # Source
/// Geometry: [`square_engagement`] solved for the insertion at the end of the land.
#[must_use]
pub fn square_insertion(land: Land, square_length: f64, share: f64) -> f64 {
    land.bore_setback + land.bore_length + square_length * share
}

/// Deepest insertion at which a share of the square is still in the collet: the round shank does
/// not follow it through.
///
/// # Formula
/// rear + q · (1 − share)
/// # Units
/// mm; the share is a ratio from 0 to 1.
/// # Source
/// Geometry: [`square_engagement`] solved for the insertion behind the collet's rear end.
#[must_use]
pub fn deepest_square(rear: f64, square_length: f64, share: f64) -> f64 {
    rear + square_length * (1.0 - share)
}

formulas! {
    "axial" {
        deepest_square(rear, square_length, share);
    } {
        square_engagement => |given| Some(square_engagement(
            given.number("insertion")?,
            given.number("square_length")?,
            Land::alone(given)?,
            given.number("rear")?,
        ));
        square_insertion => |given| Some(square_insertion(
            Land::alone(given)?,
            given.number("square_length")?,
            given.number("share")?,
        ));
    }
}
