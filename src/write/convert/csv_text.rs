//! One table of CSV: RFC 4180, commas between cells, a decimal point, a unit in each header.

use std::borrow::Cow;
use std::collections::BTreeMap;
use std::io::{self, Write};

use super::book::{Book, BookCell, BookRow, ColumnKey, States};
use super::into_rows::means_something;
use super::told::Told;
use crate::library::{Field, Kind, Says, ValueType, header_of};

/// A column of the table, and which of a record's cells of one column stand in it.
type Key = (ColumnKey, usize);

/// What a column holds.
struct Head<'a> {
    states: States<'a>,
    /// The unit that its source names, and how many cells are in which.
    named: Option<&'static str>,
    units: BTreeMap<&'static str, usize>,
}

/// A table that is laid out.
pub(super) struct Sheet<'b, 'a> {
    rows: &'b [BookRow<'a>],
    /// Header and unit by column.
    columns: BTreeMap<Key, (String, Option<&'static str>)>,
}

impl<'b, 'a> Sheet<'b, 'a> {
    /// Lays out the records of a kind; none if there are none. Columns of the source without any
    /// cell stay where the table is the source's own.
    pub(super) fn of(
        book: &'b Book<'a>,
        kind: Kind,
        keeps_columns: bool,
        told: &mut Told,
    ) -> Option<Sheet<'b, 'a>> {
        let rows = book.rows(kind);
        if rows.is_empty() {
            return None;
        }
        let mut heads: BTreeMap<Key, Head<'a>> = BTreeMap::new();
        if keeps_columns {
            heads.extend(empty(book, kind));
        }
        for row in rows {
            for (key, cell) in keyed(row) {
                let head = heads.entry(key).or_insert_with(|| Head {
                    states: cell.states.clone(),
                    named: named(book, cell.column),
                    units: BTreeMap::new(),
                });
                if let Some(unit) = cell.unit {
                    *head.units.entry(unit).or_default() += 1;
                }
            }
        }
        let mut columns = BTreeMap::new();
        let mut lost = Vec::new();
        for (key, head) in heads {
            match head.header(kind) {
                Some(header) => drop(columns.insert(key, header)),
                None => lost.push(key),
            }
        }
        for cell in rows.iter().flat_map(keyed) {
            if let (key, States::Name(name)) = (cell.0, &cell.1.states)
                && lost.contains(&key)
            {
                told.stray(name);
            }
        }
        Some(Sheet { rows, columns })
    }

    /// Writes it.
    ///
    /// # Errors
    /// If that fails.
    pub(super) fn write(&self, told: &mut Told, to: &mut dyn Write) -> io::Result<()> {
        let headers = self.columns.values();
        line(
            headers.map(|(header, _)| Cow::Borrowed(header.as_str())),
            to,
        )?;
        for row in self.rows {
            let cells: BTreeMap<Key, &BookCell<'_>> = keyed(row).collect();
            if !cells.keys().any(|key| self.columns.contains_key(key)) {
                told.empty += 1;
                continue;
            }
            let columns = self.columns.iter();
            let texts = columns.map(|(key, (_, unit))| match cells.get(key) {
                Some(cell) => text(cell, *unit, told),
                None => Cow::Borrowed(""),
            });
            let texts: Vec<Cow<'_, str>> = texts.collect();
            line(texts.into_iter(), to)?;
        }
        Ok(())
    }
}

/// Columns of the source's own table, without cells yet.
fn empty<'a>(book: &Book<'a>, kind: Kind) -> Vec<(Key, Head<'a>)> {
    let all = book.written.columns().iter().enumerate();
    let own = all.filter(|(_, column)| column.table == kind);
    let heads = own.map(|(at, column)| {
        let head = Head {
            states: if column.fields.is_empty() {
                States::Name(&column.name)
            } else {
                States::Fields(Cow::Borrowed(&column.fields))
            },
            named: column.unit,
            units: BTreeMap::new(),
        };
        ((ColumnKey::Of(at), 0), head)
    });
    heads.collect()
}

fn named(book: &Book<'_>, column: ColumnKey) -> Option<&'static str> {
    match column {
        ColumnKey::Of(at) => book.written.columns().get(at)?.unit,
        ColumnKey::First(_) | ColumnKey::Last(_) => None,
    }
}

/// The cells of a record, each with its column: two of one column need two.
fn keyed<'r, 'a>(row: &'r BookRow<'a>) -> impl Iterator<Item = (Key, &'r BookCell<'a>)> {
    let mut seen: BTreeMap<ColumnKey, usize> = BTreeMap::new();
    row.cells.iter().map(move |cell| {
        let count = seen.entry(cell.column).or_default();
        let key = (cell.column, *count);
        *count += 1;
        (key, cell)
    })
}

impl Head<'_> {
    /// Its header and unit; none where the table would take it for something else.
    fn header(&self, kind: Kind) -> Option<(String, Option<&'static str>)> {
        let name = match &self.states {
            States::Name("") => return Some(("(no name)".to_owned(), None)),
            States::Name(name) if means_something(name, kind) => return None,
            States::Name(name) => return Some(((*name).to_owned(), None)),
            States::Fields(fields) => header(fields, kind)?,
        };
        let most = self.units.iter().max_by_key(|(_, count)| **count);
        let unit = most.map(|(unit, _)| *unit).or(self.named);
        let header = match unit {
            Some(unit) => format!("{name} [{unit}]"),
            None => name,
        };
        Some((header, unit))
    }
}

fn header(fields: &[Field], kind: Kind) -> Option<String> {
    header_of(fields, kind).or_else(|| header_of(fields.get(..1)?, kind))
}

/// What stands in a cell under a header of this unit.
fn text<'c>(cell: &'c BookCell<'_>, header: Option<&str>, told: &mut Told) -> Cow<'c, str> {
    let own = Cow::Borrowed(cell.text.as_ref());
    match (cell.says, cell.unit) {
        (Says::Unitless, _) => {
            told.unitless += 1;
            Cow::Owned(format!("{} ?", cell.text))
        }
        (Says::Doubtful, _) => {
            told.doubtful += 1;
            own
        }
        (_, Some(unit)) if header != Some(unit) && is_number(cell) => {
            Cow::Owned(format!("{} {unit}", cell.text))
        }
        _ => own,
    }
}

/// Whether a unit behind it would say something.
fn is_number(cell: &BookCell<'_>) -> bool {
    let has_digit = || cell.text.bytes().any(|byte| byte.is_ascii_digit());
    let field = cell.states.fields().first();
    let is_quantity =
        field.is_some_and(|field| matches!(field.property().value, ValueType::Quantity(_)));
    is_quantity && (cell.says.is_value() || has_digit())
}

fn line<'c>(cells: impl Iterator<Item = Cow<'c, str>>, to: &mut dyn Write) -> io::Result<()> {
    for (at, cell) in cells.enumerate() {
        if at > 0 {
            to.write_all(b",")?;
        }
        if needs_quotes(&cell) {
            write!(to, "\"{}\"", cell.replace('"', "\"\""))?;
        } else {
            to.write_all(cell.as_bytes())?;
        }
    }
    to.write_all(b"\n")
}

/// Whether a cell could be taken for more than one, or for the beginning of a document.
fn needs_quotes(cell: &str) -> bool {
    cell.contains([',', ';', '\t', '"', '\n', '\r']) || cell.starts_with(['<', '\u{feff}'])
}
