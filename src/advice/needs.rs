//! What a tool needs behind the front face, whatever it needs in front of it.

use crate::facts::{Fact, Scene};
use crate::judge::Judge;
use crate::library::{Field, Reckoned};

/// How far a tool must go in behind the front face: to the needed grip of the land, or as far as
/// a maker requires, whichever is more. mm.
///
/// # Formula
/// max(bore setback + needed grip + square length, maker's least insertion); the latter only
/// where it is stated.
#[must_use]
pub fn insertion_needed(base: &Scene<'_>) -> Reckoned<f64> {
    let grip = base
        .number(Fact::BoreSetback)
        .zip(base.number(Fact::NeededGrip))
        .zip(base.field(Field::DriveSquareLength))
        .map(|((setback, grip), square)| setback + grip + square);
    let makers = base.number(Fact::MakerClampingMin);
    match makers.value {
        Some(least) if grip.value.is_some_and(|grip| grip < least) => {
            Reckoned::known(least, makers.trace)
        }
        _ => grip,
    }
}

/// The stick-out that the deepest operation needs, with its clearance, mm; `None` if no reach is
/// known.
pub(super) fn stick_out_needed(operations: &[Scene<'_>]) -> Option<f64> {
    let needed = operations.iter();
    needed
        .filter_map(|scene| scene.number(Fact::ReachNeeded).value)
        .reduce(f64::max)
}

/// How nearly a stick-out is set at the bench, mm: what is left to both ends of a window.
#[must_use]
pub fn setting_tolerance(judge: &Judge<'_>) -> f64 {
    let limit = judge.book.limit("setting_tolerance");
    limit.map_or(0.0, |limit| limit.value)
}
