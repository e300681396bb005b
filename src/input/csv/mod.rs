//! CSV as spreadsheets write it: RFC 4180, and what people make of it.
//!
//! Comma, semicolon or tab; any line end; quoted newlines. A quote in the middle of a cell is
//! a character (an inch mark, mostly); only one at the start of a cell opens a quotation.
//!
//! A table is read in batches: the records of one are found one behind the other, and their cells
//! are looked at on all cores while the next batch is read. No table is held whole.

mod batch;
mod blank_rows;
mod field;
mod one_by_one;
mod records;
mod table_frame;

use std::borrow::Cow;

use super::{Column, Manner};
use crate::text::{Place, Source, SourceId, Span};
use crate::units::Decimal;
pub use batch::{Batch, Shape};
pub use blank_rows::BlankRows;
pub use field::CsvField;
pub use records::{CsvRecord, Records};
pub use table_frame::{Frame, TopLine, delimiters, top_lines};

/// An open table: its header is read, its records follow.
#[derive(Debug)]
pub struct Reader<'a> {
    /// The columns up to the last that has a name.
    pub columns: Vec<Column<'a>>,
    /// How it writes its numbers.
    pub manner: Manner,
    /// The lines above the header, if there are any.
    pub above: Option<Place>,
    /// The units below the header: of each column the one that stands there.
    pub units: Vec<Column<'a>>,
    shape: Shape<'a>,
    records: Records<'a>,
}

/// What separates the cells of a sheet, which is written as CSV to be read.
const SHEET_DELIMITER: u8 = b',';

impl<'a> Reader<'a> {
    /// Opens a table whose first line is its header; `None` if there is none.
    #[must_use]
    pub fn open(source: &'a Source, id: SourceId) -> Option<Reader<'a>> {
        Reader::open_in(source, id, Frame::default())
    }

    /// Opens a table; `None` if there is no header where it is said to be.
    #[must_use]
    pub fn open_in(source: &'a Source, id: SourceId, frame: Frame) -> Option<Reader<'a>> {
        let text = source.text();
        let sheet = source.sheet();
        let named = named_delimiter(text);
        let told = named.or(frame.delimiter);
        let delimiter = match sheet {
            Some(_) => SHEET_DELIMITER,
            None => told.unwrap_or_else(|| delimiter_of(text)),
        };
        let mut records = Records::new(text, delimiter);
        if named.is_some() {
            first(&mut records, text)?;
        }
        let above = lines_above(&mut records, text, frame.above);
        let header = first(&mut records, text)?;
        let mut columns: Vec<Column<'a>> = header
            .fields
            .iter()
            .map(|field| column(text, id, *field))
            .collect();
        // In a sheet a cell without a header stands in a column all the same.
        let width = match sheet {
            Some(sheet) => sheet.width(),
            None => width_of(&columns),
        };
        columns.truncate(width);
        let units = if frame.units {
            let fields = &first(&mut records, text)?.fields;
            let units = fields.iter().map(|field| column(text, id, *field));
            units.collect()
        } else {
            Vec::new()
        };
        Some(Reader {
            columns,
            above: above.map(|span| Place { source: id, span }),
            units,
            manner: Manner {
                decimal: match delimiter {
                    b',' if sheet.is_none() => Decimal::Point,
                    _ => Decimal::CommaOrPoint,
                },
                semicolons: delimiter == b';',
                in_sheet: sheet.is_some(),
            },
            shape: Shape {
                text,
                id,
                delimiter,
                width,
                in_sheet: sheet.is_some(),
            },
            records,
        })
    }

    /// What the rows of a batch need of the table.
    #[must_use]
    pub fn shape(&self) -> Shape<'a> {
        self.shape
    }

    /// The next records; `None` behind the last.
    pub fn batch(&mut self) -> Option<Batch> {
        Batch::read(&mut self.records)
    }
}

/// Passes over so many records that hold anything, and returns where they stand together.
fn lines_above(records: &mut Records<'_>, text: &str, many: usize) -> Option<Span> {
    let mut above: Option<Span> = None;
    for _ in 0..many {
        let Some(record) = first(records, text) else {
            break;
        };
        let span = record.span;
        let start = above.map_or(span.start, |known| known.start);
        above = Some(Span { start, ..span });
    }
    above
}

/// The first record that holds anything.
fn first<'r>(records: &'r mut Records<'_>, text: &str) -> Option<&'r CsvRecord> {
    while is_blank(text, &records.read()?.fields) {}
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

/// The delimiter that a first line names, as `sep=;`: some spreadsheets write and ask for one.
fn named_delimiter(text: &str) -> Option<u8> {
    let line = text.lines().next()?.trim_start_matches('\u{feff}');
    let (word, delimiter) = line.split_at_checked(4)?;
    match delimiter.as_bytes() {
        [one @ (b',' | b';' | b'\t')] if word.eq_ignore_ascii_case("sep=") => Some(*one),
        _ => None,
    }
}

fn is_blank(text: &str, fields: &[CsvField]) -> bool {
    let blank = |field: &CsvField| text.get(field.span.range()).unwrap_or("").trim().is_empty();
    fields.iter().all(blank)
}

/// Columns up to the last that has a name: a trailing delimiter is no column.
fn width_of(columns: &[Column<'_>]) -> usize {
    let named = columns.iter().rposition(|column| !column.name.is_empty());
    named.map_or(0, |last| last + 1)
}

fn column(text: &str, id: SourceId, field: CsvField) -> Column<'_> {
    let (text, span) = content(text, field);
    Column {
        name: text,
        place: Place { source: id, span },
    }
}

/// A cell's text without quotes and outer blanks, and where it stands.
fn content(text: &str, field: CsvField) -> (Cow<'_, str>, Span) {
    let raw = text.get(field.span.range()).unwrap_or("");
    let (first, last) = (raw.as_bytes().first(), raw.as_bytes().last());
    // Most cells have no outer blanks.
    if !field.escaped
        && first.is_some_and(u8::is_ascii_graphic)
        && last.is_some_and(u8::is_ascii_graphic)
    {
        return (Cow::Borrowed(raw), field.span);
    }
    let inner = raw.trim();
    let start = field.span.start as usize + (raw.len() - raw.trim_start().len());
    let span = Span::new(start, start + inner.len());
    if field.escaped {
        (Cow::Owned(inner.replace("\"\"", "\"")), span)
    } else {
        (Cow::Borrowed(inner), span)
    }
}

/// Where a cell of a record stands, without quotes and blanks, worked out anew: a record keeps
/// only where it begins and ends, and few cells are ever pointed at.
#[must_use]
pub fn cell_of(text: &str, record: Span, delimiter: u8, column: usize) -> Option<Span> {
    let bytes = text.as_bytes().get(..record.end as usize)?;
    let start = record.start as usize;
    let own = bytes.get(start..)?;
    let field = if own.contains(&b'"') {
        let mut read = CsvRecord::default();
        one_by_one::read_again(bytes, start, delimiter, &mut read);
        read.fields.get(column).copied()?
    } else {
        let before = own.split(|&byte| byte == delimiter).take(column);
        let at = start + before.map(|field| field.len() + 1).sum::<usize>();
        let rest = bytes.get(at..)?;
        let length = rest.iter().position(|&byte| byte == delimiter);
        CsvField::bare(at..at + length.unwrap_or(rest.len()))
    };
    Some(content(text, field).1)
}
