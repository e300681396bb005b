//! Some records of a table, each field with its place, and the rows that they are.

use super::blank_rows::BlankRows;
use super::field::CsvField;
use super::records::{CsvRecord, Records};
use super::{content, is_blank};
use crate::input::{Cell, Fault, Row, fault_kind};
use crate::text::{Place, SourceId, Span};

/// Records of one batch: enough that a core has something to do, few enough that several batches
/// fit into its cache.
const RECORDS: usize = 1024;
/// Fields of one batch at which it ends early, for tables of many columns.
const FIELDS: usize = 1 << 16;

/// Some records of a table, one behind the other.
#[derive(Debug, Default)]
pub struct Batch {
    records: Vec<Bounds>,
    fields: Vec<CsvField>,
}

/// A record, without its fields.
#[derive(Clone, Copy, Debug)]
struct Bounds {
    span: Span,
    /// One past its last field in the batch.
    end: usize,
    /// Byte of the first quote that is opened and never closed.
    unclosed: Option<usize>,
    /// Whether none of its fields begins with a quote.
    plain: bool,
}

/// What the rows of a batch need of their table.
#[derive(Clone, Copy, Debug)]
pub struct Shape<'a> {
    /// The whole text.
    pub text: &'a str,
    /// The source that it is.
    pub id: SourceId,
    /// What separates its cells.
    pub delimiter: u8,
    /// How many columns it has.
    pub width: usize,
    /// Whether it is a sheet: every cell there knows its column, and no quote is stray.
    pub in_sheet: bool,
}

impl Batch {
    /// Reads on; `None` where nothing is left.
    pub(super) fn read(records: &mut Records<'_>) -> Option<Batch> {
        let mut batch = Batch::default();
        while batch.records.len() < RECORDS && batch.fields.len() < FIELDS {
            let Some(record) = records.read() else {
                break;
            };
            batch.push(record);
        }
        (!batch.records.is_empty()).then_some(batch)
    }

    fn push(&mut self, record: &CsvRecord) {
        self.fields.extend_from_slice(&record.fields);
        self.records.push(Bounds {
            span: record.span,
            end: self.fields.len(),
            unclosed: record.unclosed,
            plain: record.plain,
        });
    }

    /// Hands over the rows one by one, in one that is used again for each; faults for those whose
    /// cells do not fit the header. `each` tells whether the row is a record: of what is none it
    /// does not matter how many cells it has. Those that hold nothing are counted.
    pub fn rows<'a>(
        &self,
        shape: Shape<'a>,
        faults: &mut Vec<Fault>,
        mut each: impl FnMut(&Row<'a>) -> bool,
    ) -> BlankRows {
        let mut blank = BlankRows::default();
        let mut row = Row::default();
        let mut from = 0;
        for found in &self.records {
            let fields = self.fields.get(from..found.end).unwrap_or_default();
            from = found.end;
            if !starts_filled(shape.text, fields) && is_blank(shape.text, fields) {
                blank.add(found.span);
                continue;
            }
            let before = faults.len();
            shape.row(found, fields, &mut row, faults);
            if !each(&row) {
                faults.truncate(before);
            }
        }
        blank
    }
}

/// Whether the first field plainly holds something, which most do.
fn starts_filled(text: &str, fields: &[CsvField]) -> bool {
    let first = fields.first().and_then(|field| {
        let bytes = text.as_bytes();
        bytes.get(field.span.start as usize..field.span.end as usize)
    });
    first.is_some_and(|first| first.first().is_some_and(u8::is_ascii_alphanumeric))
}

impl<'a> Shape<'a> {
    /// Reads one row. Missing cells at the end are unknown; cells beyond the header, and a
    /// quotation without end, make the whole row doubtful.
    fn row(&self, found: &Bounds, fields: &[CsvField], row: &mut Row<'a>, faults: &mut Vec<Fault>) {
        let place = |span: Span| Place {
            source: self.id,
            span,
        };
        let unclosed = if self.in_sheet {
            None
        } else {
            found.unclosed.or_else(|| self.stray_quote(found, fields))
        };
        let width = self.width;
        let filled = |field: &CsvField| !content(self.text, *field).0.is_empty();
        let beyond = fields.get(width..).unwrap_or_default();
        let too_many = beyond.iter().any(filled);
        row.place = place(found.span);
        row.end = found.span.end;
        row.ragged = too_many || unclosed.is_some();
        if row.ragged || (fields.len() < width && !self.in_sheet) {
            let at = match unclosed {
                Some(quote) => Span::new(quote, quote + 1),
                None => odd_cell(found.span, fields, width),
            };
            let how = match unclosed {
                Some(_) => "open quote",
                None if too_many => "too many",
                None => "too few",
            };
            faults.push(
                Fault::new(fault_kind::ROW_RAGGED, place(at), "")
                    .with("cells", fields.len().to_string())
                    .with("columns", width.to_string())
                    .with("how", how),
            );
        }
        row.cells.clear();
        for (column, field) in fields.iter().take(width).enumerate() {
            let (text, span) = content(self.text, *field);
            if !text.is_empty() {
                row.cells.push(Cell {
                    column,
                    text,
                    place: place(span),
                    unit: None,
                });
            }
        }
    }

    /// The stray quote that has made one record of two: `"stub`, closed only by the inch mark
    /// that ends a cell of the next record. The numbers of cells are right then and nothing else
    /// tells that a tool has vanished into a text. A cell of several lines is taken for that if
    /// its last line begins with an id and has the delimiters that a record has up to there.
    fn stray_quote(&self, found: &Bounds, fields: &[CsvField]) -> Option<usize> {
        let swallows = |(index, field): &(usize, &CsvField)| {
            let cell = self.text.get(field.span.range()).unwrap_or("");
            let Some((_, line)) = cell.rsplit_once(['\n', '\r']) else {
                return false;
            };
            let mut cells = line.split(char::from(self.delimiter));
            let first = cells.next().unwrap_or("").trim();
            let is_id = first.contains(|c: char| c.is_ascii_digit())
                && !first.contains(char::is_whitespace);
            *index > 0 && is_id && cells.count() >= *index
        };
        if found.plain {
            return None;
        }
        // A record of one line holds no second one.
        let whole = self.text.as_bytes().get(found.span.range())?;
        if !whole.iter().any(|byte| matches!(byte, b'\n' | b'\r')) {
            return None;
        }
        let (_, field) = fields.iter().enumerate().find(swallows)?;
        // The quote stands directly before its cell.
        Some((field.span.start as usize).saturating_sub(1))
    }
}

/// The first cell too many, or the last cell there is.
fn odd_cell(record: Span, fields: &[CsvField], width: usize) -> Span {
    let field = fields.get(width).or(fields.last());
    field.map_or(record, |field| field.span)
}
