//! A window of which nothing is left, as a finding: by how much, and which two rules.

use crate::input::{Fault, FaultPlace};
use crate::judge::{Finding, Judge, Outcome, Session, fault_of, fingerprint};
use crate::library::{Assembly, Corner, Field, Library, Overrides, RANGED, View};
use crate::rulebook::Level;
use crate::units::Unit;
use crate::units::print;

use super::window::is_empty;
use super::window::{End, Window};

/// The finding that stands for an empty window.
pub use crate::input::fault_kind::NO_WINDOW;

/// Whether nothing is left wherever in its range lies what nobody states. A window that holds over
/// the whole range may be empty where none at any place in it is: that is no fault of the tool.
pub(super) fn empty_throughout(judge: &Judge<'_>, library: &Library, assembly: &Assembly) -> bool {
    let as_it_is = Overrides::default();
    let ranged = ranged(judge, library, assembly);
    // Corners that differ in what is stated are one.
    let own = Corner::over(|field| ranged.contains(&field));
    ranged.is_empty()
        || own
            .map(Corner::numbered)
            .all(|corner| is_empty(&judge.at(corner), library, assembly, &as_it_is))
}

/// What nobody states of an assembly or of its operations, and a range stands for.
pub(super) fn ranged(judge: &Judge<'_>, library: &Library, assembly: &Assembly) -> Vec<Field> {
    judge.look(library, assembly, &Overrides::default(), |base, jobs| {
        let of = |view: &View<'_>, field: Field| view.range(field).is_some();
        let all = RANGED
            .into_iter()
            .filter(|field| of(&base.view, *field) || jobs.iter().any(|job| of(&job.view, *field)));
        all.collect()
    })
}

/// An empty window as a finding, unless the shop accepts what makes it empty; `findings` are the
/// assembly's.
pub(super) fn no_window(
    session: &Session<'_>,
    window: &Window,
    (at, assembly): (usize, &Assembly),
    findings: &[Finding],
) -> Option<Finding> {
    let (library, judge, options) = (session.library, &session.judge, session.options);
    if !options.selection.takes(NO_WINDOW) || accepted(findings, judge) {
        return None;
    }
    let units = library.units;
    let name = |end: &Option<End>, otherwise: &str| {
        end.as_ref().map_or_else(|| otherwise.to_owned(), named)
    };
    window.short_by?;
    let (least, most) = window.ends();
    let short_by = print::difference(least, most, Unit::Mm, units);
    let (most, least) = print::pair(most, least, Unit::Mm, units);
    let stick_out = assembly.record.get(Field::StickOut);
    let place = FaultPlace {
        place: stick_out.map_or(assembly.record.place, |entry| entry.place()),
        field: if stick_out.is_some() { "stick_out" } else { "" }.into(),
        absent: stick_out.is_none(),
    };
    let fault = Fault {
        kind: NO_WINDOW,
        args: vec![
            ("lower", name(&window.min, "the tool").into()),
            ("min", least.into()),
            (
                "upper",
                name(&window.max, "the tool's overall length").into(),
            ),
            ("max", most.into()),
            ("short_by", short_by.into()),
        ],
        places: vec![place],
        of: Some(at),
        missing: None,
    };
    let mut finding = fault_of(library, judge, &fault, at)?;
    // Where the shop's milder cases make warnings of what leaves nothing, so is this.
    let worst = worst(findings, judge).unwrap_or(finding.full_level);
    finding.full_level = finding.full_level.min(worst);
    finding.level = finding.level.map(|level| level.min(worst));
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
    let mut assumptions: Vec<String> = ends.flat_map(|end| end.assumptions.clone()).collect();
    assumptions.sort_unstable();
    assumptions.dedup();
    if !assumptions.is_empty() {
        finding.assumptions = assumptions;
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
fn accepted(findings: &[Finding], judge: &Judge<'_>) -> bool {
    let failing = findings.iter();
    let mut failing = failing
        .filter(|finding| bounding_error(finding, judge))
        .peekable();
    failing.peek().is_some() && failing.all(|finding| finding.accepted.is_some())
}

/// The highest level at which bounding rules fail on an assembly as it is; `None` if none does.
fn worst(findings: &[Finding], judge: &Judge<'_>) -> Option<Level> {
    let own = findings.iter();
    let own = own.filter(|finding| bounding_error(finding, judge));
    own.map(|finding| finding.full_level).max()
}

fn bounding_error(finding: &Finding, judge: &Judge<'_>) -> bool {
    let rule = judge.book.rule(&finding.rule);
    finding.outcome == Outcome::NotMet
        && rule.is_some_and(|rule| rule.level == Level::Error && !rule.bounds.is_empty())
}

/// One block a tool: what an empty window explains is shown within it. `findings` are those of
/// the assembly whose window `host` stands for.
pub(super) fn gather(findings: &mut [Finding], judge: &Judge<'_>, host: &Finding) {
    let inside: Vec<String> = findings
        .iter()
        .filter(|finding| bounding_error(finding, judge))
        .map(|finding| finding.rule.clone())
        .collect();
    for finding in findings {
        let rehosted = |rule: &String| inside.contains(rule);
        if rehosted(&finding.rule) || finding.beside.as_ref().is_some_and(rehosted) {
            finding.beside = Some(NO_WINDOW.to_owned());
            finding.advice.clone_from(&host.advice);
            finding.brief.clone_from(&host.brief);
            finding.besides.clone_from(&host.besides);
            finding.caution.clone_from(&host.caution);
        }
    }
}
