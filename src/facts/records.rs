//! Facts that hold a record against itself: wrong units, wrong columns, slips of the pen.

use crate::library::{All, Field, Reckoned, standing};
use crate::mechanics::cutting;

use super::Scene;

/// Thinner than any shank but that of a small drill, mm.
const THINNEST_SHANK: f64 = 1.6;
/// Thicker than any shank that a holder takes, mm.
const THICKEST_SHANK: f64 = 80.0;
/// Shorter than any drill, mm; in inches such a number would be a common overall length.
const SHORTEST_DRILL: f64 = 15.0;
/// Small drills are at most so many diameters long.
const LONGEST_DRILL: f64 = 80.0;
/// How near a converted value must come to a common size, mm.
const NEAR: f64 = 0.05;

fn is_common(sizes: &[f64], diameter: f64) -> bool {
    sizes.iter().any(|size| (size - diameter).abs() <= NEAR)
}

/// The shank is implausibly thin, and would be a common inch size if its number meant inches.
pub(super) fn looks_like_inches(scene: &Scene<'_>) -> Reckoned<bool> {
    let shank = scene.field(Field::ShankDiameter);
    let small = small_drill(scene);
    shank.map(|shank| {
        let inch = &standing::SHANK_SIZES.table.inch;
        shank < THINNEST_SHANK && is_common(inch, shank * 25.4) && !small
    })
}

/// Whether the cutter may well be as thin as it says: small drills and reamers have shanks of
/// their own diameter, and are some dozens of diameters long.
fn small_drill(scene: &Scene<'_>) -> bool {
    let diameters = (
        scene.field(Field::ShankDiameter),
        scene.field(Field::CuttingDiameter),
    );
    let same = diameters.all().value;
    let kind = scene.view.word(Field::CutterKind).value;
    let of_kind = kind.is_none_or(|kind| matches!(kind, "drill" | "reamer" | "other"));
    let long = match (scene.view.overall_length().value, same) {
        (Some(overall), Some((shank, _))) => {
            overall >= SHORTEST_DRILL && overall <= LONGEST_DRILL * shank
        }
        _ => true,
    };
    of_kind && long && same.is_some_and(|(shank, cut)| (shank - cut).abs() <= NEAR)
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
