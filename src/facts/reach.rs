//! Facts about how far the tool reaches, and how slender that makes it.

use crate::library::{All, CutterKind, Field, Provenance, Reckoned, Trace};
use crate::mechanics::axial;
use crate::mechanics::reach;

use super::fit::unless_extended;
use super::{Fact, Scene};

/// Diameters closer than this count as one, mm.
const SAME_DIAMETER: f64 = 0.1;

pub(super) fn needed<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let lengths = (scene.field(Field::Reach), scene.field(Field::Clearance));
    lengths
        .all()
        .map(|(reach, clearance)| reach::needed(reach, clearance))
}

/// The same with the clearance that advice keeps: no face is set onto the work because nobody
/// states one.
pub(super) fn advised<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let kept = scene.view.range(Field::Clearance).map(|(_, kept)| kept);
    let clearance = kept.map_or_else(|| scene.field(Field::Clearance), Reckoned::free);
    let lengths = (scene.field(Field::Reach), clearance);
    lengths
        .all()
        .map(|(reach, clearance)| reach::needed(reach, clearance))
}

pub(super) fn margin<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let lengths = (
        scene.field(Field::StickOut),
        scene.number(Fact::ReachNeeded),
    );
    lengths
        .all()
        .map(|(out, needed)| reach::margin(out, needed))
}

pub(super) fn point_length<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let point = (
        scene.field(Field::CuttingDiameter),
        scene.field(Field::PointAngle),
    );
    point
        .all()
        .map(|(diameter, angle)| axial::point_length(diameter, angle))
}

/// Says nothing where the stick-out itself is known from the protruding length: the two would
/// agree whatever they are.
pub(super) fn protruding_length<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    unless_from(scene, Field::ProtrudingLength, built)
}

/// The insertion, to be compared with a stated clamping length; says nothing where the stick-out
/// is known from that length.
pub(super) fn clamping_length<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    unless_from(scene, Field::ClampingLength, |scene| {
        scene.number(Fact::Insertion)
    })
}

fn unless_from<P: Provenance>(
    scene: &Scene<'_, P>,
    source: Field,
    built: fn(&Scene<'_, P>) -> Reckoned<f64, P>,
) -> Reckoned<f64, P> {
    // Only the full provenance names fields.
    let named = scene.view.resting::<Trace>().number(Field::StickOut);
    if named.trace.used.contains(source) {
        return Reckoned::unknown(scene.field(Field::StickOut).trace.presence());
    }
    built(scene)
}

/// Unknown with an extension: no library states by how much it carries the tool forward.
fn built<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    unless_extended(scene, || {
        let lengths = (
            scene.field(Field::GaugeLength),
            scene.field(Field::StickOut),
        );
        lengths
            .all()
            .map(|(gauge, out)| axial::protruding_length(gauge, out))
    })
}

/// For a pointed tool the cutting reference point lies a point length behind the tip. A stick-out
/// that is known from the protruding length may be compared with this one: two lengths were
/// stated.
pub(super) fn functional_length<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let protruding = built(scene);
    let kind = scene.listed::<CutterKind>();
    kind.and_then(|kind| {
        if !kind.is_pointed() {
            return protruding;
        }
        let lengths = (protruding, scene.number(Fact::PointLength)).all();
        lengths.map(|(protruding, point)| reach::functional_length(protruding, point))
    })
}

pub(super) fn overhang_ratio<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let head = scene.field(Field::HeadLength);
    let head = if head.is_known() {
        head
    } else {
        scene.field(Field::ChipFluteLength)
    };
    greatest(scene, head)
}

/// In front of a shank thicker than the cut lies a cone, which does not bend: there the head
/// ends with the flutes, and the neck counts by itself. The cutting diameter of a tapered cutter
/// is that of its tip, and says nothing of its head.
pub(super) fn slenderness_ratio<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let diameters = (
        scene.field(Field::ShankDiameter),
        scene.field(Field::CuttingDiameter),
    );
    if scene.listed::<CutterKind>().value == Some(CutterKind::Tapered) {
        return greatest(scene, Reckoned::unknown(P::default()));
    }
    match diameters.all().value {
        Some((shank, cut)) if shank > cut + SAME_DIAMETER => {
            greatest(scene, scene.field(Field::ChipFluteLength))
        }
        _ => scene.number(Fact::OverhangRatio),
    }
}

/// The greatest of the ratios that can be formed. What need not be stated may be left out: a
/// neck, a head, the flutes, and the shank of a tool that sits in no collet. But where a value
/// that every library must state is missing, the ratio that needs it might be the greatest, and
/// nothing is known.
fn greatest<P: Provenance>(scene: &Scene<'_, P>, head: Reckoned<f64, P>) -> Reckoned<f64, P> {
    let ratio = |length: Reckoned<f64, P>, diameter: Field| {
        let both = (length, scene.field(diameter)).all();
        both.map(|(length, diameter)| reach::overhang_ratio(length, diameter))
    };
    let ratios = [
        ratio(scene.field(Field::StickOut), Field::ShankDiameter),
        ratio(head, Field::CuttingDiameter),
        ratio(scene.field(Field::NeckLength), Field::NeckDiameter),
    ];
    let [of_shank, of_head, _] = ratios;
    let in_no_collet = scene.view.held_in_collet().value == Some(false);
    let shank_stated = scene.field(Field::ShankDiameter).is_known();
    if !of_shank.is_known() && (!in_no_collet || shank_stated) {
        return of_shank;
    }
    if head.is_known() && !of_head.is_known() {
        return of_head;
    }
    let known = ratios.into_iter().filter(Reckoned::is_known);
    let size = |ratio: &Reckoned<f64, P>| ratio.value.unwrap_or(f64::NEG_INFINITY);
    let greatest = known.max_by(|a, b| size(a).total_cmp(&size(b)));
    greatest.unwrap_or(of_shank)
}
