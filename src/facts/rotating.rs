//! Facts about run-out, speed and balance.

use crate::library::{All, Field, Reckoned, Trace, standing};
use crate::mechanics::rotation;

use super::{Fact, Scene};

/// Measured, else what a new collet of the normal class may show, carried out to the tip. The
/// class holds at the nominal bore only, so it is assumed.
pub(super) fn run_out_tip(scene: &Scene<'_>) -> Reckoned<f64> {
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
    inputs.and_then(|(bore, out)| match standing::run_out(bore) {
        Some((distance, run_out)) => Reckoned::known(
            rotation::run_out_at_tip(run_out, distance, out),
            Trace::assumed(Field::RunOut),
        ),
        None => Reckoned::missing(Field::RunOut),
    })
}

pub(super) fn run_out_share(scene: &Scene<'_>) -> Reckoned<f64> {
    let both = (
        scene.number(Fact::RunOutTip),
        scene.field(Field::FeedPerTooth),
    );
    both.all()
        .map(|(run_out, feed)| rotation::run_out_share(run_out, feed))
}

/// The words of `speed_limit_is`.
pub(super) const PARTS: &[&str] = &["cutter", "nut", "holder"];

fn least(scene: &Scene<'_>) -> Option<(&'static str, Reckoned<f64>)> {
    let all = [
        scene.field(Field::CutterSpeedMax),
        scene.field(Field::NutSpeedMax),
        scene.field(Field::HolderSpeedMax),
    ];
    let known = PARTS.iter().copied().zip(all);
    let known = known.filter(|(_, limit)| limit.is_known());
    let size = |limit: &Reckoned<f64>| limit.value.unwrap_or(f64::INFINITY);
    known.min_by(|a, b| size(&a.1).total_cmp(&size(&b.1)))
}

pub(super) fn speed_limit(scene: &Scene<'_>) -> Reckoned<f64> {
    least(scene).map_or(Reckoned::missing(Field::CutterSpeedMax), |(_, limit)| limit)
}

pub(super) fn speed_limit_is(scene: &Scene<'_>) -> Reckoned<&'static str> {
    match least(scene) {
        Some((part, limit)) => limit.map(|_| part),
        None => Reckoned::missing(Field::CutterSpeedMax),
    }
}

/// The holder's grade, carried to the speed of the operation.
pub(super) fn balance_at_speed(scene: &Scene<'_>) -> Reckoned<f64> {
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
pub(super) fn unbalance_allowed(scene: &Scene<'_>) -> Reckoned<f64> {
    let inputs = (
        scene.field(Field::BalanceGrade),
        scene.field(Field::AssemblyMass),
        scene.field(Field::SpindleSpeed),
    );
    inputs
        .all()
        .map(|(grade, mass, speed)| rotation::permissible_unbalance(grade, mass, speed))
}
