//! Facts about plausibility: a record held against itself for wrong units, columns and digits.

use crate::library::{All, CutterKind, Field, Provenance, Reckoned, standard_sizes};
use crate::mechanics::cutting;

use super::Scene;

/// Thinner than any shank but that of a small drill, mm.
const THINNEST_SHANK: f64 = 1.6;
/// Shorter in millimetres than any drill; in inches a usual length.
const SHORTEST_DRILL: f64 = 15.0;
/// Overall length of a drill over its diameter, at most: long drills of 0.5 mm are 32 mm long
/// (from memory).
const LONGEST_DRILL: f64 = 80.0;
/// Thicker than any shank that a holder takes, mm.
const THICKEST_SHANK: f64 = 80.0;
/// How near a converted value must come to a common size, mm.
const NEAR: f64 = 0.05;

fn is_common(sizes: &[f64], diameter: f64) -> bool {
    sizes.iter().any(|size| (size - diameter).abs() <= NEAR)
}

/// The shank is implausibly thin, and would be a common inch size if its number meant inches.
pub(super) fn looks_like_inches<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<bool, P> {
    let shank = scene.field(Field::ShankDiameter);
    shank.and_then(|shank| {
        let inch = &standard_sizes::SHANK_SIZES.table.inch;
        if shank < THINNEST_SHANK && is_common(inch, shank * 25.4) {
            small_drill(scene, shank).map(|small| !small)
        } else {
            Reckoned::free(false)
        }
    })
}

/// Whether the cutter may well be as thin as it says: small drills and reamers have shanks of
/// their own diameter, and are some dozens of diameters long. One of the two must be stated.
fn small_drill<P: Provenance>(scene: &Scene<'_, P>, shank: f64) -> Reckoned<bool, P> {
    let kind = scene.listed::<CutterKind>();
    let of_kind = |kind: CutterKind| {
        matches!(
            kind,
            CutterKind::Drill | CutterKind::Reamer | CutterKind::Other
        )
    };
    let cut = scene.field(Field::CuttingDiameter);
    let as_thin = cut.value.map(|cut| (shank - cut).abs() <= NEAR);
    let overall = scene.view.overall_length();
    let as_long = overall
        .value
        .map(|overall| overall >= SHORTEST_DRILL && overall <= LONGEST_DRILL * shank);
    let stated = as_thin.is_some() || as_long.is_some();
    let likely = stated && as_thin.unwrap_or(true) && as_long.unwrap_or(true);
    let trace = cut.trace.presence().union(overall.trace.presence());
    Reckoned::known(
        likely && kind.value.is_none_or(of_kind),
        trace.union(kind.trace.presence()),
    )
}

/// The shank is implausibly thick, and would be a common metric size if its number, read as
/// inches, meant millimetres.
pub(super) fn looks_like_millimetres<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<bool, P> {
    let shank = scene.field(Field::ShankDiameter);
    shank.map(|shank| {
        let metric = &standard_sizes::SHANK_SIZES.table.metric;
        shank > THICKEST_SHANK && is_common(metric, shank / 25.4)
    })
}

/// Cutting speed that the spindle speed gives at the cutting diameter.
pub(super) fn cutting_speed_of_spindle<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let both = (
        scene.field(Field::CuttingDiameter),
        scene.field(Field::SpindleSpeed),
    );
    both.all()
        .map(|(diameter, speed)| cutting::cutting_speed(diameter, speed))
}

/// The most flutes that its kind of cutter has. What is only plausible is no assumption about
/// this cutter: the rule that compares with it says what it rests on.
pub(super) fn most_flutes<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let kind = scene.listed::<CutterKind>();
    match kind.value.and_then(standard_sizes::most_flutes) {
        Some(most) => kind.map(|_| most),
        None => Reckoned::unknown(kind.trace.union(P::missing(Field::CutterKind))),
    }
}
