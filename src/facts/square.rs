//! Facts about a tap's square in the square of its collet.

use crate::library::{All, Field, Provenance, Reckoned, Setting};
use crate::mechanics::{axial, square};

use super::clamping::in_collet;
use super::grip::land_behind_face;
use super::{Fact, Scene};

/// The collet's rear end, behind the front face.
pub(super) fn collet_rear<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let lengths = (
        scene.field(Field::FaceSetback),
        scene.field(Field::ColletLength),
    );
    lengths
        .all()
        .map(|(face, length)| axial::collet_rear(face, length))
}

/// Whether tap and collet both have a square; the sizes are another matter.
pub(super) fn squares<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<(f64, f64), P> {
    let squares = (
        scene.field(Field::CutterDriveSquare),
        scene.field(Field::ColletDriveSquare),
    );
    squares.all()
}

pub(super) fn square_engagement<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    in_collet(scene, || {
        let lengths = (
            scene.number(Fact::Insertion),
            scene.field(Field::DriveSquareLength),
            land_behind_face(scene),
            collet_rear(scene),
        );
        let overlap = lengths.all().map(|(insertion, square, land, rear)| {
            square::square_engagement(insertion, square, land, rear)
        });
        squares(scene).and_then(|_| overlap)
    })
}

pub(super) fn square_insertion<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    in_collet(scene, || {
        let lengths = (
            land_behind_face(scene),
            scene.field(Field::DriveSquareLength),
            scene.setting(Setting::SquareShare),
        );
        let least = lengths
            .all()
            .map(|(land, square, share)| square::square_insertion(land, square, share));
        squares(scene).and_then(|_| least)
    })
}
