//! From records of parts to a row for each tool: what has no place in a row is told.

use std::collections::HashSet;

use super::book::{Book, BookCell, BookRow, in_row, of};
use super::told::Told;
use crate::library::{
    Assembly, Field, Kind, Library, OperationRef, Written, WrittenRow, fields_of,
};
use crate::units::split_unit;

/// What a row is put together from, and what it leaves behind.
struct Joining<'a, 't> {
    library: &'a Library,
    written: &'a Written,
    told: &'t mut Told,
    used: [HashSet<usize>; Kind::ALL.len()],
}

/// A row for each tool.
pub(super) fn join<'a>(library: &'a Library, written: &'a Written, told: &mut Told) -> Book<'a> {
    let mut book = Book::new(written);
    let mut joining = Joining {
        library,
        written,
        told,
        used: Default::default(),
    };
    let rows = written.rows(Kind::Assembly).iter().zip(&library.assemblies);
    for (row, assembly) in rows {
        let row = joining.row(row, assembly);
        book.rows_mut(Kind::Assembly).push(row);
    }
    let others = Kind::ALL.into_iter().filter(|kind| *kind != Kind::Assembly);
    for kind in others {
        joining.left_over(kind);
    }
    book
}

impl<'a> Joining<'a, '_> {
    fn row(&mut self, row: &'a WrittenRow, assembly: &Assembly) -> BookRow<'a> {
        let mut joined = BookRow::begun(row);
        joined.cells = row
            .cells
            .iter()
            .map(|cell| of(self.written, cell))
            .collect();
        for kind in Kind::PARTS {
            if assembly.is_unresolved(kind) {
                let id = Field::naming(kind).and_then(|field| assembly.record.text(field));
                self.told.nowhere_described(kind, id.unwrap_or_default());
            }
            if let Some(at) = assembly.part(kind) {
                self.part(&mut joined, (kind, at), assembly);
            }
        }
        let mut operations = assembly.operations.iter();
        if let Some(OperationRef::Record(at)) = operations.next() {
            self.part(&mut joined, (Kind::Operation, *at), assembly);
        }
        joined
    }

    /// Adds what a record states to a row that does not state it itself.
    fn part(&mut self, joined: &mut BookRow<'a>, (kind, at): (Kind, usize), assembly: &Assembly) {
        if let Some(used) = self.used.get_mut(kind as usize) {
            used.insert(at);
        }
        let Some(row) = self.written.rows(kind).get(at) else {
            return;
        };
        for cell in &row.cells {
            let mut cell = of(self.written, cell);
            match *cell.states.fields() {
                [field] if is_link(field) => {}
                [field] => {
                    let overruled = assembly.record.value(field).is_some();
                    if overruled && kind != Kind::Operation {
                        continue;
                    }
                    if cell.says.is_value() {
                        self.hidden(joined, field);
                    }
                    // A row states each property in one column.
                    if let Some(column) = in_row(self.written, field) {
                        cell.column = column;
                    }
                    joined.cells.push(cell);
                }
                _ => self.stray(joined, cell),
            }
        }
    }

    /// A cell of the row that is no value does not hide that of the part.
    fn hidden(&mut self, joined: &mut BookRow<'a>, field: Field) {
        let told = &mut *self.told;
        joined.cells.retain(|own| {
            let hides = own.states.fields() == [field] && !own.says.is_value();
            if hides {
                told.hidden(field);
            }
            !hides
        });
    }

    /// A column that nobody reads; in a row its name could mean something.
    fn stray(&mut self, joined: &mut BookRow<'a>, cell: BookCell<'a>) {
        let super::book::States::Name(name) = cell.states else {
            return;
        };
        if means_something(name, Kind::Assembly) {
            self.told.stray(name);
        } else {
            joined.cells.push(cell);
        }
    }

    /// Tells what no row has taken.
    fn left_over(&mut self, kind: Kind) {
        let Some(used) = self.used.get(kind as usize) else {
            return;
        };
        let id = match kind {
            Kind::Stock => None,
            other => Field::id_of(other),
        };
        for (at, record) in self.library.records(kind).iter().enumerate() {
            if used.contains(&at) {
                continue;
            }
            let id = match id {
                Some(id) => record.text(id),
                None => record.text(Field::Cutter).or(record.text(Field::Collet)),
            };
            self.told.left_over(kind, id.unwrap_or("(no id)"));
        }
    }
}

/// Whether it only says which record this is, or whose.
fn is_link(field: Field) -> bool {
    let part = Kind::PARTS
        .iter()
        .any(|kind| Field::id_of(*kind) == Some(field));
    part || matches!(field, Field::OperationToolNumber | Field::OperationMachine)
}

/// Whether a name that nobody reads where it stands would be read in another table.
pub(super) fn means_something(name: &str, table: Kind) -> bool {
    let (bare, _) = split_unit(name);
    !fields_of(name, table).is_empty() || !fields_of(bare, table).is_empty()
}
