//! What there is to choose from: parts on hand, each once, in the order of the records.

use std::borrow::Cow;
use std::collections::{HashMap, HashSet};

use crate::library::{Field, Kind, Library, Record, Value};

/// A part on hand.
#[derive(Debug)]
pub(super) struct Part<'a> {
    pub kind: Kind,
    pub id: &'a str,
    pub record: Cow<'a, Record>,
    pub location: Option<&'a str>,
    /// How many the crib has, where its table says so.
    pub quantity: Option<f64>,
    /// Whether the table of stock names it; else it is only listed in the library.
    pub in_stock: bool,
}

impl Part<'_> {
    pub(super) fn number(&self, field: Field) -> Option<f64> {
        self.record.get(field)?.value.number()
    }

    pub(super) fn word(&self, field: Field) -> Option<&str> {
        match &self.record.get(field)?.value {
            Value::Word(word) => Some(word),
            Value::Text(text) => Some(text),
            _ => None,
        }
    }

    pub(super) fn flag(&self, field: Field) -> Option<bool> {
        match self.record.get(field)?.value {
            Value::Flag(flag) => Some(flag),
            _ => None,
        }
    }
}

/// All parts on hand.
#[derive(Debug)]
pub struct Crib<'a> {
    parts: [Vec<Part<'a>>; Kind::PARTS.len()],
}

impl<'a> Crib<'a> {
    /// Reads what the library lists, and what its stock has of it.
    #[must_use]
    pub fn read(library: &'a Library) -> Crib<'a> {
        Crib {
            parts: Kind::PARTS.map(|kind| on_hand(library, kind)),
        }
    }

    pub(super) fn of(&self, kind: Kind) -> &[Part<'a>] {
        let at = Kind::PARTS.iter().position(|part| *part == kind);
        at.and_then(|at| self.parts.get(at))
            .map_or(&[], Vec::as_slice)
    }
}

/// A table of stock that names a kind of part says which of them are on hand; one that names
/// none of a kind says nothing of it, and then every record of the kind counts.
fn on_hand(library: &Library, kind: Kind) -> Vec<Part<'_>> {
    let Some(field) = Field::id_of(kind) else {
        return Vec::new();
    };
    let rows = library.records(Kind::Stock).iter();
    let stocked: Vec<(&str, &Record)> = rows
        .filter_map(|row| Some((row.text(field)?, row)))
        .collect();
    let mut known: HashMap<&str, &Record> = HashMap::new();
    let mut listed = Vec::new();
    for record in library.records(kind) {
        let Some(id) = record.text(field) else {
            continue;
        };
        // Of two records of one id the first counts, as it does for an assembly.
        if known.contains_key(id) {
            continue;
        }
        known.insert(id, record);
        listed.push(Part {
            kind,
            id,
            record: Cow::Borrowed(record),
            location: None,
            quantity: None,
            in_stock: false,
        });
    }
    if stocked.is_empty() {
        return listed;
    }
    let mut taken: HashSet<&str> = HashSet::new();
    let mut parts = Vec::new();
    for (id, row) in stocked {
        let quantity = row
            .get(Field::Quantity)
            .and_then(|entry| entry.value.number());
        if quantity == Some(0.0) || !taken.insert(id) {
            continue;
        }
        parts.push(Part {
            kind,
            id,
            record: match known.get(id) {
                Some(record) => Cow::Borrowed(*record),
                None => Cow::Owned(of_kind(row, kind)),
            },
            location: row.text(Field::Location),
            quantity,
            in_stock: true,
        });
    }
    parts
}

/// What a row of stock says of the part that it names, as a record of that kind.
fn of_kind(row: &Record, kind: Kind) -> Record {
    let own = row.entries().iter();
    let own = own.filter(|entry| entry.field.kind() == kind);
    Record::new(kind, row.place, own.cloned().collect())
}
