//! The cutter: its stretches from the tip to the tail.

use crate::facts::{self, Fact, Scene};
use crate::library::{All, CutterKind, Field, Reckoned, ShankForm, standard_sizes};

use super::{DriveFlat, Extent, Mark, Part, PartKind, Tip};

/// Where the stretches end, as far as it is known.
struct StretchEnds {
    flutes: Option<Mark>,
    neck: Option<Mark>,
    shank_front: Option<Mark>,
    shank_end: Option<Mark>,
    square: Option<Mark>,
    tail: Option<Mark>,
    has_neck: bool,
}

impl StretchEnds {
    fn of(scene: &Scene<'_>) -> StretchEnds {
        let overall = scene.view.overall_length();
        let before_tail = |length| {
            let lengths = (overall, length).all();
            let mark = Mark::of(lengths.map(|(overall, length)| overall - length));
            // A shank longer than its tool is one from the tip on.
            mark.map(|mark| Mark {
                z: mark.z.max(0.0),
                ..mark
            })
        };
        let from_tail = |field| before_tail(scene.field(field));
        let square = scene.field(Field::DriveSquareLength);
        let rear_flutes = scene.field(Field::RearFluteLength);
        // As where the grip is reckoned: rear flutes that are not stated take nothing.
        let behind_shank = match rear_flutes.value {
            Some(_) => (square, rear_flutes)
                .all()
                .map(|(square, rear)| square.max(rear)),
            None => square,
        };
        let known = |field| scene.field(field).is_known();
        StretchEnds {
            flutes: from_tip(scene, Field::ChipFluteLength),
            neck: from_tip(scene, Field::NeckLength),
            shank_front: from_tail(Field::ShankLength),
            shank_end: before_tail(behind_shank),
            square: before_tail(square),
            tail: Mark::of(overall),
            has_neck: known(Field::NeckDiameter) || known(Field::NeckLength),
        }
    }
}

/// Lengths from the tip are those of the new tool; a regrind takes its share off them.
fn from_tip(scene: &Scene<'_>, field: Field) -> Option<Mark> {
    let lengths = (
        scene.field(Field::OverallLength),
        scene.view.overall_length(),
    );
    let ground_off = lengths.all().map(|(new, now)| (new - now).max(0.0));
    let ground_off = ground_off.value.unwrap_or(0.0);
    Mark::of(scene.field(field).map(|length| length - ground_off))
}

/// Lays stretches one behind the other.
struct Walk {
    at: Mark,
    parts: Vec<Part>,
}

impl Walk {
    /// The next stretch, up to an end; nothing if that end has been passed already. Where a
    /// stretch has no length, the next is as sure of its front as of that end.
    fn to(&mut self, end: Mark, kind: PartKind, front: Option<f64>, rear: Option<f64>) {
        if let Some(span) = Extent::between(self.at, end) {
            self.parts.push(Part {
                kind,
                span,
                front,
                rear,
            });
        }
        if end.z >= self.at.z {
            self.at = end;
        }
    }
}

/// The stretches of the cutter.
///
/// Where records contradict each other, the plain shank wins over flutes and neck, as it does
/// where the grip is reckoned.
pub(super) fn parts(scene: &Scene<'_>) -> Vec<Part> {
    let ends = StretchEnds::of(scene);
    let mut walk = Walk {
        at: Mark::TIP,
        parts: Vec::new(),
    };
    front(scene, &ends, &mut walk);
    back(scene, &ends, &mut walk);
    walk.parts
}

/// A diameter that can be drawn.
fn diameter(scene: &Scene<'_>, field: Field) -> Option<f64> {
    let known = scene.field(field).value;
    known.filter(|diameter| *diameter > 0.0 && diameter.is_finite())
}

/// Flutes, neck and run-out. Where nothing is stated in front of the plain shank it is flutes,
/// by the convention of the vocabulary.
fn front(scene: &Scene<'_>, ends: &StretchEnds, walk: &mut Walk) {
    let cut = diameter(scene, Field::CuttingDiameter);
    let neck = diameter(scene, Field::NeckDiameter);
    let limit = ends.shank_front.or(ends.tail);
    match (ends.flutes, ends.shank_front) {
        (Some(flutes), _) => walk.to(flutes.nearer(limit), PartKind::Flutes, cut, cut),
        (None, Some(shank)) if !ends.has_neck => walk.to(shank, PartKind::Flutes, cut, cut),
        _ => {
            if let Some(end) = ends.neck {
                walk.to(end.nearer(limit), PartKind::Unstated, None, None);
            }
        }
    }
    let fluted = !walk.parts.is_empty() && ends.flutes.is_some();
    if let (true, true, Some(end)) = (ends.has_neck, fluted, ends.neck.or(ends.shank_front)) {
        walk.to(end.nearer(limit), PartKind::Neck, neck, neck);
    }
    if let Some(shank) = ends.shank_front {
        let thick = diameter(scene, Field::ShankDiameter);
        match walk.parts.last().map(|last| last.rear) {
            Some(before) => walk.to(shank, PartKind::RunOut, before, thick),
            None => walk.to(shank, PartKind::Unstated, None, None),
        }
    }
}

/// Plain shank and square; the rest of the cutter where one of them is not known.
fn back(scene: &Scene<'_>, ends: &StretchEnds, walk: &mut Walk) {
    let Some(tail) = ends.tail else {
        return;
    };
    let thick = diameter(scene, Field::ShankDiameter);
    match (ends.shank_front, ends.shank_end) {
        (Some(_), Some(end)) => {
            let across = diameter(scene, Field::CutterDriveSquare);
            walk.to(end, PartKind::Shank, thick, thick);
            if let Some(square) = ends.square {
                let cut = diameter(scene, Field::CuttingDiameter);
                walk.to(square, PartKind::Flutes, cut, cut);
            }
            walk.to(tail, PartKind::Square, across, across);
        }
        (Some(_), None) => walk.to(tail, PartKind::Unstated, thick, thick),
        (None, _) => walk.to(tail, PartKind::Unstated, None, None),
    }
}

/// The drive flats, which are measured from the tail. A standard says how deep those are that do not
/// slope.
pub(super) fn flats(scene: &Scene<'_>) -> Vec<DriveFlat> {
    let flats = facts::flats(scene);
    let overall = scene.view.overall_length();
    let shank = diameter(scene, Field::ShankDiameter);
    let form = scene.listed::<ShankForm>().value;
    let listed = shank.and_then(standard_sizes::flat);
    let listed = listed.filter(|_| form == Some(ShankForm::Hb));
    let depth = listed.zip(shank).map(|(flat, shank)| shank - flat.height);
    let mut found = Vec::new();
    for (from, to) in flats.value.into_iter().flatten().flatten() {
        let ends = (overall, flats);
        let at = |length: f64| Mark::of(ends.all().map(|(overall, _)| (overall - length).max(0.0)));
        let span = at(to).zip(at(from));
        let span = span.and_then(|(front, rear)| Extent::between(front, rear));
        found.extend(span.map(|span| DriveFlat { span, depth }));
    }
    found
}

/// The form of the tip.
pub(super) fn tip(scene: &Scene<'_>) -> Tip {
    let positive = |found: Reckoned<f64>| found.value.filter(|length| *length > 0.0);
    let kind = scene.view.listed::<CutterKind>().value;
    let cut = diameter(scene, Field::CuttingDiameter);
    let radius = match kind {
        Some(own) if own.is_pointed() => {
            let point = positive(scene.number(Fact::PointLength));
            return point.map_or(Tip::Square, Tip::Cone);
        }
        Some(own) if own.is_ball() => cut.map(|cut| cut / 2.0),
        _ => positive(scene.field(Field::CornerRadius)),
    };
    let possible = |radius: &f64| cut.is_some_and(|cut| *radius <= cut / 2.0);
    radius.filter(possible).map_or(Tip::Square, Tip::Round)
}
