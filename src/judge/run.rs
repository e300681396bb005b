//! One library, assembly by assembly: what every rule says of each, and how it is to be judged
//! ([`Session`], [`Options`]).

use crate::library::{Field, Library};
use crate::rulebook::{Date, Level, Rule};

use super::accepted::{self, AtIssue, ByTool, Registered, Terming, answer};
use super::coverage::{Covered, Group, Worst};
use super::faults::Faults;
use super::finding::Finding;
use super::judgement::Judge;
use super::order::arrange;
use super::report::AssemblyFacts;
use super::run_record::RunRecord;
use super::settled::Outlines;
use super::setup::{Selection, Setup};
use super::unmet_columns;

/// How a library is to be judged.
#[derive(Clone, Debug)]
pub struct Options {
    /// Findings that rest on assumptions keep their level.
    pub strict: bool,
    /// The least level that fails.
    pub fail_on: Level,
    /// Which rules are asked for.
    pub selection: Selection,
    /// Whether facts are wanted besides findings.
    pub with_facts: bool,
    /// Today, for what the shop accepts until a day.
    pub today: Date,
}

impl Options {
    /// As the command line has them unless told otherwise, on a day.
    #[must_use]
    pub fn on(today: Date) -> Options {
        Options {
            strict: false,
            fail_on: Level::Error,
            selection: Selection::default(),
            with_facts: false,
            today,
        }
    }
}

/// One library with all that judges it: asked assembly by assembly, in any order and on any
/// thread, and each answer depends on nothing but the library.
pub struct Session<'a> {
    /// The judge by the setup's rules.
    pub judge: Judge<'a>,
    /// The library.
    pub library: &'a Library,
    /// What it is judged with.
    pub setup: &'a Setup,
    /// How.
    pub options: &'a Options,
    faults: Faults<'a>,
    /// What the faults say of each assembly; empty where there are none.
    prior: Vec<Worst>,
    accepted: ByTool<'a>,
    /// What became of everything that the shop accepts.
    pub register: Vec<Registered<'a>>,
    /// What is wrong with that.
    told: Vec<Finding>,
    /// What no number decides, by the outlines met so far.
    pub(super) outlines: Outlines,
    /// Whether each rule is switched on and asked for.
    asked: Vec<bool>,
}

/// What came of one assembly: its findings, the worst first, and what is counted.
#[derive(Default)]
pub struct OfAssembly {
    /// Number of the assembly in the library.
    pub at: usize,
    /// Its findings.
    pub findings: Vec<Finding>,
    /// Its facts, if asked for.
    pub facts: Option<AssemblyFacts>,
    /// As far as coverage asks about it.
    pub covered: Covered,
    pub(super) met: usize,
    pub(super) not_applicable: usize,
    pub(super) judgements: usize,
    pub(super) faults: usize,
    pub(super) in_collet: bool,
    pub(super) ranges: Vec<(Field, (f64, f64))>,
    prior: Worst,
}

impl<'a> Session<'a> {
    /// Takes a library, of which nothing is judged yet but the tools of which the shop accepts
    /// something.
    #[must_use]
    pub fn new(library: &'a Library, setup: &'a Setup, options: &'a Options) -> Session<'a> {
        let mut session = Session::silent(library, setup, options);
        session.register = accepted::register(library, setup, options);
        session.told = unmet_columns::told(&session);
        session.told.extend(accepted::told(&session));
        session
    }

    /// One that says nothing of what the shop accepts.
    pub(super) fn silent(
        library: &'a Library,
        setup: &'a Setup,
        options: &'a Options,
    ) -> Session<'a> {
        let judge = Judge::new(&setup.book, options.strict);
        let faults = Faults::of(library, &judge, &options.selection);
        let terming = Terming::of(&judge, setup, options);
        let accepted = ByTool::new(&setup.shop.accepted);
        let is_accepted = |fault: &crate::input::Fault| {
            let subject = AtIssue::of_fault(fault, library);
            answer(&accepted, terming, subject).counts()
        };
        let prior = if library.is_faultless() {
            Vec::new()
        } else {
            faults.prior(&judge, is_accepted)
        };
        let rules = setup.book.rules.iter();
        Session {
            judge,
            library,
            setup,
            options,
            faults,
            prior,
            accepted,
            register: Vec::new(),
            told: Vec::new(),
            outlines: Outlines::default(),
            asked: rules.map(|rule| asked(rule, &options.selection)).collect(),
        }
    }

    /// Whether a rule is switched on and asked for, by its number.
    pub(super) fn asks(&self, rule: usize) -> bool {
        self.asked.get(rule).copied().unwrap_or(false)
    }

    /// How many faults of form belong to no one assembly.
    #[must_use]
    pub fn loose(&self) -> usize {
        self.told.len() + self.faults.loose()
    }

    /// One of the faults that belong to no one assembly, in the order in which they are shown:
    /// those of what the shop accepts come first.
    #[must_use]
    pub fn loose_fault(&self, number: usize) -> Option<Finding> {
        let Some(number) = number.checked_sub(self.told.len()) else {
            return self.told.get(number).cloned();
        };
        let mut fault = self.faults.loose_one(&self.judge, number)?;
        self.accept(&mut fault);
        Some(fault)
    }

    /// What came of one assembly, and the faults of its form.
    #[must_use]
    pub fn assembly(&self, at: usize) -> OfAssembly {
        let Some(assembly) = self.library.assemblies.get(at) else {
            return OfAssembly::default();
        };
        let mut tally = self.tally(at, assembly);
        let accept = |finding: &mut Finding| self.accept(finding);
        tally.findings.iter_mut().for_each(accept);
        tally.without_false_lengths(self.setup);
        let mut findings = self.faults.of_assembly(&self.judge, at);
        findings.iter_mut().for_each(accept);
        let faults = findings.len();
        findings.append(&mut tally.findings);
        arrange(&mut findings);
        OfAssembly {
            at,
            findings,
            facts: tally.facts,
            covered: tally.covered,
            met: tally.counted.met,
            not_applicable: tally.counted.not_applicable,
            judgements: tally.counted.judgements,
            faults,
            in_collet: tally.in_collet,
            ranges: tally.ranges,
            prior: self.prior.get(at).copied().unwrap_or_default(),
        }
    }

    /// What the shop says of a finding.
    pub fn accept(&self, finding: &mut Finding) {
        if self.accepted.is_empty() {
            return;
        }
        let subject = AtIssue::of(finding, self.library);
        answer(&self.accepted, self.terming(), subject).tell(finding);
    }

    /// The day and the terms on which the shop accepts something.
    pub(super) fn terming(&self) -> Terming {
        Terming::of(&self.judge, self.setup, self.options)
    }

    /// By what it judges, and when.
    #[must_use]
    pub fn record(&self) -> RunRecord {
        RunRecord::of(self.setup, self.options)
    }

    /// Says of findings that wait how what they wait for is missing.
    pub fn tell_lacks(&self, findings: &mut [Finding]) {
        self.faults.tell_lacks(findings);
    }
}

impl OfAssembly {
    /// In which group the assembly is, once its findings are complete.
    #[must_use]
    pub fn group(&self, fail_on: Level) -> Group {
        let mut found = self.prior;
        for finding in &self.findings {
            found.add(finding);
        }
        found.group(self.covered.counts, fail_on)
    }

    /// Counts findings that were not there when the rules were judged: as faults.
    pub const fn add_faults(&mut self, count: usize) {
        self.faults += count;
    }
}

/// Whether a rule is switched on and asked for.
fn asked(rule: &Rule, selection: &Selection) -> bool {
    !rule.off && selection.takes(&rule.id)
}
