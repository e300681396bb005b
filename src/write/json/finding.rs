//! A finding. It says all that is known of it by itself, so that one may be taken out of the
//! object and kept.

use std::borrow::Cow;

use schemars::JsonSchema;
use serde::Serialize;

use crate::sheet::{Basis, Consequence, Finding, FindingPlace, Heading, Level, Outcome};

use super::acceptance::{Accepted, Lapsed};
use super::fact::{Facts, Limits};
use super::notation::{FieldName, RuleId, fields, name};
use super::shortfall::Lacking;

/// What was found: a rule that is not met, or not judged, or a fault of form.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "Finding")]
pub(in crate::write) struct Found<'a> {
    /// The rule.
    rule: RuleId<'a>,
    /// Its level; `none` if it is not judged.
    #[schemars(extend("enum" = levels()))]
    level: &'static str,
    /// What came of the rule.
    #[schemars(extend("enum" = [Outcome::NotMet.name(), Outcome::NotJudged.name()]))]
    outcome: &'static str,
    /// The rule's title: what is wrong in a few words.
    title: &'a str,
    /// The tool number.
    tool_number: Option<Cow<'a, str>>,
    /// The assembly's id.
    assembly: Option<Cow<'a, str>>,
    /// The operation, where the rule is on one.
    operation: Option<Cow<'a, str>>,
    /// The machine that the assembly is for.
    machine: Option<Cow<'a, str>>,
    /// Its pot in the magazine.
    pot: Option<Cow<'a, str>>,
    /// The ids of its parts.
    parts: PartIds<'a>,
    /// What is wrong, with values in the units of the library.
    message: &'a str,
    /// Why it matters.
    why: &'a str,
    /// What to do.
    advice: &'a str,
    /// What to beware of; empty if there is nothing.
    caution: &'a str,
    /// What comes of ignoring it.
    #[schemars(extend("enum" = Consequence::ALL.map(Consequence::name)))]
    consequence: &'static str,
    /// What the rule rests on.
    #[schemars(extend("enum" = Basis::ALL.map(Basis::name)))]
    basis: &'static str,
    /// The properties for want of which it is not judged.
    missing: Vec<FieldName>,
    /// What it compares and does not find met; null where it compares no numbers.
    shortfall: Option<Lacking<'a>>,
    /// The facts and properties that it speaks of, by name.
    facts: Facts<'a>,
    /// The limits that it rests on, by name.
    limits: Limits<'a>,
    /// What was assumed, and why.
    assumptions: &'a [String],
    /// Whether the shop has accepted it.
    accepted: Option<Accepted<'a>>,
    /// What the shop accepted once, where it is worse now, of other parts, or over.
    lapsed: Option<Lapsed<'a>>,
    /// Where it points, the first place first.
    #[schemars(length(min = 1))]
    places: Vec<Place<'a>>,
    /// The same from run to run, whatever the lines: by it a finding is found again.
    #[schemars(extend("pattern" = "^[0-9a-f]{16}$"))]
    fingerprint: &'a str,
}

fn levels() -> Vec<&'static str> {
    let all = [Level::Error, Level::Warning, Level::Note];
    all.iter()
        .map(|level| level.name())
        .chain(["none"])
        .collect()
}

/// The ids of the parts of an assembly; null where there is no such part, or none with an id.
#[derive(Default, Serialize, JsonSchema)]
#[schemars(rename = "Parts")]
struct PartIds<'a> {
    cutter: Option<Cow<'a, str>>,
    collet: Option<Cow<'a, str>>,
    nut: Option<Cow<'a, str>>,
    holder: Option<Cow<'a, str>>,
}

/// A cell, a line or a record of a file.
#[derive(Serialize, JsonSchema)]
struct Place<'a> {
    /// The file, named as the library was.
    file: &'a str,
    /// The line, from 1.
    #[schemars(range(min = 1))]
    line: usize,
    /// The column in characters, from 1.
    #[schemars(range(min = 1))]
    column: usize,
    /// The line in which it ends.
    #[schemars(range(min = 1))]
    end_line: usize,
    /// The column behind its last character. A property that is missing has no length.
    #[schemars(range(min = 1))]
    end_column: usize,
    /// The property; empty for a whole record.
    field: &'a str,
    /// The text that stands there; empty for a property that is missing.
    text: Cow<'a, str>,
    /// The sheet, where the file is a workbook: `line` and `column` are then those of a cell.
    #[serde(skip_serializing_if = "Option::is_none")]
    sheet: Option<Cow<'a, str>>,
    /// The name of the cell in that sheet, such as `F12`.
    #[serde(skip_serializing_if = "Option::is_none")]
    cell: Option<String>,
}

impl<'a> Found<'a> {
    /// A finding, with the heading of its assembly if it has one.
    pub(in crate::write) fn of(finding: &'a Finding, heading: Option<&'a Heading>) -> Found<'a> {
        let own = |text: Option<&'a String>| text.map(|text| name(text));
        Found {
            rule: RuleId(&finding.rule),
            level: finding.level_name(),
            outcome: finding.outcome.name(),
            title: &finding.title,
            tool_number: own(finding.tool_number.as_ref()),
            assembly: own(finding.assembly.as_ref()),
            operation: own(finding.operation.as_ref()),
            machine: own(heading.and_then(|heading| heading.machine.as_ref())),
            pot: own(heading.and_then(|heading| heading.pot.as_ref())),
            parts: heading.map(PartIds::of).unwrap_or_default(),
            message: &finding.message,
            why: &finding.why,
            advice: &finding.advice,
            caution: &finding.caution,
            consequence: finding.consequence.name(),
            basis: finding.basis.name(),
            missing: fields(&finding.missing),
            shortfall: finding.shortfall.as_ref().map(Lacking::of),
            facts: Facts(&finding.facts),
            limits: Limits(&finding.limits),
            assumptions: &finding.assumptions,
            accepted: finding.accepted.as_ref().map(Accepted::of),
            lapsed: finding.lapsed.as_ref().map(Lapsed::of),
            places: finding.places.iter().map(Place::of).collect(),
            fingerprint: &finding.fingerprint,
        }
    }
}

impl<'a> PartIds<'a> {
    fn of(heading: &'a Heading) -> PartIds<'a> {
        let [cutter, collet, nut, holder] =
            heading.ids.each_ref().map(|id| id.as_deref().map(name));
        PartIds {
            cutter,
            collet,
            nut,
            holder,
        }
    }
}

impl<'a> Place<'a> {
    fn of(place: &'a FindingPlace) -> Place<'a> {
        Place {
            file: &place.file,
            line: place.line,
            column: place.column,
            end_line: place.end_line,
            end_column: place.end_column,
            field: &place.field,
            text: name(&place.text),
            sheet: place.sheet.as_deref().map(name),
            cell: place.cell(),
        }
    }
}
