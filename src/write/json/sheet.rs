//! The sheet of an assembly: all that a page shows of it, its findings aside.

use std::borrow::Cow;

use schemars::JsonSchema;
use serde::Serialize;

use crate::sheet::{Clamping, Finding, Origin, PartShown, RecordShown, Sheet, Sourced, ValueShown};
use crate::units::Scalar;

use super::drawing::Drawn;
use super::fact::Facts;
use super::notation::{UnitName, name};
use super::remedy::Cure;
use super::window::Limits;

/// An assembly.
#[derive(Serialize, JsonSchema)]
pub(in crate::write) struct Whole<'a> {
    /// The tool number.
    tool_number: Option<Cow<'a, str>>,
    /// Its id.
    assembly: Option<Cow<'a, str>>,
    /// The machine that it is for.
    machine: Option<Cow<'a, str>>,
    /// Its pot in the magazine.
    pot: Option<Cow<'a, str>>,
    /// What it is called.
    description: Option<Cow<'a, str>>,
    /// In which group of the counts it is.
    group: &'static str,
    /// The line of its row or element.
    line: usize,
    /// The ways in which it is clamped: more than one where operations state their own.
    clampings: Vec<Clamped<'a>>,
}

/// One way in which it is clamped.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "Clamping")]
struct Clamped<'a> {
    /// Its parts.
    parts: Vec<Part<'a>>,
    /// The values of its own row.
    values: Vec<Stated<'a>>,
    /// The torques at its nut or screw.
    torques: Torques<'a>,
    /// Its facts, by name; null where they were not worked out.
    facts: Option<Facts<'a>>,
    /// The stick-outs that the rules leave; null where they were not worked out.
    window: Option<Limits<'a>>,
    /// Where what is found says to set it, mm: nowhere where another part comes first.
    set_to: Option<f64>,
    /// Changes that correct it, the best first; null unless they were asked for.
    remedies: Option<Vec<Cure<'a>>>,
    /// Its shapes; null where too little is stated to draw it.
    drawing: Option<Drawn>,
}

/// A part.
#[derive(Serialize, JsonSchema)]
struct Part<'a> {
    /// Its record, such as `cutter`.
    kind: &'static str,
    /// Its id.
    id: Option<Cow<'a, str>>,
    /// Whether it is named and nowhere described.
    unresolved: bool,
}

#[derive(Serialize, JsonSchema)]
#[serde(untagged)]
#[schemars(inline)]
enum Known<'a> {
    Number(f64),
    Text(Cow<'a, str>),
    Truth(bool),
}

/// A value of the row, or what stands in for it.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "Value")]
struct Stated<'a> {
    /// The property.
    property: &'static str,
    /// Its value; null if it is not known.
    value: Option<Known<'a>>,
    /// The unit of a number; null for words, and for yes or no.
    unit: Option<UnitName>,
    /// Where it comes from.
    #[schemars(extend("enum" = ["stated", "derived", "default", "assumed", "range", "missing"]))]
    origin: &'static str,
    /// Why it is assumed, where it is.
    #[serde(skip_serializing_if = "Option::is_none")]
    because: Option<&'static str>,
    /// Its least and its greatest value, where nobody states it.
    #[serde(skip_serializing_if = "Option::is_none")]
    range: Option<[f64; 2]>,
    /// The file, line and column where it is stated.
    place: Option<(&'a str, usize, usize)>,
    /// The sheet of it, if the file is a workbook.
    #[serde(skip_serializing_if = "Option::is_none")]
    sheet: Option<&'a str>,
}

/// The torques at a nut or screw; null where nothing states them.
#[derive(Serialize, JsonSchema)]
struct Torques<'a> {
    /// What it is tightened with.
    set: Option<Torque<'a>>,
    /// What is recommended.
    recommended: Option<Torque<'a>>,
    /// What must not be exceeded.
    limit: Option<Torque<'a>>,
}

/// A torque, N·m, with the properties that it comes from.
#[derive(Serialize, JsonSchema)]
struct Torque<'a> {
    value: f64,
    from: &'a [&'static str],
}

impl<'a> Whole<'a> {
    pub(in crate::write) fn of(sheet: &'a Sheet) -> Whole<'a> {
        let own = |text: Option<&'a String>| text.map(|text| name(text));
        Whole {
            tool_number: own(sheet.tool_number.as_ref()),
            assembly: own(sheet.assembly.as_ref()),
            machine: own(sheet.heading.machine.as_ref()),
            pot: own(sheet.heading.pot.as_ref()),
            description: own(sheet.heading.description.as_ref()),
            group: sheet.group.name(),
            line: sheet.heading.line,
            clampings: sheet
                .clampings
                .iter()
                .map(|one| Clamped::of(one, set_to(&sheet.findings)))
                .collect(),
        }
    }
}

/// The stick-out that the findings of a tool ask for; what is accepted asks for nothing.
fn set_to(findings: &[Finding]) -> Option<f64> {
    let mut counting = findings.iter().filter(|one| one.accepted.is_none());
    counting.find_map(|one| one.stick_out)
}

impl<'a> Clamped<'a> {
    fn of(clamping: &'a Clamping, set_to: Option<f64>) -> Clamped<'a> {
        let record = clamping.record.as_ref();
        let empty: &'a [PartShown] = &[];
        let parts = record.map_or(empty, |record| &record.parts);
        let values = record.map_or(&[] as &'a [ValueShown], |record| &record.values);
        let remedies = clamping.remedies.as_ref();
        Clamped {
            parts: parts.iter().map(Part::of).collect(),
            values: values.iter().map(Stated::of).collect(),
            torques: Torques::of(record),
            facts: clamping.facts.as_ref().map(|own| Facts(&own.facts)),
            window: clamping.window.as_ref().map(Limits::of),
            set_to,
            remedies: remedies.map(|found| found.list.iter().map(Cure::of).collect()),
            drawing: clamping.drawing.as_ref().map(Drawn::of),
        }
    }
}

impl<'a> Part<'a> {
    fn of(part: &'a PartShown) -> Part<'a> {
        Part {
            kind: part.kind,
            id: part.id.as_deref().map(name),
            unresolved: part.unresolved,
        }
    }
}

impl<'a> Stated<'a> {
    fn of(value: &'a ValueShown) -> Stated<'a> {
        let known = value.value.as_ref().map(|value| match value {
            Scalar::Number(number) => Known::Number(*number),
            Scalar::Word(word) => Known::Text(word.word.into()),
            Scalar::Text(text) => Known::Text(name(text)),
            Scalar::Truth(truth) => Known::Truth(*truth),
        });
        let (origin, because, range) = match value.origin {
            Origin::Stated => ("stated", None, None),
            Origin::Derived => ("derived", None, None),
            Origin::Default => ("default", None, None),
            Origin::Assumed(why) => ("assumed", Some(why), None),
            Origin::Range(low, high) => ("range", None, Some([low, high])),
            Origin::Missing => ("missing", None, None),
        };
        let place = value.place.as_ref();
        Stated {
            property: value.name,
            value: known,
            unit: value.unit.map(UnitName::from),
            origin,
            because,
            range,
            sheet: value.sheet.as_deref(),
            place: place.map(|(file, line, column)| (file.as_str(), *line, *column)),
        }
    }
}

impl<'a> Torques<'a> {
    fn of(record: Option<&'a RecordShown>) -> Torques<'a> {
        let one = |torque: Option<&'a Sourced>| {
            torque.map(|torque| Torque {
                value: torque.value,
                from: &torque.from,
            })
        };
        let torques = record.map(|record| &record.torques);
        Torques {
            set: one(torques.and_then(|all| all.set.as_ref())),
            recommended: one(torques.and_then(|all| all.recommended.as_ref())),
            limit: one(torques.and_then(|all| all.limit.as_ref())),
        }
    }
}
