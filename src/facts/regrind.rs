//! Facts about regrinding: how short a tool may get.

use crate::library::{All, CutterKind, Field, Provenance, Reckoned, View};
use crate::mechanics::axial;

use super::clamping::in_a_slotted_collet;
use super::grip::{land, rear_end};
use super::{Fact, Scene};

/// The shortest tool that has the needed grip, and as a drill the flutes for its deepest hole.
pub(super) fn shortest_overall_length<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let gripped = in_a_slotted_collet(scene, || {
        let lengths = (land(scene), scene.number(Fact::NeededGrip), rear_end(scene));
        lengths
            .all()
            .map(|(land, needed, square)| axial::shortest_overall_length(land, needed, square))
    });
    let flutes = flutes_needed(scene);
    gripped
        .zip(flutes)
        .map(|(gripped, flutes)| gripped.max(flutes))
}

/// The shortest drill whose flutes are still as long as its deepest hole is deep; unknown for
/// other tools, and for a drill of whose holes none is known.
pub(super) fn shortest_for_flutes<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    if !scene.word(Field::CutterKind).is_known() {
        return Reckoned::missing(Field::CutterKind);
    }
    let needed = flutes_needed(scene);
    match needed.value {
        Some(length) if length <= 0.0 => Reckoned::unknown(needed.trace),
        _ => needed,
    }
}

/// The same; 0 where no flutes are asked for. Regrinding takes as much of the flutes as of the
/// whole length.
fn flutes_needed<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let kind = scene.listed::<CutterKind>();
    match kind.value {
        Some(CutterKind::Drill) => {}
        Some(_) => return Reckoned::known(0.0, kind.trace.presence()),
        // It may be a drill: nobody knows what it asks for.
        None => return Reckoned::unknown(kind.trace),
    }
    let holes = scene.view.assembly.operations.iter().map(|operation| {
        let view = View {
            operation: Some(*operation),
            ..scene.view
        };
        view.number(Field::Reach)
    });
    let deepest = holes.reduce(|a, b| a.zip(b).map(|(a, b)| a.max(b)));
    let Some(deepest) = deepest else {
        return Reckoned::known(0.0, kind.trace.presence());
    };
    let lengths = (
        scene.view.overall_length(),
        scene.field(Field::ChipFluteLength),
        deepest,
    );
    lengths
        .all()
        .map(|(overall, flutes, reach)| axial::shortest_for_flutes(overall, flutes, reach))
}
