//! Which cell of a workbook's sheet a stretch of text is, and how such a place is written.
//!
//! The rows of a sheet are held as lines of comma-separated text, so that all that follows reads
//! them as any table. What stands here turns an offset back into row and column.

use super::{Position, Span};

/// What is odd about a cell of a sheet, and cannot be told from its text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Odd {
    /// A formula of which no value is stored: its text is the formula.
    Unsaved,
    /// An error value such as `#N/A`.
    Error,
    /// A date or a time of day.
    Date,
    /// A text that looks like a number with a point before three digits. A number as such has no
    /// second reading.
    TextNumber,
}

/// A row of a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SheetRow {
    /// First byte of its line.
    pub start: u32,
    /// Its number, from 0.
    pub row: u32,
}

/// Where the lines of a text stand in a sheet.
#[derive(Clone, Debug, Default)]
pub struct SheetPlaces {
    name: String,
    /// Column of the first field of every line, from 0.
    first: u32,
    /// How many columns are used, from the first.
    width: usize,
    rows: Vec<SheetRow>,
    /// First byte of the text of each odd cell, in order.
    odd: Vec<(u32, Odd)>,
}

impl SheetPlaces {
    /// The lines of the sheet `name`, of which the first field is in column `first`, and which is
    /// `width` columns wide.
    #[must_use]
    pub fn new(
        name: String,
        (first, width): (u32, usize),
        rows: Vec<SheetRow>,
        odd: Vec<(u32, Odd)>,
    ) -> SheetPlaces {
        SheetPlaces {
            name,
            first,
            width,
            rows,
            odd,
        }
    }

    /// Name of the sheet.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// How many columns are used.
    #[must_use]
    pub fn width(&self) -> usize {
        self.width
    }

    /// What is odd about the cell whose text begins at an offset.
    #[must_use]
    pub fn odd(&self, start: u32) -> Option<Odd> {
        // Most sheets have none.
        let at = self.odd.binary_search_by_key(&start, |(at, _)| *at).ok()?;
        self.odd.get(at).map(|(_, odd)| *odd)
    }

    /// The line of a row, without its end; none if nothing stands in that row. `end` is that of
    /// the text.
    #[must_use]
    pub fn line_of(&self, row: u32, end: usize) -> Option<Span> {
        let at = self.rows.binary_search_by_key(&row, |one| one.row).ok()?;
        let start = self.rows.get(at)?.start as usize;
        let next = self
            .rows
            .get(at + 1)
            .map_or(end, |next| next.start as usize);
        Some(Span::new(start, next.saturating_sub(1)))
    }

    /// The row in whose line an offset is, from 0.
    #[must_use]
    pub fn row_of(&self, offset: u32) -> Option<u32> {
        let behind = self.rows.partition_point(|one| one.start <= offset);
        self.rows.get(behind.checked_sub(1)?).map(|one| one.row)
    }

    /// How many rows below an offset hold nothing, and the first line that stands behind such a
    /// row: lines are only written of the others. `end` is that of the text.
    #[must_use]
    pub fn blank_below(&self, offset: u32, end: usize) -> Option<(Span, usize)> {
        let from = self.rows.partition_point(|one| one.start <= offset);
        let rows = self.rows.get(from.saturating_sub(1)..).unwrap_or_default();
        let gaps = rows.windows(2).filter_map(|pair| {
            let [above, below] = pair else { return None };
            let blank = below.row.saturating_sub(above.row + 1) as usize;
            (blank > 0).then_some((below.row, blank))
        });
        let gaps: Vec<(u32, usize)> = gaps.collect();
        let first = self.line_of(gaps.first()?.0, end)?;
        Some((first, gaps.iter().map(|(_, blank)| blank).sum()))
    }

    /// Which field of a line a column is; both count from 0.
    #[must_use]
    pub fn field_of_column(&self, column: u32) -> Option<usize> {
        column.checked_sub(self.first).map(|field| field as usize)
    }

    /// Which column a field of a line is; both count from 0.
    #[must_use]
    pub fn column_of_field(&self, field: usize) -> Option<u32> {
        u32::try_from(field).ok()?.checked_add(self.first)
    }

    /// Row and column of an offset, both from 1.
    pub(super) fn position(&self, text: &str, offset: usize) -> Position {
        let behind = self
            .rows
            .partition_point(|one| one.start as usize <= offset);
        let line = behind.checked_sub(1).and_then(|at| self.rows.get(at));
        let Some(line) = line else {
            return Position { line: 1, column: 1 };
        };
        let before = text.as_bytes().get(line.start as usize..offset);
        let mut quoted = false;
        let fields = before.unwrap_or_default().iter().filter(|&&byte| {
            quoted ^= byte == b'"';
            byte == b',' && !quoted
        });
        Position {
            line: line.row as usize + 1,
            column: self.first as usize + fields.count() + 1,
        }
    }
}

/// Letters in a column's name.
const LETTERS: usize = 26;

/// The name of a cell: `F12`. Row and column count from 1.
#[must_use]
pub fn cell_name(row: usize, column: usize) -> String {
    format!("{}{row}", column_name(column))
}

/// The name of a column, which counts from 1: `F`.
#[must_use]
pub fn column_name(column: usize) -> String {
    let mut letters = Vec::new();
    let mut rest = column;
    while rest > 0 {
        let letter = u8::try_from((rest - 1) % LETTERS).unwrap_or_default();
        letters.push(char::from(b'A' + letter));
        rest = (rest - 1) / LETTERS;
    }
    letters.iter().rev().collect()
}

/// A place as people read it: `tools.csv:12:6`, and in a sheet `tools.xlsx: Tools!F12`, with the
/// sheet's name in apostrophes where a spreadsheet would write it so.
#[must_use]
pub fn spot(file: &str, sheet: Option<&str>, (line, column): (usize, usize)) -> String {
    let Some(sheet) = sheet else {
        return format!("{file}:{line}:{column}");
    };
    let cell = cell_name(line, column);
    let bare = |c: char| c.is_alphanumeric() || c == '_';
    let starts_bare = sheet.starts_with(|c: char| c.is_alphabetic() || c == '_');
    if starts_bare && sheet.chars().all(bare) {
        format!("{file}: {sheet}!{cell}")
    } else {
        format!("{file}: '{}'!{cell}", sheet.replace('\'', "''"))
    }
}
