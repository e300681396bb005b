//! Remedies. Lengths are in mm, whatever the library's units.

use schemars::JsonSchema;
use serde::Serialize;

use crate::sheet::{FactShown, Near, Nearest, Remedy, RemedyKind};
use crate::units::Unit;

use super::fact::Facts;
use super::notation::{Number, RuleId, UnitName};
use super::window::Limits;

/// A change that corrects an assembly.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "Remedy")]
pub(super) struct Cure<'a> {
    /// What it changes first of all.
    #[schemars(extend("enum" = RemedyKind::ALL.map(RemedyKind::name)))]
    kind: &'static str,
    /// What it changes.
    changes: Changes<'a>,
    /// The window of the changed assembly.
    window: Limits<'a>,
    /// A few facts as they are, by name.
    before: Facts<'a>,
    /// The same facts as they would be, by name.
    after: Facts<'a>,
    /// Errors about the torque that remain.
    leaves: Vec<RuleId<'a>>,
    /// Warnings that remain.
    warnings: Vec<RuleId<'a>>,
    /// What a part should be compared in and does not state.
    unstated: &'a [&'static str],
    /// Whether the changed assembly was judged by the whole rule set: only such are listed.
    rechecked: bool,
}

/// What a remedy changes: only the keys that change are there.
#[derive(Serialize, JsonSchema)]
struct Changes<'a> {
    /// The id of the cutter to take.
    #[serde(skip_serializing_if = "Option::is_none")]
    cutter: Option<&'a str>,
    /// The id of the collet to take.
    #[serde(skip_serializing_if = "Option::is_none")]
    collet: Option<&'a str>,
    /// The id of the nut to take.
    #[serde(skip_serializing_if = "Option::is_none")]
    nut: Option<&'a str>,
    /// The id of the holder to take.
    #[serde(skip_serializing_if = "Option::is_none")]
    holder: Option<&'a str>,
    /// Where to set the tool.
    #[serde(skip_serializing_if = "Option::is_none")]
    stick_out: Option<Quantity>,
    /// What the changed parts permit at most: never more than the present torque.
    #[serde(skip_serializing_if = "Option::is_none")]
    nut_torque: Option<Quantity>,
    /// How deep this tool goes, operation by operation, where a longer one does the rest.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    operations: Vec<Depth<'a>>,
}

/// A number with its unit.
#[derive(Serialize, JsonSchema)]
struct Quantity {
    value: Number,
    unit: UnitName,
}

/// How deep a tool goes in an operation.
#[derive(Serialize, JsonSchema)]
struct Depth<'a> {
    operation: &'a str,
    reach: Quantity,
}

fn quantity(value: f64, unit: Unit) -> Quantity {
    Quantity {
        value: Number(value),
        unit: UnitName::from(unit),
    }
}

fn rules(ids: &[String]) -> Vec<RuleId<'_>> {
    ids.iter().map(|id| RuleId(id)).collect()
}

impl<'a> Cure<'a> {
    pub(super) fn of(remedy: &'a Remedy) -> Cure<'a> {
        let facts = |facts: &'a [FactShown]| Facts(facts);
        Cure {
            kind: remedy.kind.name(),
            changes: Changes::of(remedy),
            window: Limits::of(&remedy.window),
            before: facts(&remedy.before),
            after: facts(&remedy.after),
            leaves: rules(&remedy.leaves),
            warnings: rules(&remedy.warnings),
            unstated: &remedy.unstated,
            rechecked: remedy.rechecked,
        }
    }
}

impl<'a> Changes<'a> {
    fn of(remedy: &'a Remedy) -> Changes<'a> {
        let depth = |split: &'a crate::sheet::Split| Depth {
            operation: &split.operation,
            reach: quantity(split.reach, Unit::Mm),
        };
        let part = |name: &str| {
            let mut changes = remedy.changes.iter();
            let found = changes.find(|change| change.part.name() == name);
            found.map(|change| change.id.as_str())
        };
        Changes {
            cutter: part("cutter"),
            collet: part("collet"),
            nut: part("nut"),
            holder: part("holder"),
            stick_out: remedy.stick_out.map(|at| quantity(at, Unit::Mm)),
            nut_torque: remedy.torque_at_most.map(|most| quantity(most, Unit::Nm)),
            operations: remedy.split.iter().map(depth).collect(),
        }
    }
}

/// What would have to be bought or stated where nothing on hand serves; lengths in mm.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "Nearest")]
pub(super) struct Miss<'a> {
    /// The least overall length of a cutter that would do.
    overall_length_min: Option<Number>,
    /// Its least plain shank.
    shank_length_min: Option<Number>,
    /// Its least flute length, or that of flutes and relieved neck.
    flute_length_min: Option<Number>,
    /// The least length of its cutting edges.
    cutting_edge_min: Option<Number>,
    /// The gripping length of the present collet.
    bore_length: Option<Number>,
    /// The bore that a collet would need.
    bore_diameter: Option<Number>,
    /// The square that a collet would need, across flats.
    drive_square: Option<Number>,
    /// The largest nut that would do.
    nut_outer_diameter_max: Option<Number>,
    /// The cutter on hand that comes nearest.
    cutter: Option<NearCutter<'a>>,
    /// The rules that nothing on hand corrects.
    rules: Vec<RuleId<'a>>,
    /// Properties for want of which no remedy can be rechecked.
    missing: &'a [&'static str],
    /// Why nothing serves.
    why: &'a str,
}

/// A cutter on hand that would serve, but for one respect.
#[derive(Serialize, JsonSchema)]
struct NearCutter<'a> {
    /// Its id.
    id: &'a str,
    /// Where it lies.
    location: Option<&'a str>,
    /// The property in which it differs from the present one.
    differs: &'static str,
    /// Where it would be set, mm.
    stick_out: Number,
}

impl<'a> NearCutter<'a> {
    fn of(near: &'a Near) -> NearCutter<'a> {
        NearCutter {
            id: &near.cutter.id,
            location: near.cutter.location.as_deref(),
            differs: near.differs,
            stick_out: Number(near.stick_out),
        }
    }
}

impl<'a> Miss<'a> {
    pub(super) fn of(nearest: &'a Nearest) -> Miss<'a> {
        Miss {
            overall_length_min: nearest.overall_length_min.map(Number),
            shank_length_min: nearest.shank_length_min.map(Number),
            flute_length_min: nearest.flute_length_min.map(Number),
            cutting_edge_min: nearest.cutting_edge_min.map(Number),
            bore_length: nearest.land.map(Number),
            bore_diameter: nearest.bore.map(Number),
            drive_square: nearest.drive_square.map(Number),
            nut_outer_diameter_max: nearest.nut_diameter_max.map(Number),
            cutter: nearest.cutter.as_ref().map(NearCutter::of),
            rules: rules(&nearest.rules),
            missing: &nearest.missing,
            why: &nearest.why,
        }
    }
}
