//! A whole library: which few measurements decide most, and which few cutters cure most.

use std::collections::{BTreeSet, HashMap};

use crate::judge::Judge;
use crate::library::Library;

use super::super::advise::Counsel;
use super::kinds::Changed;
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

/// What the plan of a library is made from: gathered while its assemblies pass by, in their order.
#[derive(Default)]
pub struct PlanTable {
    /// The assemblies of which something is not judged.
    waiting: Vec<usize>,
    /// Those that cutters on hand were found to correct, and the cutters.
    cured: Vec<(usize, Vec<Changed>)>,
}

impl PlanTable {
    /// Takes what is advised on the next assembly.
    pub fn take(&mut self, at: usize, advised: &Counsel) {
        if advised.waits {
            self.waiting.push(at);
        }
        let cutters = advised.remedies.iter().flat_map(|found| &found.cutters);
        let cutters: Vec<Changed> = cutters.cloned().collect();
        if !cutters.is_empty() {
            self.cured.push((at, cutters));
        }
    }

    /// What is worth measuring and taking out first.
    #[must_use]
    pub fn plan(&self, judge: &Judge<'_>, library: &Library) -> Plan {
        let (values, values_exact) = values(judge, library, &self.waiting);
        let (cutters, cutters_exact) = cutters(library, &self.cured);
        Plan {
            values,
            values_exact,
            cutters,
            cutters_exact,
        }
    }
}

/// Cutters, each with the assemblies that it cures; those that another stick-out cures need none.
fn cutters(library: &Library, by_cutters: &[(usize, Vec<Changed>)]) -> (Vec<Helps>, bool) {
    let mut helps: Vec<(&Changed, Vec<usize>)> = Vec::new();
    let mut known: HashMap<&str, usize> = HashMap::new();
    for (at, found) in by_cutters {
        for cutter in found {
            let number = *known.entry(&cutter.id).or_insert(helps.len());
            match helps.get_mut(number) {
                Some((_, cures)) => cures.push(*at),
                None => helps.push((cutter, vec![*at])),
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
