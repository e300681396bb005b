//! From a report to advice: windows and remedies worked out, and put into its findings.

use rayon::prelude::*;

use crate::judge::{Finding, Judge, Options, Outcome, Report, Setup};
use crate::library::{Assembly, Field, Library, Overrides};
use crate::rulebook::Level;

use super::agree::{Way, bounds};
use super::cure::{Cure, cured, remedied};
use super::empty::{NO_WINDOW, empty_throughout, gather, no_window, ranged};
use super::remedy::{self, Crib, Plan, Remedies, remedies_from};
use super::stopped::Stopped;
use super::window::Window;
use super::window::window;
use super::window::wording;

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

/// Works out windows and puts what they say into the report: findings that a stick-out cures
/// say which, and an empty window is a finding of its own.
///
/// Windows are solved where a bounding rule fails or the stick-out is not known, and for all
/// assemblies if the report shows them.
#[must_use]
pub fn advise(
    library: &Library,
    setup: &Setup,
    options: &Options,
    with_remedies: bool,
    report: &mut Report,
) -> Advice {
    let judge = Judge::new(&setup.book, options.strict);
    let stopped = Stopped::of(&judge, library);
    let wanted = wanted(library, &judge, options, report);
    let assemblies = library.assemblies.par_iter().zip(wanted);
    let windows: Vec<Option<Window>> = assemblies
        .map(|(assembly, wanted)| {
            let solve = || window(&judge, library, assembly, &Overrides::default());
            wanted.then(solve).flatten()
        })
        .collect();
    let empty: Vec<Finding> = windows
        .iter()
        .zip(&library.assemblies)
        .enumerate()
        .filter_map(|(at, (window, assembly))| {
            let window = window.as_ref().filter(|window| window.is_empty())?;
            if !empty_throughout(&judge, library, assembly) {
                return None;
            }
            no_window(library, &judge, window, (at, assembly), options, report)
        })
        .collect();
    let assemblies = library.assemblies.par_iter().zip(&windows);
    let cures: Vec<Option<Cure>> = assemblies
        .map(|(assembly, window)| Cure::new(&judge, library, assembly, window.as_ref()?))
        .collect();
    for finding in &mut report.findings {
        let own = |at: usize| cures.get(at)?.as_ref();
        if let Some(cure) = finding.assembly_index.and_then(own) {
            cured(finding, &judge, cure);
        }
    }
    gather(report, &judge, &empty);
    report.add(empty, setup, options);
    let remedies = if with_remedies {
        sought(library, &judge, report)
    } else {
        Vec::new()
    };
    for finding in &mut report.findings {
        let found = finding
            .assembly_index
            .and_then(|at| remedies.get(at)?.as_ref());
        if let Some(found) = found {
            remedied(finding, &judge, library, found);
        }
    }
    agree(library, &judge, &windows, &cures, &remedies, report);
    for finding in &mut report.findings {
        stopped.say(finding);
    }
    let plan = if with_remedies {
        remedy::plan(
            &judge,
            library,
            &waiting(library, &stopped, report),
            &remedies,
        )
    } else {
        Plan::default()
    };
    Advice {
        windows,
        remedies,
        plan,
    }
}

/// What the findings of one assembly say together.
#[derive(Clone, Default)]
struct Together {
    /// How many rules that bound the stick-out fail.
    failing: usize,
    /// Whether one of them says where to set the tool.
    is_set: bool,
    /// The errors that nothing but another part corrects.
    parts: Vec<String>,
}

impl Together {
    fn take(&mut self, finding: &Finding, judge: &Judge<'_>) {
        let bounds = bounds(judge, finding) && finding.level >= Some(Level::Warning);
        self.failing += usize::from(bounds);
        self.is_set |= finding.stick_out.is_some();
        let open = finding.outcome == Outcome::NotMet && finding.accepted.is_none();
        if open && finding.level == Some(Level::Error) && !self.parts.contains(&finding.rule) {
            let rule = judge.book.rule(&finding.rule);
            let rule = rule.filter(|rule| rule.needs_part());
            self.parts.extend(rule.map(|rule| rule.id.clone()));
        }
    }
}

/// One way for every tool.
fn agree(
    library: &Library,
    judge: &Judge<'_>,
    windows: &[Option<Window>],
    cures: &[Option<Cure>],
    remedies: &[Option<Remedies>],
    report: &mut Report,
) {
    let mut together = vec![Together::default(); library.assemblies.len()];
    for finding in &report.findings {
        let own = finding.assembly_index.and_then(|at| together.get_mut(at));
        if let Some(own) = own {
            own.take(finding, judge);
        }
    }
    let undecided: Vec<Vec<&'static str>> = library
        .assemblies
        .iter()
        .zip(windows)
        .map(|(assembly, window)| match window {
            Some(window) if window.is_empty() => ranged(judge, library, assembly),
            Some(window) => window.undecided.clone(),
            None => Vec::new(),
        })
        .collect();
    let narrow = windows.iter().map(|window| {
        let window = window.as_ref().filter(|window| window.is_narrow())?;
        Some(wording::span(window, library.units))
    });
    let narrow: Vec<Option<String>> = narrow.collect();
    for finding in &mut report.findings {
        let Some(at) = finding.assembly_index else {
            continue;
        };
        let Some(own) = together.get(at) else {
            continue;
        };
        let way = Way {
            judge,
            library,
            empty: windows
                .get(at)
                .and_then(Option::as_ref)
                .is_some_and(Window::is_empty),
            undecided: undecided.get(at).map_or(&[], Vec::as_slice),
            narrow: narrow.get(at).and_then(Option::as_deref),
            cure: cures.get(at).and_then(Option::as_ref),
            remedies: remedies.get(at).and_then(Option::as_ref),
            failing: own.failing,
            cured: own.is_set,
            parts: &own.parts,
        };
        way.agree(finding);
    }
}

/// Remedies for every assembly with an error that another stick-out or other parts may cure.
fn sought(library: &Library, judge: &Judge<'_>, report: &Report) -> Vec<Option<Remedies>> {
    let mut wanted = vec![false; library.assemblies.len()];
    let mut accepted: Vec<Vec<&str>> = vec![Vec::new(); library.assemblies.len()];
    for finding in &report.findings {
        let Some(at) = finding.assembly_index else {
            continue;
        };
        let fails = finding.outcome == Outcome::NotMet;
        if finding.accepted.is_some() {
            accepted
                .get_mut(at)
                .into_iter()
                .for_each(|all| all.push(&finding.rule));
        } else if fails && finding.full_level == Level::Error {
            wanted
                .get_mut(at)
                .into_iter()
                .for_each(|wanted| *wanted = true);
        }
    }
    let crib = Crib::read(library);
    let assemblies = library.assemblies.par_iter().zip(wanted).zip(accepted);
    let each = assemblies.map(|((assembly, wanted), accepted)| {
        let found = || remedies_from(&crib, judge, library, assembly, &accepted);
        wanted.then(found).filter(|found| found.curable)
    });
    each.collect()
}

/// The assemblies of which something is not judged, and whose record is not known to be wrong.
fn waiting(library: &Library, stopped: &Stopped, report: &Report) -> Vec<bool> {
    let mut waiting = vec![false; library.assemblies.len()];
    for finding in &report.findings {
        let own = finding
            .assembly_index
            .filter(|at| stopped.by(*at).is_none());
        let at = own.and_then(|at| waiting.get_mut(at));
        if let (Some(waiting), Outcome::NotJudged) = (at, finding.outcome) {
            *waiting = true;
        }
    }
    waiting
}

/// Which assemblies a window is solved for.
fn wanted(library: &Library, judge: &Judge<'_>, options: &Options, report: &Report) -> Vec<bool> {
    // Asked for alone, an empty window must be found without the findings that point at it.
    let alone = !options.selection.only.is_empty() && options.selection.takes(NO_WINDOW);
    let mut wanted = vec![options.with_facts || alone; library.assemblies.len()];
    for finding in &report.findings {
        let bounding = judge
            .book
            .rule(&finding.rule)
            .is_some_and(|rule| !rule.bounds.is_empty());
        let at = finding.assembly_index.and_then(|at| wanted.get_mut(at));
        if let (Some(wanted), true) = (at, bounding && finding.outcome == Outcome::NotMet) {
            *wanted = true;
        }
    }
    for (wanted, assembly) in wanted.iter_mut().zip(&library.assemblies) {
        *wanted = *wanted || not_set(library, judge, assembly);
    }
    wanted
}

/// Whether an assembly's stick-out is not known.
fn not_set(library: &Library, judge: &Judge<'_>, assembly: &Assembly) -> bool {
    let as_it_is = Overrides::default();
    judge.look_at(library, assembly, &as_it_is, None, |base| {
        !base.field(Field::StickOut).is_known()
    })
}
