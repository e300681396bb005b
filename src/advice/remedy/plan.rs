//! A whole library: which few measurements decide most, and which few cutters cure most.

use std::collections::{BTreeSet, HashMap};

use crate::judge::{Judge, Said};
use crate::library::{Assembly, Field, Kind, Library, OperationRef, Overrides, Record};
use crate::text::Place;

use super::candidates::candidates;
use super::crib::Crib;
use super::{cover, patient};

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
    /// The tool numbers, or ids, of the assemblies that it cures, perhaps with another collet.
    pub cures: Vec<String>,
}

/// Where to begin.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Plan {
    /// Values to measure, the most deciding first.
    pub values: Vec<Measured>,
    /// Cutters to take out, the most helpful first.
    pub cutters: Vec<Helps>,
    /// Whether no other three values, and no other three cutters, do better.
    pub exact: bool,
}

/// What is worth measuring and taking out first.
#[must_use]
pub fn purchases(judge: &Judge<'_>, library: &Library) -> Plan {
    let (values, values_exact) = values(judge, library);
    let (cutters, cutters_exact) = cutters(judge, library);
    Plan {
        values,
        cutters,
        exact: values_exact && cutters_exact,
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

    fn add(&mut self, judge: &Judge<'_>, library: &'a Library, assembly: &'a Assembly) {
        let overrides = Overrides::default();
        for ruling in judge.verdicts(library, assembly, &overrides) {
            let Said::CannotBeJudged(trace) = ruling.said else {
                continue;
            };
            let operation = ruling.operation;
            let operation = operation.and_then(|at| assembly.operations.get(at).copied());
            let fields: Vec<Field> = trace.missing.iter().collect();
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

fn values(judge: &Judge<'_>, library: &Library) -> (Vec<Measured>, bool) {
    let mut waiting = Waiting::default();
    for assembly in &library.assemblies {
        waiting.add(judge, library, assembly);
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
fn cutters(judge: &Judge<'_>, library: &Library) -> (Vec<Helps>, bool) {
    let crib = Crib::read(library);
    let mut helps: Vec<(String, Vec<usize>)> = Vec::new();
    for (at, assembly) in library.assemblies.iter().enumerate() {
        for id in curing(judge, library, assembly, &crib) {
            match helps.iter_mut().find(|(known, _)| *known == id) {
                Some((_, cures)) => cures.push(at),
                None => helps.push((id, vec![at])),
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
    let listed = listed.map(|(id, cures)| Helps {
        id: id.clone(),
        cures: cures.iter().filter_map(name).collect(),
    });
    (listed.collect(), exact)
}

/// The ids of the cutters that cure an assembly, perhaps with another collet.
fn curing(
    judge: &Judge<'_>,
    library: &Library,
    assembly: &Assembly,
    crib: &Crib<'_>,
) -> Vec<String> {
    let Some((patient, _)) = patient(judge, library, assembly) else {
        return Vec::new();
    };
    if patient.with_parts(&[]).is_some() {
        return Vec::new();
    }
    let found = patient.look(&Overrides::default(), |base, operations| {
        candidates(crib, base, operations)
    });
    let mut ids: Vec<String> = Vec::new();
    for change in found.one.iter().chain(&found.two) {
        let Some(cutter) = change.iter().find(|part| part.kind == Kind::Cutter) else {
            continue;
        };
        let known = ids.iter().any(|id| id == cutter.id);
        if !known && patient.with_parts(change).is_some() {
            ids.push(cutter.id.to_owned());
        }
    }
    ids
}
