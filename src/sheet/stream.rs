//! The sheets of a library, one after another in its order: judged and advised on all cores in
//! batches, so that neither memory nor the bytes of an output depend on how many there are.

use std::io;

use rayon::prelude::*;

use crate::advice::{Advisor, Counsel, Plan, PlanTable};
use crate::judge::{
    Came, Coverage, Finding, LibraryShown, OfAssembly, Options, Report, RunRecord, Session, Setup,
    Summary, Totals, Twins,
};
use crate::library::Library;
use crate::rulebook::Level;
use crate::units::print::DisplayUnits;

use super::card::Bench;
use super::of_assembly::{Sheet, Wants};

/// Assemblies, or faults of none, that are in memory at once.
const BATCH: usize = 256;

/// What a library consists of, as far as it is shown.
pub enum Item {
    /// A fault of form that belongs to no one assembly: these come first.
    Fault(Box<Finding>),
    /// An assembly.
    Sheet(Box<Sheet>),
}

impl Item {
    /// Its findings.
    #[must_use]
    pub fn findings(&self) -> &[Finding] {
        match self {
            Item::Fault(fault) => std::slice::from_ref(fault),
            Item::Sheet(sheet) => &sheet.findings,
        }
    }
}

/// What is said of a whole library once all its sheets have passed by.
#[derive(Clone, Debug, PartialEq)]
pub struct Overview {
    /// The library.
    pub library: LibraryShown,
    /// The counts.
    pub summary: Summary,
    /// Of which tools grip and reach were judged.
    pub coverage: Coverage,
    /// In which groups the assemblies are.
    pub came: Came,
    /// Where to begin, if remedies were wanted.
    pub plan: Plan,
    /// The least level that fails.
    pub fail_on: Level,
    /// The units its people read.
    pub units: DisplayUnits,
    /// By what it was judged, and when.
    pub run: RunRecord,
}

impl Overview {
    /// Of a report that is in memory whole.
    #[must_use]
    pub fn of(report: &Report, plan: &Plan) -> Overview {
        Overview {
            library: report.library.clone(),
            summary: report.summary,
            coverage: report.coverage.clone(),
            came: report.came(),
            plan: plan.clone(),
            fail_on: report.fail_on,
            units: report.units,
            run: report.run.clone(),
        }
    }
}

/// Makes the sheets of a library. Each is prepared on any thread, and taken in order; what is
/// taken may be dropped at once.
///
/// # Errors
/// The first that `take` returns; nothing is taken after it.
pub fn each<T: Send>(
    subject: (&Library, &Setup, &Options),
    wants: Wants,
    prepare: impl Fn(Item) -> T + Sync,
    take: impl FnMut(T) -> io::Result<()>,
) -> io::Result<Overview> {
    each_of(subject, None, wants, prepare, take)
}

/// The same of some assemblies, by their numbers in order: no other is judged or counted, and of the
/// faults of parts only theirs. What is wrong with a table as a whole remains.
///
/// # Errors
/// The first that `take` returns; nothing is taken after it.
pub fn each_of<T: Send>(
    (library, setup, options): (&Library, &Setup, &Options),
    which: Option<&[usize]>,
    wants: Wants,
    prepare: impl Fn(Item) -> T + Sync,
    mut take: impl FnMut(T) -> io::Result<()>,
) -> io::Result<Overview> {
    let session = Session::new(library, setup, options);
    let advisor = Advisor::new(&session, wants.remedies);
    let mut known = Known {
        totals: Totals::new(&session),
        twins: Twins::of(library),
        plan: PlanTable::default(),
        bench: wants.card.then(|| Bench::of(library)),
    };
    for batch in batches(session.loose()) {
        let faults = known.faults(&session, batch, which, wants);
        let prepared: Vec<T> = faults.into_par_iter().map(&prepare).collect();
        prepared.into_iter().try_for_each(&mut take)?;
    }
    let wanted = which.map_or(library.assemblies.len(), <[usize]>::len);
    for batch in batches(wanted) {
        let numbers: Vec<usize> = match which {
            None => batch.collect(),
            Some(which) => which.get(batch).unwrap_or_default().to_vec(),
        };
        let sheets = known.sheets(&session, &advisor, numbers, wants);
        let prepared: Vec<T> = sheets.into_par_iter().map(&prepare).collect();
        prepared.into_iter().try_for_each(&mut take)?;
    }
    Ok(known.overview(&session, wants))
}

/// What of the library as a whole is known so far.
struct Known<'a> {
    totals: Totals,
    twins: Twins,
    plan: PlanTable,
    bench: Option<Bench<'a>>,
}

impl Known<'_> {
    fn faults(
        &mut self,
        session: &Session<'_>,
        batch: std::ops::Range<usize>,
        which: Option<&[usize]>,
        wants: Wants,
    ) -> Vec<Item> {
        let faults = batch.into_par_iter();
        let mut faults: Vec<Finding> = faults
            .filter_map(|number| session.loose_fault(number))
            .collect();
        if wants.lacks {
            session.tell_lacks(&mut faults);
        }
        self.twins.number(&mut faults);
        if let Some(which) = which {
            let is_of = |at: &usize| which.binary_search(at).is_ok();
            faults.retain(|fault| fault.part_of.is_empty() || fault.part_of.iter().any(is_of));
        }
        for fault in &faults {
            self.totals.fault(fault);
        }
        if let Some(bench) = &mut self.bench {
            bench.of_parts.take(&faults);
        }
        let items = faults.into_iter();
        items.map(|fault| Item::Fault(Box::new(fault))).collect()
    }

    fn sheets(
        &mut self,
        session: &Session<'_>,
        advisor: &Advisor<'_>,
        numbers: Vec<usize>,
        wants: Wants,
    ) -> Vec<Item> {
        advisor.settle();
        let judged = numbers.into_par_iter().map(|at| {
            let mut checked = session.assembly(at);
            let counsel = advisor.advise(&mut checked);
            if wants.lacks {
                session.tell_lacks(&mut checked.findings);
            }
            (checked, counsel)
        });
        let mut judged: Vec<(OfAssembly, Counsel)> = judged.collect();
        for (checked, counsel) in &mut judged {
            self.totals.assembly(checked);
            self.twins.number(&mut checked.findings);
            if wants.remedies && wants.plan {
                self.plan.take(checked.at, counsel);
            }
        }
        let bench = self.bench.as_ref();
        let sheets = judged.into_par_iter().map(|(checked, counsel)| {
            let sheet = Sheet::of(session, checked, counsel, (wants, bench));
            Item::Sheet(Box::new(sheet))
        });
        sheets.collect()
    }

    fn overview(mut self, session: &Session<'_>, wants: Wants) -> Overview {
        let library = self.totals.library(session);
        let plan = if wants.remedies && wants.plan {
            self.plan.plan(&session.judge, session.library)
        } else {
            Plan::default()
        };
        Overview {
            library,
            summary: self.totals.summary,
            coverage: self.totals.coverage,
            came: self.totals.came,
            plan,
            fail_on: session.options.fail_on,
            units: session.library.units,
            run: session.record(),
        }
    }
}

/// The numbers below a count, in batches.
fn batches(count: usize) -> impl Iterator<Item = std::ops::Range<usize>> {
    let starts = (0..count).step_by(BATCH);
    starts.map(move |start| start..(start + BATCH).min(count))
}
