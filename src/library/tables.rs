//! From raw tables to records of typed fields.

use rayon::prelude::*;

use crate::input::{Fault, Row, Table};

use super::cell::Settled;
use super::columns::Target;
use super::marks::Marks;
use super::twice;
use super::{Entry, Field, Kind, ReadSettings, Record, ValueType, cell};

/// The records of a table; faults for cells that are no values, in the order of the rows.
pub(super) fn records(
    table: &Table<'_>,
    kind: Kind,
    targets: &[Target],
    settings: &ReadSettings,
    faults: &mut Vec<Fault>,
) -> Vec<Record> {
    let marks = (table.decimal, Marks::of(table, targets));
    let settled = |target| Settled::new(target, settings, marks);
    let reading = Reading {
        targets,
        settled: targets.iter().map(settled).collect(),
    };
    let read: Vec<(Record, Vec<Fault>)> = table
        .rows
        .par_iter()
        .with_min_len(256)
        .map(|row| reading.record(row, kind))
        .collect();
    let mut records = Vec::with_capacity(read.len());
    for (record, mut own) in read {
        records.push(record);
        faults.append(&mut own);
    }
    records
}

/// How the rows of a table are read.
struct Reading<'r> {
    targets: &'r [Target],
    settled: Vec<Option<Settled>>,
}

impl Reading<'_> {
    fn record(&self, row: &Row<'_>, kind: Kind) -> (Record, Vec<Fault>) {
        let mut faults = Vec::new();
        let mut entries = Vec::with_capacity(row.cells.len());
        // Stated for one record outranks stated for all that have the property.
        let mut shared = Vec::new();
        for cell in &row.cells {
            let Some(target) = self.targets.get(cell.column) else {
                continue;
            };
            let Some(Some(settled)) = self.settled.get(cell.column) else {
                continue;
            };
            let property = settled.property;
            if row.ragged && !is_name(property.field, property.value) {
                continue;
            }
            faults.extend(cell::stray_unit(cell, property));
            match cell::read(cell, settled) {
                Ok(value) => {
                    let of_all = if target.is_shared() {
                        &mut shared
                    } else {
                        &mut entries
                    };
                    of_all.extend(target.fields.iter().map(|&field| Entry {
                        field,
                        value: value.clone(),
                        place: cell.place,
                    }));
                }
                Err(fault) => faults.push(fault),
            }
        }
        // What one record states two ways is not known, and what is stated for all is no answer.
        let own = twice::settle(&mut entries, &row.cells, &mut faults);
        let of_all = twice::settle(&mut shared, &row.cells, &mut faults);
        shared.retain(|entry| !of_all.contains(&entry.field));
        entries.append(&mut shared);
        entries.retain(|entry| !own.contains(&entry.field));
        let mut record = Record::new(kind, row.place, entries);
        record.end = row.end;
        if kind == Kind::Assembly {
            for fault in &mut faults {
                fault.belongs_to(&record);
            }
        }
        (record, faults)
    }
}

fn is_name(field: Field, value: ValueType) -> bool {
    matches!(value, ValueType::Id) || field == Field::ToolNumber
}
