//! A whole library: which few measurements decide most, and which few cutters cure most.

use std::collections::{BTreeSet, HashMap};

use crate::judge::Judge;
use crate::library::Library;

use super::kinds::{Changed, Remedies};
use super::measured::{FEW, Measured, values};
use super::set_cover;

/// A cutter of the crib.
#[derive(Clone, Debug, PartialEq)]
pub struct Helps {
    /// Its id.
    pub id: String,
    /// How many the crib has, if it says so.
    pub quantity: Option<f64>,
    /// The tool numbers, or ids, of the assemblies that it cures, perhaps with another collet.
    pub cures: Vec<String>,
}

/// Where to begin.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Plan {
    /// Values to measure, the most deciding first.
    pub values: Vec<Measured>,
    /// Whether no other three values decide more.
    pub values_exact: bool,
    /// Cutters to take out, the most helpful first.
    pub cutters: Vec<Helps>,
    /// Whether no other three of the cutters that were found to cure do better.
    pub cutters_exact: bool,
}

/// What is worth measuring and taking out first: for assemblies of which something is not
/// judged, and from the remedies of all that fail, both in the order of the library.
#[must_use]
pub fn plan(
    judge: &Judge<'_>,
    library: &Library,
    waiting: &[bool],
    remedies: &[Option<Remedies>],
) -> Plan {
    let (values, values_exact) = values(judge, library, waiting);
    let (cutters, cutters_exact) = cutters(library, remedies);
    Plan {
        values,
        values_exact,
        cutters,
        cutters_exact,
    }
}

/// Cutters, each with the assemblies that it cures; those that another stick-out cures need none.
fn cutters(library: &Library, remedies: &[Option<Remedies>]) -> (Vec<Helps>, bool) {
    let mut helps: Vec<(&Changed, Vec<usize>)> = Vec::new();
    let mut known: HashMap<&str, usize> = HashMap::new();
    for (at, found) in remedies.iter().enumerate() {
        for cutter in found.iter().flat_map(|found| &found.cutters) {
            let number = *known.entry(&cutter.id).or_insert(helps.len());
            match helps.get_mut(number) {
                Some((_, cures)) => cures.push(at),
                None => helps.push((cutter, vec![at])),
            }
        }
    }
    let cured = |chosen: &[usize]| -> BTreeSet<usize> {
        let chosen = chosen.iter().filter_map(|cutter| helps.get(*cutter));
        chosen
            .flat_map(|(_, cures)| cures.iter().copied())
            .collect()
    };
    let gains = |chosen: &[usize]| {
        let done = cured(chosen);
        let new = |cures: &Vec<usize>| cures.iter().filter(|at| !done.contains(at)).count();
        helps.iter().map(|(_, cures)| new(cures)).collect()
    };
    let count = |chosen: &[usize]| cured(chosen).len();
    let (chosen, exact) = set_cover::most(helps.len(), FEW, &count, &gains);
    let listed = chosen.iter().filter_map(|cutter| helps.get(*cutter));
    let name = |at: &usize| {
        let assembly = library.assemblies.get(*at)?;
        assembly.tool_number().or(assembly.id()).map(str::to_owned)
    };
    let listed = listed.map(|(cutter, cures)| Helps {
        id: cutter.id.clone(),
        quantity: cutter.quantity,
        cures: cures.iter().filter_map(name).collect(),
    });
    (listed.collect(), exact)
}
