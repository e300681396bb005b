//! Remedies: another stick-out, other parts from the stock, or a split operation.
//!
//! `crib` is the stock by what is looked up in it; `candidates` and `holders` choose what is worth
//! a trial. `attempt` tries it, `changed` says what changes with a part, `verify` whether it
//! corrects. `kinds` is a remedy as plain data, `nearest` what to buy where nothing serves, `plan`
//! where to begin in the whole library.
//!
//! Every proposal is a changed assembly judged by the whole rule set: it removes every error of
//! grip, reach and holding, and brings no new one. More torque is never proposed.

mod alike;
mod attempt;
mod candidates;
mod changed;
mod crib;
mod current_parts;
mod holders;
mod kinds;
mod measured;
mod nearest;
mod plan;
mod set_cover;
mod split;
mod verify;

use std::cell::Cell;

use crate::judge::Judge;
use crate::library::{self, Assembly, Field, Library, Overrides, ValueType};
use crate::rulebook::Rule;
use crate::units::Unit;
use crate::units::print;

pub use kinds::{Changed, Near, Nearest, Remedies, Remedy, RemedyKind, Split};
pub use measured::{How, Measured};
pub use plan::{Helps, Plan, PlanTable};

use candidates::{Candidates, candidates};
pub use crib::Crib;
use current_parts::Exchange;

use attempt::Patient;

/// Remedies that are kept.
const KEPT: usize = 3;

/// Changes of one group that serve and are compared for their stiffness: the group's order puts
/// the likely stiffest first.
const COMPARED: usize = 8;

/// Times as stiff, from which on one more part to change is worth showing.
const WORTHWHILE: f64 = 1.01;

/// What is said where no attempt with other parts is left.
const LEFT_OUT: &str = "other parts were not tried, because so many tools before this one fail; ask for remedies of fewer tools at once";

/// What can be done about one assembly.
#[must_use]
pub fn remedies(judge: &Judge<'_>, library: &Library, assembly: &Assembly) -> Remedies {
    remedies_from(&Crib::read(library), judge, library, assembly, &[])
}

/// The same from a crib that was read before, for many assemblies of one library. Rules that the
/// shop accepts on the assembly, by id, need no cure.
#[must_use]
pub fn remedies_from(
    crib: &Crib<'_>,
    judge: &Judge<'_>,
    library: &Library,
    assembly: &Assembly,
    accepted: &[&str],
) -> Remedies {
    let Some((patient, needs)) = patient(judge, library, assembly, accepted) else {
        return Remedies::default();
    };
    let candidates = if crib.is_open() {
        patient.look(&Overrides::default(), |base, operations| {
            candidates(crib, base, operations)
        })
    } else {
        Candidates::default()
    };
    let mut found = Remedies {
        curable: true,
        ..Remedies::default()
    };
    ranked(&patient, &candidates, &mut found);
    if found.list.is_empty() {
        let mut nearest = nearest::nearest(&patient, &needs);
        nearest.cutter = near(&patient, &candidates);
        if !crib.is_open() {
            LEFT_OUT.clone_into(&mut nearest.why);
            nearest.about.clear();
        }
        found.nearest = Some(nearest);
    }
    crib.count(patient.attempts.get());
    found
}

/// An assembly and the rules that it fails; `None` if it is in no need.
fn patient<'p>(
    judge: &'p Judge<'_>,
    library: &'p Library,
    assembly: &'p Assembly,
    accepted: &[&str],
) -> Option<(Patient<'p>, Vec<&'p Rule>)> {
    let none = Overrides::default();
    // Nothing is built on a record whose lengths are wrong.
    if judge.stopper(library, assembly, &none).is_some() {
        return None;
    }
    let mut before = judge.verdicts(library, assembly, &none);
    verify::leave_out(judge, &mut before, accepted);
    let needs = verify::needs(judge, &before);
    if needs.is_empty() {
        return None;
    }
    let shown = judge.look(library, assembly, &none, |base, operations| {
        attempt::shown(judge, base, operations)
    });
    let patient = Patient {
        judge,
        library,
        assembly,
        accepted: accepted.iter().map(|id| (*id).to_owned()).collect(),
        before,
        shown,
        attempts: Cell::new(0),
    };
    Some((patient, needs))
}

/// A remedy and the stiffness of what it makes, N/mm.
type Tried = (Remedy, f64);

/// Verified remedies: fewest parts changed first, then the stiffest; a split last, since it
/// needs a second tool. Changes of more parts are only tried where fewer do not give enough.
fn ranked(patient: &Patient<'_>, candidates: &Candidates<'_, '_>, into: &mut Remedies) {
    let mut list: Vec<Tried> = patient.with_parts(&[]).into_iter().collect();
    let needs_cutter = list.is_empty();
    for groups in [&candidates.one, &candidates.two, &candidates.three] {
        if list.len() >= KEPT {
            break;
        }
        let fewer = list.iter().map(|(_, stiffness)| *stiffness);
        let stiffest = fewer.fold(f64::NEG_INFINITY, f64::max);
        let mut found = tried(patient, groups);
        if needs_cutter {
            into.cutters.extend(cutters(&found, &into.cutters));
        }
        // More parts than need be are only worth their while for a stiffer tool.
        found.retain(|(_, stiffness)| *stiffness > stiffest * WORTHWHILE);
        list.extend(found);
    }
    list.truncate(KEPT);
    // A split is worth a place of its own where hardly anything else serves.
    if list.len() < KEPT {
        list.extend(split::split(patient));
    }
    into.list = list.into_iter().map(|(remedy, _)| remedy).collect();
}

/// Those of a number of parts that cure, the stiffest first; of equals the first in the crib.
fn tried(patient: &Patient<'_>, groups: &[Vec<Exchange<'_, '_>>]) -> Vec<Tried> {
    let each = groups.iter().flat_map(|group| {
        let found = group.iter().filter_map(|change| patient.with_parts(change));
        found.take(COMPARED)
    });
    let mut found: Vec<Tried> = each.collect();
    found.sort_by(|a, b| b.1.total_cmp(&a.1));
    found
}

/// The cutters that remedies take, each once and none that is known.
fn cutters(found: &[Tried], known: &[Changed]) -> Vec<Changed> {
    let mut new: Vec<Changed> = Vec::new();
    for (remedy, _) in found {
        let mut changes = remedy.changes.iter();
        let cutter = changes.find(|change| change.part == library::Kind::Cutter);
        let is_new = |cutter: &&Changed| !known.iter().chain(&new).any(|one| one.id == cutter.id);
        new.extend(cutter.filter(is_new).cloned());
    }
    new
}

/// The first cutter that would cure, if it did not differ in one respect.
fn near(patient: &Patient<'_>, candidates: &Candidates<'_, '_>) -> Option<Near> {
    let mut nearly = candidates.nearly.iter();
    nearly.find_map(|(part, differs)| {
        let (remedy, _) = patient.with_parts(&[part])?;
        let present = patient.look(&Overrides::default(), |base, _| {
            let word = base.view.word(*differs).value.map(str::to_owned);
            word.or_else(|| shown(*differs, base.field(*differs).value, patient.library))
        });
        let word = part.word(*differs).map(str::to_owned);
        Some(Near {
            cutter: remedy.changes.into_iter().next()?,
            differs: differs.short(),
            own: word.or_else(|| shown(*differs, part.number(*differs), patient.library)),
            present,
            stick_out: remedy.stick_out?,
        })
    })
}

/// A number of a property, in the library's units.
fn shown(field: Field, number: Option<f64>, library: &Library) -> Option<String> {
    let unit = match field.property().value {
        ValueType::Quantity(unit) => unit,
        _ => Unit::One,
    };
    number.map(|number| print::value(number, unit, library.units))
}
