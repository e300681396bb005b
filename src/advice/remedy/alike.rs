//! Whether a part may stand in for another: what it cuts, and what it clamps.

use crate::facts::Scene;
use crate::library::{Coolant, CutterKind, CutterMaterial, Field, Hand, Kind};

use super::crib::{Part, near};

/// What two cutters should agree in where both state it, and who takes the one for the other
/// should look at where only one does.
const COMPARED: [Field; 3] = [Field::FluteCount, Field::PointAngle, Field::ThreadPitch];

/// The present cutter, as far as what takes its place has to be like it.
pub(super) struct Model {
    /// Its kind.
    pub kind: Option<CutterKind>,
    /// Its cutting diameter, mm.
    pub diameter: Option<f64>,
    hand: Hand,
    /// What it states of [`COMPARED`], in this order.
    compared: [Option<f64>; COMPARED.len()],
    corner: Option<f64>,
    material: Option<CutterMaterial>,
    feeds_by_tooth: bool,
    cools_through: bool,
}

impl Model {
    pub(super) fn of(base: &Scene<'_>, operations: &[Scene<'_>]) -> Model {
        let number = |field| base.field(field).value;
        let kind = base.view.listed::<CutterKind>().value;
        let diameter = number(Field::CuttingDiameter);
        let hand = base.view.datum(Field::Hand).listed().value;
        let mut scenes = operations.iter();
        Model {
            kind,
            diameter,
            hand: hand.unwrap_or(Hand::Right),
            compared: COMPARED.map(number),
            corner: corner(kind, number(Field::CornerRadius), diameter),
            material: base.view.listed::<CutterMaterial>().value,
            feeds_by_tooth: feeds_by_tooth(operations),
            cools_through: scenes
                .any(|scene| scene.view.listed::<Coolant>().value == Some(Coolant::Through)),
        }
    }

    /// In what a cutter differs from this one, of what decides what it cuts; `None` if it is
    /// another kind of tool, of another diameter or hand, and therefore no choice at all.
    pub(super) fn differs(&self, part: &Part<'_>) -> Option<Vec<Field>> {
        let alike = |field, own: Option<f64>| part.number(field).zip(own).map(|(a, b)| near(a, b));
        let [_, _, pitch] = self.compared;
        let same_tool = self.kind.is_some()
            && part.listed::<CutterKind>() == self.kind
            && alike(Field::CuttingDiameter, self.diameter) == Some(true)
            && part.listed_in(Field::Hand).unwrap_or(Hand::Right) == self.hand
            && (self.kind != Some(CutterKind::Tap)
                || alike(Field::ThreadPitch, pitch) == Some(true));
        if !same_tool {
            return None;
        }
        // Feed per tooth and point angle make the program's feed and depth.
        let counts = |field: Field| field != Field::FluteCount || self.feeds_by_tooth;
        let compared = COMPARED.into_iter().zip(self.compared);
        let mut found: Vec<Field> = compared
            .filter(|(field, own)| counts(*field) && alike(*field, *own) == Some(false))
            .map(|(field, _)| field)
            .collect();
        let own = corner(
            self.kind,
            part.number(Field::CornerRadius),
            part.number(Field::CuttingDiameter),
        );
        let same_corner = match (own, self.corner) {
            (None, None) => true,
            (own, present) => own.zip(present).is_some_and(|(a, b)| near(a, b)),
        };
        // Speeds and feeds are those of the present material.
        let same_material = part
            .listed::<CutterMaterial>()
            .is_none_or(|own| self.material.is_none_or(|present| own == present));
        let channels = !self.cools_through || part.flag(Field::CoolantChannels) != Some(false);
        let besides = [
            (same_corner, Field::CornerRadius),
            (same_material, Field::CutterMaterial),
            (channels, Field::CoolantChannels),
        ];
        found.extend(besides.iter().filter(|one| !one.0).map(|one| one.1));
        Some(found)
    }
}

/// The corner radius; a plain end mill has none, and a ball is all radius.
fn corner(kind: Option<CutterKind>, stated: Option<f64>, diameter: Option<f64>) -> Option<f64> {
    stated.or_else(|| match kind {
        Some(CutterKind::EndMill) => Some(0.0),
        Some(CutterKind::BallNose) => diameter.map(|diameter| diameter / 2.0),
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
    if stated && part.listed::<CutterMaterial>().is_none() {
        found.push(Field::CutterMaterial.qualified());
    }
    let channels = base.view.flag(Field::CoolantChannels).value == Some(true);
    if channels && part.flag(Field::CoolantChannels).is_none() {
        found.push(Field::CoolantChannels.qualified());
    }
    found
}
