//! A whole library: which few measurements decide most, and which few cutters cure most.

use std::collections::{BTreeSet, HashMap};

use rayon::prelude::*;

use crate::judge::Judge;
use crate::library::{Assembly, Field, FieldSet, Kind, Library, OperationRef, Record};
use crate::text::Place;

use super::cover;
use super::kinds::{Changed, Remedies};

/// Values and cutters that are named.
const FEW: usize = 3;

/// A value that is not stated.
#[derive(Clone, Debug, PartialEq)]
pub struct Measured {
    /// The kind of record in which it would stand.
    pub record: Kind,
    /// The id of that record, if it has one.
    pub id: Option<String>,
    /// The property.
    pub field: &'static str,
    /// Judgements that wait for it alone.
    pub decides: usize,
    /// Judgements that wait for nothing else once this value and those listed before it are
    /// stated.
    pub together: usize,
}

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

/// Judgements, each with the numbers of the values that it waits for.
#[derive(Default)]
struct Waiting<'a> {
    known: HashMap<(Place, Field), usize>,
    values: Vec<(&'a Record, Field)>,
    judgements: Vec<Vec<usize>>,
}

impl<'a> Waiting<'a> {
    fn number(&mut self, record: &'a Record, field: Field) -> usize {
        let next = self.values.len();
        let number = *self.known.entry((record.place, field)).or_insert(next);
        if number == next {
            self.values.push((record, field));
        }
        number
    }

    /// Adds the judgements of an assembly, each with the fields that it waits for.
    fn add(
        &mut self,
        library: &'a Library,
        assembly: &'a Assembly,
        waiting: Vec<(Option<usize>, FieldSet)>,
    ) {
        for (operation, fields) in waiting {
            let operation = operation.and_then(|at| assembly.operations.get(at).copied());
            let fields: Vec<Field> = fields.iter().collect();
            let places = fields
                .iter()
                .map(|field| (record(library, assembly, operation, *field), *field));
            let waits: Vec<usize> = places.map(|(at, field)| self.number(at, field)).collect();
            // A judgement for which nothing is missing waits for no measurement.
            if !waits.is_empty() {
                self.judgements.push(waits);
            }
        }
    }

    fn decided(&self, stated: &[usize]) -> usize {
        let all = |waits: &&Vec<usize>| waits.iter().all(|value| stated.contains(value));
        self.judgements.iter().filter(all).count()
    }

    /// Judgements that each value would decide besides, once others are stated.
    fn gains(&self, stated: &[usize]) -> Vec<usize> {
        let mut gains = vec![0; self.values.len()];
        for waits in &self.judgements {
            let mut left = waits.iter().filter(|value| !stated.contains(value));
            let (first, second) = (left.next(), left.next());
            let last = first.filter(|_| second.is_none());
            if let Some(gain) = last.and_then(|value| gains.get_mut(*value)) {
                *gain += 1;
            }
        }
        gains
    }
}

/// The record in which a field would be filled in.
fn record<'a>(
    library: &'a Library,
    assembly: &'a Assembly,
    operation: Option<OperationRef>,
    field: Field,
) -> &'a Record {
    let kind = field.kind();
    let at = match operation {
        Some(OperationRef::Record(at)) if kind == Kind::Operation => Some(at),
        _ => assembly.part(kind),
    };
    let record = at.and_then(|at| library.records(kind).get(at));
    record.unwrap_or(&assembly.record)
}

fn values(judge: &Judge<'_>, library: &Library, wanted: &[bool]) -> (Vec<Measured>, bool) {
    let wanted = library.assemblies.par_iter().zip(wanted);
    let wanted = wanted.filter_map(|(assembly, wanted)| wanted.then_some(assembly));
    let found = wanted.map(|assembly| (assembly, judge.waiting(library, assembly)));
    let mut waiting = Waiting::default();
    for (assembly, lacks) in found.collect::<Vec<_>>() {
        waiting.add(library, assembly, lacks);
    }
    let decided = |stated: &[usize]| waiting.decided(stated);
    let (chosen, exact) = cover::most(waiting.values.len(), FEW, &decided, &|stated| {
        waiting.gains(stated)
    });
    let listed = chosen.iter().enumerate().filter_map(|(at, value)| {
        let (record, field) = waiting.values.get(*value)?;
        Some(Measured {
            record: record.kind,
            id: id(record).map(str::to_owned),
            field: field.qualified(),
            decides: decided(&[*value]),
            together: decided(chosen.get(..=at)?),
        })
    });
    (listed.collect(), exact)
}

fn id(record: &Record) -> Option<&str> {
    let own = Field::id_of(record.kind).and_then(|field| record.text(field));
    own.or_else(|| record.text(Field::ToolNumber))
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
    let (chosen, exact) = cover::most(helps.len(), FEW, &count, &gains);
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
