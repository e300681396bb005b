//! The sections of a document and the records in them, as they fill.

use crate::input::fault_kind;
use std::borrow::Cow;
use std::collections::HashMap;

use super::{Group, Section};
use crate::input::{Cell, Column, Fault, Manner, Row, Table};
use crate::text::Place;
use crate::units::Decimal;

/// What has been read so far.
#[derive(Default)]
pub(super) struct Records<'a> {
    /// The sections in their order; the last is the open one.
    pub sections: Vec<Section<'a>>,
    /// Columns of the open section by name, for each of its groups.
    columns: Vec<HashMap<String, usize>>,
    /// Groups of the open section, by the name of their element.
    groups: HashMap<String, usize>,
    /// The open record's group.
    group: usize,
    /// Places of the open record's cells, by column.
    cells: HashMap<usize, Place>,
}

impl<'a> Records<'a> {
    /// Name of the open section.
    pub fn section_name(&self) -> Option<&String> {
        self.sections.last().map(|section| &section.name)
    }

    /// Name of the open record's element.
    pub fn element(&self) -> Option<&String> {
        let section = self.sections.last()?;
        section.groups.get(self.group).map(|group| &group.element)
    }

    fn table(&mut self) -> Option<&mut Table<'a>> {
        let section = self.sections.last_mut()?;
        section
            .groups
            .get_mut(self.group)
            .map(|group| &mut group.table)
    }

    /// Opens a section.
    pub fn open_section(&mut self, name: &str, place: Place) {
        self.columns.clear();
        self.groups.clear();
        self.sections.push(Section {
            name: name.to_owned(),
            place,
            groups: Vec::new(),
        });
    }

    /// Opens a record of the open section.
    pub fn open_record(&mut self, element: &str, place: Place) {
        self.cells.clear();
        let Some(section) = self.sections.last_mut() else {
            return;
        };
        let known = self.groups.get(element).copied();
        self.group = known.unwrap_or(section.groups.len());
        if known.is_none() {
            self.groups.insert(element.to_owned(), self.group);
            self.columns.push(HashMap::new());
            section.groups.push(Group {
                element: element.to_owned(),
                table: Table {
                    columns: Vec::new(),
                    rows: Vec::new(),
                    manner: Manner {
                        decimal: Decimal::Point,
                        semicolons: false,
                        in_sheet: false,
                    },
                },
            });
        }
        if let Some(table) = self.table() {
            table.rows.push(Row {
                place,
                end: place.span.end,
                cells: Vec::new(),
                ragged: false,
            });
        }
    }

    /// Closes the open record, which ends before this byte.
    pub fn close_record(&mut self, end: u32) {
        if let Some(row) = self.table().and_then(|table| table.rows.last_mut()) {
            row.end = end;
        }
    }

    /// The column of a name, opened where it stands first.
    pub fn column(&mut self, name: &str, place: Place) -> usize {
        let group = self.group;
        let known = self
            .columns
            .get(group)
            .and_then(|columns| columns.get(name));
        if let Some(column) = known {
            return *column;
        }
        let Some(table) = self.table() else {
            return 0;
        };
        let column = table.columns.len();
        table.columns.push(Column {
            name: Cow::Owned(name.to_owned()),
            place,
        });
        if let Some(columns) = self.columns.get_mut(group) {
            columns.insert(name.to_owned(), column);
        }
        column
    }

    /// Adds a cell to the open record; a fault if the record states its field already. Both
    /// cells are kept: whether they say the same shows when they are read.
    pub fn cell(&mut self, cell: Cell<'a>) -> Option<Fault> {
        if cell.text.is_empty() {
            return None;
        }
        let (column, place) = (cell.column, cell.place);
        let first = self.cells.get(&column).copied();
        self.table()?.rows.last_mut()?.cells.push(cell);
        let Some(first) = first else {
            self.cells.insert(column, place);
            return None;
        };
        let table = self.table()?;
        let name = table
            .columns
            .get(column)
            .map_or("", |column| column.name.as_ref());
        let fault = Fault::new(fault_kind::COLUMN_TWICE, place, name.to_owned())
            .quoting("column", name)
            .quoting("first", name)
            .also(first, name.to_owned());
        Some(fault)
    }
}
