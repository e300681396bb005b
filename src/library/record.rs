//! A record: typed values, each with its place.

use crate::text::Place;

use super::{Field, Kind};

/// A value as stored: lengths in mm, everything in canonical units.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// A quantity, count or size.
    Number(f64),
    /// One of a closed list.
    Word(&'static str),
    /// Yes or no.
    Flag(bool),
    /// Free text.
    Text(Box<str>),
}

/// A value borrowed for computing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Datum<'a> {
    /// A number in its canonical unit.
    Number(f64),
    /// A word or text.
    Text(&'a str),
    /// Yes or no.
    Truth(bool),
}

impl Value {
    /// The value, borrowed.
    #[must_use]
    pub fn datum(&self) -> Datum<'_> {
        match self {
            Value::Number(number) => Datum::Number(*number),
            Value::Word(word) => Datum::Text(word),
            Value::Flag(flag) => Datum::Truth(*flag),
            Value::Text(text) => Datum::Text(text),
        }
    }
}

/// A stated value and where it is stated.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// Which field.
    pub field: Field,
    /// Its value.
    pub value: Value,
    /// The cell.
    pub place: Place,
}

/// One record: what a row or element states, of one or several kinds.
#[derive(Clone, Debug, PartialEq)]
pub struct Record {
    /// Kind of the record as a whole.
    pub kind: Kind,
    /// The whole row, or the tag that opens the element.
    pub place: Place,
    /// One past the last byte of the whole record.
    pub end: u32,
    entries: Vec<Entry>,
}

impl Record {
    /// A record of entries; of two for one field the first counts.
    #[must_use]
    pub fn new(kind: Kind, place: Place, mut entries: Vec<Entry>) -> Record {
        entries.sort_by_key(|entry| entry.field);
        entries.dedup_by_key(|entry| entry.field);
        Record {
            kind,
            place,
            end: place.span.end,
            entries,
        }
    }

    /// What it states of a field.
    #[must_use]
    pub fn get(&self, field: Field) -> Option<&Entry> {
        let at = self.entries.binary_search_by_key(&field, |e| e.field);
        at.ok().and_then(|at| self.entries.get(at))
    }

    /// The text of a field that holds text.
    #[must_use]
    pub fn text(&self, field: Field) -> Option<&str> {
        match &self.get(field)?.value {
            Value::Text(text) => Some(text),
            _ => None,
        }
    }

    /// All it states, in the order of the vocabulary.
    #[must_use]
    pub fn entries(&self) -> &[Entry] {
        &self.entries
    }

    /// Whether it states anything of a kind of record, its id aside.
    #[must_use]
    pub fn describes(&self, kind: Kind) -> bool {
        let id = Field::id_of(kind);
        let mut entries = self.entries.iter();
        entries.any(|entry| entry.field.kind() == kind && Some(entry.field) != id)
    }
}
