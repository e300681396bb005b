//! Facts about how far the tool reaches, and how slender that makes it.

use crate::library::{All, Field, Reckoned};
use crate::mechanics::axial;
use crate::mechanics::reach;

use super::{Fact, Scene};

pub(super) fn needed(scene: &Scene<'_>) -> Reckoned<f64> {
    let lengths = (scene.field(Field::Reach), scene.field(Field::Clearance));
    lengths
        .all()
        .map(|(reach, clearance)| reach::needed(reach, clearance))
}

pub(super) fn margin(scene: &Scene<'_>) -> Reckoned<f64> {
    let lengths = (
        scene.field(Field::StickOut),
        scene.number(Fact::ReachNeeded),
    );
    lengths
        .all()
        .map(|(out, needed)| reach::margin(out, needed))
}

pub(super) fn point_length(scene: &Scene<'_>) -> Reckoned<f64> {
    let point = (
        scene.field(Field::CuttingDiameter),
        scene.field(Field::PointAngle),
    );
    point
        .all()
        .map(|(diameter, angle)| axial::point_length(diameter, angle))
}

pub(super) fn protruding_length(scene: &Scene<'_>) -> Reckoned<f64> {
    let lengths = (
        scene.field(Field::GaugeLength),
        scene.field(Field::StickOut),
    );
    lengths
        .all()
        .map(|(gauge, out)| axial::protruding_length(gauge, out))
}

/// For a pointed tool the cutting reference point lies a point length behind the tip.
pub(super) fn functional_length(scene: &Scene<'_>) -> Reckoned<f64> {
    let protruding = scene.number(Fact::BuiltProtrudingLength);
    let kind = scene.view.word(Field::CutterKind);
    let pointed = |kind: &str| {
        matches!(
            kind,
            "drill" | "centre drill" | "spot drill" | "step drill" | "countersink" | "chamfer"
        )
    };
    kind.and_then(|kind| {
        if !pointed(kind) {
            return protruding;
        }
        let lengths = (protruding, scene.number(Fact::PointLength)).all();
        lengths.map(|(protruding, point)| reach::functional_length(protruding, point))
    })
}

/// The greatest of the ratios that are known; unknown only if none is.
pub(super) fn overhang_ratio(scene: &Scene<'_>) -> Reckoned<f64> {
    let head = scene.field(Field::HeadLength);
    let head = if head.is_known() {
        head
    } else {
        scene.field(Field::ChipFluteLength)
    };
    let ratio = |length: Reckoned<f64>, diameter: Field| {
        let both = (length, scene.field(diameter)).all();
        both.map(|(length, diameter)| reach::overhang_ratio(length, diameter))
    };
    let ratios = [
        ratio(scene.field(Field::StickOut), Field::ShankDiameter),
        ratio(head, Field::CuttingDiameter),
        ratio(scene.field(Field::NeckLength), Field::NeckDiameter),
    ];
    let [of_shank, ..] = ratios;
    let known = ratios.into_iter().filter(Reckoned::is_known);
    let size = |ratio: &Reckoned<f64>| ratio.value.unwrap_or(f64::NEG_INFINITY);
    let greatest = known.max_by(|a, b| size(a).total_cmp(&size(b)));
    greatest.unwrap_or(of_shank)
}
