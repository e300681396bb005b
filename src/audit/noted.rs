//! A finding as it is noted from day to day: what a table of findings has in a row, what a later
//! run compares with, and what is left of it once it is gone.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::sheet::{Finding, FindingPlace, Heading, Lapsed, Shortfall, Wanted};
use crate::text::spot;
use crate::units::Unit;

/// A finding in plain words and numbers.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(default)]
pub struct Noted {
    /// The library's key.
    pub library: String,
    /// The tool number.
    pub tool_number: String,
    /// The assembly's id.
    pub assembly: String,
    /// The machine that the assembly is for.
    pub machine: String,
    /// The operation.
    pub operation: String,
    /// The rule.
    pub rule: String,
    /// Its level: `error`, `warning`, `note`, or `none` if it is not judged.
    pub level: String,
    /// What came of the rule: `fails` or `cannot be judged`.
    pub outcome: String,
    /// The rule's title.
    pub title: String,
    /// The units of its words: `mm` or `in`.
    pub units: String,
    /// What is wrong.
    pub message: String,
    /// What to do.
    pub advice: String,
    /// What is compared; empty if no numbers are.
    pub what: String,
    /// How much there is, in `unit`.
    pub value: Option<f64>,
    /// How much is wanted, in `unit`.
    pub needed: Option<f64>,
    /// The unit of both.
    pub unit: String,
    /// On which side of `needed` the rule is met.
    pub wanted: String,
    /// The file.
    pub file: String,
    /// Line, from 1; 0 if there is none.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
    /// The property.
    pub field: String,
    /// Who accepts it; empty if nobody does.
    pub accepted_by: String,
    /// Until when.
    pub accepted_until: String,
    /// Who accepted it once, and why it counts again; empty if nobody did.
    pub accepted_no_more: String,
    /// The same from run to run.
    pub fingerprint: String,
    /// The sheet that line and column are in, if the file is a workbook; else empty.
    pub sheet: String,
    /// The cell in it.
    pub cell: String,
}

impl Noted {
    /// Notes a finding of a library, with the heading of its assembly if it has one.
    #[must_use]
    pub fn of(
        finding: &Finding,
        heading: Option<&Heading>,
        (library, units): (&str, &str),
    ) -> Noted {
        let own = |text: Option<&String>| text.cloned().unwrap_or_default();
        let place = finding.places.first();
        let shortfall = finding.shortfall.as_ref();
        let accepted = finding.accepted.as_ref();
        Noted {
            library: library.to_owned(),
            tool_number: own(finding.tool_number.as_ref()),
            assembly: own(finding.assembly.as_ref()),
            machine: own(heading.and_then(|heading| heading.machine.as_ref())),
            operation: own(finding.operation.as_ref()),
            rule: finding.rule.clone(),
            level: finding.level_name().to_owned(),
            outcome: finding.outcome.name().to_owned(),
            title: finding.title.to_string(),
            units: units.to_owned(),
            message: finding.message.to_string(),
            advice: finding.advice.to_string(),
            what: shortfall.map_or_else(String::new, |one| one.what.clone()),
            value: shortfall.map(|one| one.value),
            needed: shortfall.map(|one| one.needed),
            unit: shortfall.map_or("", |one| one.unit.symbol()).to_owned(),
            wanted: shortfall.map_or("", |one| one.wanted.name()).to_owned(),
            file: place.map_or_else(String::new, |place| place.file.clone()),
            line: place.map_or(0, |place| place.line),
            column: place.map_or(0, |place| place.column),
            field: place.map_or_else(String::new, |place| place.field.clone()),
            accepted_by: accepted.map_or_else(String::new, |one| one.by.clone()),
            accepted_until: accepted
                .and_then(|one| one.until.clone())
                .unwrap_or_default(),
            accepted_no_more: finding
                .lapsed
                .as_ref()
                .map_or_else(String::new, Lapsed::told),
            fingerprint: finding.fingerprint.clone(),
            sheet: place.and_then(|at| at.sheet.clone()).unwrap_or_default(),
            cell: place.and_then(FindingPlace::cell).unwrap_or_default(),
        }
    }

    /// What it measures, if it compares numbers.
    #[must_use]
    pub fn shortfall(&self) -> Option<Shortfall> {
        let mut units = Unit::ALL.into_iter();
        let mut sides = Wanted::ALL.into_iter();
        Some(Shortfall {
            what: self.what.clone(),
            value: self.value?,
            needed: self.needed?,
            unit: units.find(|unit| unit.symbol() == self.unit)?,
            wanted: sides.find(|side| side.name() == self.wanted)?,
        })
    }

    /// Whether the shop accepts it.
    #[must_use]
    pub const fn is_accepted(&self) -> bool {
        !self.accepted_by.is_empty()
    }

    /// Where it stands: `tools.csv:12:6`, or `tools.xlsx: Tools!F12`.
    #[must_use]
    pub fn spot(&self) -> String {
        let sheet = (!self.sheet.is_empty()).then_some(self.sheet.as_str());
        spot(&self.file, sheet, (self.line, self.column))
    }

    /// Its texts.
    pub(super) fn texts(&mut self) -> [&mut String; 22] {
        [
            &mut self.library,
            &mut self.tool_number,
            &mut self.assembly,
            &mut self.machine,
            &mut self.operation,
            &mut self.rule,
            &mut self.level,
            &mut self.outcome,
            &mut self.title,
            &mut self.message,
            &mut self.advice,
            &mut self.what,
            &mut self.unit,
            &mut self.wanted,
            &mut self.file,
            &mut self.field,
            &mut self.accepted_by,
            &mut self.accepted_until,
            &mut self.accepted_no_more,
            &mut self.fingerprint,
            &mut self.sheet,
            &mut self.cell,
        ]
    }
}
