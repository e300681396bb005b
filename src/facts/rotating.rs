//! Facts about run-out, speed and balance.

use crate::library::{All, Field, OperationKind, Provenance, Reckoned, View, standard_sizes};
use crate::mechanics::rotation;

use super::cutting;
use super::{Fact, Scene};

/// Measured, else what a new collet of the normal class may show, carried out to the tip. The
/// class holds at the nominal bore only, so it is assumed.
pub(super) fn run_out_tip<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let measured = scene.field(Field::RunOut);
    if measured.is_known() {
        return measured;
    }
    let held = scene.view.held_in_collet();
    if held.value != Some(true) {
        return measured;
    }
    let inputs = (
        scene.field(Field::BoreDiameter),
        scene.field(Field::StickOut),
    )
        .all();
    inputs.and_then(|(bore, out)| match standard_sizes::run_out(bore) {
        Some((distance, run_out)) => Reckoned::known(
            rotation::run_out_at_tip(run_out, distance, out),
            P::assumed(Field::RunOut),
        ),
        None => Reckoned::missing(Field::RunOut),
    })
}

/// Lips of a drill.
const LIPS: f64 = 2.0;

/// Teeth that share the cut, and the thickest chip of each.
fn teeth<P: Provenance>(scene: &Scene<'_, P>) -> (Reckoned<f64, P>, Reckoned<f64, P>) {
    let kind = scene.listed::<OperationKind>();
    let (flutes, chip) = match kind.value {
        Some(OperationKind::Milling) => {
            let cut = (
                scene.field(Field::FeedPerTooth),
                scene.field(Field::RadialWidth),
                cutting::cutting_diameter(scene),
            );
            let chip = cut.all();
            let chip =
                chip.map(|(feed, width, diameter)| rotation::thickest_chip(feed, width, diameter));
            (scene.field(Field::FluteCount), chip)
        }
        Some(OperationKind::Drilling) => {
            let feed = scene.field(Field::FeedPerRevolution);
            (Reckoned::free(LIPS), feed.map(|feed| feed / LIPS))
        }
        Some(_) => {
            let none = Reckoned::unknown(P::default());
            (none, none)
        }
        None => (kind.map(|_| LIPS), kind.map(|_| LIPS)),
    };
    (flutes.resting_on(kind.trace), chip.resting_on(kind.trace))
}

pub(super) fn tooth_difference<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let (flutes, _) = teeth(scene);
    let both = (scene.number(Fact::RunOutTip), flutes).all();
    both.map(|(run_out, flutes)| rotation::neighbour_difference(run_out, flutes))
}

pub(super) fn thickest_chip<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let (_, chip) = teeth(scene);
    chip
}

pub(super) fn run_out_share<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    scene.number(Fact::ToothDifference).and_then(|difference| {
        // One tooth has no neighbour, whatever its chip.
        if difference == 0.0 {
            return Reckoned::free(0.0);
        }
        let chip = scene.number(Fact::ThickestChip);
        chip.map(|chip| rotation::run_out_share(difference, chip))
    })
}

/// Operations of which it is not known say nothing.
pub(super) fn class_run_out_share<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    if scene.field(Field::RunOut).is_known() {
        return Reckoned::unknown(P::default());
    }
    let operations = scene.view.assembly.operations.iter();
    let each = operations.map(|operation| {
        let view = View {
            operation: Some(*operation),
            ..scene.view
        };
        run_out_share(&scene.of(view))
    });
    let greater = |a: Reckoned<f64, P>, b: Reckoned<f64, P>| match (a.value, b.value) {
        (None, Some(_)) => b,
        (Some(x), Some(y)) if y > x => b,
        _ => a,
    };
    let none = scene.number(Fact::RunOutTip);
    let nothing = Reckoned::missing(Field::OperationKind).resting_on(none.trace);
    each.reduce(greater).unwrap_or(nothing)
}

/// The words of `speed_limit_is`.
pub(super) const PARTS: &[&str] = &["cutter", "nut", "holder"];

fn least<P: Provenance>(scene: &Scene<'_, P>) -> Option<(&'static str, Reckoned<f64, P>)> {
    let all = [
        scene.field(Field::CutterSpeedMax),
        scene.field(Field::NutSpeedMax),
        scene.field(Field::HolderSpeedMax),
    ];
    let known = PARTS.iter().copied().zip(all);
    let known = known.filter(|(_, limit)| limit.is_known());
    let size = |limit: &Reckoned<f64, P>| limit.value.unwrap_or(f64::INFINITY);
    known.min_by(|a, b| size(&a.1).total_cmp(&size(&b.1)))
}

pub(super) fn speed_limit<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    least(scene).map_or(Reckoned::missing(Field::CutterSpeedMax), |(_, limit)| limit)
}

pub(super) fn speed_limit_is<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<&'static str, P> {
    match least(scene) {
        Some((part, limit)) => limit.map(|_| part),
        None => Reckoned::missing(Field::CutterSpeedMax),
    }
}

/// The holder's grade, carried to the speed of the operation.
pub(super) fn balance_at_speed<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let inputs = (
        scene.field(Field::BalanceGrade),
        scene.field(Field::BalanceSpeed),
        scene.field(Field::SpindleSpeed),
    );
    inputs
        .all()
        .map(|(grade, at, speed)| rotation::grade_at(grade, at, speed))
}

/// Takes the assembly's mass, not the holder's.
pub(super) fn unbalance_allowed<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let inputs = (
        scene.field(Field::BalanceGrade),
        scene.field(Field::AssemblyMass),
        scene.field(Field::SpindleSpeed),
    );
    inputs
        .all()
        .map(|(grade, mass, speed)| rotation::permissible_unbalance(grade, mass, speed))
}
