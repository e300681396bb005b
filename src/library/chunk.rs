//! Some hundred records of one table, their values in columns: a number costs eight bytes and a
//! word one, whatever else is known of it.

use std::fmt;
use std::sync::Arc;

use super::thread::Thread;
use super::{Field, Kind};
use crate::input::csv;
use crate::text::{Place, Source, Span};
use crate::units::{Scalar, Word};

/// A value in the making, as a cell gives it.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Stated<'t> {
    Number(f64),
    Word(&'static Word, &'static [Word]),
    Flag(bool),
    Thread(Thread),
    Text(std::borrow::Cow<'t, str>),
}

impl Stated<'_> {
    /// The number, if it is one.
    pub(super) fn number(&self) -> Option<f64> {
        match self {
            Stated::Number(number) => Some(*number),
            _ => None,
        }
    }
}

/// The values of one field. What is not stated is NaN, 0 or an empty text, which no cell holds.
enum Values {
    Numbers(Vec<f64>),
    /// Places in the list, from 1.
    Words(Vec<u8>, &'static [Word]),
    /// Places among the threads, from 1: most of a table are the same.
    Threads(Vec<u32>, Vec<Thread>),
    /// 1 is no, 2 is yes.
    Flags(Vec<u8>),
    /// One behind the other, and where each ends.
    Texts(Vec<u32>, String),
}

/// Where the values of one field stand.
enum From {
    /// All in this column of the table.
    ChunkColumn(u32),
    /// Each in a column of its own choice.
    Columns(Vec<u32>),
    /// Where it is written down, for a format in which no column tells.
    Spans(Vec<Span>),
}

impl From {
    /// The column of a record's value, where that tells its place.
    fn number(&self, row: u32) -> Option<u32> {
        match self {
            From::ChunkColumn(number) => Some(*number),
            From::Columns(each) => each.get(at(row)).copied(),
            From::Spans(_) => None,
        }
    }
}

struct ChunkColumn {
    values: Values,
    from: From,
}

/// The columns of some records.
pub(super) struct Chunk {
    columns: [Option<Box<ChunkColumn>>; Field::COUNT],
    /// The kinds that each record describes, a bit a kind.
    describes: Vec<u8>,
    source: Arc<Source>,
    /// What separates the cells of a record; none where places are written down.
    delimiter: Option<u8>,
    /// The unit that the header of each column names.
    headed: HeaderUnits,
}

/// The unit that the header of each column of a table names.
pub(super) type HeaderUnits = Arc<[Option<&'static str>]>;

impl fmt::Debug for Chunk {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Chunk of {}", self.describes.len())
    }
}

/// Threads that a new one is compared with.
const LOOK_BACK: usize = 16;

fn at(row: u32) -> usize {
    row as usize
}

impl Values {
    fn new(value: &Stated<'_>) -> Values {
        match value {
            Stated::Number(_) => Values::Numbers(Vec::new()),
            Stated::Word(_, list) => Values::Words(Vec::new(), list),
            Stated::Flag(_) => Values::Flags(Vec::new()),
            Stated::Thread(_) => Values::Threads(Vec::new(), Vec::new()),
            Stated::Text(_) => Values::Texts(Vec::new(), String::new()),
        }
    }

    fn get(&self, row: usize) -> Option<Scalar<&str>> {
        match self {
            Values::Numbers(all) => {
                let number = *all.get(row)?;
                (!number.is_nan()).then_some(Scalar::Number(number))
            }
            Values::Words(all, list) => {
                let word = usize::from(*all.get(row)?).checked_sub(1)?;
                Some(Scalar::Word(list.get(word)?))
            }
            Values::Flags(all) => {
                let flag = all.get(row)?.checked_sub(1)?;
                Some(Scalar::Truth(flag == 1))
            }
            Values::Threads(..) => Some(Scalar::Text(self.thread(row)?.written())),
            Values::Texts(ends, all) => {
                let end = at(*ends.get(row)?);
                let start = row.checked_sub(1).and_then(|before| ends.get(before));
                let text = all.get(start.map_or(0, |start| at(*start))..end)?;
                (!text.is_empty()).then_some(Scalar::Text(text))
            }
        }
    }

    fn thread(&self, row: usize) -> Option<&Thread> {
        let Values::Threads(each, all) = self else {
            return None;
        };
        all.get(at(each.get(row)?.checked_sub(1)?))
    }

    /// Puts a value behind the last; records between have none.
    fn set(&mut self, row: usize, value: &Stated<'_>) {
        match (self, value) {
            (Values::Numbers(all), Stated::Number(number)) => {
                all.resize(row, f64::NAN);
                all.push(*number);
            }
            (Values::Words(all, _), Stated::Word(word, _)) => {
                all.resize(row, 0);
                all.push(word.at + 1);
            }
            (Values::Flags(all), Stated::Flag(flag)) => {
                all.resize(row, 0);
                all.push(u8::from(*flag) + 1);
            }
            (Values::Threads(each, all), Stated::Thread(thread)) => {
                each.resize(row, 0);
                // Of many different ones only the last are looked at.
                let last = all.len().saturating_sub(LOOK_BACK);
                let mut known = all.iter().enumerate().skip(last);
                let known = known.find(|(_, known)| known.written() == thread.written());
                let known = known.map_or(all.len(), |(known, _)| known);
                if known == all.len() {
                    all.push(thread.clone());
                }
                each.push(u32::try_from(known + 1).unwrap_or_default());
            }
            (Values::Texts(ends, all), Stated::Text(text)) => {
                let end = |all: &String| u32::try_from(all.len()).unwrap_or(u32::MAX);
                ends.resize(row, end(all));
                all.push_str(text);
                ends.push(end(all));
            }
            // A field holds one type of value.
            _ => {}
        }
    }

    fn shrink(&mut self) {
        match self {
            Values::Numbers(all) => all.shrink_to_fit(),
            Values::Words(all, _) | Values::Flags(all) => all.shrink_to_fit(),
            Values::Threads(each, all) => {
                each.shrink_to_fit();
                all.shrink_to_fit();
            }
            Values::Texts(ends, all) => {
                ends.shrink_to_fit();
                all.shrink_to_fit();
            }
        }
    }
}

impl ChunkColumn {
    fn set(&mut self, row: usize, value: &Stated<'_>, column: u32, span: Span) {
        self.values.set(row, value);
        match &mut self.from {
            From::ChunkColumn(own) if *own == column => {}
            From::ChunkColumn(own) => {
                let mut each = vec![*own; row];
                each.push(column);
                self.from = From::Columns(each);
            }
            From::Columns(each) => {
                each.resize(row, column);
                each.push(column);
            }
            From::Spans(each) => {
                each.resize(row, Span::default());
                each.push(span);
            }
        }
    }
}

impl Chunk {
    /// A chunk without records. Where cells are separated by a delimiter their places are worked
    /// out anew, else they are written down.
    pub(super) fn new(source: Arc<Source>, delimiter: Option<u8>, headed: HeaderUnits) -> Chunk {
        Chunk {
            columns: [const { None }; Field::COUNT],
            describes: Vec::new(),
            source,
            delimiter,
            headed,
        }
    }

    /// Opens a record and returns its number.
    pub(super) fn open(&mut self) -> u32 {
        let row = u32::try_from(self.describes.len()).unwrap_or(u32::MAX);
        self.describes.push(0);
        row
    }

    /// States a field of the record that was opened last, from a cell of a column.
    pub(super) fn set(&mut self, field: Field, value: &Stated<'_>, column: usize, span: Span) {
        let Some(row) = self.describes.len().checked_sub(1) else {
            return;
        };
        let kind = field.kind();
        if Field::id_of(kind) != Some(field)
            && let Some(describes) = self.describes.last_mut()
        {
            *describes |= 1 << kind as u8;
        }
        let column = u32::try_from(column).unwrap_or(u32::MAX);
        let written = self.delimiter.is_none();
        let Some(slot) = self.columns.get_mut(field as usize) else {
            return;
        };
        let own = slot.get_or_insert_with(|| {
            Box::new(ChunkColumn {
                values: Values::new(value),
                from: if written {
                    From::Spans(Vec::new())
                } else {
                    From::ChunkColumn(column)
                },
            })
        });
        own.set(row, value, column, span);
    }

    /// What the record that was opened last states of a field.
    pub(super) fn last(&self, field: Field) -> Option<Scalar<&str>> {
        let last = u32::try_from(self.describes.len()).unwrap_or(u32::MAX);
        self.value(field, last.checked_sub(1)?)
    }

    /// Takes back a number that the record that was opened last states.
    pub(super) fn forget(&mut self, field: Field) {
        let column = self.columns.get_mut(field as usize);
        if let Some(Some(column)) = column
            && let Values::Numbers(all) = &mut column.values
            && all.len() == self.describes.len()
        {
            all.pop();
        }
    }

    /// Gives back what was taken in advance.
    pub(super) fn shrink(&mut self) {
        for column in self.columns.iter_mut().flatten() {
            column.values.shrink();
        }
        self.describes.shrink_to_fit();
    }

    /// The value of a field in a record.
    #[expect(
        clippy::indexing_slicing,
        reason = "one column for every field, and this is asked most of all"
    )]
    pub(super) fn value(&self, field: Field, row: u32) -> Option<Scalar<&str>> {
        self.columns[field as usize].as_ref()?.values.get(at(row))
    }

    /// The text of a field that holds text.
    pub(super) fn text(&self, field: Field, row: u32) -> Option<&str> {
        match self.value(field, row)? {
            Scalar::Text(text) => Some(text),
            _ => None,
        }
    }

    /// The thread of a field that holds threads.
    pub(super) fn thread(&self, field: Field, row: u32) -> Option<&Thread> {
        let column = self.columns.get(field as usize)?.as_ref()?;
        column.values.thread(at(row))
    }

    /// Adds which fields a record states, and of words, yes and no, what.
    pub(super) fn outline(&self, row: u32, outline: &mut Vec<u8>) {
        let row = at(row);
        for (field, column) in (0..).zip(&self.columns) {
            let Some(column) = column else {
                continue;
            };
            let stated = match &column.values {
                Values::Numbers(all) => all.get(row).is_some_and(|one| !one.is_nan()).into(),
                Values::Words(all, _) | Values::Flags(all) => all.get(row).copied().unwrap_or(0),
                values => values.get(row).is_some().into(),
            };
            if stated != 0 {
                outline.extend_from_slice(&[field, stated]);
            }
        }
    }

    /// Whether a record states anything of a kind, its id aside.
    pub(super) fn describes(&self, kind: Kind, row: u32) -> bool {
        let describes = self.describes.get(at(row));
        describes.is_some_and(|kinds| kinds & (1 << kind as u8) != 0)
    }

    /// The unit that the header names over a field of a record.
    pub(super) fn header_unit(&self, field: Field, row: u32) -> Option<&'static str> {
        let column = self.columns.get(field as usize)?.as_ref()?;
        let number = column.from.number(row)?;
        self.headed.get(at(number)).copied().flatten()
    }

    /// Where a field of a record stands.
    pub(super) fn place(&self, field: Field, row: u32, record: Place) -> Place {
        let column = self.columns.get(field as usize).and_then(Option::as_ref);
        let span = column.and_then(|column| {
            if let From::Spans(each) = &column.from {
                return each.get(at(row)).copied();
            }
            let number = column.from.number(row)?;
            csv::cell_of(self.source.text(), record.span, self.delimiter?, at(number))
        });
        Place {
            source: record.source,
            span: span.unwrap_or(record.span),
        }
    }
}
