//! Facts about what could be had: how far a tool could go in, and how much grip that gives.

use crate::library::{All, Field, FieldSet, Reckoned, Setting, Trace, View};
use crate::mechanics::axial;

use super::grip::{in_collet, land, shank};
use super::{Fact, Scene};

/// Takes the greater of what is known and a further bound that may be unknown.
fn raised(bound: Reckoned<f64>, by: Reckoned<f64>) -> Reckoned<f64> {
    match by.value {
        None => bound,
        Some(_) => bound.zip(by).map(|(a, b)| a.max(b)),
    }
}

/// The least stick-out that all operations, the flutes and the known stops allow.
///
/// Unknown without operations, or with one whose reach is unknown: then nobody can say that
/// the tool sticks out further than it must.
pub(super) fn least_stick_out(scene: &Scene<'_>) -> Reckoned<f64> {
    in_collet(scene, || {
        let bound = flutes_out(scene)
            .zip(reach(scene))
            .map(|(flutes, reach)| flutes.max(reach));
        let overall = scene.view.overall_length();
        let maker = (overall, scene.number(Fact::MakerClampingMax)).all();
        let maker = maker.map(|(overall, most)| overall - most);
        let bound = match stop(scene, overall) {
            None => bound,
            Some(stop) => bound.zip(stop).map(|(a, b)| a.max(b)),
        };
        raised(bound, maker).map(|least| least.max(0.0))
    })
}

/// The stick-out at which the flutes begin to leave the land. A shank length that is only
/// assumed may be an upper bound: nobody is to be sent into the bore on the strength of it.
fn flutes_out(scene: &Scene<'_>) -> Reckoned<f64> {
    let length = scene.field(Field::ShankLength);
    if length.trace.assumed.contains(Field::ShankLength) {
        return Reckoned::missing(Field::ShankLength);
    }
    let both = (shank(scene), land(scene)).all();
    both.map(|(shank, land)| shank.overall_length - shank.shank_length - land.bore_setback)
}

/// The stick-out that a stated stop allows; unknown if the collet's draw-in is. The depth of a
/// holder says nothing of a tool that sits in an extension.
fn stop(scene: &Scene<'_>, overall: Reckoned<f64>) -> Option<Reckoned<f64>> {
    let depth = scene.field(Field::InsertionDepthMax);
    if !depth.is_known() || scene.view.word(Field::Extension).is_known() {
        return None;
    }
    let stop = (
        overall,
        depth,
        scene.number(Fact::DrawIn),
        scene.setting(Setting::ClosingRoom),
    );
    let stop = stop.all();
    Some(stop.map(|(overall, depth, draw_in, room)| overall - (depth - draw_in - room)))
}

/// The greatest reach that any operation needs.
fn reach(scene: &Scene<'_>) -> Reckoned<f64> {
    let operations = scene.view.assembly.operations.iter();
    let each = operations.map(|operation| {
        let view = View {
            operation: Some(*operation),
            ..scene.view
        };
        let lengths = (view.number(Field::Reach), view.number(Field::Clearance));
        lengths.all().map(|(reach, clearance)| reach + clearance)
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
    lengths.all().map(|(out, least)| out - least)
}

/// Whether any operation reams or finishes. Operations that do not say count as neither.
pub(super) fn fine_work(scene: &Scene<'_>) -> Reckoned<bool> {
    let mut trace = Trace::default();
    for operation in &scene.view.assembly.operations {
        let view = View {
            operation: Some(*operation),
            ..scene.view
        };
        let kind = view.word(Field::OperationKind);
        let finishing = view.flag(Field::Finishing);
        trace = trace
            .union(kind.trace.presence())
            .union(finishing.trace.presence());
        if kind.value == Some("reaming") || finishing.value == Some(true) {
            return Reckoned::known(true, trace);
        }
    }
    // What no operation says is not lacking.
    trace.absent = FieldSet::default();
    Reckoned::known(false, trace)
}
