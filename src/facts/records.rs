//! Facts that hold a record against itself: wrong units, wrong columns, slips of the pen.

use crate::library::{All, Field, Reckoned, standing};
use crate::mechanics::cutting;

use super::Scene;

/// Thicker in inches than any shank that a collet of this kind takes; read as millimetres it
/// is thinner than any.
const THINNEST_SHANK: f64 = 1.6;
/// Shorter in millimetres than any tool; in inches a usual length.
const SHORTEST_TOOL: f64 = 15.0;
/// Overall length of a jobber drill over its diameter, at most: 22 over 0.5 mm (from memory).
const LONGEST_DRILL: f64 = 60.0;
/// Thicker than any shank that a holder takes, mm.
const THICKEST_SHANK: f64 = 80.0;
/// How near a converted value must come to a common size, mm.
const NEAR: f64 = 0.05;

fn is_common(sizes: &[f64], diameter: f64) -> bool {
    sizes.iter().any(|size| (size - diameter).abs() <= NEAR)
}

/// The shank is implausibly thin, and would be a common inch size if its number meant inches.
///
/// A twist drill of 0.5, 0.75, 1 or 1.25 mm is none: its overall length is that of a thin drill
/// in millimetres, neither a few inches nor too long for a shank of its thickness.
pub(super) fn looks_like_inches(scene: &Scene<'_>) -> Reckoned<bool> {
    let shank = scene.field(Field::ShankDiameter);
    let overall = scene.view.overall_length();
    let thin_drill = |shank: f64| {
        let length = overall.value.map(|overall| (overall, overall / shank));
        length.is_some_and(|(overall, ratio)| overall > SHORTEST_TOOL && ratio <= LONGEST_DRILL)
    };
    let inch = &standing::SHANK_SIZES.table.inch;
    let suspected = shank.map(|shank| shank < THINNEST_SHANK && is_common(inch, shank * 25.4));
    match (suspected.value, shank.value) {
        (Some(true), Some(diameter)) => suspected
            .map(|_| !thin_drill(diameter))
            .resting_on(overall.trace.presence()),
        _ => suspected,
    }
}

/// The shank is implausibly thick, and would be a common metric size if its number, read as
/// inches, meant millimetres.
pub(super) fn looks_like_millimetres(scene: &Scene<'_>) -> Reckoned<bool> {
    let shank = scene.field(Field::ShankDiameter);
    shank.map(|shank| {
        let metric = &standing::SHANK_SIZES.table.metric;
        shank > THICKEST_SHANK && is_common(metric, shank / 25.4)
    })
}

/// Cutting speed that the spindle speed gives at the cutting diameter.
pub(super) fn cutting_speed_of_spindle(scene: &Scene<'_>) -> Reckoned<f64> {
    let both = (
        scene.field(Field::CuttingDiameter),
        scene.field(Field::SpindleSpeed),
    );
    both.all()
        .map(|(diameter, speed)| cutting::cutting_speed(diameter, speed))
}
