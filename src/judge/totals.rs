//! What is counted over a whole library while its findings pass by: counts, coverage, verdict.

use crate::library::Field;
use crate::rulebook::{Change, Level};
use crate::text::Unread;

use super::coverage::{Came, Coverage};
use super::defaults::defaults_in_use;
use super::finding::Finding;
use super::report::{LibraryShown, RangeShown, Summary, Verdict, Weakened};
use super::run::{OfAssembly, Session};

/// What the findings seen so far come to.
#[derive(Clone, Copy, Debug, Default)]
pub struct Leaning {
    fails: bool,
    open: bool,
}

impl Leaning {
    /// Takes one more finding.
    pub fn take(&mut self, finding: &Finding, fail_on: Level) {
        if finding.accepted.is_some() {
            return;
        }
        self.fails |= finding.level.is_some_and(|level| level >= fail_on);
        self.open |= finding.is_open();
    }

    /// The verdict. What was not read might have failed: with it missing, no library is without
    /// findings.
    #[must_use]
    pub const fn verdict(self, unread: &[Unread]) -> Verdict {
        if self.fails {
            Verdict::Fails
        } else if self.open || !unread.is_empty() {
            Verdict::Incomplete
        } else {
            Verdict::NothingFound
        }
    }
}

/// All that is counted over a library.
pub struct Totals {
    /// The counts; the verdict is settled at the end.
    pub summary: Summary,
    /// Of which tools grip and reach were judged.
    pub coverage: Coverage,
    /// In which groups the assemblies are.
    pub came: Came,
    /// What the findings come to.
    pub leaning: Leaning,
    ranges: Vec<RangeShown>,
    fail_on: Level,
}

impl Totals {
    /// Of nothing yet.
    #[must_use]
    pub fn new(session: &Session<'_>) -> Totals {
        let rules = &session.setup.book.rules;
        Totals {
            summary: Summary::of_none(),
            coverage: Coverage::new(rules.iter().any(|rule| rule.stands_for.grip)),
            came: Came::default(),
            leaning: Leaning::default(),
            ranges: Vec::new(),
            fail_on: session.options.fail_on,
        }
    }

    /// Takes a fault that belongs to no one assembly.
    pub fn fault(&mut self, finding: &Finding) {
        self.summary.faults += 1;
        self.finding(finding);
    }

    fn finding(&mut self, finding: &Finding) {
        *self.summary.counter(finding) += 1;
        self.leaning.take(finding, self.fail_on);
    }

    /// Takes an assembly with all its findings.
    pub fn assembly(&mut self, one: &OfAssembly) {
        let counts = one.covered.counts;
        let summary = &mut self.summary;
        summary.assemblies += 1;
        summary.met += one.met;
        summary.not_applicable += one.not_applicable;
        summary.judgements += one.judgements;
        summary.faults += one.faults;
        summary.held_in_collets += usize::from(one.in_collet);
        summary.held_by_shank += usize::from(counts.by_shank);
        summary.grip_judged += usize::from(one.in_collet && counts.grip_judged);
        self.coverage.add(&one.covered);
        self.came.count(one.group(self.fail_on));
        for range in &one.ranges {
            rests_on(&mut self.ranges, *range);
        }
        for finding in &one.findings {
            self.finding(finding);
        }
    }

    /// What is said about the library itself; the verdict is settled with it.
    pub fn library(&mut self, session: &Session<'_>) -> LibraryShown {
        let (library, setup) = (session.library, session.setup);
        let unread = library.unread.iter().chain(&setup.unread);
        let unread: Vec<Unread> = unread.cloned().collect();
        self.summary.verdict = self.leaning.verdict(&unread);
        LibraryShown {
            name: library.name.clone(),
            path: library.path.clone(),
            form: library.form.name(),
            units: library.units.length(),
            shop_files: setup.files.clone(),
            weakened: weakened(&setup.changes),
            defaults: defaults_in_use(library),
            unread,
            passed_over: setup.passed_over.clone(),
            ranges: std::mem::take(&mut self.ranges),
        }
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

fn weakened(changes: &[Change]) -> Vec<Weakened> {
    let weak = changes.iter().filter(|change| change.weakens);
    let weak = weak.map(|change| Weakened {
        text: change.text.clone(),
        plant: (!change.by.own).then(|| change.by.name()),
    });
    weak.collect()
}
