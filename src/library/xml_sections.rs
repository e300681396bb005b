//! From the sections of an XML document to records.

use crate::input::xml::{Group, Section};
use crate::input::{Fault, Faults, fault_kind};
use crate::text::{SourceId, Sources, closest};

use super::as_written::Written;
use super::columns::{self, Host};
use super::tables::Reading;
use super::{Kind, ReadSettings, Record};

/// The records of a section and their kind; none if the section is not known. So many rows of
/// assemblies stand before it.
pub(super) fn read(
    (section, rows): (&Section<'_>, usize),
    settings: &ReadSettings,
    sources: (&Sources, SourceId),
    faults: &mut Faults,
    mut written: Option<&mut Written>,
) -> Option<(Kind, Vec<Record>)> {
    let Some(kind) = Kind::ALL
        .into_iter()
        .find(|kind| kind.section() == section.name)
    else {
        faults.push(unknown(section));
        return None;
    };
    let allowed: &[Kind] = match kind {
        Kind::Stock => &[Kind::Cutter, Kind::Collet],
        _ => &[kind],
    };
    let mut records = Vec::new();
    let before = written.as_ref().map_or(0, |all| all.rows(kind).len());
    for group in &section.groups {
        let own = allowed.iter().find(|kind| kind.name() == group.element);
        match own {
            Some(&element) => {
                let host = Host {
                    table: kind,
                    element: Some(element),
                };
                let table = &group.table;
                let targets =
                    columns::resolve((&table.columns, &[]), host, &settings.columns, faults);
                let cells = (sources, None);
                let reading = Reading::new(kind, &targets, settings, table.manner, cells)
                    .keeping(written.is_some());
                let mut read = reading.table(table);
                if let Some(all) = written.as_deref_mut() {
                    let rows = std::mem::take(&mut read.written);
                    let of = (kind, Some(element));
                    all.add(of, &table.columns, &reading, &targets, rows);
                }
                faults.append(&read.cells, rows + records.len());
                records.append(&mut read.list);
            }
            None => misplaced(group, &section.name, allowed, faults),
        }
    }
    // What the crib has may change between cutters and collets.
    records.sort_by_key(|record| record.place.span);
    if let Some(all) = written {
        all.sort(kind, before);
    }
    Some((kind, records))
}

fn unknown(section: &Section<'_>) -> Fault {
    let names = || Kind::ALL.iter().map(|kind| kind.section());
    let hint = match closest(&section.name, names()) {
        Some(near) => format!("did you mean `{near}`?"),
        None => format!(
            "expected one of: {}",
            names().collect::<Vec<_>>().join(", ")
        ),
    };
    let name = section.name.as_str();
    Fault::new(fault_kind::UNKNOWN_ELEMENT, section.place, name.to_owned())
        .quoting("element", name)
        .with("parent", "shankwise")
        .with("hint", hint)
}

/// Records whose element does not belong into their section.
fn misplaced(group: &Group<'_>, section: &str, allowed: &[Kind], faults: &mut Faults) {
    let names: Vec<&str> = allowed.iter().map(|kind| kind.name()).collect();
    let hint = format!("expected `{}`", names.join("` or `"));
    let name = group.element.as_str();
    faults.extend(group.table.rows.iter().map(|row| {
        Fault::new(fault_kind::UNKNOWN_ELEMENT, row.place, name.to_owned())
            .quoting("element", name)
            .with("parent", section.to_owned())
            .with("hint", hint.clone())
    }));
}
