//! What a tool needs in front of the front face and behind it, as far as advice puts it together.

use crate::facts::{Fact, Scene};
use crate::judge::Judge;
use crate::library::{Field, Reckoned};

/// The plain shank that the least insertion takes, from the tail, mm.
///
/// # Formula
/// insertion needed - bore setback
#[must_use]
pub fn shank_needed(base: &Scene<'_>) -> Option<f64> {
    let needed = base.at_most(|scene| {
        let setback = scene.number(Fact::BoreSetback);
        let behind = scene.number(Fact::InsertionNeeded).zip(setback);
        behind.map(|(behind, setback)| behind - setback)
    });
    needed.value
}

/// How far a tool must go in, at most, whatever nobody states, mm.
#[must_use]
pub fn insertion_needed(base: &Scene<'_>) -> Reckoned<f64> {
    base.at_most(|scene| scene.number(Fact::InsertionNeeded))
}

/// How far it may go in, at least, whatever nobody states, mm.
#[must_use]
pub fn insertion_possible(base: &Scene<'_>) -> Reckoned<f64> {
    base.at_least(|scene| scene.number(Fact::InsertionPossible))
}

/// How far a tool must go in for its grip alone, mm.
///
/// # Formula
/// bore setback + needed grip + square length
pub(super) fn grip_needed(base: &Scene<'_>) -> Reckoned<f64> {
    base.at_most(|scene| {
        let lengths = scene
            .number(Fact::BoreSetback)
            .zip(scene.number(Fact::NeededGrip))
            .zip(scene.field(Field::DriveSquareLength));
        lengths.map(|((setback, grip), square)| setback + grip + square)
    })
}

/// The stick-out that the deepest operation needs, with its clearance, mm; `None` if no reach is
/// known.
pub(super) fn reach_needed(operations: &[Scene<'_>]) -> Option<f64> {
    let needed = operations.iter();
    needed.filter_map(reach_of).reduce(f64::max)
}

/// The same, and out of a pocket too narrow for the nut, as far as its depth is known.
///
/// # Formula
/// max(reach needed, reach needed + room depth where the nut has no room)
#[must_use]
pub fn stick_out_needed(operations: &[Scene<'_>]) -> Option<f64> {
    let each = operations.iter().filter_map(|scene| {
        let reach = reach_of(scene)?;
        let fits = scene
            .number(Fact::NutRoom)
            .value
            .is_none_or(|room| room >= 0.0);
        let depth = scene.field(Field::RoomDepth).value.filter(|_| !fits);
        Some(reach + depth.unwrap_or(0.0))
    });
    each.reduce(f64::max)
}

/// What one operation needs: no face is set onto the work because nobody states the clearance.
fn reach_of(job: &Scene<'_>) -> Option<f64> {
    job.at_most(|scene| scene.number(Fact::ReachNeeded)).value
}

/// How nearly a stick-out is set at the bench, mm: what is left to both ends of a window.
#[must_use]
pub fn setting_tolerance(judge: &Judge<'_>) -> f64 {
    let limit = judge.book.limit("setting_tolerance");
    limit.map_or(0.0, |limit| limit.value)
}
