//! Facts about what could be had: how far a tool could go in, and how much grip that gives.

use crate::library::{All, Field, Reckoned, Setting, View};
use crate::mechanics::axial;
use crate::mechanics::reach;

use super::grip::{in_collet, land, shank};
use super::{Fact, Scene};

/// The lesser of two bounds that may be unknown; infinite if neither is known.
fn lowered(one: Reckoned<f64>, other: Reckoned<f64>) -> Reckoned<f64> {
    let known = [one, other].into_iter().filter(Reckoned::is_known);
    known
        .reduce(|a, b| a.zip(b).map(|(a, b)| a.min(b)))
        .unwrap_or(Reckoned::free(f64::INFINITY))
}

/// The least stick-out that all operations, the flutes and the known stops allow.
///
/// Unknown without operations, or with one whose reach is unknown: then nobody can say that
/// the tool sticks out further than it must.
pub(super) fn least_stick_out(scene: &Scene<'_>) -> Reckoned<f64> {
    in_collet(scene, || {
        let bound = (shank(scene), scene.number(Fact::BoreSetback)).all();
        let bound = bound.zip(needed(scene));
        let stop = (
            scene.field(Field::InsertionDepthMax),
            scene.number(Fact::DrawIn),
            scene.setting(Setting::ClosingRoom),
        );
        let stop = stop
            .all()
            .map(|(depth, draw_in, room)| axial::deepest_insertion(depth, draw_in, room));
        let deepest = lowered(stop, scene.number(Fact::MakerClampingMax));
        bound
            .zip(deepest)
            .map(|(((shank, setback), needs), deepest)| {
                axial::least_stick_out(shank, setback, needs, deepest)
            })
    })
}

/// The greatest reach that any operation needs.
fn needed(scene: &Scene<'_>) -> Reckoned<f64> {
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
pub(super) fn best_grip(scene: &Scene<'_>) -> Reckoned<f64> {
    in_collet(scene, || {
        let all = (shank(scene), land(scene), scene.number(Fact::LeastStickOut));
        all.all().map(|(shank, land, stick_out)| {
            axial::gripped_length(shank, axial::Land { stick_out, ..land })
        })
    })
}

/// Stick-out beyond the least.
pub(super) fn spare_overhang(scene: &Scene<'_>) -> Reckoned<f64> {
    let lengths = (
        scene.field(Field::StickOut),
        scene.number(Fact::LeastStickOut),
    );
    lengths.all().map(|(out, least)| reach::margin(out, least))
}

/// Whether any operation reams or finishes. Operations that do not say count as neither.
pub(super) fn fine_work(scene: &Scene<'_>) -> Reckoned<bool> {
    let mut trace = crate::library::Trace::default();
    for operation in &scene.view.assembly.operations {
        let view = View {
            operation: Some(*operation),
            ..scene.view
        };
        let kind = view.word(Field::OperationKind);
        let finishing = view.flag(Field::Finishing);
        for (fine, of) in [
            (kind.value == Some("reaming"), kind.trace),
            (finishing.value == Some(true), finishing.trace),
        ] {
            if fine {
                trace = trace.union(of);
                return Reckoned::known(true, trace);
            }
        }
    }
    Reckoned::free(false)
}
