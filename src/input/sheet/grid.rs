//! The cells of a sheet, and the text and places that they become.

use std::ops::RangeInclusive;

use crate::text::{Odd, SheetPlaces, SheetRow};

/// Rows and columns of a sheet, as large as spreadsheets make them.
pub(super) const ROWS: u32 = 1 << 20;
pub(super) const COLUMNS: u32 = 1 << 14;
/// Most filled cells of a sheet: half a million rows of thirty columns.
const CELLS: usize = 1 << 24;
/// Longest text of a sheet, bytes: as many cells of sixteen letters each.
const TEXT: usize = 1 << 28;
/// Rows among which a header is: they are all written as wide as the sheet, so that a header has
/// a place for every column.
const HEADER_ROWS: usize = 64;

pub(super) const TOO_MANY: &str = "it has more cells than any tool library";

/// A stretch of cells, by row and column from 0, both ends included.
pub type Area = (RangeInclusive<u32>, RangeInclusive<u32>);

#[derive(Clone, Copy, Debug)]
struct GridCell {
    row: u32,
    column: u32,
    start: u32,
    end: u32,
    odd: Option<Odd>,
}

/// The cells of one sheet, in whatever order they come.
#[derive(Debug, Default)]
pub struct Grid {
    texts: String,
    cells: Vec<GridCell>,
    disordered: bool,
    /// Hidden rows and columns.
    pub hidden_rows: Vec<u32>,
    /// Hidden columns, as stretches of them.
    pub hidden_columns: Vec<RangeInclusive<u32>>,
    /// Cells that are merged into one.
    pub merged: Vec<Area>,
}

impl Grid {
    /// Whether no cell holds anything.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.cells.is_empty()
    }

    /// How many rows hold something, as far as cells come in order.
    pub(super) fn last_row(&self) -> Option<u32> {
        self.cells.last().map(|cell| cell.row)
    }

    /// Adds a text and returns it as a stretch, for cells that hold it; none if it is blank.
    pub(super) fn text(&mut self, text: &str) -> Option<(u32, u32)> {
        let text = text.trim();
        if text.is_empty() {
            return None;
        }
        let offset = |at: usize| u32::try_from(at).unwrap_or(u32::MAX);
        let start = offset(self.texts.len());
        self.texts.push_str(text);
        Some((start, offset(self.texts.len())))
    }

    /// Refuses cells that would be too many, before they are written out one by one.
    pub(super) fn room_for(&self, cells: usize) -> Result<(), String> {
        if self.cells.len().saturating_add(cells) > CELLS || self.texts.len() > TEXT {
            return Err(TOO_MANY.to_owned());
        }
        Ok(())
    }

    /// Adds a cell that holds a text that was added.
    pub(super) fn cell(
        &mut self,
        (row, column): (u32, u32),
        (start, end): (u32, u32),
        odd: Option<Odd>,
    ) -> Result<(), String> {
        if row >= ROWS || column >= COLUMNS {
            return Err("it has a cell beyond the last row or column of a sheet".to_owned());
        }
        self.room_for(1)?;
        if let Some(last) = self.cells.last() {
            self.disordered |= (row, column) <= (last.row, last.column);
        }
        self.cells.push(GridCell {
            row,
            column,
            start,
            end,
            odd,
        });
        Ok(())
    }

    /// The sheet as lines of text, and its places.
    pub(super) fn lines(&mut self, name: &str) -> Result<(String, SheetPlaces), String> {
        if self.disordered {
            // Stable: of two cells in one place the first counts.
            self.cells.sort_by_key(|cell| (cell.row, cell.column));
            self.cells.dedup_by_key(|cell| (cell.row, cell.column));
        }
        let columns = || self.cells.iter().map(|cell| cell.column);
        let first = columns().min().unwrap_or_default();
        let last = columns().max().unwrap_or_default();
        let mut lines = Lines::new(first, last);
        for row in self.cells.chunk_by(|a, b| a.row == b.row) {
            lines.row(row, &self.texts)?;
        }
        let width = (last - first) as usize + 1;
        let places = SheetPlaces::new(name.to_owned(), (first, width), lines.rows, lines.odd);
        Ok((lines.text, places))
    }

    /// Which of its rows that hold something are hidden, and which columns; from 0.
    #[must_use]
    pub fn hidden(&self) -> (Vec<u32>, Vec<u32>) {
        let mut rows: Vec<u32> = self.cells.iter().map(|cell| cell.row).collect();
        rows.dedup();
        let is_hidden = |row: &u32| self.hidden_rows.binary_search(row).is_ok();
        let mut columns = vec![false; COLUMNS as usize];
        for cell in &self.cells {
            if let Some(used) = columns.get_mut(cell.column as usize) {
                *used = true;
            }
        }
        let hidden = columns.iter().zip(0..).filter(|(used, column)| {
            **used && self.hidden_columns.iter().any(|all| all.contains(column))
        });
        rows.retain(is_hidden);
        (rows, hidden.map(|(_, column)| column).collect())
    }
}

/// Lines in the making.
struct Lines {
    text: String,
    rows: Vec<SheetRow>,
    odd: Vec<(u32, Odd)>,
    first: u32,
    last: u32,
}

impl Lines {
    fn new(first: u32, last: u32) -> Lines {
        Lines {
            text: String::new(),
            rows: Vec::new(),
            odd: Vec::new(),
            first,
            last,
        }
    }

    fn offset(&self) -> u32 {
        u32::try_from(self.text.len()).unwrap_or(u32::MAX)
    }

    fn row(&mut self, cells: &[GridCell], texts: &str) -> Result<(), String> {
        let Some(row) = cells.first().map(|cell| cell.row) else {
            return Ok(());
        };
        self.rows.push(SheetRow {
            start: self.offset(),
            row,
        });
        let mut column = self.first;
        for cell in cells {
            while column < cell.column {
                self.text.push(',');
                column += 1;
            }
            self.cell(cell, texts);
        }
        while self.rows.len() <= HEADER_ROWS && column < self.last {
            self.text.push(',');
            column += 1;
        }
        self.text.push('\n');
        if self.text.len() > TEXT {
            return Err(TOO_MANY.to_owned());
        }
        Ok(())
    }

    fn cell(&mut self, cell: &GridCell, texts: &str) {
        let text = texts.get(cell.start as usize..cell.end as usize);
        let text = text.unwrap_or_default();
        // A first line such as `sep=;` would be taken for one that names a delimiter.
        let quoted = text.contains(['"', ',', '\n', '\r', '=']);
        if quoted {
            self.text.push('"');
        }
        let start = self.offset();
        self.odd.extend(cell.odd.map(|odd| (start, odd)));
        if quoted {
            self.text.push_str(&text.replace('"', "\"\""));
            self.text.push('"');
        } else {
            self.text.push_str(text);
        }
    }
}
