//! Facts about shapes that may touch: flats in the bore, the shank behind the flutes, the nut
//! beside the work.

use crate::library::{All, Field, Provenance, Reckoned, ShankForm, standard_sizes};
use crate::mechanics::axial;
use crate::mechanics::reach;

use super::Scene;
use super::clamping::in_a_bore;
use super::grip::land;

/// Where drive flats lie: pairs of distances from the shank end, mm.
pub(crate) type Flats = [Option<(f64, f64)>; 2];

/// Length of a drive flat under the land. Where the table has the flat's place from memory, the
/// value is assumed.
pub(super) fn flat_in_bore<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    in_a_bore(scene, || {
        flats(scene).and_then(|flats| {
            let Some(first) = flats[0] else {
                return Reckoned::free(0.0);
            };
            let lengths = (scene.view.overall_length(), land(scene)).all();
            lengths.map(|(overall, land)| {
                let under = |(from, to)| axial::flat_in_bore(overall, from, to, land);
                under(first) + flats[1].map_or(0.0, under)
            })
        })
    })
}

/// How many drive flats the shank has. Unknown for a diameter that the table does not list,
/// with nothing missing: no library could state it.
pub(super) fn drive_flats<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let form = scene.listed::<ShankForm>();
    let diameter = scene.field(Field::ShankDiameter);
    let both = (form, diameter).all();
    both.and_then(|(form, diameter)| {
        let listed = standard_sizes::flat(diameter);
        let spacing = scene.field(Field::FlatSpacing);
        match (form, listed) {
            (ShankForm::Hb | ShankForm::Flat, Some(_)) if spacing.is_known() => {
                spacing.map(|_| 2.0)
            }
            (ShankForm::Hb, Some(flat)) => {
                Reckoned::free(if flat.spacing.is_some() { 2.0 } else { 1.0 })
            }
            (ShankForm::He | ShankForm::Flat, Some(_)) => Reckoned::free(1.0),
            (ShankForm::Hb | ShankForm::He | ShankForm::Flat, None) => {
                Reckoned::unknown(P::default())
            }
            _ => Reckoned::free(0.0),
        }
    })
}

/// Why nobody knows where the flats are, where nothing is missing.
pub(super) fn outside<P: Provenance>(scene: &Scene<'_, P>) -> Option<&'static str> {
    let form = scene.listed::<ShankForm>().value?;
    let diameter = scene.field(Field::ShankDiameter).value?;
    let flat = form.has_flat() && standard_sizes::flat(diameter).is_none();
    flat.then_some("no table lists the flat of a shank of this diameter")
}

/// Where the flats lie: as stated, else as the table of DIN 6535 has them; how long they are along
/// the shank only the table says.
pub(crate) fn flats<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<Flats, P> {
    let form = scene.listed::<ShankForm>();
    let diameter = scene.field(Field::ShankDiameter);
    let both = (form, diameter).all();
    both.and_then(|(form, diameter)| {
        if !form.has_flat() {
            return Reckoned::free([None, None]);
        }
        let Some(flat) = standard_sizes::flat(diameter) else {
            return Reckoned::unknown(P::default());
        };
        if form == ShankForm::He {
            let sloping = [Some((0.0, flat.sloping)), None];
            return Reckoned::known(sloping, P::assumed(Field::ShankForm));
        }
        drive(scene, form, flat)
    })
}

/// Drive flats of form HB, or of a standard whose places the table does not have.
fn drive<P: Provenance>(
    scene: &Scene<'_, P>,
    form: ShankForm,
    flat: &standard_sizes::Flat,
) -> Reckoned<Flats, P> {
    let centre = scene.field(Field::FlatDistance);
    let spacing = scene.field(Field::FlatSpacing);
    if !centre.is_known() && form == ShankForm::Flat {
        return Reckoned::unknown(centre.trace);
    }
    let from_memory = form == ShankForm::Flat || flat.basis != "standard";
    let half = flat.width / 2.0;
    let stated = centre.value.is_some();
    let centre = centre.value.unwrap_or(flat.centre);
    let spacing_of_the_table = flat.spacing.filter(|_| form == ShankForm::Hb);
    let at = |centre: f64| (centre - half, centre + half);
    let second = spacing.value.or(spacing_of_the_table);
    let found: Flats = [Some(at(centre)), second.map(|spacing| at(centre - spacing))];
    let mut trace = P::default();
    if from_memory {
        trace = trace.union(P::assumed(Field::ShankForm));
    }
    if stated {
        trace = trace.union(P::used(Field::FlatDistance));
    }
    if spacing.is_known() {
        trace = trace.union(P::used(Field::FlatSpacing));
    }
    Reckoned::known(found, trace)
}

/// Lengths nearer than this, mm, are one: inches are rounded where millimetres are not.
const SAME_LENGTH: f64 = 0.01;

fn beyond(reach: f64, end: f64) -> bool {
    reach > end + SAME_LENGTH
}

/// By how much what follows the flutes is thicker than the cut, within the reach. Does not
/// apply where the flutes are as long as the reach. Cutters that widen cut with their widest.
pub(super) fn rubbing_excess<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let base = (
        scene.field(Field::Reach),
        scene.field(Field::ChipFluteLength),
        scene.field(Field::CuttingDiameter),
    );
    base.all().and_then(|(needs, flutes, cut)| {
        if !beyond(needs, flutes) {
            return Reckoned::unknown(P::default());
        }
        let widest = scene.field(Field::CuttingDiameterMax).value;
        let cut = widest.map_or(cut, |widest| widest.max(cut));
        let excess = |diameter: f64| reach::rubbing_excess(diameter, cut);
        let shank = scene.field(Field::ShankDiameter).map(excess);
        let neck = scene.field(Field::NeckDiameter).map(excess);
        if !neck.is_known() {
            return behind_the_head(scene, needs, shank);
        }
        let neck_end = scene.field(Field::NeckLength);
        let behind = neck_end.and_then(|end| {
            if !beyond(needs, end) {
                return neck;
            }
            // Between neck and shank lies a cone: only the full shank is known to rub.
            let from = full_shank(scene);
            let past = from.value.is_none_or(|from| beyond(needs, from));
            let thicker = if past {
                neck.zip(shank).map(|(neck, shank)| neck.max(shank))
            } else {
                neck
            };
            on(thicker, from)
        });
        if neck_end.is_known() {
            return behind;
        }
        neck.resting_on(neck_end.trace.presence())
    })
}

/// Without a neck the shank follows: from where it begins if that is known, else at once.
fn behind_the_head<P: Provenance>(
    scene: &Scene<'_, P>,
    reach: f64,
    shank: Reckoned<f64, P>,
) -> Reckoned<f64, P> {
    let from = full_shank(scene);
    match from.value {
        Some(begins) if !beyond(reach, begins) => Reckoned::unknown(from.trace),
        _ => on(shank, from),
    }
}

/// Where the full shank begins: at the head's end, else where the plain shank does.
fn full_shank<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let head = scene.field(Field::HeadLength);
    if head.is_known() {
        return head;
    }
    let plain = (scene.view.overall_length(), scene.field(Field::ShankLength)).all();
    plain.map(|(overall, shank)| overall - shank)
}

/// What rests on where the shank begins, or on that not being known.
fn on<P: Provenance>(excess: Reckoned<f64, P>, from: Reckoned<f64, P>) -> Reckoned<f64, P> {
    if from.is_known() {
        excess.resting_on(from.trace)
    } else {
        excess.resting_on(from.trace.presence())
    }
}

/// Room between a pocket and the nut, on the diameter, less the clearance on both sides.
pub(super) fn nut_room<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let diameters = (
        scene.field(Field::RoomDiameter),
        scene.field(Field::NutOuterDiameter),
        scene.field(Field::SideClearance),
    );
    diameters
        .all()
        .map(|(room, nut, side)| reach::nut_room(room, nut, side))
}

/// Deepest point of a drill's cut less what its flutes can clear.
pub(super) fn flute_margin<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let lengths = (
        scene.field(Field::ChipFluteLength),
        scene.field(Field::Reach),
    );
    lengths
        .all()
        .map(|(flutes, needs)| reach::margin(flutes, needs))
}

/// Grip of an extension in the holder: nothing in a library tells it, so no field is missing.
pub(super) fn outer_grip<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let extension = scene.word(Field::Extension);
    match extension.value {
        Some(_) => Reckoned::unknown(extension.trace),
        None => Reckoned::unknown(P::default()),
    }
}
