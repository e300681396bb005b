//! Links between records, and the faults that only show once all are read.

use std::collections::{HashMap, HashSet};
use std::sync::{LazyLock, OnceLock};

use rayon::prelude::*;

use crate::input::{Fault, FaultPlace, fault_kind};
use crate::text::{Names, Sources};

use super::assembly::{Assembly, OperationRef, Operations, Parts};
use super::{Field, Kind, Library, Origin, Overrides, PROPERTIES, Record, View, needed};

/// The starred properties.
static STARRED: LazyLock<Vec<Field>> = LazyLock::new(|| {
    let all = PROPERTIES.iter().filter(|property| property.starred);
    all.map(|property| property.field).collect()
});

/// The field of an assembly that names its part of a kind.
const REFERENCES: [Field; Kind::PARTS.len()] = [
    Field::CutterOf,
    Field::ColletOf,
    Field::NutOf,
    Field::HolderOf,
];

type Records = [Vec<Record>; Kind::ALL.len()];

/// What reading left in doubt: nothing may be concluded from what was not read.
#[derive(Debug, Default)]
pub(super) struct Doubts {
    /// Kinds whose table could not be read: any id may be in it.
    pub unread: Vec<Kind>,
    /// A ragged row of an assembly may name any part.
    pub ragged: bool,
    /// There is no other table that could describe a part: an id may be only a name.
    pub names_only: bool,
}

/// What linking finds, in the order in which it is told: parts that cannot be found, and then,
/// behind numbers that are taken twice, operations without tool and parts without use.
#[derive(Default)]
pub(super) struct Linked {
    pub assemblies: Vec<Assembly>,
    pub first: Vec<Fault>,
    pub last: Vec<Fault>,
}

/// Links assemblies to their parts and operations; faults for every link that leads nowhere.
pub(super) fn link(
    rows: Vec<Record>,
    records: &Records,
    sources: &Sources,
    doubts: &Doubts,
) -> Linked {
    let (mut first, mut last) = (Vec::new(), Vec::new());
    // Only parts are named by id. An operation is found by its tool number, and a shop may
    // call the roughing of every tool `rough`.
    let by_id: Vec<HashMap<&str, usize>> = Kind::PARTS
        .iter()
        .map(|kind| index(*kind, list(records, *kind), sources, &mut first))
        .collect();
    let links = Links {
        records,
        doubts,
        by_id: &by_id,
    };
    let mut assemblies: Vec<Assembly> = rows
        .into_par_iter()
        .map(|record| links.assembly(record))
        .collect();
    first.append(&mut links.unknown(&assemblies));
    operations(&mut assemblies, list(records, Kind::Operation), &mut last);
    if !doubts.ragged {
        unused(records, &used(records, &assemblies), &by_id, &mut last);
    }
    Linked {
        assemblies,
        first,
        last,
    }
}

/// What an assembly is linked by.
struct Links<'r> {
    records: &'r Records,
    doubts: &'r Doubts,
    by_id: &'r [HashMap<&'r str, usize>],
}

impl Links<'_> {
    fn assembly(&self, record: Record) -> Assembly {
        let mut parts = Parts::default();
        let slots = Kind::PARTS.into_iter().zip(REFERENCES).zip(self.by_id);
        for ((kind, field), ids) in slots {
            let Some(id) = record.text(field) else {
                continue;
            };
            match ids.get(id) {
                Some(at) => parts.link(kind, *at),
                // Without a table of its kind the id may be only a name.
                None if list(self.records, kind).is_empty()
                    && (self.doubts.names_only || record.describes(kind)) => {}
                None => parts.lose(kind),
            }
        }
        Assembly {
            parts,
            operations: Operations::Own(record.describes(Kind::Operation)),
            record,
        }
    }

    /// Faults for parts that are named and nowhere described, in the order of the assemblies.
    fn unknown(&self, assemblies: &[Assembly]) -> Vec<Fault> {
        let known: Vec<OnceLock<Names<'_>>> = self.by_id.iter().map(|_| OnceLock::new()).collect();
        let stocked: Vec<OnceLock<HashSet<&str>>> =
            self.by_id.iter().map(|_| OnceLock::new()).collect();
        let of = |assembly: &Assembly| {
            let slots = Kind::PARTS.into_iter().zip(REFERENCES);
            let tables = self.by_id.iter().zip(&known).zip(&stocked);
            let lost = slots.zip(tables).filter(|((kind, _), _)| {
                assembly.is_unresolved(*kind) && !self.doubts.unread.contains(kind)
            });
            let faults = lost.filter_map(|((kind, field), ((ids, known), stocked))| {
                let id = assembly.record.text(field)?;
                let stocked = stocked.get_or_init(|| self.in_stock(kind));
                let hint = if stocked.contains(id) {
                    format!("the stock has it: copy its row into the {}", kind.section())
                } else {
                    meant(known.get_or_init(|| Names::new(ids.keys().copied())), id)
                };
                Some(unknown_part(&assembly.record, field, (kind, id), hint))
            });
            faults.collect::<Vec<Fault>>()
        };
        assemblies.par_iter().flat_map_iter(of).collect()
    }

    /// Ids of a kind in the stock.
    fn in_stock(&self, kind: Kind) -> HashSet<&str> {
        let stock = list(self.records, Kind::Stock).iter();
        let own = Field::id_of(kind);
        stock.filter_map(|row| row.text(own?)).collect()
    }
}

/// Which records assemblies name, by kind.
fn used(records: &Records, assemblies: &[Assembly]) -> Vec<Vec<bool>> {
    let mut used: Vec<Vec<bool>> = records.iter().map(|list| vec![false; list.len()]).collect();
    for assembly in assemblies {
        for kind in Kind::PARTS {
            let own = used.get_mut(kind as usize);
            let at = assembly.part(kind);
            if let Some(flag) = own.zip(at).and_then(|(own, at)| own.get_mut(at)) {
                *flag = true;
            }
        }
    }
    used
}

fn list(records: &Records, kind: Kind) -> &[Record] {
    records.get(kind as usize).map_or(&[], Vec::as_slice)
}

fn index<'a>(
    kind: Kind,
    records: &'a [Record],
    sources: &Sources,
    faults: &mut Vec<Fault>,
) -> HashMap<&'a str, usize> {
    let mut ids: HashMap<&str, usize> = HashMap::new();
    let Some(field) = Field::id_of(kind) else {
        return ids;
    };
    for (at, record) in records.iter().enumerate() {
        let Some(entry) = record.get(field) else {
            continue;
        };
        let Some(id) = record.text(field) else {
            continue;
        };
        let first = ids
            .get(id)
            .and_then(|first| records.get(*first)?.get(field));
        match first {
            Some(first) => faults.push(
                Fault::new(fault_kind::PART_TWICE, entry.place(), kind.name())
                    .with("part", kind.name())
                    .quoting("id", id)
                    .with("line", sources.position(first.place()).line.to_string())
                    .also(first.place(), kind.name()),
            ),
            None => {
                ids.insert(id, at);
            }
        }
    }
    ids
}

impl Fault {
    /// Says whose the fault is: the assembly of this number and this id.
    pub(super) fn belongs_to(&mut self, number: Option<&str>, id: Option<&str>) {
        self.tool_number = number.map(str::to_owned);
        self.assembly = id.or(number).map(str::to_owned);
    }
}

fn about(mut fault: Fault, record: &Record) -> Fault {
    fault.belongs_to(record.text(Field::ToolNumber), record.text(Field::Assembly));
    fault
}

/// What an id that is not known may have been meant for; empty where nothing comes near.
fn meant(known: &Names<'_>, id: &str) -> String {
    let near = known.closest(id);
    near.map_or_else(String::new, |near| format!("did you mean `{near}`?"))
}

fn unknown_part(record: &Record, field: Field, (kind, id): (Kind, &str), hint: String) -> Fault {
    let place = record
        .get(field)
        .map_or(record.place, |entry| entry.place());
    let fault = Fault::new(fault_kind::PART_UNKNOWN, place, field.property().name)
        .with("part", kind.name())
        .quoting("id", id)
        .with("table", kind.section())
        .with("hint", hint);
    about(fault, record)
}

/// What makes a tool number unique: the number within its machine and its group.
fn number_key(record: &Record) -> Option<(&str, Option<&str>, Option<&str>)> {
    let number = record.text(Field::ToolNumber)?;
    Some((
        number,
        record.text(Field::Machine),
        record.text(Field::ProgramToolGroup),
    ))
}

/// Faults for tool numbers that another assembly has.
pub(super) fn taken_twice(assemblies: &[Assembly], sources: &Sources) -> Vec<Fault> {
    let mut faults = Vec::new();
    let mut taken: HashMap<_, &Record> = HashMap::with_capacity(assemblies.len());
    for record in assemblies.iter().map(|assembly| &assembly.record) {
        let (Some(key), Some(entry)) = (number_key(record), record.get(Field::ToolNumber)) else {
            continue;
        };
        let Some(first) = taken.get(&key) else {
            taken.insert(key, record);
            continue;
        };
        let place = first
            .get(Field::ToolNumber)
            .map_or(first.place, |e| e.place());
        let fault = Fault::new(fault_kind::NUMBER_TAKEN_TWICE, entry.place(), "tool_number")
            .quoting("number", key.0)
            .with("line", sources.position(place).line.to_string())
            .also(place, "tool_number");
        faults.push(about(fault, record));
    }
    faults
}

/// Hands every operation to the assemblies that it names: by tool number, and by machine if
/// both sides name one.
fn operations(assemblies: &mut [Assembly], records: &[Record], faults: &mut Vec<Fault>) {
    if records.is_empty() {
        return;
    }
    let mut by_number: HashMap<&str, Vec<usize>> = HashMap::new();
    for (at, assembly) in assemblies.iter().enumerate() {
        if let Some(number) = assembly.tool_number() {
            by_number.entry(number).or_default().push(at);
        }
    }
    let known = OnceLock::new();
    let mut links: Vec<(usize, usize)> = Vec::new();
    for (index, record) in records.iter().enumerate() {
        let number = record.text(Field::OperationToolNumber).unwrap_or("");
        let before = links.len();
        let named = by_number.get(number).into_iter().flatten().filter(|at| {
            let wanted = record.text(Field::OperationMachine);
            let own = assemblies
                .get(**at)
                .and_then(|one| one.record.text(Field::Machine));
            wanted.is_none() || own.is_none() || wanted == own
        });
        links.extend(named.map(|at| (*at, index)));
        if links.len() == before {
            let known = known.get_or_init(|| Names::new(by_number.keys().copied()));
            faults.push(unknown_tool(record, number, known));
        }
    }
    for (at, index) in links {
        if let Some(assembly) = assemblies.get_mut(at) {
            assembly.operations.push(OperationRef::Record(index));
        }
    }
}

fn unknown_tool(record: &Record, number: &str, known: &Names<'_>) -> Fault {
    let hint = meant(known, number);
    let entry = record.get(Field::OperationToolNumber);
    let place = entry.map_or(record.place, |entry| entry.place());
    Fault::new(fault_kind::PART_UNKNOWN, place, "tool_number")
        .with("part", "tool number")
        .quoting("id", number)
        .with("table", Kind::Assembly.section())
        .with("hint", hint)
}

/// Parts that no assembly names. The second part of one id is a fault of its own.
fn unused(
    records: &Records,
    used: &[Vec<bool>],
    by_id: &[HashMap<&str, usize>],
    faults: &mut Vec<Fault>,
) {
    for (kind, ids) in Kind::PARTS.into_iter().zip(by_id) {
        let flags = used.get(kind as usize).map_or(&[][..], Vec::as_slice);
        let Some(field) = Field::id_of(kind) else {
            continue;
        };
        for (at, (record, used)) in list(records, kind).iter().zip(flags).enumerate() {
            let id = record.text(field);
            let first = id.and_then(|id| ids.get(id).copied());
            if !*used && first.is_none_or(|first| first == at) {
                let place = record
                    .get(field)
                    .map_or(record.place, |entry| entry.place());
                faults.push(
                    Fault::new(fault_kind::PART_UNUSED, place, kind.name())
                        .with("part", kind.name())
                        .quoting("id", id.unwrap_or("(no id)")),
                );
            }
        }
    }
}

/// Starred properties that are missing or only assumed, assembly by assembly.
pub(super) fn completeness(library: &Library) -> Vec<Fault> {
    let each = library.assemblies.par_iter();
    each.flat_map_iter(|assembly| gaps(library, assembly))
        .collect()
}

/// What is missing or only assumed of one assembly, of what the main rules cannot do without.
fn gaps(library: &Library, assembly: &Assembly) -> Vec<Fault> {
    let overrides = Overrides::default();
    let view = View::new(library, assembly, None, &overrides);
    // Most tools state all of it, and then nothing is asked about what holds them.
    let row = &assembly.record;
    let stated = |field: &Field| row.value(*field).is_some() || view.entry(*field).is_some();
    if STARRED.iter().all(stated) {
        return Vec::new();
    }
    let needed = needed(&view).into_iter();
    let faults = needed.filter_map(|field| {
        let kind = match view.with_origin(field) {
            (found, _) if !found.is_known() => fault_kind::FIELD_MISSING,
            (_, Origin::Assumed(_)) => fault_kind::VALUE_ASSUMED,
            _ => return None,
        };
        Some(incomplete(&view, field, kind))
    });
    faults.collect()
}

fn incomplete(view: &View<'_>, field: Field, kind: &'static str) -> Fault {
    let record = view.record_of(field.kind());
    let property = field.property();
    let mut fault = Fault::new(kind, record.place, field.short())
        .with("property", property.name)
        .with("meaning", property.meaning)
        .with("record", property.kind.name())
        .with("why", super::reason(view, field).unwrap_or_default());
    fault.places = vec![FaultPlace {
        place: record.place,
        field: field.short().into(),
        absent: true,
    }];
    fault.missing = Some(property.qualified);
    about(fault, &view.assembly.record)
}
