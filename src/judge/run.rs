//! A whole library against a whole rulebook.

use crate::input::fault_kind;
use rayon::prelude::*;

use crate::facts::Scene;
use crate::library::{Assembly, Field, FieldSet, Library, Overrides, RANGED};
use crate::rulebook::{Accept, Change, Date, Level, Rule};
use crate::text::Unread;

use super::coverage::{Answered, Coverage, Covered};
use super::defaults::defaults_in_use;
use super::finding::{Finding, Outcome};
use super::judgement::{Judge, Judged};
use super::report::{AssemblyFacts, LibraryShown, RangeShown, Report, Summary, Verdict};
use super::setup::{Selection, Setup};
use super::shown::all_facts;
use super::{Acceptance, finding, write_up};

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

/// What came of one assembly.
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
    covered: Option<Covered>,
    /// The ranges that it was judged over, mm.
    ranges: Vec<(Field, (f64, f64))>,
    facts: Option<AssemblyFacts>,
}

/// Judges a library.
#[must_use]
pub fn judge(library: &Library, setup: &Setup, options: &Options) -> Report {
    let judge = Judge::new(&setup.book, options.strict);
    let tallies: Vec<Tally> = library
        .assemblies
        .par_iter()
        .enumerate()
        .map(|(index, assembly)| {
            let run = Run {
                judge: &judge,
                library,
                options,
            };
            run.assembly(index, assembly)
        })
        .collect();
    let faults = write_up::faults(library, &judge, &options.selection);
    finish(library, setup, options, tallies, faults)
}

struct Run<'r, 'b> {
    judge: &'r Judge<'b>,
    library: &'r Library,
    options: &'r Options,
}

impl Run<'_, '_> {
    fn assembly(&self, index: usize, assembly: &Assembly) -> Tally {
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
        tally.covered = Some(Covered::of(base, operations, tally.by_shank, answered));
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
            tally.answers(rule, &judged, false);
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
        let (judged, ranged) = self.judge.judge_resting(rule_index, rule, scene);
        tally.rests_on(ranged, scene);
        tally.answers(rule, &judged, true);
        match judged {
            Judged::NotApplicable => tally.not_applicable += 1,
            Judged::Met => tally.met += 1,
            Judged::Worth(worth) => {
                let mut finding = write_up::finding(self.judge, rule_index, rule, scene, &worth);
                finding.assembly_index = Some(index);
                tally.findings.push(finding);
            }
        }
    }
}

impl Tally {
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
    fn without_false_lengths(&mut self, setup: &Setup, options: &Options) {
        let stops = |finding: &Finding| {
            let rule = setup.book.rule(&finding.rule);
            finding.outcome == Outcome::NotMet && rule.is_some_and(|rule| rule.stands_for.stop)
        };
        let open =
            |finding: &&Finding| accepted(finding, &setup.shop.accepted, options.today).is_none();
        let mut own = self.findings.iter().filter(|finding| stops(finding));
        if !own.any(|finding| open(&finding)) {
            return;
        }
        let before = self.findings.len();
        self.findings
            .retain(|finding| stops(finding) || !finding.on_length);
        self.not_applicable += before - self.findings.len();
    }

    /// What a rule answers of grip and reach, if it stands for them.
    fn answers(&mut self, rule: &Rule, judged: &Judged, asked: bool) {
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

fn finish(
    library: &Library,
    setup: &Setup,
    options: &Options,
    tallies: Vec<Tally>,
    faults: Vec<Finding>,
) -> Report {
    let fault_count = faults.len();
    let mut summary = Summary {
        verdict: Verdict::NothingFound,
        error: 0,
        warning: 0,
        note: 0,
        not_judged: 0,
        not_applicable: 0,
        met: 0,
        accepted: 0,
        judgements: 0,
        faults: fault_count,
        grip_judged: 0,
        held_in_collets: 0,
        held_by_shank: 0,
        assemblies: library.assemblies.len(),
    };
    let mut findings = faults;
    let mut covered = Vec::new();
    let mut ranges = Vec::new();
    let mut facts = options.with_facts.then(Vec::new);
    for mut tally in tallies {
        tally.without_false_lengths(setup, options);
        summary.met += tally.met;
        summary.not_applicable += tally.not_applicable;
        summary.judgements += tally.judgements;
        summary.held_in_collets += usize::from(tally.in_collet);
        summary.held_by_shank += usize::from(tally.by_shank);
        summary.grip_judged += usize::from(tally.in_collet && tally.grip.is_judged());
        covered.extend(tally.covered);
        for range in tally.ranges {
            rests_on(&mut ranges, range);
        }
        findings.extend(tally.findings);
        if let (Some(all), Some(own)) = (&mut facts, tally.facts) {
            all.push(own);
        }
    }
    for finding in &mut findings {
        finding.accepted = accepted(finding, &setup.shop.accepted, options.today);
        count(finding, &mut summary);
    }
    let unread: Vec<Unread> = library
        .unread
        .iter()
        .chain(&setup.unread)
        .cloned()
        .collect();
    summary.verdict = verdict(findings.iter(), &unread, options.fail_on);
    arrange(&mut findings);
    Report {
        library: LibraryShown {
            name: library.name.clone(),
            path: library.path.clone(),
            form: library.form.name(),
            units: library.units.length(),
            config: setup.config.clone(),
            weakened: weakened(&setup.changes),
            defaults: defaults_in_use(library),
            unread,
            passed_over: setup.passed_over.clone(),
            ranges,
        },
        summary,
        coverage: Coverage {
            assemblies: covered,
            grip_rules: setup.book.rules.iter().any(|rule| rule.stands_for.grip),
            wanted: None,
        },
        fail_on: options.fail_on,
        findings,
        assemblies: facts,
        units: library.units,
    }
}

/// Counts one more tool that rests on a range.
fn rests_on(ranges: &mut Vec<RangeShown>, (field, range): (Field, (f64, f64))) {
    let field = field.qualified();
    match ranges
        .iter_mut()
        .find(|one| one.field == field && one.range == range)
    {
        Some(known) => known.tools += 1,
        None => ranges.push(RangeShown {
            field,
            range,
            tools: 1,
        }),
    }
}

impl Report {
    /// Adds findings that were not there when the rules were judged; they count as faults.
    pub fn add(&mut self, findings: Vec<Finding>, setup: &Setup, options: &Options) {
        self.summary.faults += findings.len();
        for mut finding in findings {
            finding.accepted = accepted(&finding, &setup.shop.accepted, options.today);
            count(&finding, &mut self.summary);
            self.findings.push(finding);
        }
        let unread = &self.library.unread;
        self.summary.verdict = verdict(self.findings.iter(), unread, options.fail_on);
        arrange(&mut self.findings);
    }

    /// The verdict on some of the findings alone.
    #[must_use]
    pub fn verdict_on(&self, own: impl Fn(&Finding) -> bool) -> Verdict {
        let own = self.findings.iter().filter(|finding| own(finding));
        let own: Vec<&Finding> = own.collect();
        verdict(own.into_iter(), &self.library.unread, self.fail_on)
    }

    /// Leaves out the findings that `shown` does not take, of judgements that nobody asked for.
    /// The verdict stays: what is not shown has not passed.
    pub fn retain(&mut self, shown: impl Fn(&Finding) -> bool) {
        for finding in self.findings.iter().filter(|finding| !shown(finding)) {
            let counter = counter(finding, &mut self.summary);
            *counter = counter.saturating_sub(1);
            self.summary.judgements = self.summary.judgements.saturating_sub(1);
        }
        self.findings.retain(shown);
    }
}

fn weakened(changes: &[Change]) -> Vec<String> {
    let weak = changes.iter().filter(|change| change.weakens);
    weak.map(|change| change.text.clone()).collect()
}

fn count(finding: &Finding, summary: &mut Summary) {
    *counter(finding, summary) += 1;
}

/// The count that a finding belongs to.
fn counter<'s>(finding: &Finding, summary: &'s mut Summary) -> &'s mut usize {
    match (&finding.accepted, finding.level) {
        (Some(_), _) => &mut summary.accepted,
        (None, None) => &mut summary.not_judged,
        (None, Some(Level::Error)) => &mut summary.error,
        (None, Some(Level::Warning)) => &mut summary.warning,
        (None, Some(Level::Note)) => &mut summary.note,
    }
}

/// What was not read might have failed: with it missing, no library is without findings.
fn verdict<'f>(
    findings: impl Iterator<Item = &'f Finding> + Clone,
    unread: &[Unread],
    fail_on: Level,
) -> Verdict {
    let mut open = findings.filter(|finding| finding.accepted.is_none());
    if open
        .clone()
        .any(|finding| finding.level.is_some_and(|level| level >= fail_on))
    {
        return Verdict::Fails;
    }
    // A missing starred property is a gap whatever level its words have.
    let gap = |finding: &'f Finding| {
        finding.outcome == Outcome::NotJudged
            && (finding.full_level == Level::Error || finding.rule == fault_kind::FIELD_MISSING)
    };
    if !unread.is_empty() || open.any(gap) {
        Verdict::Incomplete
    } else {
        Verdict::NothingFound
    }
}

fn accepted(finding: &Finding, accepted: &[Accept], today: Date) -> Option<Acceptance> {
    let fits = |accept: &&Accept| {
        accept.rule == finding.rule
            && finding.tool_number.as_deref() == Some(accept.tool_number.as_str())
            && (accept.operation.is_none() || accept.operation == finding.operation)
            && accept.until.is_none_or(|until| today <= until)
    };
    accepted.iter().find(fits).map(|accept| Acceptance {
        reason: accept.reason.clone(),
        by: accept.by.clone(),
        until: accept
            .until
            .map(|date| format!("{:04}-{:02}-{:02}", date.year, date.month, date.day)),
    })
}

/// Worst first, and the same order whatever the machine; then fingerprints, of which twins
/// get a number.
fn arrange(findings: &mut [Finding]) {
    findings.sort_by(|a, b| {
        let key = |f: &Finding| {
            let level = std::cmp::Reverse(f.level);
            (level, f.consequence, f.assembly_index.unwrap_or(usize::MAX))
        };
        let rest = |f: &Finding| {
            let place = f.places.first();
            place.map(|place| (place.file.clone(), place.line, place.column))
        };
        key(a)
            .cmp(&key(b))
            .then_with(|| a.rule.cmp(&b.rule))
            .then_with(|| rest(a).cmp(&rest(b)))
    });
    let mut seen: std::collections::HashMap<String, usize> = std::collections::HashMap::new();
    for finding in findings {
        let twins = seen.entry(finding.fingerprint.clone()).or_insert(0);
        *twins += 1;
        if *twins > 1 {
            let number = twins.to_string();
            finding.fingerprint = finding::fingerprint(&[&finding.fingerprint, &number]);
        }
    }
}
