//! Facts about how the shank lies in the bore that grips it.

use crate::library::{All, Field, Provenance, Reckoned, Setting, standard_sizes};
use crate::mechanics::axial::{self, Land, Shank};

use super::clamping::{in_a_bore, in_a_slotted_collet};
use super::{Fact, Scene};

/// The overall length that judges: after regrinds the smallest known one.
pub(super) fn overall_length<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    scene.view.overall_length()
}

/// Measured as a whole, else from nut and collet, or from the chuck's own recess.
pub(super) fn bore_setback<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    in_a_bore(scene, || {
        let measured = scene.field(Field::BoreSetback);
        if measured.is_known() {
            return measured;
        }
        if scene.truth(Fact::HeldInChuck).value == Some(true) {
            return chuck_setback(scene);
        }
        let parts = (
            scene.field(Field::FaceSetback),
            scene.field(Field::BoreRecess),
        );
        parts
            .all()
            .map(|(face, recess)| axial::bore_setback(face, recess))
    })
}

/// A sleeve ends at the holder's face; it grips where both it and the holder's bore do.
fn chuck_setback<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let own = scene.field(Field::HolderBoreRecess);
    if scene.truth(Fact::SlottedCollet).value != Some(true) {
        return own;
    }
    let recesses = (own, scene.field(Field::BoreRecess)).all();
    recesses.map(|(own, sleeve)| own.max(sleeve))
}

/// What is no plain shank at the shank end: a driving square, or rear flutes.
pub(super) fn rear_end<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let rear = optional(scene, Field::RearFluteLength);
    let square = scene.field(Field::DriveSquareLength);
    match rear.value {
        Some(_) => square.zip(rear).map(|(square, rear)| square.max(rear)),
        None => square,
    }
}

pub(super) fn plain_shank<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let lengths = (scene.field(Field::ShankLength), rear_end(scene));
    lengths
        .all()
        .map(|(shank, square)| axial::plain_shank(shank, square))
}

pub(super) fn shank<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<Shank, P> {
    let lengths = (
        overall_length(scene),
        scene.field(Field::ShankLength),
        rear_end(scene),
    );
    lengths
        .all()
        .map(|(overall_length, shank_length, square_length)| Shank {
            overall_length,
            shank_length,
            square_length,
        })
}

pub(super) fn land<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<Land, P> {
    let lengths = (
        scene.field(Field::StickOut),
        scene.number(Fact::BoreSetback),
        scene.number(Fact::BoreLength),
    );
    lengths
        .all()
        .map(|(stick_out, bore_setback, bore_length)| Land {
            stick_out,
            bore_setback,
            bore_length,
        })
}

/// The land behind the front face, wherever the tool stands.
pub(super) fn land_behind_face<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<Land, P> {
    let lengths = (
        scene.number(Fact::BoreSetback),
        scene.number(Fact::BoreLength),
    );
    lengths.all().map(|(bore_setback, bore_length)| Land {
        stick_out: 0.0,
        bore_setback,
        bore_length,
    })
}

pub(super) fn gripped_length<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    in_a_bore(scene, || {
        let both = (shank(scene), land(scene)).all();
        both.map(|(shank, land)| axial::gripped_length(shank, land))
    })
}

pub(super) fn grip_fraction<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let lengths = (
        scene.number(Fact::GrippedLength),
        scene.number(Fact::BoreLength),
    );
    in_a_bore(scene, || {
        lengths
            .all()
            .map(|(gripped, bore)| axial::grip_fraction(gripped, bore))
    })
}

pub(super) fn needed_grip<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let factors = (
        scene.setting(Setting::MinGripFraction),
        scene.number(Fact::BoreLength),
    );
    in_a_slotted_collet(scene, || {
        factors
            .all()
            .map(|(part, bore)| axial::needed_grip(part, bore))
    })
}

/// That it is above zero is known without the bore's length, which only caps it.
pub(super) fn ungripped_front<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    in_a_bore(scene, || {
        let front = (
            shank_front(scene),
            scene.field(Field::StickOut),
            scene.number(Fact::BoreSetback),
        );
        let front = front.all().map(|(shank, stick_out, bore_setback)| {
            let land = Land {
                stick_out,
                bore_setback,
                bore_length: f64::INFINITY,
            };
            axial::ungripped_front(shank, land)
        });
        let length = scene.number(Fact::BoreLength);
        match length.value {
            Some(_) if front.value != Some(0.0) => {
                front.zip(length).map(|(front, length)| front.min(length))
            }
            _ => front,
        }
    })
}

/// The shank as its front needs it: what stands at its end does not matter there.
pub(super) fn shank_front<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<Shank, P> {
    let lengths = (overall_length(scene), scene.field(Field::ShankLength));
    lengths.all().map(|(overall_length, shank_length)| Shank {
        overall_length,
        shank_length,
        square_length: 0.0,
    })
}

/// Overlap of the rear flutes of a double-ended cutter with the land.
pub(super) fn rear_flutes_in_bore<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    in_a_bore(scene, || {
        let lengths = (
            overall_length(scene),
            scene.field(Field::RearFluteLength),
            land(scene),
        );
        lengths
            .all()
            .map(|(overall, flutes, land)| axial::flat_in_bore(overall, 0.0, flutes, land))
    })
}

/// Walks from the front of the land to the shank: flutes come first, then neck or run-out.
///
/// Lengths from the tip are those of the new tool; a regrind takes its share off them.
pub(super) fn front_is<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<&'static str, P> {
    let ungripped = scene.number(Fact::UngrippedFront);
    let land_front = (
        scene.field(Field::StickOut),
        scene.number(Fact::BoreSetback),
    );
    let land_front = land_front.all().map(|(out, setback)| out + setback);
    (ungripped, land_front)
        .all()
        .and_then(|(ungripped, front)| {
            if ungripped <= 0.0 {
                return Reckoned::free("shank");
            }
            let flutes = optional(scene, Field::ChipFluteLength);
            let ground_off = ground_off(scene);
            let neck = neck_stated(scene);
            let trace = flutes.trace.union(ground_off.trace).union(neck.trace);
            let what = match flutes.value {
                Some(flutes) if front < flutes - ground_off.value.unwrap_or(0.0) => "flute",
                _ if neck.value == Some(true) => "neck",
                Some(_) => "run-out",
                None => "flute",
            };
            Reckoned::known(what, trace)
        })
}

/// A field that may be absent without anything being missing.
fn optional<P: Provenance>(scene: &Scene<'_, P>, field: Field) -> Reckoned<f64, P> {
    let found = scene.field(field);
    Reckoned {
        trace: found.trace.lacking_nothing(),
        ..found
    }
}

/// What regrinding has taken off the tip.
fn ground_off<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let lengths = (optional(scene, Field::OverallLength), overall_length(scene));
    lengths.all().map(|(new, now)| (new - now).max(0.0))
}

fn neck_stated<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<bool, P> {
    let stated = [Field::NeckDiameter, Field::NeckLength]
        .into_iter()
        .find(|field| scene.field(*field).is_known());
    match stated {
        Some(field) => Reckoned::known(true, P::used(field)),
        None => Reckoned::free(false),
    }
}

pub(super) fn bore_gap<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    in_a_bore(scene, || {
        let diameters = (
            scene.number(Fact::BoreDiameter),
            scene.field(Field::ShankDiameter),
        );
        diameters
            .all()
            .map(|(bore, shank)| axial::bore_gap(bore, shank))
    })
}

/// How far below its nominal bore a collet of the stated size is normally closed.
///
/// The table is from memory, and yet the value does not count as assumed: the one rule that uses
/// it allows half as much again, and what it then calls too far is so whatever the size's exact
/// collapse may be.
pub(super) fn normal_collapse<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let size = scene.field(Field::ColletSize);
    size.and_then(|size| match standard_sizes::collet_size(size) {
        Some(row) => Reckoned::free(row.collapse),
        None => Reckoned::unknown(P::default()),
    })
}
