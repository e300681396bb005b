//! Collet, nut and holder, the stop behind the tail, and the workpiece in front.

use crate::facts::{Fact, SETTING_ANGLE, Scene};
use crate::library::{All, ClampingKind, Field, Reckoned};

use super::{Around, Land, Mark, Outline, Workpiece};

/// Outlines of what is known of collet, nut and holder.
pub(super) fn outlines(scene: &Scene<'_>, land: Option<Land>) -> Vec<Outline> {
    let held = scene.view.held_in_collet().value;
    let of_the_clamping = if held == Some(true) {
        [collet(scene, land), nut(scene), socket(scene)]
    } else {
        [None; 3]
    };
    let of_the_holder = [nose(scene), body(scene)];
    let all = of_the_clamping.into_iter().chain(of_the_holder);
    all.flatten().collect()
}

/// A stretch of one diameter from a place on; none if the place or the diameter is not known.
fn cylinder(
    kind: Around,
    from: Reckoned<f64>,
    length: Reckoned<f64>,
    diameter: Reckoned<f64>,
) -> Option<Outline> {
    let wide = diameter.value?;
    let to = (from, length).all().map(|(from, length)| from + length);
    Some(Outline {
        kind,
        from: Mark::of(from)?,
        to: Mark::of(to),
        front: Some(wide),
        rear: Some(wide),
        assumed: !diameter.trace.assumed.is_empty(),
    })
}

/// From the front of its land less the recess: so it fits a setback measured as a whole.
fn collet(scene: &Scene<'_>, land: Option<Land>) -> Option<Outline> {
    let recess = Mark::of(scene.field(Field::BoreRecess))?;
    let length = Mark::of(scene.field(Field::ColletLength))?;
    let land = land?;
    let front = Mark {
        z: land.from.z - recess.z,
        assumed: land.from.assumed || recess.assumed,
    };
    Some(Outline {
        kind: Around::Collet,
        from: front,
        to: Some(Mark {
            z: front.z + length.z,
            assumed: front.assumed || length.assumed,
        }),
        front: land.bore_diameter,
        rear: land.bore_diameter,
        assumed: false,
    })
}

/// How far the nut goes back is in no library.
fn nut(scene: &Scene<'_>) -> Option<Outline> {
    let face = scene.field(Field::StickOut);
    let length = Reckoned::missing(Field::NutOuterDiameter);
    let diameter = scene.field(Field::NutOuterDiameter);
    cylinder(Around::Nut, face, length, diameter)
}

/// Where the holder itself begins: the mouth of its socket, or the face of a chuck without nut.
pub(super) fn holder_front(scene: &Scene<'_>) -> Reckoned<f64> {
    let face = scene.field(Field::StickOut);
    let mouth = scene.field(Field::MouthSetback);
    if mouth.is_known() {
        return (face, mouth).all().map(|(face, mouth)| face + mouth);
    }
    let own_face = matches!(
        scene.view.listed::<ClampingKind>().value,
        Some(
            ClampingKind::ShrinkFit
                | ClampingKind::HydraulicChuck
                | ClampingKind::MillingChuck
                | ClampingKind::SideLock
        )
    );
    if own_face { face } else { mouth }
}

/// The taper narrows by its setting angle on both sides.
fn socket(scene: &Scene<'_>) -> Option<Outline> {
    let slope = SETTING_ANGLE.tan();
    let mouth = scene.field(Field::MouthDiameter);
    let length = scene.field(Field::TaperLength);
    let front = holder_front(scene);
    let outline = cylinder(Around::Socket, front, length, mouth)?;
    let rear = (mouth, length).all();
    let rear = rear.map(|(mouth, length)| (mouth - 2.0 * slope * length).max(0.0));
    Some(Outline {
        rear: rear.value,
        ..outline
    })
}

fn nose(scene: &Scene<'_>) -> Option<Outline> {
    let (front, length) = (holder_front(scene), scene.field(Field::NoseLength));
    let diameter = scene.field(Field::NoseDiameter);
    cylinder(Around::Nose, front, length, diameter)
}

fn body(scene: &Scene<'_>) -> Option<Outline> {
    let front = (holder_front(scene), scene.field(Field::NoseLength)).all();
    let from = front.map(|(front, nose)| front + nose);
    let length = Reckoned::missing(Field::BodyDiameter);
    cylinder(Around::Body, from, length, scene.field(Field::BodyDiameter))
}

/// Where a collet ends that drives a square.
pub(super) fn collet_end(scene: &Scene<'_>) -> Option<Mark> {
    scene.number(Fact::SquareEngagement).value?;
    let lengths = (scene.field(Field::StickOut), scene.number(Fact::ColletRear));
    Mark::of(lengths.all().map(|(face, rear)| face + rear))
}

/// The depth is stated at the nominal bore; closing the collet takes nut and tail nearer to the
/// stop. Where it is not known how far, the stop's place is only assumed.
pub(super) fn stop(scene: &Scene<'_>) -> Option<Mark> {
    let lengths = (
        scene.field(Field::StickOut),
        scene.field(Field::InsertionDepthMax),
    );
    let nominal = Mark::of(lengths.all().map(|(face, depth)| face + depth))?;
    if scene.view.held_in_collet().value == Some(false) {
        return Some(nominal);
    }
    let drawn_in = Mark::of(scene.number(Fact::DrawIn));
    Some(match drawn_in {
        Some(drawn_in) => Mark {
            z: nominal.z - drawn_in.z,
            assumed: nominal.assumed || drawn_in.assumed,
        },
        None => Mark {
            assumed: true,
            ..nominal
        },
    })
}

/// The operation's surface; its tip is the deepest point cut.
pub(super) fn workpiece(scene: &Scene<'_>) -> Option<Workpiece> {
    scene.view.operation?;
    Some(Workpiece {
        surface: Mark::of(scene.field(Field::Reach))?,
        keep_above: Mark::of(scene.number(Fact::ReachNeeded)),
    })
}
