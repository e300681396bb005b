//! What is to be written: records of all kinds, each cell with the column that it came from.

use std::borrow::Cow;

use crate::library::{Field, Kind, Says, Written, WrittenCell, WrittenRow};

/// The records of a library, sorted out for the form that they are written in.
pub(super) struct Book<'a> {
    pub written: &'a Written,
    rows: [Vec<BookRow<'a>>; Kind::ALL.len()],
}

/// A record.
#[derive(Default)]
pub(super) struct BookRow<'a> {
    /// Where it begins in its source.
    pub at: u32,
    /// What its element is called in the stock.
    pub element: Option<Kind>,
    pub cells: Vec<BookCell<'a>>,
}

/// A cell.
#[derive(Clone)]
pub(super) struct BookCell<'a> {
    pub column: ColumnKey,
    pub states: States<'a>,
    pub text: Cow<'a, str>,
    pub unit: Option<&'static str>,
    pub says: Says,
}

/// Where a column stands among others: what is made for the new form before or behind all others.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum ColumnKey {
    /// Before the others: the id of a part.
    First(Field),
    /// By its number in the source.
    Of(usize),
    /// Behind the others: a part that is named now.
    Last(Field),
}

/// What a cell states.
#[derive(Clone)]
pub(super) enum States<'a> {
    /// These fields: several where records share a property.
    Fields(Cow<'a, [Field]>),
    /// What the source calls so, and nobody reads.
    Name(&'a str),
}

impl States<'_> {
    /// The fields; none if nobody reads it.
    pub(super) fn fields(&self) -> &[Field] {
        match self {
            States::Fields(fields) => fields,
            States::Name(_) => &[],
        }
    }
}

impl<'a> Book<'a> {
    /// A book without records.
    pub(super) fn new(written: &'a Written) -> Book<'a> {
        Book {
            written,
            rows: Default::default(),
        }
    }

    /// The records as the source has them.
    pub(super) fn as_it_is(written: &'a Written) -> Book<'a> {
        let mut book = Book::new(written);
        for kind in Kind::ALL {
            let rows = written.rows(kind).iter();
            let rows = rows.map(|row| BookRow {
                cells: row.cells.iter().map(|cell| of(written, cell)).collect(),
                ..BookRow::begun(row)
            });
            *book.rows_mut(kind) = rows.collect();
        }
        book
    }

    /// The records of a kind.
    #[expect(clippy::indexing_slicing, reason = "one list for every kind")]
    pub(super) fn rows(&self, kind: Kind) -> &[BookRow<'a>] {
        &self.rows[kind as usize]
    }

    /// The same, to add to them.
    #[expect(clippy::indexing_slicing, reason = "one list for every kind")]
    pub(super) fn rows_mut(&mut self, kind: Kind) -> &mut Vec<BookRow<'a>> {
        &mut self.rows[kind as usize]
    }
}

impl<'a> BookRow<'a> {
    /// The record of a source's row, without cells yet.
    pub(super) fn begun(row: &WrittenRow) -> BookRow<'a> {
        BookRow {
            at: row.place.span.start,
            element: row.element,
            cells: Vec::new(),
        }
    }
}

/// A cell as the source has it.
pub(super) fn of<'a>(written: &'a Written, cell: &'a WrittenCell) -> BookCell<'a> {
    let fields = written.fields(cell);
    let name = || {
        let column = written.columns().get(cell.column);
        column.map_or("", |column| column.name.as_str())
    };
    BookCell {
        column: ColumnKey::Of(cell.column),
        states: if fields.is_empty() {
            States::Name(name())
        } else {
            States::Fields(Cow::Borrowed(fields))
        },
        text: Cow::Borrowed(&cell.text),
        unit: cell.unit,
        says: cell.says,
    }
}

/// A cell as the source has it, for one of the fields that it states.
pub(super) fn of_field<'a>(
    written: &'a Written,
    cell: &'a WrittenCell,
    field: Field,
) -> BookCell<'a> {
    BookCell {
        states: States::Fields(Cow::Owned(vec![field])),
        ..of(written, cell)
    }
}

/// A name that is made for the new form, or stands in it where it did not before.
pub(super) fn name<'a>(
    column: ColumnKey,
    field: Field,
    text: impl Into<Cow<'a, str>>,
) -> BookCell<'a> {
    BookCell {
        column,
        states: States::Fields(Cow::Owned(vec![field])),
        text: text.into(),
        unit: None,
        says: Says::Text,
    }
}

/// The column of the assemblies that states a field, if the source has one.
pub(super) fn in_row(written: &Written, field: Field) -> Option<ColumnKey> {
    let mut columns = written.columns().iter();
    let own = columns.position(|column| column.table == Kind::Assembly && column.fields == [field]);
    own.map(ColumnKey::Of)
}
