//! Advice for a whole report at once, for who has one in memory.

use rayon::prelude::*;

use crate::judge::{Finding, Options, Report, Session, Setup};
use crate::library::Library;

use super::advise::{Advisor, Counsel};
use super::remedy::{Plan, PlanTable, Remedies};
use super::window::Window;

/// What is advised, assembly by assembly, in the order of the library.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Advice {
    /// Windows, where they were solved and there is one.
    pub windows: Vec<Option<Window>>,
    /// Remedies, where they were looked for and something curable fails.
    pub remedies: Vec<Option<Remedies>>,
    /// Where to begin in the whole library, if remedies were looked for.
    pub plan: Plan,
}

/// Works out windows, and remedies if they are wanted, for all assemblies and puts what they say
/// into the report.
#[must_use]
pub fn advise(
    library: &Library,
    setup: &Setup,
    options: &Options,
    with_remedies: bool,
    report: &mut Report,
) -> Advice {
    let session = Session::new(library, setup, options);
    let advisor = Advisor::new(&session, with_remedies);
    let mut own: Vec<Vec<Finding>> = library.assemblies.iter().map(|_| Vec::new()).collect();
    let mut all = Vec::new();
    for finding in std::mem::take(&mut report.findings) {
        match finding.assembly_index.and_then(|at| own.get_mut(at)) {
            Some(own) => own.push(finding),
            None => all.push(finding),
        }
    }
    let each = own.into_par_iter().enumerate().map(|(at, mut findings)| {
        let advised = advisor.on(at, &mut findings);
        (advised, findings)
    });
    let each: Vec<(Counsel, Vec<Finding>)> = each.collect();
    let mut plan = PlanTable::default();
    let mut advice = Advice::default();
    let mut new = Vec::new();
    for (at, (advised, findings)) in each.into_iter().enumerate() {
        let empty = findings.iter().filter(|_| advised.is_empty);
        new.extend(empty.filter(|one| one.rule == super::NO_WINDOW).cloned());
        all.extend(findings);
        plan.take(at, &advised);
        advice.windows.push(advised.window);
        if with_remedies {
            advice.remedies.push(advised.remedies);
        }
    }
    report.replace(all, &new);
    if with_remedies {
        advice.plan = plan.plan(&session.judge, library);
    }
    advice
}
