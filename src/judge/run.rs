//! One library, assembly by assembly: what every rule says of each, and how it is to be judged
//! ([`Session`], [`Options`]).

use crate::facts::Scene;
use crate::library::{Assembly, Field, FieldSet, Library, Overrides, RANGED};
use crate::rulebook::{Date, Level, Rule};

use super::accepted::{self, AtIssue, ByTool, Registered, Terming, answer};
use super::coverage::{Answered, Covered, Group, Worst};
use super::faults::Faults;
use super::finding::Finding;
use super::judgement::Judge;
use super::order::arrange;
use super::outcome::Outcome;
use super::report::AssemblyFacts;
use super::run_record::RunRecord;
use super::setup::{Selection, Setup};
use super::shown::all_facts;
use super::write_up;

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

/// What came of one assembly by the rules alone.
#[derive(Default)]
struct Tally {
    findings: Vec<Finding>,
    met: usize,
    not_applicable: usize,
    judgements: usize,
    in_collet: bool,
    by_shank: bool,
    grip: Answered,
    reach: Answered,
    covered: Covered,
    /// The ranges that it was judged over, mm.
    ranges: Vec<(Field, (f64, f64))>,
    facts: Option<AssemblyFacts>,
}

impl<'a> Session<'a> {
    /// Takes a library, of which nothing is judged yet but the tools of which the shop accepts
    /// something.
    #[must_use]
    pub fn new(library: &'a Library, setup: &'a Setup, options: &'a Options) -> Session<'a> {
        let mut session = Session::silent(library, setup, options);
        session.register = accepted::register(library, setup, options);
        session.told = accepted::told(&session);
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
        }
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
            met: tally.met,
            not_applicable: tally.not_applicable,
            judgements: tally.judgements,
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

impl Session<'_> {
    fn tally(&self, index: usize, assembly: &Assembly) -> Tally {
        let overrides = Overrides::default();
        self.judge
            .look(self.library, assembly, &overrides, |base, operations| {
                self.scenes(index, base, operations)
            })
    }

    fn scenes(&self, index: usize, base: &Scene<'_>, operations: &[Scene<'_>]) -> Tally {
        let mut tally = Tally {
            in_collet: base.view.held_in_collet().value != Some(false),
            by_shank: held_by_shank(base),
            ..Tally::default()
        };
        for (at, rule) in self.judge.book.rules.iter().enumerate() {
            if rule.is_fault() {
                continue;
            }
            if !asked(rule, &self.options.selection) {
                self.unasked(at, rule, base, operations, &mut tally);
                continue;
            }
            if !rule.of_operation {
                self.subject(at, index, base, &mut tally);
            } else if operations.is_empty() {
                tally.judgements += 1;
                tally.not_applicable += 1;
            } else {
                for scene in operations {
                    self.subject(at, index, scene, &mut tally);
                }
            }
        }
        let answered = (tally.grip, tally.reach);
        tally.covered = Covered::of(base, operations, tally.by_shank, answered);
        if self.options.with_facts {
            tally.facts = Some(all_facts(base, operations, self.judge.assumed_settings));
        }
        tally
    }

    /// A rule that stands for grip or reach and was not asked for: who would have been judged by
    /// it is not judged.
    fn unasked(
        &self,
        at: usize,
        rule: &Rule,
        base: &Scene<'_>,
        operations: &[Scene<'_>],
        tally: &mut Tally,
    ) {
        if !rule.stands_for.grip && !rule.stands_for.reach {
            return;
        }
        let mut ask = |scene: &Scene<'_>| {
            let judged = self.judge.judge(at, rule, scene);
            tally.answers(rule, judged.outcome, false);
        };
        if rule.of_operation {
            operations.iter().for_each(ask);
        } else {
            ask(base);
        }
    }

    fn subject(&self, rule_index: usize, index: usize, scene: &Scene<'_>, tally: &mut Tally) {
        let Some(rule) = self.judge.book.rules.get(rule_index) else {
            return;
        };
        tally.judgements += 1;
        // Of most rules there is nothing to say, and that costs least.
        if let Some((outcome, ranged)) = self.judge.silent(rule_index, rule, scene) {
            tally.counts(rule, outcome);
            tally.rests_on(ranged, scene);
            return;
        }
        let (judged, ranged) = self.judge.judge_aloud(rule_index, rule, scene);
        tally.rests_on(ranged, scene);
        tally.counts(rule, judged.outcome);
        match judged.outcome {
            Outcome::NotApplicable | Outcome::Met => {}
            Outcome::NotMet | Outcome::NotJudged => {
                let mut finding = write_up::finding(&self.judge, rule_index, rule, scene, &judged);
                finding.assembly_index = Some(index);
                tally.findings.push(finding);
            }
        }
    }
}

impl Tally {
    /// Counts what came of a rule that was asked.
    fn counts(&mut self, rule: &Rule, outcome: Outcome) {
        self.answers(rule, outcome, true);
        match outcome {
            Outcome::NotApplicable => self.not_applicable += 1,
            Outcome::Met => self.met += 1,
            Outcome::NotMet | Outcome::NotJudged => {}
        }
    }

    /// Takes down the ranges that a judgement rests on.
    fn rests_on(&mut self, ranged: FieldSet, scene: &Scene<'_>) {
        if ranged.is_empty() {
            return;
        }
        for field in RANGED.into_iter().filter(|field| ranged.contains(*field)) {
            let range = scene.view.range(field).map(|range| (field, range));
            if let Some(range) = range.filter(|range| !self.ranges.contains(range)) {
                self.ranges.push(range);
            }
        }
    }

    /// Where a length of the record is wrong, that is one finding: what else rests on the lengths
    /// says nothing of the tool. An accepted one proves no length wrong.
    fn without_false_lengths(&mut self, setup: &Setup) {
        let stops = |finding: &Finding| {
            let rule = setup.book.rule(&finding.rule);
            finding.outcome == Outcome::NotMet && rule.is_some_and(|rule| rule.stands_for.stop)
        };
        let mut own = self.findings.iter().filter(|finding| stops(finding));
        if !own.any(|finding| finding.accepted.is_none()) {
            return;
        }
        let before = self.findings.len();
        self.findings
            .retain(|finding| stops(finding) || !finding.on_length);
        self.not_applicable += before - self.findings.len();
    }

    /// What a rule answers of grip and reach, if it stands for them.
    fn answers(&mut self, rule: &Rule, judged: Outcome, asked: bool) {
        if rule.stands_for.grip {
            self.grip.take(judged, asked);
        }
        if rule.stands_for.reach {
            self.reach.take(judged, asked);
        }
    }
}

/// Whether a rule is switched on and asked for.
fn asked(rule: &Rule, selection: &Selection) -> bool {
    !rule.off && selection.takes(&rule.id)
}

/// Whether an assembly is held by a cylindrical shank; where nobody says so, it may be.
fn held_by_shank(scene: &Scene<'_>) -> bool {
    scene.view.held_by_shank().value != Some(false)
}
