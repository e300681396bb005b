//! Which values, once measured, decide most of what is not judged.

use std::collections::HashMap;

use rayon::prelude::*;

use crate::judge::Judge;
use crate::library::{Assembly, Field, FieldSet, Kind, Library, OperationRef, Record};
use crate::text::Place;

use super::cover;

/// Values and cutters that are named.
pub(super) const FEW: usize = 3;

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

/// The values that decide most, of assemblies of which something is not judged; and whether no
/// others decide more.
pub(super) fn values(
    judge: &Judge<'_>,
    library: &Library,
    wanted: &[bool],
) -> (Vec<Measured>, bool) {
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
