//! From "this is wrong" to "take that": another stick-out, other parts, or a split operation.
//!
//! Every proposal is a changed assembly judged by the whole rule set: it removes every error of
//! grip, reach and holding, and brings no new one. More torque is never proposed.

mod alike;
mod candidates;
mod cover;
mod crib;
mod kinds;
mod nearest;
mod plan;
mod split;
mod trial;
mod verify;

use crate::judge::Judge;
use crate::library::{Assembly, Library, Overrides};
use crate::rulebook::Rule;

pub use kinds::{Changed, Kind, Nearest, Remedies, Remedy, Split};
pub use plan::{Helps, Measured, Plan, purchases};

use candidates::{Candidates, candidates};
pub use crib::Crib;

use crib::Part;
use trial::Patient;

/// Remedies that are kept.
const KEPT: usize = 3;

/// Times as stiff, from which on one more part to change is worth showing.
const WORTHWHILE: f64 = 1.01;

/// What can be done about one assembly.
#[must_use]
pub fn remedies(judge: &Judge<'_>, library: &Library, assembly: &Assembly) -> Remedies {
    remedies_from(&Crib::read(library), judge, library, assembly)
}

/// The same from a crib that was read before: for many assemblies of one library.
#[must_use]
pub fn remedies_from(
    crib: &Crib<'_>,
    judge: &Judge<'_>,
    library: &Library,
    assembly: &Assembly,
) -> Remedies {
    let Some((patient, needs)) = patient(judge, library, assembly) else {
        return Remedies::default();
    };
    let list = ranked(&patient, crib);
    let nearest = list.is_empty().then(|| nearest::nearest(&patient, &needs));
    Remedies {
        curable: true,
        list,
        nearest,
    }
}

/// An assembly and the rules that it fails; `None` if it is in no need.
fn patient<'p>(
    judge: &'p Judge<'_>,
    library: &'p Library,
    assembly: &'p Assembly,
) -> Option<(Patient<'p>, Vec<&'p Rule>)> {
    let none = Overrides::default();
    let before = judge.verdicts(library, assembly, &none);
    let needs = verify::needs(judge, &before);
    if needs.is_empty() {
        return None;
    }
    let shown = judge.look(library, assembly, &none, |base, operations| {
        trial::shown(judge, base, operations)
    });
    let patient = Patient {
        judge,
        library,
        assembly,
        before,
        shown,
    };
    Some((patient, needs))
}

/// A remedy and the stiffness of what it makes, N/mm.
type Found = (Remedy, f64);

/// Verified remedies: fewest parts changed first, then the stiffest; a split last, since it
/// needs a second tool. Changes of more parts are only tried where fewer do not give enough.
fn ranked(patient: &Patient<'_>, crib: &Crib<'_>) -> Vec<Remedy> {
    let Candidates { one, two, three } = patient.look(&Overrides::default(), |base, operations| {
        candidates(crib, base, operations)
    });
    let mut list: Vec<Found> = patient.with_parts(&[]).into_iter().collect();
    for changes in [one, two, three] {
        if list.len() >= KEPT {
            break;
        }
        let fewer = list.iter().map(|(_, stiffness)| *stiffness);
        let stiffest = fewer.fold(f64::NEG_INFINITY, f64::max);
        let mut found = tried(patient, &changes);
        // More parts than need be are only worth their while for a stiffer tool.
        found.retain(|(_, stiffness)| *stiffness > stiffest * WORTHWHILE);
        list.extend(found);
    }
    list.truncate(KEPT);
    // A split is worth a place of its own where hardly anything else serves.
    if list.len() < KEPT {
        list.extend(split::split(patient));
    }
    list.into_iter().map(|(remedy, _)| remedy).collect()
}

/// Those of a number of parts that cure, the stiffest first; of equals the first in the crib.
fn tried(patient: &Patient<'_>, changes: &[Vec<&Part<'_>>]) -> Vec<Found> {
    let tried = changes.iter();
    let mut found: Vec<Found> = tried
        .filter_map(|change| patient.with_parts(change))
        .collect();
    found.sort_by(|a, b| b.1.total_cmp(&a.1));
    found
}
