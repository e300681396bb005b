//! Whether a part may stand in for another: what it cuts, and what it clamps.

use crate::facts::Scene;
use crate::library::{Field, Kind};

use super::crib::{Part, near};

/// What two cutters should agree in where both state it, and who takes the one for the other
/// should look at where only one does.
const COMPARED: [Field; 3] = [Field::FluteCount, Field::PointAngle, Field::ThreadPitch];

/// In what a cutter differs from the present one, of what decides what it cuts; `None` if it is
/// another kind of tool, of another diameter or hand, and therefore no choice at all.
pub(super) fn differs(
    part: &Part<'_>,
    base: &Scene<'_>,
    operations: &[Scene<'_>],
) -> Option<Vec<Field>> {
    let kind = base.view.word(Field::CutterKind).value;
    let hand = base.view.word(Field::Hand).value.unwrap_or("right");
    let number = |field| base.field(field).value;
    let alike = |field| {
        part.number(field)
            .zip(number(field))
            .map(|(a, b)| near(a, b))
    };
    let same_tool = kind.is_some()
        && part.word(Field::CutterKind) == kind
        && alike(Field::CuttingDiameter) == Some(true)
        && part.word(Field::Hand).unwrap_or("right") == hand
        && (kind != Some("tap") || alike(Field::ThreadPitch) == Some(true));
    if !same_tool {
        return None;
    }
    // Feed per tooth and point angle make the program's feed and depth.
    let counts = |field: &Field| *field != Field::FluteCount || feeds_by_tooth(operations);
    let compared = COMPARED.into_iter().filter(counts);
    let mut found: Vec<Field> = compared
        .filter(|field| alike(*field) == Some(false))
        .collect();
    let own = corner(
        kind,
        part.number(Field::CornerRadius),
        part.number(Field::CuttingDiameter),
    );
    let present = corner(
        kind,
        number(Field::CornerRadius),
        number(Field::CuttingDiameter),
    );
    let same_corner = match (own, present) {
        (None, None) => true,
        (own, present) => own.zip(present).is_some_and(|(a, b)| near(a, b)),
    };
    // Speeds and feeds are those of the present material.
    let material = base.view.word(Field::CutterMaterial).value;
    let same_material = part
        .word(Field::CutterMaterial)
        .is_none_or(|own| material.is_none_or(|present| own == present));
    let mut scenes = operations.iter();
    let through = scenes.any(|scene| scene.view.word(Field::Coolant).value == Some("through"));
    let channels = !through || part.flag(Field::CoolantChannels) != Some(false);
    let besides = [
        (same_corner, Field::CornerRadius),
        (same_material, Field::CutterMaterial),
        (channels, Field::CoolantChannels),
    ];
    found.extend(besides.iter().filter(|one| !one.0).map(|one| one.1));
    Some(found)
}

/// The corner radius; a plain end mill has none, and a ball is all radius.
fn corner(kind: Option<&str>, stated: Option<f64>, diameter: Option<f64>) -> Option<f64> {
    stated.or_else(|| match kind {
        Some("end mill") => Some(0.0),
        Some("ball nose") => diameter.map(|diameter| diameter / 2.0),
        _ => None,
    })
}

fn feeds_by_tooth(operations: &[Scene<'_>]) -> bool {
    let mut scenes = operations.iter();
    scenes.any(|scene| scene.field(Field::FeedPerTooth).is_known())
}

/// What a cutter does not state and the present one does, of what they should agree in.
pub(super) fn unstated(part: &Part<'_>, base: &Scene<'_>) -> Vec<&'static str> {
    if part.kind != Kind::Cutter {
        return Vec::new();
    }
    let mut found: Vec<&'static str> = COMPARED
        .iter()
        .filter(|field| base.field(**field).is_known() && part.number(**field).is_none())
        .map(|field| field.qualified())
        .collect();
    let stated = base.view.word(Field::CutterMaterial).is_known();
    if stated && part.word(Field::CutterMaterial).is_none() {
        found.push(Field::CutterMaterial.qualified());
    }
    let channels = base.view.flag(Field::CoolantChannels).value == Some(true);
    if channels && part.flag(Field::CoolantChannels).is_none() {
        found.push(Field::CoolantChannels.qualified());
    }
    found
}
