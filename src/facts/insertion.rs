//! Facts about how far the tool goes in, must go in, and may; how far its collet is drawn in.

use crate::library::{All, ColletSystem, Field, Provenance, Reckoned};
use crate::mechanics::axial;
use crate::mechanics::reach;

use super::clamping::in_a_bore;
use super::grip::{overall_length, rear_end, shank};
use super::square::squares;
use super::{Fact, Scene};

pub(super) fn insertion<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let lengths = (overall_length(scene), scene.field(Field::StickOut));
    lengths
        .all()
        .map(|(overall, out)| axial::insertion(overall, out))
}

pub(super) fn plain_insertion<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    in_a_bore(scene, || {
        let lengths = (
            shank(scene),
            scene.field(Field::StickOut),
            scene.number(Fact::BoreSetback),
        );
        lengths
            .all()
            .map(|(shank, out, setback)| axial::plain_insertion(shank, out, setback))
    })
}

/// How far tool and collet travel in while the collet closes. In a chuck they do not; a gap of
/// nothing asks for nothing whatever the collet's taper; of other tapers nothing is known.
/// A shank thicker than the bore is a fault of its own and draws nothing in.
pub(super) fn draw_in<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let chuck = scene.truth(Fact::HeldInChuck);
    if chuck.value == Some(true) {
        return chuck.map(|_| 0.0);
    }
    let gap = scene.number(Fact::BoreGap).map(|gap| gap.max(0.0));
    let setting_angle = scene.view.held_in_collet();
    if setting_angle.value == Some(true) {
        return gap.map(axial::draw_in);
    }
    if gap.value == Some(0.0) || setting_angle.value.is_none() {
        return gap;
    }
    // The default of a size is a taper collet, which this is not.
    let stated = scene.view.entry(Field::ColletSystem).is_some();
    let system = scene.listed::<ColletSystem>();
    match system.value.filter(|_| stated) {
        Some(ColletSystem::Iso10897) => gap.map(axial::draw_in_one_in_ten).resting_on(system.trace),
        Some(_) => Reckoned::unknown(gap.trace.union(system.trace)),
        None => Reckoned::missing(Field::ColletSystem).resting_on(gap.trace),
    }
}

/// What each of the manufacturers, two thirds of a collet's land and a tap's square ask for. In a
/// chuck only its own manufacturer knows how much is enough; where a clamp screw must meet a flat
/// the screw decides, and a minimum only counts if it is stated.
pub(super) fn insertion_needed<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    in_a_bore(scene, || {
        let minimum = (minimum(scene), rear_end(scene)).all();
        let minimum = minimum.map(|(least, rear)| least.map(|least| least + rear));
        let square = match squares(scene).value {
            Some(_) => scene.number(Fact::SquareInsertion).map(Some),
            None => Reckoned::free(None),
        };
        let asks = (habit(scene), minimum, square).all();
        asks.and_then(|(habit, minimum, square)| {
            let others = [minimum, square].map(|ask| ask.unwrap_or(f64::NEG_INFINITY));
            match habit {
                Some((setback, grip, rear)) => {
                    let needed =
                        axial::insertion_needed(setback, grip, rear, (others[0], others[1]));
                    Reckoned::free(needed)
                }
                None => match minimum {
                    Some(minimum) => Reckoned::free(minimum),
                    None => Reckoned::missing(Field::HolderClampingLengthMin),
                },
            }
        })
    })
}

/// Setback, grip and shank end of the habit of two thirds; none where the chuck's own bore grips,
/// or a sleeve of which nobody states the land.
fn habit<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<Option<(f64, f64, f64)>, P> {
    let (slotted, chuck) = (
        scene.truth(Fact::SlottedCollet),
        scene.truth(Fact::HeldInChuck),
    );
    let lengths = (
        scene.number(Fact::BoreSetback),
        scene.number(Fact::NeededGrip),
        rear_end(scene),
    );
    let lengths = lengths.all();
    match (slotted.value, chuck.value) {
        (Some(false), _) => slotted.map(|_| None),
        (_, Some(true)) if !scene.number(Fact::BoreLength).is_known() => chuck.map(|_| None),
        _ => lengths.map(Some),
    }
}

/// The hardest of the stated minima; none is asked for where a collet or a screw on a flat grips.
fn minimum<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<Option<f64>, P> {
    let stated = scene.number(Fact::MakerClampingMin);
    let own = scene.field(Field::HolderClampingLengthMin);
    let chuck = scene.truth(Fact::HeldInChuck).value == Some(true);
    let screw = scene.truth(Fact::ScrewOnFlat).value == Some(true);
    if chuck && !screw && !own.is_known() {
        return own.map(Some);
    }
    match stated.value {
        Some(_) => stated.map(Some),
        None => Reckoned::free(None),
    }
}

pub(super) fn tail_gap<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let lengths = (
        scene.field(Field::InsertionDepthMax),
        scene.number(Fact::Insertion),
    );
    lengths
        .all()
        .map(|(depth, insertion)| reach::margin(depth, insertion))
}

/// The lesser of what it takes to fill enough of a collet, and the chuck's own minimum: a shank
/// shorter than this cannot be held at any stick-out.
pub(super) fn shank_needed<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    in_a_bore(scene, || {
        let chuck = scene.truth(Fact::HeldInChuck);
        let grip = scene.number(Fact::NeededGrip);
        if chuck.value != Some(true) {
            return grip;
        }
        let own = scene.field(Field::HolderClampingLengthMin);
        match grip.value {
            Some(_) => own.zip(grip).map(|(own, grip)| own.max(grip)),
            None => own,
        }
        .resting_on(chuck.trace)
    })
}
