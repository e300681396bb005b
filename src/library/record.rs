//! A record: what a row or element states, one value a field.

use crate::units::Scalar;
use std::fmt;
use std::sync::Arc;

use super::chunk::Chunk;
use super::thread::Thread;
use super::{Field, Kind};
use crate::text::Place;

/// A stated value. Where it is stated is worked out when somebody asks: few cells are ever
/// pointed at.
#[derive(Clone, Copy, Debug)]
pub struct Entry<'a> {
    /// Which field.
    pub field: Field,
    /// Its value.
    pub value: Scalar<&'a str>,
    record: &'a Record,
}

impl<'a> Entry<'a> {
    /// The thread, if it is one.
    #[must_use]
    pub fn thread(&self) -> Option<&'a Thread> {
        self.record.thread(self.field)
    }

    /// The unit that its column's header names.
    #[must_use]
    pub fn header_unit(&self) -> Option<&'static str> {
        self.record.chunk.header_unit(self.field, self.record.row)
    }

    /// The cell.
    #[must_use]
    pub fn place(&self) -> Place {
        let Record { chunk, row, .. } = self.record;
        chunk.place(self.field, *row, self.record.place)
    }
}

/// One record: what a row or element states, of one or several kinds. Its values lie in the
/// columns of its chunk, beside those of its neighbours.
#[derive(Clone)]
pub struct Record {
    /// Kind of the record as a whole.
    pub kind: Kind,
    /// The whole row, or the tag that opens the element.
    pub place: Place,
    /// One past the last byte of the whole record.
    pub end: u32,
    row: u32,
    chunk: Arc<Chunk>,
}

impl Record {
    /// The record of a row of a chunk.
    pub(super) fn new(
        kind: Kind,
        (place, end): (Place, u32),
        chunk: Arc<Chunk>,
        row: u32,
    ) -> Record {
        Record {
            kind,
            place,
            end,
            row,
            chunk,
        }
    }

    /// The same record, taken for a record of one of the kinds that it describes: a row of stock
    /// for the cutter that it names.
    #[must_use]
    pub fn taken_for(&self, kind: Kind) -> Record {
        Record {
            kind,
            ..self.clone()
        }
    }

    /// What it states of a field.
    #[must_use]
    pub fn get(&self, field: Field) -> Option<Entry<'_>> {
        let value = self.value(field)?;
        Some(Entry {
            field,
            value,
            record: self,
        })
    }

    /// The value of a field, if it states one.
    #[must_use]
    pub fn value(&self, field: Field) -> Option<Scalar<&str>> {
        self.chunk.value(field, self.row)
    }

    /// The text of a field that holds text.
    #[must_use]
    pub fn text(&self, field: Field) -> Option<&str> {
        self.chunk.text(field, self.row)
    }

    /// The thread of a field that holds threads.
    #[must_use]
    pub fn thread(&self, field: Field) -> Option<&Thread> {
        self.chunk.thread(field, self.row)
    }

    /// All it states, in the order of the vocabulary.
    pub fn entries(&self) -> impl Iterator<Item = Entry<'_>> {
        let all = super::PROPERTIES.iter();
        all.filter_map(|property| self.get(property.field))
    }

    /// What of it is in the outline of an assembly.
    pub(super) fn outline(&self, outline: &mut Vec<u8>) {
        self.chunk.outline(self.row, outline);
    }

    /// Whether it states anything of a kind of record, its id aside.
    #[must_use]
    pub fn describes(&self, kind: Kind) -> bool {
        self.chunk.describes(kind, self.row)
    }
}

impl fmt::Debug for Record {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let stated = self.entries().map(|entry| (entry.field, entry.value));
        write!(f, "{:?} ", self.kind)?;
        f.debug_map().entries(stated).finish()
    }
}
