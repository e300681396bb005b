//! What a run says about one library, all of it in memory: for who looks at small ones whole.

use rayon::prelude::*;

use crate::library::Library;
use crate::rulebook::{Level, ShopFile};
use crate::text::Unread;

use super::coverage::Coverage;
use super::finding::{FactShown, Finding};
use super::heading::Heading;
use super::order::{Twins, arrange};
use super::run::{OfAssembly, Options, Session};
use super::run_record::RunRecord;
use super::setup::Setup;
use super::totals::{Leaning, Totals};

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
    /// All of them.
    pub const ALL: [Verdict; 3] = [Verdict::NothingFound, Verdict::Fails, Verdict::Incomplete];

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

impl Summary {
    /// The counts of nothing.
    pub(super) const fn of_none() -> Summary {
        Summary {
            verdict: Verdict::NothingFound,
            error: 0,
            warning: 0,
            note: 0,
            not_judged: 0,
            not_applicable: 0,
            met: 0,
            accepted: 0,
            judgements: 0,
            faults: 0,
            grip_judged: 0,
            held_in_collets: 0,
            held_by_shank: 0,
            assemblies: 0,
        }
    }

    /// The count that a finding belongs to.
    pub(super) const fn counter(&mut self, finding: &Finding) -> &mut usize {
        match (&finding.accepted, finding.level) {
            (Some(_), _) => &mut self.accepted,
            (None, None) => &mut self.not_judged,
            (None, Some(Level::Error)) => &mut self.error,
            (None, Some(Level::Warning)) => &mut self.warning,
            (None, Some(Level::Note)) => &mut self.note,
        }
    }
}

/// What is said about the library itself.
#[derive(Clone, Debug, PartialEq)]
pub struct LibraryShown {
    /// What the shop calls it; else its file or folder.
    pub name: String,
    /// Where it was read from, as the user gave it.
    pub path: String,
    /// `csv`, `folder` or `xml`.
    pub form: &'static str,
    /// `mm` or `in`.
    pub units: &'static str,
    /// The shop files that were used; the last, which is nearest to it, counts most.
    pub shop_files: Vec<ShopFile>,
    /// What shop files weaken.
    pub weakened: Vec<Weakened>,
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

/// A rule or a limit that a shop file weakens.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Weakened {
    /// What is changed, from what to what, and why.
    pub text: String,
    /// The plant's file that does it; none if it is the library's own.
    pub plant: Option<String>,
}

impl Weakened {
    /// In one line.
    #[must_use]
    pub fn told(&self) -> String {
        match &self.plant {
            None => self.text.clone(),
            Some(file) => format!("{}, by {file}", self.text),
        }
    }
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
    /// What is computed for it alone.
    pub facts: Vec<FactShown>,
}

/// The facts of one assembly.
#[derive(Clone, Debug, PartialEq)]
pub struct AssemblyFacts {
    /// The tool number.
    pub tool_number: Option<String>,
    /// The assembly's id.
    pub assembly: Option<String>,
    /// What does not depend on an operation.
    pub facts: Vec<FactShown>,
    /// What depends on one, operation by operation.
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
    /// By what it was judged, and when.
    pub run: RunRecord,
    /// What its assemblies are called.
    pub headings: Vec<Heading>,
}

/// Judges a library.
#[must_use]
pub fn judge(library: &Library, setup: &Setup, options: &Options) -> Report {
    let session = Session::new(library, setup, options);
    let mut totals = Totals::new(&session);
    let faults = (0..session.loose()).into_par_iter();
    let faults = faults.filter_map(|number| session.loose_fault(number));
    let mut findings: Vec<Finding> = faults.collect();
    for finding in &findings {
        totals.fault(finding);
    }
    let assemblies = (0..library.assemblies.len()).into_par_iter();
    let checked: Vec<OfAssembly> = assemblies.map(|at| session.assembly(at)).collect();
    let mut facts = options.with_facts.then(Vec::new);
    for one in checked {
        totals.assembly(&one);
        findings.extend(one.findings);
        if let (Some(all), Some(own)) = (&mut facts, one.facts) {
            all.push(own);
        }
    }
    session.tell_lacks(&mut findings);
    let mut twins = Twins::of(library);
    findings
        .chunk_by_mut(|a, b| a.assembly_index == b.assembly_index)
        .for_each(|own| twins.number(own));
    arrange(&mut findings);
    let shown = totals.library(&session);
    Report {
        library: shown,
        summary: totals.summary,
        coverage: totals.coverage,
        fail_on: options.fail_on,
        findings,
        assemblies: facts,
        units: library.units,
        run: RunRecord::of(setup, options),
        headings: library
            .assemblies
            .iter()
            .map(|assembly| Heading::of(library, assembly))
            .collect(),
    }
}

impl Report {
    /// Takes in what the advice has made of the findings, of which some are new: these count as
    /// faults.
    pub fn replace(&mut self, findings: Vec<Finding>, new: &[Finding]) {
        self.findings = findings;
        self.summary.faults += new.len();
        for finding in new {
            *self.summary.counter(finding) += 1;
        }
        self.summary.verdict = self.verdict_on(|_| true);
        arrange(&mut self.findings);
    }

    /// The verdict on some of the findings alone.
    #[must_use]
    pub fn verdict_on(&self, own: impl Fn(&Finding) -> bool) -> Verdict {
        let mut leaning = Leaning::default();
        for finding in self.findings.iter().filter(|finding| own(finding)) {
            leaning.take(finding, self.fail_on);
        }
        leaning.verdict(&self.library.unread)
    }

    /// Leaves out the findings that `shown` does not take, of judgements that nobody asked for.
    /// The verdict stays: what is not shown has not passed.
    pub fn retain(&mut self, shown: impl Fn(&Finding) -> bool) {
        for finding in self.findings.iter().filter(|finding| !shown(finding)) {
            let counter = self.summary.counter(finding);
            *counter = counter.saturating_sub(1);
            self.summary.judgements = self.summary.judgements.saturating_sub(1);
        }
        self.findings.retain(shown);
    }
}
