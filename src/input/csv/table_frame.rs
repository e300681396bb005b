//! What stands around the records of a table: lines above its header, units below it.

use std::borrow::Cow;

use super::records::{CsvRecord, Records};
use super::{SHEET_DELIMITER, content, delimiter_of, first, is_blank, named_delimiter};
use crate::text::{Source, Span};

/// Where a table begins. Without anything said, its first line that holds anything is the header.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Frame {
    /// What separates its cells, if that does not follow from its first line.
    pub delimiter: Option<u8>,
    /// How many records that hold anything stand above the header.
    pub above: usize,
    /// Whether a row of units stands below the header.
    pub units: bool,
}

/// A record at the top of a table, and where it stands.
#[derive(Clone, Debug)]
pub struct TopLine<'a> {
    /// Its cells, as far as they are looked at; blank ones too.
    pub cells: Vec<Cow<'a, str>>,
    /// The whole record.
    pub span: Span,
}

/// Cells of a top line that are looked at: a header is told by far fewer.
const CELLS: usize = 64;

/// What may separate the cells of a table, the likeliest first; only one if the file names it, or
/// if it is a sheet.
#[must_use]
pub fn delimiters(source: &Source) -> Vec<u8> {
    let text = source.text();
    if source.sheet().is_some() {
        return vec![SHEET_DELIMITER];
    }
    if let Some(named) = named_delimiter(text) {
        return vec![named];
    }
    let mut all = vec![delimiter_of(text)];
    all.extend([b',', b';', b'\t']);
    all.dedup();
    all
}

/// The first records that hold anything, so many at most.
#[must_use]
pub fn top_lines(text: &str, delimiter: u8, most: usize) -> Vec<TopLine<'_>> {
    let mut records = Records::new(text, delimiter);
    if named_delimiter(text).is_some() {
        first(&mut records, text);
    }
    let mut lines = Vec::new();
    while lines.len() < most
        && let Some(record) = records.read()
    {
        if !is_blank(text, &record.fields) {
            lines.push(top_line(text, record));
        }
    }
    lines
}

pub(super) fn top_line<'a>(text: &'a str, record: &CsvRecord) -> TopLine<'a> {
    let cells = record.fields.iter().take(CELLS);
    TopLine {
        cells: cells.map(|field| content(text, *field).0).collect(),
        span: record.span,
    }
}
