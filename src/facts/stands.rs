//! Whether the grip stands, so that the nut's torque may be spoken of.

use crate::library::{All, Provenance, Reckoned};

use super::{Fact, Scene};

/// Lengths nearer than this count as equal, as `length_tolerance` has it for the rules, mm.
const NEAR: f64 = 0.01;

/// Whether it stands whatever the unstated values are; not known where they turn it.
pub(super) fn grip_stands<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<bool, P> {
    let open = at_one_corner(scene);
    if open.trace.ranges() == 0 {
        return open;
    }
    let mut corners = scene.corners(open.trace);
    let first = corners
        .next()
        .and_then(|corner| at_one_corner(corner).value);
    let agree = corners.all(|corner| at_one_corner(corner).value == first);
    Reckoned {
        value: first.filter(|_| agree),
        trace: open.trace.ranging_over_nothing(),
    }
}

/// As far as lengths tell: enough of the land is filled, its front too, and as much plain shank
/// is inserted as the manufacturers state. Not known while a starred value is only assumed, as
/// the judge takes no such grip for held.
fn at_one_corner<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<bool, P> {
    let grip = (
        scene.number(Fact::GrippedLength),
        scene.number(Fact::NeededGrip),
        scene.number(Fact::UngrippedFront),
    );
    let least = scene.number(Fact::MakerClampingMin);
    let deep = if least.is_known() {
        let both = (scene.number(Fact::PlainInsertion), least).all();
        both.map(|(inserted, least)| inserted >= least - NEAR)
    } else {
        Reckoned::free(true)
    };
    let enough = grip
        .all()
        .map(|(gripped, needed, bare)| gripped >= needed - NEAR && bare <= NEAR);
    let stands = (enough, deep).all().map(|(enough, deep)| enough && deep);
    if stands.trace.rests_on_assumed_star() {
        return Reckoned::unknown(stands.trace);
    }
    stands
}
