//! Which values, once measured, decide most of what is not judged.

use crate::input::fault_kind;
use std::collections::HashMap;

use rayon::prelude::*;

use crate::judge::{Judge, Waits};
use crate::library::{Assembly, Field, Kind, Library, OperationRef, Overrides, Record};
use crate::text::Place;

use super::set_cover;

/// Assemblies that are asked at once: what they lack is gathered before the next are.
const BATCH: usize = 1024;

/// Values and cutters that are named.
pub(super) const FEW: usize = 3;

/// Faults of a cell in which something stands that is no value.
const UNREADABLE: [&str; 3] = [
    fault_kind::CELL_UNREADABLE,
    fault_kind::UNIT_MISSING,
    fault_kind::NEGATIVE_LENGTH,
];

/// What is to be done about a value.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum How {
    /// It is not stated.
    Enter,
    /// There is only a guess.
    Confirm,
    /// What stands there cannot be read.
    Correct,
    /// The part that is named there is nowhere described.
    Describe,
}

impl How {
    /// All of them.
    pub const ALL: [How; 4] = [How::Enter, How::Confirm, How::Correct, How::Describe];

    /// Its name in JSON.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            How::Enter => "enter",
            How::Confirm => "confirm",
            How::Correct => "correct",
            How::Describe => "describe",
        }
    }
}

/// A value that is missing.
#[derive(Clone, Debug, PartialEq)]
pub struct Measured {
    /// The kind of record in which it would stand.
    pub record: Kind,
    /// The id of that record, if it has one.
    pub id: Option<String>,
    /// The property.
    pub field: &'static str,
    /// What is to be done about it.
    pub how: How,
    /// Judgements that wait for it alone.
    pub decides: usize,
    /// Judgements that wait for nothing else once this value and those listed before it are
    /// stated.
    pub together: usize,
}

/// A value of one record, and an assembly that waits for it.
#[derive(Clone, Copy)]
struct WantedValue<'a> {
    record: &'a Record,
    field: Field,
    assembly: &'a Assembly,
    /// Whether a judgement lacks it as things stand, and not only if another value says so.
    truly: bool,
}

/// Judgements, each with the numbers of the values that it waits for.
#[derive(Default)]
struct Waiting<'a> {
    known: HashMap<(Place, Field), u32>,
    values: Vec<WantedValue<'a>>,
    /// The numbers of all of them, one judgement behind the other: there may be millions.
    numbers: Vec<u32>,
    /// Where those of each judgement end.
    ends: Vec<usize>,
}

impl<'a> Waiting<'a> {
    fn number(&mut self, wanted: WantedValue<'a>) -> u32 {
        let next = u32::try_from(self.values.len()).unwrap_or(u32::MAX);
        let key = (wanted.record.place, wanted.field);
        let number = *self.known.entry(key).or_insert(next);
        match self.values.get_mut(number as usize) {
            Some(known) => known.truly |= wanted.truly,
            None => self.values.push(wanted),
        }
        number
    }

    /// Adds the judgements of an assembly, each with what it waits for.
    fn add(&mut self, library: &'a Library, assembly: &'a Assembly, waiting: Vec<Waits>) {
        for waits in waiting {
            let operation = waits.operation;
            let operation = operation.and_then(|at| assembly.operations.get(at).copied());
            let fields = waits.all.iter();
            let wanted = fields.map(|field| WantedValue {
                truly: waits.first.contains(field),
                ..wanted(library, assembly, operation, field)
            });
            let mut numbers: Vec<u32> = wanted.map(|wanted| self.number(wanted)).collect();
            // Several values of a part that is nowhere described are one.
            numbers.sort_unstable();
            numbers.dedup();
            // A judgement for which nothing is missing waits for no measurement.
            if !numbers.is_empty() {
                self.numbers.extend(numbers);
                self.ends.push(self.numbers.len());
            }
        }
    }

    /// The numbers of the values that each judgement waits for.
    fn judgements(&self) -> impl Iterator<Item = impl Iterator<Item = usize>> {
        let mut start = 0;
        self.ends.iter().map(move |end| {
            let own = self.numbers.get(start..*end).unwrap_or_default();
            start = *end;
            own.iter().map(|number| *number as usize)
        })
    }

    fn decided(&self, stated: &[usize]) -> usize {
        let mut decided = 0;
        for mut waits in self.judgements() {
            decided += usize::from(waits.all(|value| stated.contains(&value)));
        }
        decided
    }

    /// Judgements that each value would decide besides, once others are stated.
    fn gains(&self, stated: &[usize]) -> Vec<usize> {
        let mut gains = vec![0; self.values.len()];
        for waits in self.judgements() {
            let mut left = waits.filter(|value| !stated.contains(value));
            let (first, second) = (left.next(), left.next());
            let last = first.filter(|_| second.is_none());
            if let Some(gain) = last.and_then(|value| gains.get_mut(value)) {
                *gain += 1;
            }
        }
        gains
    }

    /// The values that are asked for: none that another one may make needless.
    fn asked(&self) -> Vec<usize> {
        let values = self.values.iter().enumerate();
        let truly = values.filter(|(_, wanted)| wanted.truly);
        truly.map(|(number, _)| number).collect()
    }
}

/// The record in which a field would be filled in, and the field: of a part that is named and
/// nowhere described, the reference that names it.
fn wanted<'a>(
    library: &'a Library,
    assembly: &'a Assembly,
    operation: Option<OperationRef>,
    field: Field,
) -> WantedValue<'a> {
    let kind = field.kind();
    let at = match operation {
        Some(OperationRef::Record(at)) if kind == Kind::Operation => Some(at),
        _ => assembly.part(kind),
    };
    let record = at.and_then(|at| library.records(kind).get(at));
    let reference = Field::naming(kind).filter(|_| assembly.is_unresolved(kind));
    WantedValue {
        record: record.unwrap_or(&assembly.record),
        field: reference.unwrap_or(field),
        assembly,
        truly: true,
    }
}

/// The values that decide most, of assemblies of which something is not judged; and whether no
/// others decide more.
pub(super) fn values(
    judge: &Judge<'_>,
    library: &Library,
    wanted: &[usize],
) -> (Vec<Measured>, bool) {
    let mut waiting = Waiting::default();
    for batch in wanted.chunks(BATCH) {
        let batch = batch.par_iter();
        let batch = batch.filter_map(|at| library.assemblies.get(*at));
        let found = batch.map(|assembly| (assembly, judge.waiting(library, assembly)));
        for (assembly, lacks) in found.collect::<Vec<_>>() {
            waiting.add(library, assembly, lacks);
        }
    }
    let asked = waiting.asked();
    let numbers = |choices: &[usize]| -> Vec<usize> {
        let chosen = choices.iter().filter_map(|choice| asked.get(*choice));
        chosen.copied().collect()
    };
    let decided = |choices: &[usize]| waiting.decided(&numbers(choices));
    let gains = |choices: &[usize]| {
        let all = waiting.gains(&numbers(choices));
        let own = asked.iter().filter_map(|number| all.get(*number));
        own.copied().collect()
    };
    let (chosen, exact) = set_cover::most(asked.len(), FEW, &decided, &gains);
    let listed = chosen.iter().enumerate().filter_map(|(at, choice)| {
        let wanted = waiting.values.get(*asked.get(*choice)?)?;
        Some(Measured {
            record: wanted.record.kind,
            id: id(wanted.record).map(str::to_owned),
            field: wanted.field.qualified(),
            how: how(judge, library, wanted),
            decides: decided(&[*choice]),
            together: decided(chosen.get(..=at)?),
        })
    });
    (listed.collect(), exact)
}

/// Whether it is to be entered, confirmed, corrected, or described.
fn how(judge: &Judge<'_>, library: &Library, wanted: &WantedValue<'_>) -> How {
    let field = wanted.field;
    if Kind::PARTS
        .iter()
        .any(|kind| Field::naming(*kind) == Some(field))
    {
        return How::Describe;
    }
    let own = |place: Place| {
        let record = wanted.record.place;
        let within = record.span.start <= place.span.start && place.span.start <= record.span.end;
        record.source == place.source && within
    };
    let mut faults = library.faults.iter();
    let unreadable = faults.any(|fault| {
        let here = || own(fault.place()) && fault.field() == field.property().name;
        UNREADABLE.contains(&fault.kind()) && here()
    });
    if unreadable {
        return How::Correct;
    }
    let as_it_is = Overrides::default();
    let guessed = judge.look_at(library, wanted.assembly, &as_it_is, None, |base| {
        let found = base.view.datum(field);
        found.is_known() && found.trace.assumed.contains(field)
    });
    if guessed { How::Confirm } else { How::Enter }
}

fn id(record: &Record) -> Option<&str> {
    let own = Field::id_of(record.kind).and_then(|field| record.text(field));
    own.or_else(|| record.text(Field::ToolNumber))
}
