//! What windows mean for the findings of a report: what cures them, or that no stick-out does.

use rayon::prelude::*;

use crate::input::{Fault, FaultPlace};
use crate::judge::{Finding, Judge, Options, Outcome, Report, Setup, State, fault_of, fingerprint};
use crate::library::{Assembly, Field, Library, Overrides};
use crate::rulebook::Level;
use crate::units::Unit;
use crate::units::print;

use super::remedy::{Crib, Plan, Remedies, purchases, remedies_from};
use super::window::{End, Window, window};
use super::{remedy_words, words};

/// The finding that stands for an empty window.
const NO_WINDOW: &str = "reach/no-window";
/// How advice that a stick-out cures begins.
const SET: &str = "set the stick-out to ";
/// The rule whose cure is so often sought with the wrench.
const SHORT_GRIP: &str = "grip/short-grip";

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
            no_window(library, &judge, window, (at, assembly), options, report)
        })
        .collect();
    for finding in &mut report.findings {
        let window = finding
            .assembly_index
            .and_then(|at| windows.get(at)?.as_ref());
        if let Some(window) = window {
            cured(finding, library, &judge, window);
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
            remedied(finding, library, &judge, found);
        }
    }
    let plan = if with_remedies {
        purchases(&judge, library)
    } else {
        Plan::default()
    };
    Advice {
        windows,
        remedies,
        plan,
    }
}

/// Remedies for every assembly with an error that another stick-out or other parts may cure.
fn sought(library: &Library, judge: &Judge<'_>, report: &Report) -> Vec<Option<Remedies>> {
    let mut wanted = vec![false; library.assemblies.len()];
    for finding in &report.findings {
        let open = finding.outcome == Outcome::Fails && finding.accepted.is_none();
        let at = finding.assembly_index.and_then(|at| wanted.get_mut(at));
        if let (Some(wanted), true) = (at, open && finding.full_level == Level::Error) {
            *wanted = true;
        }
    }
    let crib = Crib::read(library);
    let assemblies = library.assemblies.par_iter().zip(wanted);
    let each = assemblies.map(|(assembly, wanted)| {
        let found = wanted.then(|| remedies_from(&crib, judge, library, assembly))?;
        found.curable.then_some(found)
    });
    each.collect()
}

/// Says which remedy cures a finding that no stick-out cures, or what comes nearest.
fn remedied(finding: &mut Finding, library: &Library, judge: &Judge<'_>, found: &Remedies) {
    let topics = ["grip/", "reach/", "holding/"];
    let of_shape = topics.iter().any(|topic| finding.rule.starts_with(topic));
    let open = finding.outcome == Outcome::Fails && finding.full_level == Level::Error;
    let cured = finding.advice.starts_with(SET) && judge.book.rule(&finding.rule).is_some();
    if !(of_shape && open) || cured {
        return;
    }
    let units = library.units;
    let says = match (found.list.first(), &found.nearest) {
        (Some(best), _) => remedy_words::remedy(best, units) + &remedy_words::leaves(best),
        (None, Some(nearest)) => remedy_words::nearest(nearest, units),
        (None, None) => return,
    };
    let others = found.list.iter().skip(1);
    finding.otherwise = others
        .map(|remedy| remedy_words::remedy(remedy, units))
        .collect();
    finding.advice = if finding.rule == NO_WINDOW || finding.beside.as_deref() == Some(NO_WINDOW) {
        format!("{says}. More torque on the nut is not the remedy")
    } else {
        format!("{}. Here: {says}", finding.advice)
    };
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
        if let (Some(wanted), true) = (at, bounding && finding.outcome == Outcome::Fails) {
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
    judge.look(library, assembly, &Overrides::default(), |base, _| {
        base.field(Field::StickOut).value.is_none()
    })
}

/// An empty window as a finding, unless the shop accepts what makes it empty.
fn no_window(
    library: &Library,
    judge: &Judge<'_>,
    window: &Window,
    (at, assembly): (usize, &Assembly),
    options: &Options,
    report: &Report,
) -> Option<Finding> {
    if !options.selection.takes(NO_WINDOW) || accepted(report, judge, at) {
        return None;
    }
    let units = library.units;
    let length = |value: f64| print::value(value, Unit::Mm, units);
    let name = |end: &Option<End>, otherwise: &str| {
        end.as_ref().map_or_else(|| otherwise.to_owned(), named)
    };
    let least = window.min.as_ref().map_or(0.0, |end| end.value);
    let most = window
        .max
        .as_ref()
        .map_or(window.overall_length, |end| end.value);
    let (most, least) = print::pair(most, least, Unit::Mm, units);
    let stick_out = assembly.record.get(Field::StickOut);
    let place = FaultPlace {
        place: stick_out.map_or(assembly.record.place, |entry| entry.place),
        field: if stick_out.is_some() { "stick_out" } else { "" }.into(),
        absent: stick_out.is_none(),
    };
    let fault = Fault {
        kind: NO_WINDOW,
        args: vec![
            ("lower", name(&window.min, "the tool")),
            ("min", least),
            ("upper", name(&window.max, "the tool's overall length")),
            ("max", most),
            ("short_by", length(window.short_by?)),
        ],
        places: vec![place],
        tool_number: assembly.tool_number().map(str::to_owned),
        assembly: assembly.id().map(str::to_owned),
        missing: None,
    };
    let mut finding = fault_of(library, judge, &fault, at)?;
    // As for a rule: not by the cell's text, which depends on the library's units.
    finding.fingerprint = fingerprint(&[
        NO_WINDOW,
        assembly.tool_number().unwrap_or(""),
        assembly.id().unwrap_or(""),
        assembly.record.text(Field::Machine).unwrap_or(""),
        "",
    ]);
    for place in &mut finding.places {
        place.record = format!("tool {}", assembly.tool_number().unwrap_or(""));
    }
    let ends = window.min.iter().chain(&window.max);
    let mut assumed: Vec<&str> = ends.flat_map(|end| end.assumed.iter().copied()).collect();
    assumed.dedup();
    if !assumed.is_empty() {
        let say = |name: &&str| format!("{name}: assumed; confirm on the tool");
        finding.assumptions = assumed.iter().map(say).collect();
        if !options.strict {
            finding.level = finding.level.map(Level::lowered);
        }
    }
    Some(finding)
}

/// What binds an end, and the operation that asks for it.
fn named(end: &End) -> String {
    let name = format!("the {}", end.name);
    match &end.operation {
        Some(operation) => format!("{name} ({operation})"),
        None => name,
    }
}

/// Whether every bounding rule that fails on an assembly is accepted by the shop.
fn accepted(report: &Report, judge: &Judge<'_>, at: usize) -> bool {
    let mut failing = report
        .findings
        .iter()
        .filter(|finding| bounding_error(finding, judge, at))
        .peekable();
    failing.peek().is_some() && failing.all(|finding| finding.accepted.is_some())
}

fn bounding_error(finding: &Finding, judge: &Judge<'_>, at: usize) -> bool {
    let rule = judge.book.rule(&finding.rule);
    finding.assembly_index == Some(at)
        && finding.outcome == Outcome::Fails
        && rule.is_some_and(|rule| rule.level == Level::Error && !rule.bounds.is_empty())
}

/// One block a tool: what an empty window explains is shown within it.
fn gather(report: &mut Report, judge: &Judge<'_>, empty: &[Finding]) {
    for host in empty {
        let Some(at) = host.assembly_index else {
            continue;
        };
        let inside: Vec<String> = report
            .findings
            .iter()
            .filter(|finding| bounding_error(finding, judge, at))
            .map(|finding| finding.rule.clone())
            .collect();
        let own = report.findings.iter_mut();
        for finding in own.filter(|finding| finding.assembly_index == Some(at)) {
            let rehosted = |rule: &String| inside.contains(rule);
            if rehosted(&finding.rule) || finding.beside.as_ref().is_some_and(rehosted) {
                finding.beside = Some(NO_WINDOW.to_owned());
                finding.advice.clone_from(&host.advice);
                finding.caution.clone_from(&host.caution);
            }
        }
    }
}

/// Says which stick-out cures a finding, if one does.
fn cured(finding: &mut Finding, library: &Library, judge: &Judge<'_>, window: &Window) {
    let Some(stick_out) = window.recommended else {
        return;
    };
    let Some((index, rule)) = judge.bounding().find(|(_, rule)| rule.id == finding.rule) else {
        return;
    };
    let assembly = finding
        .assembly_index
        .and_then(|at| library.assemblies.get(at));
    let (Some(assembly), Outcome::Fails) = (assembly, finding.outcome) else {
        return;
    };
    let overrides = Overrides {
        numbers: vec![(Field::StickOut, stick_out)],
        ..Overrides::default()
    };
    let still = judge.look(library, assembly, &overrides, |base, operations| {
        let fails = |state| state == State::Fails;
        let mut of_operations = operations.iter();
        if rule.of_operation {
            of_operations.any(|scene| fails(judge.measure(index, rule, scene).state))
        } else {
            fails(judge.measure(index, rule, base).state)
        }
    });
    if still {
        return;
    }
    let set = format!(
        "{SET}{} ({})",
        print::value(stick_out, Unit::Mm, library.units),
        words::span(window, library.units)
    );
    let unknown = words::unknown(window, library.units);
    let mut unknown = unknown.map_or(String::new(), |unknown| format!("; {unknown}"));
    if window.advised.is_none() {
        unknown += "; a warning stands all over that range";
    }
    // Whoever reads of a short grip may have the wrench in hand already.
    let torque = if finding.rule == SHORT_GRIP {
        ". More torque on the nut is not the remedy"
    } else {
        ""
    };
    finding.advice = if rule.level == Level::Error {
        format!("{set}{unknown}{torque}")
    } else {
        format!("{set}{unknown}; or else: {}", finding.advice)
    };
}
