//! Facts about what clamps the tool, and whose bore closes on its shank.

use crate::library::{All, ClampingKind, Field, Provenance, Reckoned, SeatForm, ShankForm};
use crate::mechanics::axial;

use super::{Fact, Scene};

pub(super) fn held_by_shank<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<bool, P> {
    scene.view.held_by_shank()
}

pub(super) fn slotted_collet<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<bool, P> {
    scene.view.slotted_collet()
}

pub(super) fn held_in_chuck<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<bool, P> {
    scene.view.held_in_chuck()
}

/// The bore that grips: the collet's or sleeve's if there is one, else the holder's own.
fn bore<P: Provenance>(
    scene: &Scene<'_, P>,
    of_collet: Field,
    of_holder: Field,
) -> Reckoned<f64, P> {
    let held = scene.truth(Fact::HeldByShank);
    let slotted = scene.truth(Fact::SlottedCollet);
    match (held.value, slotted.value) {
        (_, Some(true)) => scene.field(of_collet).resting_on(slotted.trace),
        (Some(true), Some(false)) => scene.field(of_holder).resting_on(slotted.trace),
        (Some(false), _) => Reckoned::unknown(held.trace),
        _ => Reckoned::unknown(held.trace.union(scene.field(of_collet).trace)),
    }
}

pub(super) fn bore_length<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    bore(scene, Field::BoreLength, Field::HolderBoreLength)
}

pub(super) fn bore_diameter<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    bore(scene, Field::BoreDiameter, Field::HolderBoreDiameter)
}

/// Whether a clamp screw has to meet a flat: in such a holder the shank has one, and the seat is
/// not one for round bars.
pub(super) fn screw_on_flat<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<bool, P> {
    let kind = scene.listed::<ClampingKind>();
    kind.and_then(|kind| {
        let seat = scene.listed::<SeatForm>();
        if kind != ClampingKind::SideLock {
            return Reckoned::free(false);
        }
        if seat.value == Some(SeatForm::Round) {
            return Reckoned::known(false, seat.trace);
        }
        scene.listed::<ShankForm>().map(ShankForm::has_flat)
    })
}

/// Stick-out at which the clamp screw meets the middle of its flat.
pub(super) fn flat_stick_out<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
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
pub(super) fn shank_grade<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let class = scene.word(Field::ShankTolerance);
    class.and_then(|class| {
        let grade = class
            .trim()
            .trim_start_matches(|c: char| !c.is_ascii_digit());
        match grade.parse::<u8>() {
            Ok(grade) => Reckoned::free(f64::from(grade)),
            Err(_) => Reckoned::unknown(P::default()),
        }
    })
}

pub(super) fn held_in_collet<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<bool, P> {
    scene.view.held_in_collet()
}

/// What there is only where something is so, or may be so; where nobody knows whether it is, what
/// it needs is missing too.
fn only_if<T, P: Provenance>(
    so: Reckoned<bool, P>,
    reckon: impl FnOnce() -> Reckoned<T, P>,
) -> Reckoned<T, P> {
    match so.value {
        Some(true) => reckon(),
        Some(false) => Reckoned::unknown(so.trace),
        None => Reckoned::unknown(so.trace.union(reckon().trace)),
    }
}

/// The physics of the grip rests on a taper collet of ISO 15488.
pub(super) fn in_collet<T, P: Provenance>(
    scene: &Scene<'_, P>,
    reckon: impl FnOnce() -> Reckoned<T, P>,
) -> Reckoned<T, P> {
    only_if(scene.view.held_in_collet(), reckon)
}

/// The geometry of the grip is that of any bore that holds a shank.
pub(super) fn in_a_bore<T, P: Provenance>(
    scene: &Scene<'_, P>,
    reckon: impl FnOnce() -> Reckoned<T, P>,
) -> Reckoned<T, P> {
    only_if(scene.truth(Fact::HeldByShank), reckon)
}

/// The habit of two thirds is one of slotted collets.
pub(super) fn in_a_slotted_collet<T, P: Provenance>(
    scene: &Scene<'_, P>,
    reckon: impl FnOnce() -> Reckoned<T, P>,
) -> Reckoned<T, P> {
    only_if(scene.truth(Fact::SlottedCollet), reckon)
}
