//! Links between records, and the faults that only show once all are read.

use std::collections::{HashMap, HashSet};
use std::hash::{DefaultHasher, Hash, Hasher};
use std::sync::OnceLock;

use rayon::prelude::*;

use crate::input::{Fault, Faults, fault_kind};
use crate::text::{NameIndex, Sources};
use crate::units::Scalar;

use super::assembly::{Assembly, OperationRef, Operations, Parts};
use super::{Field, Kind, Record};

/// The field of an assembly that names its part of a kind.
const REFERENCES: [Field; Kind::PARTS.len()] = [
    Field::CutterOf,
    Field::ColletOf,
    Field::NutOf,
    Field::HolderOf,
];

/// Assemblies that are looked at together.
const SOME: usize = 1024;

type RecordsOfKind = [Vec<Record>; Kind::ALL.len()];

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
pub(super) struct Linked {
    pub assemblies: Vec<Assembly>,
    pub first: Faults,
    pub last: Faults,
}

/// Links assemblies to their parts and operations; faults for every link that leads nowhere.
pub(super) fn link(
    rows: Vec<Record>,
    records: &RecordsOfKind,
    sources: &Sources,
    doubts: &Doubts,
) -> Linked {
    let (mut first, mut last) = (Faults::of(sources), Faults::of(sources));
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
    for some in links.unknown(&assemblies, sources) {
        first.append(&some, 0);
    }
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
    records: &'r RecordsOfKind,
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
            asset: None,
            operations: Operations::Own(record.describes(Kind::Operation)),
            record,
        }
    }

    /// Faults for parts that are named and nowhere described, in the order of the assemblies.
    fn unknown(&self, assemblies: &[Assembly], sources: &Sources) -> Vec<Faults> {
        let known: Vec<OnceLock<NameIndex<'_>>> =
            self.by_id.iter().map(|_| OnceLock::new()).collect();
        let stocked: Vec<OnceLock<HashSet<&str>>> =
            self.by_id.iter().map(|_| OnceLock::new()).collect();
        let of = |(at, assembly): (usize, &Assembly)| {
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
                    meant(
                        known.get_or_init(|| NameIndex::new(ids.keys().copied())),
                        id,
                    )
                };
                let fault = unknown_part(&assembly.record, field, (kind, id), hint);
                Some(Fault {
                    of: Some(at),
                    ..fault
                })
            });
            faults.collect::<Vec<Fault>>()
        };
        let some = assemblies.par_iter().enumerate().chunks(SOME);
        some.map(|some| {
            let mut faults = Faults::of(sources);
            faults.extend(some.into_iter().flat_map(of));
            faults
        })
        .collect()
    }

    /// Ids of a kind in the stock.
    fn in_stock(&self, kind: Kind) -> HashSet<&str> {
        let stock = list(self.records, Kind::Stock).iter();
        let own = Field::id_of(kind);
        stock.filter_map(|row| row.text(own?)).collect()
    }
}

/// Which records assemblies name, by kind.
fn used(records: &RecordsOfKind, assemblies: &[Assembly]) -> Vec<Vec<bool>> {
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

fn list(records: &RecordsOfKind, kind: Kind) -> &[Record] {
    records.get(kind as usize).map_or(&[], Vec::as_slice)
}

fn index<'a>(
    kind: Kind,
    records: &'a [Record],
    sources: &Sources,
    faults: &mut Faults,
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

/// What an id that is not known may have been meant for; empty where nothing comes near. A collet of
/// other digits is another collet, and no slip of the hand.
fn meant(known: &NameIndex<'_>, id: &str) -> String {
    let digits = |text: &str| {
        // `c20-08` may be `c20-8`.
        let numbers = text.split(|c: char| !c.is_ascii_digit());
        let numbers = numbers.flat_map(|number| number.trim_start_matches('0').bytes());
        let mut digits: Vec<u8> = numbers.collect();
        digits.sort_unstable();
        digits
    };
    let near = known.closest(id).filter(|near| digits(near) == digits(id));
    near.map_or_else(String::new, |near| format!("did you mean `{near}`?"))
}

fn unknown_part(record: &Record, field: Field, (kind, id): (Kind, &str), hint: String) -> Fault {
    let place = record
        .get(field)
        .map_or(record.place, |entry| entry.place());
    Fault::new(fault_kind::PART_UNKNOWN, place, field.property().name)
        .with("part", kind.name())
        .quoting("id", id)
        .with("table", kind.section())
        .with("hint", hint)
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
pub(super) fn taken_twice(assemblies: &[Assembly], sources: &Sources) -> Faults {
    let entry = |at: usize| assemblies.get(at)?.record.get(Field::ToolNumber);
    let mut faults = Faults::of(sources);
    for (at, first) in doubled(assemblies) {
        let (Some(own), Some(first)) = (entry(at as usize), entry(first as usize)) else {
            continue;
        };
        let (Scalar::Text(number), first) = (own.value, first.place()) else {
            continue;
        };
        let line = sources.position(first).line.to_string();
        let mut fault = Fault::new(fault_kind::NUMBER_TAKEN_TWICE, own.place(), "tool_number")
            .quoting("number", number)
            .with("line", line)
            .also(first, "tool_number");
        fault.of = Some(at as usize);
        faults.push(fault);
    }
    faults
}

/// The assemblies with the number of another one before them, each with the first of that number,
/// in their order. They are sorted by the hash of what makes a number unique: a table by the texts
/// themselves would take as much memory as a large library.
fn doubled(assemblies: &[Assembly]) -> Vec<(u32, u32)> {
    let key = |at: u32| number_key(&assemblies.get(at as usize)?.record);
    let hashed = |(at, assembly): (u32, &Assembly)| {
        let mut hasher = DefaultHasher::new();
        number_key(&assembly.record)?.hash(&mut hasher);
        Some((hasher.finish(), at))
    };
    let mut all: Vec<(u64, u32)> = (0..).zip(assemblies).filter_map(hashed).collect();
    all.par_sort_unstable();
    let mut doubled = Vec::new();
    for same in all.chunk_by(|a, b| a.0 == b.0) {
        // Of one hash are mostly the assemblies of one number.
        let mut firsts: Vec<u32> = Vec::new();
        for (_, at) in same {
            match firsts.iter().find(|first| key(**first) == key(*at)) {
                Some(first) => doubled.push((*at, *first)),
                None => firsts.push(*at),
            }
        }
    }
    doubled.par_sort_unstable();
    doubled
}

/// Hands every operation to the assemblies that it names: by tool number, and by machine if
/// both sides name one.
fn operations(assemblies: &mut [Assembly], records: &[Record], faults: &mut Faults) {
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
            let known = known.get_or_init(|| NameIndex::new(by_number.keys().copied()));
            faults.push(unknown_tool(record, number, known));
        }
    }
    for (at, index) in links {
        if let Some(assembly) = assemblies.get_mut(at) {
            assembly.operations.push(OperationRef::Record(index));
        }
    }
}

fn unknown_tool(record: &Record, number: &str, known: &NameIndex<'_>) -> Fault {
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
    records: &RecordsOfKind,
    used: &[Vec<bool>],
    by_id: &[HashMap<&str, usize>],
    faults: &mut Faults,
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
