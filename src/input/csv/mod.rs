//! CSV as spreadsheets write it: RFC 4180, and what people make of it.
//!
//! Comma, semicolon or tab; any line end; quoted newlines. A quote in the middle of a cell is
//! a character (an inch mark, mostly); only one at the start of a cell opens a quotation.

mod field;
mod one_by_one;
mod records;

use std::borrow::Cow;

use crate::input::fault_kind;

use super::{Cell, Column, Fault, Row, Table};
use crate::text::{Place, Source, SourceId, Span};
use crate::units::Decimal;
pub use field::Field;
pub use records::{Record, Records};

/// Reads a table; `None` if there is no header.
pub fn read<'a>(source: &'a Source, id: SourceId, faults: &mut Vec<Fault>) -> Option<Table<'a>> {
    let text = source.text();
    let delimiter = delimiter_of(text);
    let mut records = Records::new(text, delimiter);
    let header = first(&mut records, text)?;
    let mut columns: Vec<Column<'a>> = header
        .fields
        .iter()
        .map(|field| column(text, id, *field))
        .collect();
    let width = width_of(&columns);
    columns.truncate(width);
    let mut rows = Vec::new();
    while let Some(record) = records.read() {
        if !is_blank(text, record) {
            let unclosed = record.unclosed.or(stray_quote(text, record, delimiter));
            rows.push(row(text, id, record, unclosed, width, faults));
        }
    }
    Some(Table {
        columns,
        rows,
        decimal: match delimiter {
            b',' => Decimal::Point,
            _ => Decimal::CommaOrPoint,
        },
        semicolons: delimiter == b';',
    })
}

/// The first record that holds anything.
fn first<'r>(records: &'r mut Records<'_>, text: &str) -> Option<&'r Record> {
    while is_blank(text, records.read()?) {}
    records.last()
}

/// The delimiter: of comma, semicolon and tab the one that the first line that holds any
/// holds most often outside quotes.
fn delimiter_of(text: &str) -> u8 {
    let candidates = [b',', b';', b'\t'];
    let mut records = Records::new(text, b',');
    let header = first(&mut records, text);
    let line = header.map_or("", |record| text.get(record.span.range()).unwrap_or(""));
    let count = |delimiter: u8| {
        let mut quoted = false;
        line.bytes()
            .filter(|&byte| {
                quoted ^= byte == b'"';
                byte == delimiter && !quoted
            })
            .count()
    };
    let best = candidates.into_iter().rev().max_by_key(|&byte| count(byte));
    best.filter(|&byte| count(byte) > 0).unwrap_or(b',')
}

/// The stray quote that has made one record of two: `"stub`, closed only by the inch mark
/// that ends a cell of the next record. The numbers of cells are right then and nothing else
/// tells that a tool has vanished into a text. A cell of several lines is taken for that if
/// its last line begins with an id and has the delimiters that a record has up to there.
fn stray_quote(text: &str, record: &Record, delimiter: u8) -> Option<usize> {
    let swallows = |(index, field): &(usize, &Field)| {
        let cell = text.get(field.span.range()).unwrap_or("");
        let Some((_, line)) = cell.rsplit_once(['\n', '\r']) else {
            return false;
        };
        let mut cells = line.split(char::from(delimiter));
        let first = cells.next().unwrap_or("").trim();
        let is_id =
            first.contains(|c: char| c.is_ascii_digit()) && !first.contains(char::is_whitespace);
        *index > 0 && is_id && cells.count() >= *index
    };
    if record.plain {
        return None;
    }
    let (_, field) = record.fields.iter().enumerate().find(swallows)?;
    // The quote stands directly before its cell.
    Some((field.span.start as usize).saturating_sub(1))
}

fn is_blank(text: &str, record: &Record) -> bool {
    let blank = |field: &Field| text.get(field.span.range()).unwrap_or("").trim().is_empty();
    record.fields.iter().all(blank)
}

/// Columns up to the last that has a name: a trailing delimiter is no column.
fn width_of(columns: &[Column<'_>]) -> usize {
    let named = columns.iter().rposition(|column| !column.name.is_empty());
    named.map_or(0, |last| last + 1)
}

fn column(text: &str, id: SourceId, field: Field) -> Column<'_> {
    let (text, span) = content(text, field);
    Column {
        name: text,
        place: Place { source: id, span },
    }
}

/// Reads one row. Missing cells at the end are unknown; cells beyond the header, and a
/// quotation without end, make the whole row doubtful.
fn row<'a>(
    text: &'a str,
    id: SourceId,
    record: &Record,
    unclosed: Option<usize>,
    width: usize,
    faults: &mut Vec<Fault>,
) -> Row<'a> {
    let place = |span: Span| Place { source: id, span };
    let filled = |field: &Field| !content(text, *field).0.is_empty();
    let last = record.fields.iter().rposition(filled);
    let last = last.map_or(0, |at| at + 1);
    let cells = record.fields.len();
    let ragged = last > width || unclosed.is_some();
    if ragged || cells < width {
        let at = match unclosed {
            Some(quote) => Span::new(quote, quote + 1),
            None => odd_cell(record, width),
        };
        let how = match unclosed {
            Some(_) => "open quote",
            None if last > width => "too many",
            None => "too few",
        };
        faults.push(
            Fault::new(fault_kind::ROW_RAGGED, place(at), "")
                .with("cells", cells.to_string())
                .with("columns", width.to_string())
                .with("how", how),
        );
    }
    let mut cells = Vec::with_capacity(last.min(width));
    for (column, field) in record.fields.iter().take(width).enumerate() {
        let (text, span) = content(text, *field);
        if !text.is_empty() {
            cells.push(Cell {
                column,
                text,
                place: place(span),
                unit: None,
            });
        }
    }
    Row {
        place: place(record.span),
        end: record.span.end,
        cells,
        ragged,
    }
}

/// The first cell too many, or the last cell there is.
fn odd_cell(record: &Record, width: usize) -> Span {
    let field = record.fields.get(width).or(record.fields.last());
    field.map_or(record.span, |field| field.span)
}

/// A cell's text without quotes and outer blanks, and where it stands.
fn content(text: &str, field: Field) -> (Cow<'_, str>, Span) {
    let raw = text.get(field.span.range()).unwrap_or("");
    let inner = raw.trim();
    let start = field.span.start as usize + (raw.len() - raw.trim_start().len());
    let span = Span::new(start, start + inner.len());
    if field.escaped {
        (Cow::Owned(inner.replace("\"\"", "\"")), span)
    } else {
        (Cow::Borrowed(inner), span)
    }
}
