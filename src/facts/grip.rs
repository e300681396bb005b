//! Facts about how the shank lies in the collet.

use crate::library::{All, Field, FieldSet, Reckoned, Setting, Trace};
use crate::mechanics::axial::{self, Land, Shank};
use crate::mechanics::reach;

use super::{Fact, Scene};

pub(super) fn held_in_collet(scene: &Scene<'_>) -> Reckoned<bool> {
    scene.view.held_in_collet()
}

/// Facts about the grip exist only where a collet holds, or may hold, the tool.
pub(super) fn in_collet<T>(scene: &Scene<'_>, reckon: impl FnOnce() -> Reckoned<T>) -> Reckoned<T> {
    let held = scene.view.held_in_collet();
    match held.value {
        Some(true) => reckon(),
        Some(false) => Reckoned::unknown(held.trace),
        None => Reckoned::unknown(held.trace.union(reckon().trace)),
    }
}

/// The overall length that judges: after regrinds the smallest known one.
pub(super) fn overall_length(scene: &Scene<'_>) -> Reckoned<f64> {
    scene.view.overall_length()
}

pub(super) fn insertion(scene: &Scene<'_>) -> Reckoned<f64> {
    let lengths = (overall_length(scene), scene.field(Field::StickOut));
    lengths
        .all()
        .map(|(overall, out)| axial::insertion(overall, out))
}

/// Measured as a whole, else from nut and collet.
pub(super) fn bore_setback(scene: &Scene<'_>) -> Reckoned<f64> {
    in_collet(scene, || {
        let measured = scene.field(Field::BoreSetback);
        if measured.is_known() {
            return measured;
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

pub(super) fn plain_shank(scene: &Scene<'_>) -> Reckoned<f64> {
    let lengths = (
        scene.field(Field::ShankLength),
        scene.field(Field::DriveSquareLength),
    );
    lengths
        .all()
        .map(|(shank, square)| axial::plain_shank(shank, square))
}

pub(super) fn shank(scene: &Scene<'_>) -> Reckoned<Shank> {
    let lengths = (
        overall_length(scene),
        scene.field(Field::ShankLength),
        scene.field(Field::DriveSquareLength),
    );
    lengths
        .all()
        .map(|(overall_length, shank_length, square_length)| Shank {
            overall_length,
            shank_length,
            square_length,
        })
}

pub(super) fn land(scene: &Scene<'_>) -> Reckoned<Land> {
    let lengths = (
        scene.field(Field::StickOut),
        scene.number(Fact::BoreSetback),
        scene.field(Field::BoreLength),
    );
    lengths
        .all()
        .map(|(stick_out, bore_setback, bore_length)| Land {
            stick_out,
            bore_setback,
            bore_length,
        })
}

pub(super) fn gripped_length(scene: &Scene<'_>) -> Reckoned<f64> {
    in_collet(scene, || {
        let both = (shank(scene), land(scene)).all();
        both.map(|(shank, land)| axial::gripped_length(shank, land))
    })
}

pub(super) fn grip_fraction(scene: &Scene<'_>) -> Reckoned<f64> {
    let lengths = (
        scene.number(Fact::GrippedLength),
        scene.field(Field::BoreLength),
    );
    in_collet(scene, || {
        lengths
            .all()
            .map(|(gripped, bore)| axial::grip_fraction(gripped, bore))
    })
}

pub(super) fn needed_grip(scene: &Scene<'_>) -> Reckoned<f64> {
    let factors = (
        scene.setting(Setting::MinGripFraction),
        scene.field(Field::BoreLength),
    );
    in_collet(scene, || {
        factors
            .all()
            .map(|(part, bore)| axial::needed_grip(part, bore))
    })
}

pub(super) fn ungripped_front(scene: &Scene<'_>) -> Reckoned<f64> {
    in_collet(scene, || {
        let bare = Land {
            bore_length: f64::INFINITY,
            ..Land::default()
        };
        let front = (
            shank(scene),
            scene.field(Field::StickOut),
            scene.number(Fact::BoreSetback),
        );
        let front = front.all().map(|(shank, stick_out, bore_setback)| {
            let land = Land {
                stick_out,
                bore_setback,
                ..bare
            };
            axial::ungripped_front(shank, land)
        });
        // Where the shank begins in front of the land, the land's length does not matter.
        if front.value == Some(0.0) {
            return front;
        }
        let both = (shank(scene), land(scene)).all();
        both.map(|(shank, land)| axial::ungripped_front(shank, land))
    })
}

/// Walks from the front of the land to the shank: flutes come first, then neck or run-out.
///
/// Lengths from the tip are those of the new tool; a regrind takes its share off them.
pub(super) fn front_is(scene: &Scene<'_>) -> Reckoned<&'static str> {
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
fn optional(scene: &Scene<'_>, field: Field) -> Reckoned<f64> {
    let mut found = scene.field(field);
    found.trace.missing = FieldSet::default();
    found
}

/// What regrinding has taken off the tip.
fn ground_off(scene: &Scene<'_>) -> Reckoned<f64> {
    let lengths = (optional(scene, Field::OverallLength), overall_length(scene));
    lengths.all().map(|(new, now)| (new - now).max(0.0))
}

fn neck_stated(scene: &Scene<'_>) -> Reckoned<bool> {
    let stated = [Field::NeckDiameter, Field::NeckLength]
        .into_iter()
        .find(|field| scene.field(*field).is_known());
    match stated {
        Some(field) => Reckoned::known(true, Trace::used(field)),
        None => Reckoned::free(false),
    }
}

pub(super) fn bore_gap(scene: &Scene<'_>) -> Reckoned<f64> {
    in_collet(scene, || {
        let diameters = (
            scene.field(Field::BoreDiameter),
            scene.field(Field::ShankDiameter),
        );
        diameters
            .all()
            .map(|(bore, shank)| axial::bore_gap(bore, shank))
    })
}

/// A shank thicker than the bore is a fault of its own and draws nothing in.
pub(super) fn draw_in(scene: &Scene<'_>) -> Reckoned<f64> {
    let gap = scene.number(Fact::BoreGap);
    gap.map(|gap| axial::draw_in(gap.max(0.0)))
}

/// The collet's rear end, behind the front face.
pub(super) fn collet_rear(scene: &Scene<'_>) -> Reckoned<f64> {
    let lengths = (
        scene.field(Field::FaceSetback),
        scene.field(Field::ColletLength),
    );
    lengths
        .all()
        .map(|(face, length)| axial::collet_rear(face, length))
}

/// Whether tap and collet both have a square; the sizes are another matter.
pub(super) fn squares(scene: &Scene<'_>) -> Reckoned<(f64, f64)> {
    let squares = (
        scene.field(Field::CutterDriveSquare),
        scene.field(Field::ColletDriveSquare),
    );
    squares.all()
}

pub(super) fn square_engagement(scene: &Scene<'_>) -> Reckoned<f64> {
    in_collet(scene, || {
        let lengths = (
            scene.number(Fact::Insertion),
            scene.field(Field::DriveSquareLength),
            land(scene),
            collet_rear(scene),
        );
        let overlap = lengths.all().map(|(insertion, square, land, rear)| {
            axial::square_engagement(insertion, square, land, rear)
        });
        squares(scene).and_then(|_| overlap)
    })
}

pub(super) fn square_insertion(scene: &Scene<'_>) -> Reckoned<f64> {
    in_collet(scene, || {
        let lengths = (
            land(scene),
            scene.field(Field::DriveSquareLength),
            scene.setting(Setting::SquareShare),
        );
        let least = lengths
            .all()
            .map(|(land, square, share)| axial::square_insertion(land, square, share));
        squares(scene).and_then(|_| least)
    })
}

pub(super) fn insertion_needed(scene: &Scene<'_>) -> Reckoned<f64> {
    in_collet(scene, || {
        let lengths = (
            scene.number(Fact::BoreSetback),
            scene.number(Fact::NeededGrip),
            scene.field(Field::DriveSquareLength),
        );
        // What nobody states asks nothing.
        let asks = |found: Reckoned<f64>| match found.value {
            Some(_) => found,
            None => Reckoned::free(f64::NEG_INFINITY),
        };
        let others = (
            asks(scene.number(Fact::MakerClampingMin)),
            asks(scene.number(Fact::SquareInsertion)),
        );
        lengths
            .all()
            .zip(others.all())
            .map(|((setback, grip, square), others)| {
                axial::insertion_needed(setback, grip, square, others)
            })
    })
}

pub(super) fn tail_gap(scene: &Scene<'_>) -> Reckoned<f64> {
    let lengths = (
        scene.field(Field::InsertionDepthMax),
        scene.number(Fact::Insertion),
    );
    lengths
        .all()
        .map(|(depth, insertion)| reach::margin(depth, insertion))
}

pub(super) fn shortest_overall_length(scene: &Scene<'_>) -> Reckoned<f64> {
    in_collet(scene, || {
        let lengths = (
            land(scene),
            scene.number(Fact::NeededGrip),
            scene.field(Field::DriveSquareLength),
        );
        lengths
            .all()
            .map(|(land, needed, square)| axial::shortest_overall_length(land, needed, square))
    })
}
