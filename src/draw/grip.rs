//! The collet's gripping land, and what of it grips.

use crate::facts::{Fact, Scene};
use crate::library::{All, Field};

use super::{Grip, Land, Mark, Part, PartKind};

/// The gripping land of a collet; that of a chuck is not drawn.
pub(super) fn land(scene: &Scene<'_>) -> Option<Land> {
    if scene.view.held_in_collet().value == Some(false) {
        return None;
    }
    let front = (
        scene.field(Field::StickOut),
        scene.number(Fact::BoreSetback),
    );
    let front = front.all().map(|(out, setback)| out + setback);
    let end = (front, scene.field(Field::BoreLength)).all();
    Some(Land {
        from: Mark::of(front)?,
        to: Mark::of(end.map(|(front, length)| front + length)),
        bore_diameter: scene.field(Field::BoreDiameter).value,
    })
}

/// What of the land grips: known exactly where the fact of the gripped length is.
pub(super) fn grip(scene: &Scene<'_>, land: Option<Land>, cutter: &[Part]) -> Grip {
    if scene.view.held_in_collet().value == Some(false) {
        return Grip::NoCollet;
    }
    let gripped = scene.number(Fact::GrippedLength);
    if !gripped.is_known() {
        return Grip::Unknown(gripped.trace.missing);
    }
    let shank = cutter.iter().find(|part| part.kind == PartKind::Shank);
    let land = land.and_then(|land| land.span());
    let both = land.zip(shank.map(|part| part.span));
    let overlap = both.and_then(|(land, shank)| land.overlap(&shank));
    overlap.map_or(Grip::Nothing, Grip::Over)
}
