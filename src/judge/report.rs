//! What a run says about one library.

use crate::rulebook::Level;
use crate::text::Unread;

use super::coverage::Coverage;
use super::finding::{FactShown, Finding};

/// The verdict on a library.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// Nothing at or above the level that fails, and nothing open that matters.
    NothingFound,
    /// Something is at or above the level that fails.
    Fails,
    /// Something that matters could not be judged.
    Incomplete,
}

impl Verdict {
    /// Its name in JSON.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Verdict::NothingFound => "nothing-found",
            Verdict::Fails => "fails",
            Verdict::Incomplete => "incomplete",
        }
    }
}

/// Counts over all judgements and faults of form.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Summary {
    /// The verdict.
    pub verdict: Verdict,
    /// Errors.
    pub error: usize,
    /// Warnings.
    pub warning: usize,
    /// Notes.
    pub note: usize,
    /// Judgements that could not be made.
    pub not_judged: usize,
    /// Judgements whose rule does not apply.
    pub not_applicable: usize,
    /// Judgements whose rule is met.
    pub met: usize,
    /// Findings that the shop accepts; in none of the other counts.
    pub accepted: usize,
    /// Judgements made or tried.
    pub judgements: usize,
    /// Faults of form.
    pub faults: usize,
    /// Assemblies that are, or may be, held in a collet, on which the grip was judged.
    pub grip_judged: usize,
    /// Assemblies that are, or may be, held in a collet.
    pub held_in_collets: usize,
    /// Assemblies that are, or may be, held by a cylindrical shank, whatever clamps it.
    pub held_by_shank: usize,
    /// Assemblies.
    pub assemblies: usize,
}

/// What is said about the library itself.
#[derive(Clone, Debug, PartialEq)]
pub struct LibraryShown {
    /// Its name.
    pub name: String,
    /// Its path.
    pub path: String,
    /// `csv`, `folder` or `xml`.
    pub form: &'static str,
    /// `mm` or `in`.
    pub units: &'static str,
    /// The shop file nearest to it, if there is one.
    pub config: Option<String>,
    /// What its own shop file weakens.
    pub weakened: Vec<String>,
    /// The shop's own values that stand in for what no record states, each with how many tools
    /// rest on it.
    pub defaults: Vec<String>,
    /// Inputs that should be part of it, or of what it is judged by, and were not read.
    pub unread: Vec<Unread>,
    /// Files in folders of rules that are none.
    pub passed_over: Vec<Unread>,
    /// Ranges that stand for what nobody states, and how many of its tools rest on each.
    pub ranges: Vec<RangeShown>,
}

/// A property that is not stated and taken as a range.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RangeShown {
    /// The property, with its record.
    pub field: &'static str,
    /// Its least and its greatest value, mm.
    pub range: (f64, f64),
    /// On how many tools something was judged over it.
    pub tools: usize,
}

/// The facts of one operation.
#[derive(Clone, Debug, PartialEq)]
pub struct OperationFacts {
    /// The operation.
    pub operation: String,
    /// Its facts.
    pub facts: Vec<FactShown>,
}

/// The facts of one assembly.
#[derive(Clone, Debug, PartialEq)]
pub struct AssemblyFacts {
    /// The tool number.
    pub tool_number: Option<String>,
    /// The assembly's id.
    pub assembly: Option<String>,
    /// Its facts.
    pub facts: Vec<FactShown>,
    /// Its operations.
    pub operations: Vec<OperationFacts>,
}

/// What a run says about one library.
#[derive(Clone, Debug, PartialEq)]
pub struct Report {
    /// The library.
    pub library: LibraryShown,
    /// The counts.
    pub summary: Summary,
    /// Of which tools grip and reach were judged.
    pub coverage: Coverage,
    /// The least level that fails.
    pub fail_on: Level,
    /// The findings, worst first.
    pub findings: Vec<Finding>,
    /// The facts, if asked for.
    pub assemblies: Option<Vec<AssemblyFacts>>,
    /// The units its people read.
    pub units: crate::units::print::DisplayUnits,
}
