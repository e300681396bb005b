//! Facts about the cutter's own shape: flats, and what follows the flutes.

use crate::library::{All, Field, Reckoned, Trace, standing};

use super::Scene;
use super::grip::{in_collet, land};

/// Length of a drive flat under the land. The flat's place is from a table, so the value is
/// assumed wherever it is not zero for want of a flat.
pub(super) fn flat_in_bore(scene: &Scene<'_>) -> Reckoned<f64> {
    in_collet(scene, || {
        let form = scene.view.word(Field::ShankForm);
        let diameter = scene.field(Field::ShankDiameter);
        (form, diameter)
            .all()
            .and_then(|(form, diameter)| match form {
                "HB" | "HE" => match standing::flat(diameter) {
                    Some(flat) => under_the_land(scene, form, flat),
                    None => Reckoned::unknown(Trace::default()),
                },
                _ => Reckoned::free(0.0),
            })
    })
}

fn under_the_land(scene: &Scene<'_>, form: &str, flat: &standing::Flat) -> Reckoned<f64> {
    let lengths = (scene.view.overall_length(), land(scene)).all();
    let under = lengths.map(|(overall, land)| {
        let front = land.stick_out + land.bore_setback;
        let under = |from_tail: f64, to_tail: f64| {
            let (start, end) = (overall - to_tail, overall - from_tail);
            (end.min(front + land.bore_length) - start.max(front)).max(0.0)
        };
        if form == "HE" {
            return under(0.0, flat.sloping);
        }
        let half = flat.width / 2.0;
        let one = under(flat.centre - half, flat.centre + half);
        let second = flat.spacing.map_or(0.0, |spacing| {
            let centre = flat.centre - spacing;
            under(centre - half, centre + half)
        });
        one + second
    });
    let mut under = under;
    under.trace = under.trace.union(Trace::assumed(Field::ShankForm));
    under
}

/// By how much what follows the flutes is thicker than the cut, within the reach. Does not
/// apply where the flutes are as long as the reach. Cutters that widen cut with their widest.
pub(super) fn rubbing_excess(scene: &Scene<'_>) -> Reckoned<f64> {
    let base = (
        scene.field(Field::Reach),
        scene.field(Field::ChipFluteLength),
        scene.field(Field::CuttingDiameter),
    );
    base.all().and_then(|(reach, flutes, cut)| {
        if reach <= flutes {
            return Reckoned::unknown(Trace::default());
        }
        let widest = scene.field(Field::CuttingDiameterMax).value;
        let cut = widest.map_or(cut, |widest| widest.max(cut));
        let excess = |diameter: f64| diameter - cut;
        let shank = scene.field(Field::ShankDiameter).map(excess);
        let neck = scene.field(Field::NeckDiameter).map(excess);
        if !neck.is_known() {
            return behind_the_head(scene, reach, shank);
        }
        let neck_end = scene.field(Field::NeckLength);
        let head = scene.field(Field::HeadLength).value.unwrap_or(0.0);
        match neck_end.value {
            // Between neck and shank lies a cone: only the full shank is known to rub.
            Some(end) if reach > end.max(head) => {
                neck.zip(shank).map(|(neck, shank)| neck.max(shank))
            }
            _ => neck,
        }
        .resting_on(neck_end.trace.presence())
    })
}

/// Without a neck the shank follows: from the head's end if that is known, else at once.
fn behind_the_head(scene: &Scene<'_>, reach: f64, shank: Reckoned<f64>) -> Reckoned<f64> {
    let head = scene.field(Field::HeadLength);
    match head.value {
        Some(head_length) if reach <= head_length => Reckoned::unknown(head.trace),
        _ => shank.resting_on(head.trace.presence()),
    }
}

/// Room between a pocket and the nut, on the diameter, less the clearance on both sides.
pub(super) fn nut_room(scene: &Scene<'_>) -> Reckoned<f64> {
    let diameters = (
        scene.field(Field::RoomDiameter),
        scene.field(Field::NutOuterDiameter),
        scene.field(Field::SideClearance),
    );
    diameters
        .all()
        .map(|(room, nut, side)| room - nut - 2.0 * side)
}

/// Deepest point of a drill's cut less what its flutes can clear.
pub(super) fn flute_margin(scene: &Scene<'_>) -> Reckoned<f64> {
    let lengths = (
        scene.field(Field::ChipFluteLength),
        scene.field(Field::Reach),
    );
    lengths.all().map(|(flutes, reach)| flutes - reach)
}

/// Grip of an extension in the holder: nothing in a library tells it.
pub(super) fn outer_grip(scene: &Scene<'_>) -> Reckoned<f64> {
    let extension = scene.view.word(Field::Extension);
    match extension.value {
        Some(_) => Reckoned::unknown(extension.trace.union(Trace::missing(Field::Extension))),
        None => Reckoned::unknown(Trace::default()),
    }
}
