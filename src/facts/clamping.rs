//! Facts about what clamps the tool, and whose bore closes on its shank.

use crate::library::{All, Field, Reckoned, Trace};
use crate::mechanics::axial;

use super::{Fact, Scene};

pub(super) fn held_by_shank(scene: &Scene<'_>) -> Reckoned<bool> {
    scene.view.held_by_shank()
}

pub(super) fn slotted_collet(scene: &Scene<'_>) -> Reckoned<bool> {
    scene.view.slotted_collet()
}

pub(super) fn held_in_chuck(scene: &Scene<'_>) -> Reckoned<bool> {
    scene.view.held_in_chuck()
}

/// The bore that grips: the collet's or sleeve's if there is one, else the holder's own.
fn bore(scene: &Scene<'_>, of_collet: Field, of_holder: Field) -> Reckoned<f64> {
    let held = scene.truth(Fact::HeldByShank);
    let slotted = scene.truth(Fact::SlottedCollet);
    match (held.value, slotted.value) {
        (_, Some(true)) => scene.field(of_collet).resting_on(slotted.trace),
        (Some(true), Some(false)) => scene.field(of_holder).resting_on(slotted.trace),
        (Some(false), _) => Reckoned::unknown(held.trace),
        _ => Reckoned::unknown(held.trace.union(scene.field(of_collet).trace)),
    }
}

pub(super) fn bore_length(scene: &Scene<'_>) -> Reckoned<f64> {
    bore(scene, Field::BoreLength, Field::HolderBoreLength)
}

pub(super) fn bore_diameter(scene: &Scene<'_>) -> Reckoned<f64> {
    bore(scene, Field::BoreDiameter, Field::HolderBoreDiameter)
}

/// Whether a clamp screw has to meet a flat: in such a holder the shank has one, and the seat is
/// not one for round bars.
pub(super) fn screw_on_flat(scene: &Scene<'_>) -> Reckoned<bool> {
    let kind = scene.view.word(Field::ClampingKind);
    kind.and_then(|kind| {
        let seat = scene.view.word(Field::SeatForm);
        if kind != "side-lock holder" {
            return Reckoned::free(false);
        }
        if seat.value == Some("round") {
            return Reckoned::known(false, seat.trace);
        }
        let form = scene.view.word(Field::ShankForm);
        form.map(|form| matches!(form, "HB" | "HE" | "flat"))
    })
}

/// Stick-out at which the clamp screw meets the middle of its flat.
pub(super) fn flat_stick_out(scene: &Scene<'_>) -> Reckoned<f64> {
    let lengths = (
        scene.view.overall_length(),
        scene.field(Field::FlatDistance),
        scene.field(Field::ScrewDistance),
    );
    lengths
        .all()
        .map(|(overall, flat, screw)| axial::flat_stick_out(overall, flat, screw))
}

/// Number of the tolerance grade in a shank's tolerance class: 6 of `h6`.
pub(super) fn shank_grade(scene: &Scene<'_>) -> Reckoned<f64> {
    let class = scene.view.word(Field::ShankTolerance);
    class.and_then(|class| {
        let grade = class
            .trim()
            .trim_start_matches(|c: char| !c.is_ascii_digit());
        match grade.parse::<u8>() {
            Ok(grade) => Reckoned::free(f64::from(grade)),
            Err(_) => Reckoned::unknown(Trace::default()),
        }
    })
}

pub(super) fn held_in_collet(scene: &Scene<'_>) -> Reckoned<bool> {
    scene.view.held_in_collet()
}

/// What there is only where something is so, or may be so; where nobody knows whether it is, what
/// it needs is missing too.
fn only_if<T>(so: Reckoned<bool>, reckon: impl FnOnce() -> Reckoned<T>) -> Reckoned<T> {
    match so.value {
        Some(true) => reckon(),
        Some(false) => Reckoned::unknown(so.trace),
        None => Reckoned::unknown(so.trace.union(reckon().trace)),
    }
}

/// The physics of the grip rests on a taper collet of ISO 15488.
pub(super) fn in_collet<T>(scene: &Scene<'_>, reckon: impl FnOnce() -> Reckoned<T>) -> Reckoned<T> {
    only_if(scene.view.held_in_collet(), reckon)
}

/// The geometry of the grip is that of any bore that holds a shank.
pub(super) fn in_a_bore<T>(scene: &Scene<'_>, reckon: impl FnOnce() -> Reckoned<T>) -> Reckoned<T> {
    only_if(scene.truth(Fact::HeldByShank), reckon)
}

/// The habit of two thirds is one of slotted collets.
pub(super) fn in_a_slotted_collet<T>(
    scene: &Scene<'_>,
    reckon: impl FnOnce() -> Reckoned<T>,
) -> Reckoned<T> {
    only_if(scene.truth(Fact::SlottedCollet), reckon)
}
