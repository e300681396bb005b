//! What a library states, cell by cell, as it was written: for whoever writes it in another form.
//!
//! A cell keeps its text wherever that reads the same in any form: behind a decimal point, and in
//! the unit that is named beside it. A text that the table of its origin alone explains, such as
//! `12,5` or a word of the shop's own, gives way to one that every form reads the same.

use crate::input::{Cell, Column, Fault, Row, fault_kind};
use crate::text::Place;
use crate::units::{Spelling, Unit, own_unit};

use super::cell::{self, Settled};
use super::chunk::Stated;
use super::decimal_marks::{self, Open, Seen};
use super::property::ValueType;
use super::stating::Target;
use super::{Field, Kind, Library, two_sizes};

/// All that a library states, as it was written.
#[derive(Debug, Default)]
pub struct Written {
    columns: Vec<WrittenColumn>,
    rows: [Vec<WrittenRow>; Kind::ALL.len()],
    /// Comments of a document, and where each begins.
    pub comments: Vec<(u32, String)>,
    /// How many processing instructions a document has.
    pub instructions: usize,
}

/// A column, or the elements of one name within records of one kind.
#[derive(Clone, Debug)]
pub struct WrittenColumn {
    /// The kind of the table that it stands in.
    pub table: Kind,
    /// Its name as written.
    pub name: String,
    /// The fields that it states; none if it is not read.
    pub fields: Vec<Field>,
    /// The unit of its bare numbers, if all of them have one.
    pub unit: Option<&'static str>,
}

/// A record.
#[derive(Clone, Debug)]
pub struct WrittenRow {
    /// The whole row, or the tag that opens the element.
    pub place: Place,
    /// What its element is called, in the stock of a document.
    pub element: Option<Kind>,
    /// Whether only its ids and its number are read.
    pub is_ragged: bool,
    /// Its cells in their order; empty ones are left out.
    pub cells: Vec<WrittenCell>,
}

/// A cell.
#[derive(Clone, Debug)]
pub struct WrittenCell {
    /// Number of its column.
    pub column: usize,
    /// What it says; every form reads it the same, with a decimal point.
    pub text: String,
    /// The unit of its bare number; none if it needs none or names its own.
    pub unit: Option<&'static str>,
    /// What is read in it.
    pub says: Says,
}

/// What is read in a cell.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Says {
    /// A number, in the canonical unit of its property.
    Number(f64),
    /// A word of its list.
    Word(&'static str),
    /// Yes or no.
    Flag(bool),
    /// What it says is its value.
    Text,
    /// A number whose unit nobody knows.
    Unitless,
    /// Something that is no value of its property.
    Unread,
    /// A number that has two readings where it comes from. Another form could read it, so it bears
    /// a question mark.
    Doubtful,
    /// Whatever stands in a column that is not read.
    Stray,
}

impl Says {
    /// Whether it states a value.
    #[must_use]
    pub const fn is_value(self) -> bool {
        matches!(
            self,
            Says::Number(_) | Says::Word(_) | Says::Flag(_) | Says::Text
        )
    }
}

/// What was passed over in reading.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PassedOver {
    /// An element or attribute of this name.
    Element(String),
    /// A file that is no table.
    Table(String),
    /// A line that is no record, and what it is.
    Line(String),
}

impl Library {
    /// What was passed over in reading it, each as often as it was told.
    #[must_use]
    pub fn passed_over(&self) -> Vec<PassedOver> {
        let over = |fault: Fault| {
            let (key, over): (_, fn(String) -> PassedOver) = match fault.kind {
                fault_kind::UNKNOWN_ELEMENT => ("element", PassedOver::Element),
                fault_kind::UNKNOWN_TABLE => ("table", PassedOver::Table),
                fault_kind::LINE_PASSED_OVER => ("what", PassedOver::Line),
                _ => return None,
            };
            let mut args = fault.args.into_iter();
            let (_, name) = args.find(|(name, _)| *name == key)?;
            Some(over(name.into_owned()))
        };
        self.faults().filter_map(over).collect()
    }
}

impl Written {
    /// The records of a kind, in the order in which the library has them.
    #[must_use]
    #[expect(clippy::indexing_slicing, reason = "one list for every kind")]
    pub fn rows(&self, kind: Kind) -> &[WrittenRow] {
        &self.rows[kind as usize]
    }

    /// All columns, by the numbers that cells have.
    #[must_use]
    pub fn columns(&self) -> &[WrittenColumn] {
        &self.columns
    }

    /// The fields that a cell states.
    #[must_use]
    pub fn fields(&self, cell: &WrittenCell) -> &[Field] {
        let column = self.columns.get(cell.column);
        column.map_or(&[], |column| column.fields.as_slice())
    }

    /// Adds the rows of a table. In a document the same element may stand in several sections.
    pub(super) fn add(
        &mut self,
        (kind, element): (Kind, Option<Kind>),
        columns: &[Column<'_>],
        reading: &super::tables::Reading,
        targets: &[Target],
        mut rows: Vec<WrittenRow>,
    ) {
        let mut numbers = Vec::with_capacity(columns.len());
        for (at, (column, target)) in columns.iter().zip(targets).enumerate() {
            let column = WrittenColumn {
                table: kind,
                name: column.name.to_string(),
                fields: target.fields.clone(),
                unit: reading.bare_unit(at),
            };
            numbers.push(self.number_of(column, element.is_some()));
        }
        for row in &mut rows {
            row.element = element.filter(|_| kind == Kind::Stock);
            row.cells.retain_mut(|cell| {
                let number = numbers.get(cell.column);
                cell.column = number.copied().unwrap_or_default();
                number.is_some()
            });
        }
        if let Some(own) = self.rows.get_mut(kind as usize) {
            own.append(&mut rows);
        }
    }

    /// The number of a column; of the elements of a document that mean the same, the first's.
    fn number_of(&mut self, column: WrittenColumn, is_document: bool) -> usize {
        let alike = |known: &WrittenColumn| {
            let same = known.fields == column.fields;
            let named = !known.fields.is_empty() || known.name == column.name;
            is_document && known.table == column.table && same && named
        };
        if let Some(known) = self.columns.iter().position(alike) {
            return known;
        }
        self.columns.push(column);
        self.columns.len() - 1
    }

    /// Puts the records of a kind behind the first `from` in the order of their places.
    pub(super) fn sort(&mut self, kind: Kind, from: usize) {
        let rows = self.rows.get_mut(kind as usize);
        if let Some(rows) = rows.and_then(|rows| rows.get_mut(from..)) {
            rows.sort_by_key(|row| row.place.span);
        }
    }

    /// Says numbers so that a slip elsewhere in their new table leaves them no second reading.
    ///
    /// A comma in a cell that is not read, `14,5`, makes `1.234` doubtful beside it, which in its
    /// old table something else may have settled.
    pub(super) fn settle(&mut self) {
        let columns = &self.columns;
        let value = |cell: &WrittenCell| {
            let field = columns.get(cell.column)?.fields.first()?;
            Some(field.property().value)
        };
        let all = || self.rows.iter().flatten().flat_map(|row| &row.cells);
        let has_comma = |cell: &WrittenCell| !cell.says.is_value() && cell.text.contains(',');
        if !all().any(has_comma) {
            return;
        }
        let rows = self.rows.iter_mut().flatten();
        for cell in rows.flat_map(|row| &mut row.cells) {
            let is_number = matches!(cell.says, Says::Number(_));
            let is_length = matches!(value(cell), Some(ValueType::Quantity(Unit::Mm)));
            if is_number && !is_length && decimal_marks::may_be_two(&cell.text) {
                let end = cell
                    .text
                    .find(|c: char| !c.is_ascii_digit() && c != '.' && c != '-');
                cell.text.insert(end.unwrap_or(cell.text.len()), '0');
            }
        }
    }
}

/// A row as it was written; `open` tells the marks that a cell leaves open, or what is wrong with
/// it as a whole.
pub(super) fn row(
    row: &Row<'_>,
    settled: &[Option<Box<Settled>>],
    open: impl Fn(&Cell<'_>, &Settled) -> Result<Open, Fault>,
) -> WrittenRow {
    let mut cells = Vec::with_capacity(row.cells.len());
    for cell in &row.cells {
        let column = settled.get(cell.column).and_then(Option::as_deref);
        match column {
            Some(settled) if row.ragged && !settled.is_name() => {}
            Some(settled) => cells.push(of_property(cell, settled, open(cell, settled))),
            None if row.ragged => {}
            None => cells.push(stray(cell)),
        }
    }
    WrittenRow {
        place: row.place,
        element: None,
        is_ragged: row.ragged,
        cells,
    }
}

fn stray(cell: &Cell<'_>) -> WrittenCell {
    let text = match cell.unit.as_deref() {
        Some((unit, _)) => format!("{} {}", cell.text, unit.trim()),
        None => cell.text.to_string(),
    };
    WrittenCell {
        column: cell.column,
        text,
        unit: None,
        says: Says::Stray,
    }
}

/// A cell of a property: its text, or what says the same everywhere.
fn of_property(cell: &Cell<'_>, settled: &Settled, open: Result<Open, Fault>) -> WrittenCell {
    let text = settled.meant(&cell.text).unwrap_or(&cell.text);
    let read = open.and_then(|open| cell::read(cell, settled, (&mut Seen::default(), open)));
    let (bare, unknown) = unit_of(cell, settled);
    let plainly = Plainly {
        cell,
        settled: settled.plainly(bare),
        alone: settled.plainly(None),
        quantity: match settled.property.value {
            ValueType::Quantity(unit) => Some(unit),
            _ => None,
        },
    };
    let unit = bare.filter(|_| plainly.quantity.is_some());
    let unit = unit.map(|unit| unit.name);
    let (text, unit, says) = match (read, unknown) {
        // A unit that is none stays behind the number, where it is told again.
        (Err(_), Some(unknown)) => (format!("{text} {unknown}"), None, Says::Unread),
        (Ok(stated), _) => match two_sizes::plainly(cell, settled) {
            Some(both) => (both, None, Says::Text),
            None => plainly.stated(text, &stated, unit),
        },
        (Err(fault), None) if fault.kind == fault_kind::UNIT_MISSING => {
            (with_point(text), None, Says::Unitless)
        }
        (Err(fault), None) => match plainly.unread(text, &fault) {
            Some(text) => (text, unit, Says::Unread),
            None => (format!("{text} ?"), None, Says::Doubtful),
        },
    };
    WrittenCell {
        column: cell.column,
        text,
        unit,
        says,
    }
}

/// The unit of a cell's bare number; and what stands beside it and is none.
fn unit_of<'c>(
    cell: &'c Cell<'_>,
    settled: &Settled,
) -> (Option<&'static Spelling>, Option<&'c str>) {
    let ValueType::Quantity(wanted) = settled.property.value else {
        return (settled.bare(), None);
    };
    let Some((unit, _)) = cell.unit.as_deref() else {
        return (settled.bare(), None);
    };
    match Spelling::find(unit, wanted) {
        // Beside a number with another unit it is a second one.
        Some(own) => match own_unit(&cell.text, wanted, settled.decimal()) {
            Some(other) if other.name != own.name => (Some(own), Some(unit.trim())),
            _ => (Some(own), None),
        },
        None => (settled.bare(), Some(unit.trim())),
    }
}

/// A decimal comma as a point.
fn with_point(text: &str) -> String {
    text.replace(',', ".")
}

/// How a cell's text is read in any form: with a decimal point.
struct Plainly<'c, 't> {
    cell: &'c Cell<'t>,
    /// In the unit that is named beside it.
    settled: Settled,
    /// Where no unit is.
    alone: Settled,
    quantity: Option<Unit>,
}

impl Plainly<'_, '_> {
    fn read<'x>(&self, text: &'x str, settled: &Settled) -> Result<Stated<'x>, Fault> {
        let cell = Cell {
            column: self.cell.column,
            text: text.into(),
            place: self.cell.place,
            unit: None,
        };
        cell::read(&cell, settled, (&mut Seen::default(), Open::default()))
    }

    /// The first text that states the same: as it is, with a point, without marks between
    /// thousands, or the number in its canonical unit.
    fn stated(
        &self,
        text: &str,
        stated: &Stated<'_>,
        unit: Option<&'static str>,
    ) -> (String, Option<&'static str>, Says) {
        let says = match stated {
            Stated::Number(number) => Says::Number(*number),
            Stated::Word(word, _) => Says::Word(word.word),
            Stated::Flag(flag) => Says::Flag(*flag),
            Stated::Thread(_) | Stated::Text(_) => return (text.to_owned(), None, Says::Text),
        };
        let same = |text: &String, settled: &Settled| {
            let read = self.read(text, settled);
            read.is_ok_and(|read| is_same(&read, stated))
        };
        let said = [
            text.to_owned(),
            with_point(text),
            with_point(&text.replace('.', "")),
        ];
        let mut said = said.into_iter();
        let Some(said) = said.find(|said| same(said, &self.settled)) else {
            return self.canonical(says, text);
        };
        // What names its own unit needs none beside it.
        let unit = unit.filter(|_| !same(&said, &self.alone));
        (said, unit, says)
    }

    fn canonical(&self, says: Says, text: &str) -> (String, Option<&'static str>, Says) {
        let canonical = self.quantity.map(Unit::shown);
        match says {
            Says::Number(number) => (number.to_string(), canonical, says),
            _ => (text.to_owned(), None, says),
        }
    }

    /// A text that is no more a value than it was: as it is, or with a point where the mark is not
    /// what is wrong. None where another form could read it.
    fn unread(&self, text: &str, fault: &Fault) -> Option<String> {
        let kind = |text: &str| self.read(text, &self.settled).err().map(|fault| fault.kind);
        let said = [text.to_owned(), with_point(text)];
        let same = said.into_iter().find(|said| kind(said) == Some(fault.kind));
        same.or_else(|| kind(text).map(|_| text.to_owned()))
    }
}

/// Whether two read the same, to the last bit of a number.
fn is_same(a: &Stated<'_>, b: &Stated<'_>) -> bool {
    match (a, b) {
        (Stated::Number(a), Stated::Number(b)) => a.to_bits() == b.to_bits(),
        _ => a == b,
    }
}
