//! Raw records: what stands in a table, not yet what it means.

use std::borrow::Cow;

use crate::text::Place;
use crate::units::Decimal;

/// A column's header, or an element's name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Column<'a> {
    /// The name as written, trimmed.
    pub name: Cow<'a, str>,
    /// Where it stands.
    pub place: Place,
}

/// One value as written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cell<'a> {
    /// Index of its column in its table.
    pub column: usize,
    /// The text, unquoted and trimmed; never empty.
    pub text: Cow<'a, str>,
    /// Where it stands, without surrounding quotes and blanks.
    pub place: Place,
    /// The unit that stands beside it, where a format has a place for one.
    pub unit: Option<Box<(Cow<'a, str>, Place)>>,
}

/// One record: its place and its cells. Empty cells are left out.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Row<'a> {
    /// The whole row, or the tag that opens the element.
    pub place: Place,
    /// One past the last byte of the whole record.
    pub end: u32,
    /// The cells that hold something, in the order of the columns.
    pub cells: Vec<Cell<'a>>,
    /// The row's number of cells differs from the header's, so a cell may stand under
    /// another's name: only ids may be believed.
    pub ragged: bool,
}

/// How a table writes its numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Manner {
    /// The decimal mark of its numbers.
    pub decimal: Decimal,
    /// Whether its cells are separated by semicolons, as they are where a comma is the decimal
    /// mark.
    pub semicolons: bool,
    /// Whether they are cells of a sheet: what is stored there as a number has a point, and only
    /// in a text a comma can stand.
    pub in_sheet: bool,
}

/// One table as read, held whole.
#[derive(Clone, Debug)]
pub struct Table<'a> {
    /// Its columns.
    pub columns: Vec<Column<'a>>,
    /// The records in their order.
    pub rows: Vec<Row<'a>>,
    /// How it writes its numbers.
    pub manner: Manner,
}
