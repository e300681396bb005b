//! Facts about what the makers permit: how deep a tool must, and may, go in.

use crate::library::{Field, Provenance, Reckoned};

use super::Scene;

/// The words of `maker_clamping_min_is` and `maker_clamping_max_is`.
pub(super) const PARTS: &[&str] = &["cutter", "collet", "holder"];

/// The known limits with the part that each belongs to. What a holder asks for it asks of an
/// extension, if there is one, and not of the tool: the view then does not state it.
fn known<P: Provenance>(
    scene: &Scene<'_, P>,
    fields: &[Field],
) -> Vec<(&'static str, Reckoned<f64, P>)> {
    let all = fields.iter().map(|field| scene.field(*field));
    let named = PARTS.iter().copied().zip(all);
    named.filter(|(_, limit)| limit.is_known()).collect()
}

/// The limit that is hardest to keep: the greatest minimum, or the least maximum.
fn hardest<P: Provenance>(
    limits: Vec<(&'static str, Reckoned<f64, P>)>,
    greatest: bool,
) -> Option<(&'static str, Reckoned<f64, P>)> {
    let size = |limit: &Reckoned<f64, P>| limit.value.unwrap_or(0.0);
    let order = |a: &(&str, Reckoned<f64, P>), b: &(&str, Reckoned<f64, P>)| {
        let order = size(&a.1).total_cmp(&size(&b.1));
        if greatest { order } else { order.reverse() }
    };
    limits.into_iter().max_by(order)
}

fn least<P: Provenance>(scene: &Scene<'_, P>) -> Option<(&'static str, Reckoned<f64, P>)> {
    let fields = [
        Field::CutterClampingLengthMin,
        Field::ColletClampingLengthMin,
        Field::HolderClampingLengthMin,
    ];
    hardest(known(scene, &fields), true)
}

fn most<P: Provenance>(scene: &Scene<'_, P>) -> Option<(&'static str, Reckoned<f64, P>)> {
    let fields = [
        Field::CutterClampingLengthMax,
        Field::ColletClampingLengthMax,
        Field::HolderClampingLengthMax,
    ];
    hardest(known(scene, &fields), false)
}

pub(super) fn clamping_min<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    least(scene).map_or(
        Reckoned::missing(Field::CutterClampingLengthMin),
        |(_, limit)| limit,
    )
}

pub(super) fn clamping_min_is<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<&'static str, P> {
    match least(scene) {
        Some((part, limit)) => limit.map(|_| part),
        None => Reckoned::missing(Field::CutterClampingLengthMin),
    }
}

pub(super) fn clamping_max<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    most(scene).map_or(
        Reckoned::missing(Field::CutterClampingLengthMax),
        |(_, limit)| limit,
    )
}

pub(super) fn clamping_max_is<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<&'static str, P> {
    match most(scene) {
        Some((part, limit)) => limit.map(|_| part),
        None => Reckoned::missing(Field::CutterClampingLengthMax),
    }
}
