//! Facts about what could be had: how far a tool could go in, and how much grip that gives.

use crate::library::{All, Field, OperationKind, Origin, Provenance, Reckoned, Setting, View};
use crate::mechanics::reach;
use crate::mechanics::{axial, square};

use super::clamping::in_a_bore;
use super::grip::{land_behind_face, shank, shank_front};
use super::square::{collet_rear, squares};
use super::{Fact, Scene};

/// The lesser of a bound and a further one that may be unknown.
fn lowered<P: Provenance>(bound: Reckoned<f64, P>, by: Reckoned<f64, P>) -> Reckoned<f64, P> {
    match by.value {
        None => bound,
        Some(_) => bound.zip(by).map(|(a, b)| a.min(b)),
    }
}

/// The least stick-out that all operations, the flutes and the known stops allow.
///
/// Unknown without operations, or with one whose reach is unknown: then nobody can say that
/// the tool sticks out further than it must.
pub(super) fn least_stick_out<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    in_a_bore(scene, || {
        let parts = (stated_shank(scene), scene.number(Fact::BoreSetback)).all();
        parts
            .zip(needed(scene))
            .zip(deepest(scene))
            .map(|(((shank, setback), needs), deepest)| {
                axial::least_stick_out(shank, setback, needs, deepest)
            })
    })
}

/// The insertion that a stop, a maker and a tap's square allow, the least of them.
pub(super) fn insertion_possible<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    in_a_bore(scene, || {
        let found = deepest(scene);
        match found.value {
            Some(deepest) if deepest.is_infinite() => Reckoned::missing(Field::InsertionDepthMax),
            _ => found,
        }
    })
}

/// The same, infinite where nothing limits it.
fn deepest<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let deepest = lowered(stop(scene), scene.number(Fact::MakerClampingMax));
    lowered(deepest, square(scene))
}

/// The shank, unless its length is only assumed: that may be an upper bound, and nobody is to
/// be sent into the bore on the strength of it.
fn stated_shank<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<axial::Shank, P> {
    let (_, origin) = scene.view.with_origin(Field::ShankLength);
    if matches!(origin, Origin::Assumed(_)) {
        return Reckoned::missing(Field::ShankLength);
    }
    shank_front(scene)
}

/// The insertion that a stated stop allows; unknown if the collet's draw-in is, infinite without
/// a stop. In a chuck nothing travels, so that the shank end may touch it. The depth of a holder says nothing of a tool that sits in an extension.
fn stop<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let depth = scene.field(Field::InsertionDepthMax);
    if !depth.is_known() || scene.word(Field::Extension).is_known() {
        return Reckoned::free(f64::INFINITY);
    }
    let chuck = scene.truth(Fact::HeldInChuck);
    let room = match chuck.value {
        Some(true) => chuck.map(|_| 0.0),
        _ => scene.setting(Setting::ClosingRoom),
    };
    let lengths = (depth, scene.number(Fact::DrawIn), room).all();
    lengths.map(|(depth, draw_in, room)| axial::deepest_insertion(depth, draw_in, room))
}

/// The insertion that the square of a tapping collet allows; unknown where none is driven.
fn square<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let lengths = (
        collet_rear(scene),
        scene.field(Field::DriveSquareLength),
        scene.setting(Setting::SquareShare),
    );
    let deepest = lengths
        .all()
        .map(|(rear, square, share)| square::deepest_square(rear, square, share));
    squares(scene).and_then(|_| deepest)
}

/// The greatest reach that any operation needs.
fn needed<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let operations = scene.view.assembly.operations.iter();
    let each = operations.map(|operation| {
        let view = View {
            operation: Some(*operation),
            ..scene.view
        };
        let lengths = (view.number(Field::Reach), view.number(Field::Clearance));
        lengths
            .all()
            .map(|(reach, clearance)| reach::needed(reach, clearance))
    });
    each.reduce(|a, b| a.zip(b).map(|(a, b)| a.max(b)))
        .unwrap_or(Reckoned::missing(Field::Reach))
}

/// The grip at the least stick-out.
pub(super) fn best_grip<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    in_a_bore(scene, || {
        let land = land_behind_face(scene);
        let all = (shank(scene), land, scene.number(Fact::LeastStickOut));
        all.all().map(|(shank, land, stick_out)| {
            axial::gripped_length(shank, axial::Land { stick_out, ..land })
        })
    })
}

/// Stick-out beyond the least.
pub(super) fn spare_overhang<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let lengths = (
        scene.field(Field::StickOut),
        scene.number(Fact::LeastStickOut),
    );
    lengths.all().map(|(out, least)| reach::margin(out, least))
}

/// Whether any operation reams or finishes. Operations that do not say count as neither.
pub(super) fn fine_work<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<bool, P> {
    let mut trace = P::default();
    for operation in &scene.view.assembly.operations {
        let view = View {
            operation: Some(*operation),
            ..scene.view
        };
        let kind = view.listed::<OperationKind>();
        let finishing = view.flag(Field::Finishing);
        trace = trace
            .union(kind.trace.presence())
            .union(finishing.trace.presence());
        if kind.value == Some(OperationKind::Reaming) || finishing.value == Some(true) {
            return Reckoned::known(true, trace);
        }
    }
    // What no operation says is not lacking.
    Reckoned::known(false, trace.absent_nothing())
}
