//! Facts about the nut's torque. Every number is one that the library states.

use crate::library::{All, Field, Provenance, Reckoned};

use super::{Fact, Scene};

/// The words of `torque_limit_is`.
pub(super) const LIMITS: &[&str] = &["nut", "wrench", "bore"];

/// The collet's value if known, else the nut's if it says for which bores and ours is one.
pub(super) fn recommended<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let of_collet = scene.field(Field::ColletTorqueRecommended);
    if of_collet.is_known() {
        return of_collet;
    }
    let of_nut = scene.field(Field::NutTorqueRecommended);
    if !of_nut.is_known() {
        return of_collet;
    }
    let bores = (
        scene.field(Field::BoreDiameter),
        scene.field(Field::TorqueBoreMin),
        scene.field(Field::TorqueBoreMax),
    );
    let covered = bores
        .all()
        .map(|(bore, least, most)| least <= bore && bore <= most);
    covered.and_then(|covered| if covered { of_nut } else { of_collet })
}

/// The limits that are known, each with the word for it.
fn known_limits<P: Provenance>(
    scene: &Scene<'_, P>,
) -> impl Iterator<Item = (&'static str, Reckoned<f64, P>)> {
    let all = [
        scene.field(Field::TorqueMax),
        scene.field(Field::WrenchTorqueMax),
        scene.number(Fact::TorqueRecommended),
    ];
    let named = LIMITS.iter().copied().zip(all);
    named.filter(|(_, limit)| limit.is_known())
}

fn least<P: Provenance>(scene: &Scene<'_, P>) -> Option<(&'static str, Reckoned<f64, P>)> {
    let size = |limit: &Reckoned<f64, P>| limit.value.unwrap_or(f64::INFINITY);
    known_limits(scene).min_by(|a, b| size(&a.1).total_cmp(&size(&b.1)))
}

pub(super) fn limit<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    match least(scene) {
        Some((_, limit)) => limit,
        None => Reckoned::missing(Field::TorqueMax),
    }
}

pub(super) fn limit_is<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<&'static str, P> {
    match least(scene) {
        Some((word, limit)) => limit.map(|_| word),
        None => Reckoned::missing(Field::TorqueMax),
    }
}
