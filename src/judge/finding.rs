//! A finding as plain data: what writers need, and nothing that they would have to judge.

use crate::input::fault_kind;
use crate::rulebook::{Basis, Consequence, Level};
use crate::text::cell_name;
use crate::units::{Scalar, Unit};

use super::brief::Brief;
use super::made_words::Words;
use super::outcome::Outcome;
use super::shortfall::Shortfall;

/// A fact or property with what it rests on.
#[derive(Clone, Debug, PartialEq)]
pub struct FactShown {
    /// Whether it rests on an assumed friction or an estimated cut.
    pub estimated: bool,
    /// The fact or the property.
    pub name: String,
    /// Its value, if known.
    pub value: Option<Scalar<String>>,
    /// The least and the greatest that it may be, in `unit`, where it rests on what nobody states:
    /// then it has no value.
    pub range: Option<(f64, f64)>,
    /// Its canonical unit, if it is a number.
    pub unit: Option<Unit>,
    /// Whether it rests on something assumed.
    pub assumed: bool,
    /// The fields it came from.
    pub from: Vec<&'static str>,
    /// The fields that are missing for it.
    pub missing: Vec<&'static str>,
    /// Those of them that are stated and in no table, each with what is to be said.
    pub unlisted: Vec<(&'static str, String)>,
    /// Why its model says nothing here, though nothing is missing.
    pub outside: Option<&'static str>,
}

/// A limit that a finding rests on.
#[derive(Clone, Debug, PartialEq)]
pub struct LimitShown {
    /// The limit as rules name it.
    pub name: String,
    /// How much, in `unit`.
    pub value: f64,
    /// The value as written.
    pub written: String,
    /// The unit of `value`.
    pub unit: Unit,
    /// What it rests on.
    pub basis: &'static str,
    /// Where it is printed; empty for common practice.
    pub source: String,
}

/// A finding that the shop has accepted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Acceptance {
    /// Why.
    pub reason: String,
    /// Who.
    pub by: String,
    /// Last day, `2027-01-31`.
    pub until: Option<String>,
    /// What was accepted: `21.0 mm of 26.7 mm`.
    pub at: Option<String>,
}

/// A finding that the shop accepted once and that counts again.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lapsed {
    /// Why it was accepted.
    pub reason: String,
    /// Who accepted it.
    pub by: String,
    /// Last day, `2027-01-31`.
    pub until: Option<String>,
    /// What was accepted: `21.0 mm of 26.7 mm`.
    pub at: Option<String>,
    /// What has changed since.
    pub why: Vec<String>,
}

/// How a value is missing.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Lack {
    /// Nothing stands there.
    #[default]
    NotStated,
    /// What stands there is no value.
    Unreadable,
    /// There is a guess, which is not enough.
    Assumed,
}

/// Where a finding points.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FindingPlace {
    /// The file as shown.
    pub file: String,
    /// The sheet, if the file is a workbook: then line and column are those of a cell.
    pub sheet: Option<String>,
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
    /// Line in which it ends.
    pub end_line: usize,
    /// Column behind its last character; where something is missing, `column`.
    pub end_column: usize,
    /// The field; empty for a whole record.
    pub field: String,
    /// The unit that the header names, where the cell's text rests on it.
    pub unit: Option<&'static str>,
    /// The text that stands there; empty for a field that is missing.
    pub text: String,
    /// The record it stands in, such as `cutter EM12`.
    pub record: String,
    /// Whether the field is missing from the record.
    pub absent: bool,
    /// How it is missing, where the finding waits for it.
    pub lack: Lack,
}

impl FindingPlace {
    /// The line that it stands in: the file, the sheet, the number.
    #[must_use]
    pub fn line_key(&self) -> (&str, Option<&str>, usize) {
        (&self.file, self.sheet.as_deref(), self.line)
    }

    /// The name of its cell, if it stands in a sheet.
    #[must_use]
    pub fn cell(&self) -> Option<String> {
        self.sheet.as_ref()?;
        Some(cell_name(self.line, self.column))
    }
}

/// One finding.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// The rule.
    pub rule: String,
    /// The rule's title.
    pub title: Words,
    /// The level; `None` if it is not judged.
    pub level: Option<Level>,
    /// The level the rule would have without assumptions.
    pub full_level: Level,
    /// What came of it.
    pub outcome: Outcome,
    /// What comes of ignoring it.
    pub consequence: Consequence,
    /// What the rule rests on.
    pub basis: Basis,
    /// The rule in whose block it is shown.
    pub beside: Option<String>,
    /// Number of the assembly in the library.
    pub assembly_index: Option<usize>,
    /// Numbers of the assemblies of whose records it speaks, where it is a fault of form.
    pub part_of: Vec<usize>,
    /// The tool number.
    pub tool_number: Option<String>,
    /// The assembly's id.
    pub assembly: Option<String>,
    /// The operation.
    pub operation: Option<String>,
    /// What is wrong, in the library's units.
    pub message: Words,
    /// Why it matters.
    pub why: Words,
    /// What to do.
    pub advice: Words,
    /// The same in short, without reasons, limits and what remains.
    pub brief: Brief,
    /// What is said beside any advice; empty if that is nothing.
    pub besides: Words,
    /// What to do where the stick-out is settled by others; empty if that is no other advice.
    pub without_moving: Words,
    /// The stick-out that cures it, mm, if one is known to.
    pub stick_out: Option<f64>,
    /// Other ways to do it.
    pub otherwise: Vec<String>,
    /// What to beware of.
    pub caution: Words,
    /// Fields that are missing, with their record.
    pub missing: Vec<&'static str>,
    /// What its condition compares and does not meet, if it compares numbers.
    pub shortfall: Option<Shortfall>,
    /// The values it speaks of.
    pub facts: Vec<FactShown>,
    /// The limits it rests on.
    pub limits: Vec<LimitShown>,
    /// What was assumed, and why.
    pub assumptions: Vec<String>,
    /// Whether the shop has accepted it.
    pub accepted: Option<Acceptance>,
    /// What the shop accepted once, where it counts again.
    pub lapsed: Option<Lapsed>,
    /// Where it points.
    pub places: Vec<FindingPlace>,
    /// Whether less torque is among what corrects it: what that asks for comes before all else.
    pub of_torque: bool,
    /// Whether it rests on how far the tool sticks out, or on how long it is.
    pub on_length: bool,
    /// The same from run to run, whatever the lines.
    pub fingerprint: String,
}

impl Finding {
    /// Takes advice that is short as it is.
    pub fn advise(&mut self, advice: impl Into<Words>) {
        self.advice = advice.into();
        self.brief = Brief::of(self.advice.clone());
    }

    /// Whether it leaves open what matters: it is not judged, and might be an error.
    #[must_use]
    pub fn is_open(&self) -> bool {
        // A missing starred property is a gap whatever level its words have.
        let matters = self.full_level == Level::Error || self.rule == fault_kind::FIELD_MISSING;
        self.outcome == Outcome::NotJudged && matters
    }

    /// Name of its level in JSON.
    #[must_use]
    pub fn level_name(&self) -> &'static str {
        self.level.map_or("none", Level::name)
    }
}

/// What stands for a finding from run to run: a hash of what it is about.
///
/// FNV-1a, 64 bits: short, stable, and needs no secret.
///
/// # Source
/// Fowler, Noll, Vo; offset basis and prime as in the IETF draft draft-eastlake-fnv.
#[must_use]
pub fn fingerprint(parts: &[&str]) -> String {
    let mut hash: u64 = 0xcbf2_9ce4_8422_2325;
    for part in parts {
        // A byte that no text holds keeps ("ab", "c") and ("a", "bc") apart.
        for byte in part.bytes().chain([0xff]) {
            hash = (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3);
        }
    }
    format!("{hash:016x}")
}
