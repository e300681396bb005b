//! Links between records, and the faults that only show once all are read.

use std::collections::HashMap;

use crate::input::{Fault, FaultPlace, fault_kind};
use crate::text::{Sources, closest};

use super::{
    Assembly, Field, Kind, Library, OperationRef, Origin, Overrides, Record, Unstated, View, needed,
};

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

/// Links assemblies to their parts and operations; faults for every link that leads nowhere.
pub(super) fn link(
    rows: Vec<Record>,
    records: &Records,
    sources: &Sources,
    doubts: &Doubts,
    faults: &mut Vec<Fault>,
) -> Vec<Assembly> {
    let mut used: Vec<Vec<bool>> = records.iter().map(|list| vec![false; list.len()]).collect();
    // Only parts are named by id. An operation is found by its tool number, and a shop may
    // call the roughing of every tool `rough`.
    let by_id: Vec<HashMap<&str, usize>> = Kind::PARTS
        .iter()
        .map(|kind| index(*kind, list(records, *kind), sources, faults))
        .collect();
    let mut assemblies: Vec<Assembly> = rows
        .into_iter()
        .map(|record| {
            let mut parts = [None; Kind::PARTS.len()];
            let mut unresolved = [false; Kind::PARTS.len()];
            let slots = parts.iter_mut().zip(&mut unresolved);
            let slots = slots.zip(Kind::PARTS).zip(REFERENCES).zip(&by_id);
            for ((((part, lost), kind), field), ids) in slots {
                let Some(id) = record.text(field) else {
                    continue;
                };
                *part = ids.get(id).copied();
                match *part {
                    Some(at) => mark(&mut used, kind, at),
                    // Without a table of its kind the id may be only a name.
                    None if list(records, kind).is_empty()
                        && (doubts.names_only || record.describes(kind)) => {}
                    None => {
                        *lost = true;
                        if !doubts.unread.contains(&kind) {
                            let mut stock = list(records, Kind::Stock).iter();
                            let own = Field::id_of(kind);
                            let has =
                                |row: &Record| own.is_some_and(|own| row.text(own) == Some(id));
                            let hint = if stock.any(has) {
                                format!(
                                    "the stock has it: copy its row into the {}",
                                    kind.section()
                                )
                            } else {
                                meant(id, ids.keys().copied())
                            };
                            faults.push(unknown_part(&record, field, (kind, id), hint));
                        }
                    }
                }
            }
            let own = record.describes(Kind::Operation);
            Assembly {
                parts,
                unresolved,
                operations: own.then_some(OperationRef::OwnRow).into_iter().collect(),
                record,
            }
        })
        .collect();
    taken_twice(&assemblies, sources, faults);
    operations(&mut assemblies, list(records, Kind::Operation), faults);
    if !doubts.ragged {
        unused(records, &used, &by_id, faults);
    }
    assemblies
}

fn list(records: &Records, kind: Kind) -> &[Record] {
    records.get(kind as usize).map_or(&[], Vec::as_slice)
}

fn mark(used: &mut [Vec<bool>], kind: Kind, at: usize) {
    if let Some(flag) = used
        .get_mut(kind as usize)
        .and_then(|list| list.get_mut(at))
    {
        *flag = true;
    }
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
                Fault::new(fault_kind::PART_TWICE, entry.place, kind.name())
                    .with("part", kind.name())
                    .quoting("id", id)
                    .with("line", sources.position(first.place).line.to_string())
                    .also(first.place, kind.name()),
            ),
            None => {
                ids.insert(id, at);
            }
        }
    }
    ids
}

impl Fault {
    /// Says whose the fault is: the assembly that the record describes.
    pub(super) fn belongs_to(&mut self, record: &Record) {
        let number = record.text(Field::ToolNumber);
        let id = record.text(Field::Assembly).or(number);
        self.tool_number = number.map(str::to_owned);
        self.assembly = id.map(str::to_owned);
    }
}

fn about(mut fault: Fault, record: &Record) -> Fault {
    fault.belongs_to(record);
    fault
}

/// What an id that is not known may have been meant for; empty where nothing comes near.
fn meant<'k>(id: &str, known: impl Iterator<Item = &'k str>) -> String {
    let near = closest(id, known);
    near.map_or_else(String::new, |near| format!("did you mean `{near}`?"))
}

fn unknown_part(record: &Record, field: Field, (kind, id): (Kind, &str), hint: String) -> Fault {
    let place = record.get(field).map_or(record.place, |entry| entry.place);
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

fn taken_twice(assemblies: &[Assembly], sources: &Sources, faults: &mut Vec<Fault>) {
    let mut taken: HashMap<_, &Record> = HashMap::new();
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
            .map_or(first.place, |e| e.place);
        let fault = Fault::new(fault_kind::NUMBER_TAKEN_TWICE, entry.place, "tool_number")
            .quoting("number", key.0)
            .with("line", sources.position(place).line.to_string())
            .also(place, "tool_number");
        faults.push(about(fault, record));
    }
}

/// Hands every operation to the assemblies that it names: by tool number, and by machine if
/// both sides name one.
fn operations(assemblies: &mut [Assembly], records: &[Record], faults: &mut Vec<Fault>) {
    let mut by_number: HashMap<String, Vec<usize>> = HashMap::new();
    for (at, assembly) in assemblies.iter().enumerate() {
        if let Some(number) = assembly.tool_number() {
            by_number.entry(number.to_owned()).or_default().push(at);
        }
    }
    for (index, record) in records.iter().enumerate() {
        let number = record.text(Field::OperationToolNumber).unwrap_or("");
        let named = by_number.get(number).map_or(&[][..], Vec::as_slice);
        let mut found = false;
        for &at in named {
            let Some(assembly) = assemblies.get_mut(at) else {
                continue;
            };
            let wanted = record.text(Field::OperationMachine);
            let own = assembly.record.text(Field::Machine);
            if wanted.is_none() || own.is_none() || wanted == own {
                assembly.operations.push(OperationRef::Record(index));
                found = true;
            }
        }
        if !found {
            faults.push(unknown_tool(record, number, &by_number));
        }
    }
}

fn unknown_tool(record: &Record, number: &str, known: &HashMap<String, Vec<usize>>) -> Fault {
    let others = known.keys().map(String::as_str);
    let hint = meant(number, others.filter(|other| *other != number));
    let entry = record.get(Field::OperationToolNumber);
    let place = entry.map_or(record.place, |entry| entry.place);
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
                let place = record.get(field).map_or(record.place, |entry| entry.place);
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
pub(super) fn completeness(library: &mut Library) {
    let overrides = Overrides::default();
    let mut faults = Vec::new();
    for assembly in &library.assemblies {
        let view = View {
            library,
            assembly,
            operation: None,
            overrides: &overrides,
            unstated: Unstated::default(),
        };
        for field in needed(&view) {
            let kind = match view.with_origin(field) {
                (found, _) if !found.is_known() => fault_kind::FIELD_MISSING,
                (_, Origin::Assumed(_)) => fault_kind::VALUE_ASSUMED,
                _ => continue,
            };
            faults.push(incomplete(&view, field, kind));
        }
    }
    library.faults.append(&mut faults);
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
