//! What there is to choose from: parts on hand, each once, in the order of the records.

use std::borrow::Cow;
use std::collections::{HashMap, HashSet};

use crate::library::{Field, Kind, Library, Overrides, Record, Value, View};

/// Numbers that differ by less are one, in mm or degrees.
pub(super) const SAME: f64 = 0.005;

/// Whether two numbers are one.
pub(super) fn near(a: f64, b: f64) -> bool {
    (a - b).abs() <= SAME
}

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
        self.record.value(field)?.number()
    }

    pub(super) fn word(&self, field: Field) -> Option<&str> {
        match self.record.value(field)? {
            Value::Word(text) | Value::Text(text) => Some(text),
            _ => None,
        }
    }

    pub(super) fn flag(&self, field: Field) -> Option<bool> {
        match self.record.value(field)? {
            Value::Flag(flag) => Some(flag),
            _ => None,
        }
    }
}

/// All parts on hand.
#[derive(Debug)]
pub struct Crib<'a> {
    parts: [Vec<Part<'a>>; Kind::PARTS.len()],
    /// The shanks that assemblies hold in each holder, mm, by its id.
    held: HashMap<&'a str, Vec<f64>>,
}

impl<'a> Crib<'a> {
    /// Reads what the library lists, and what its stock has of it.
    #[must_use]
    pub fn read(library: &'a Library) -> Crib<'a> {
        Crib {
            parts: Kind::PARTS.map(|kind| on_hand(library, kind)),
            held: held(library),
        }
    }

    /// Whether a holder that takes shanks without a collet takes this one, mm. No property says
    /// what its bore is; another assembly of the library that uses it does.
    pub(super) fn clamps(&self, holder: &Part<'_>, shank: Option<f64>) -> bool {
        let held = self.held.get(holder.id).into_iter().flatten();
        let mut alike = held.filter(|held| shank.is_some_and(|shank| near(**held, shank)));
        alike.next().is_some()
    }

    pub(super) fn of(&self, kind: Kind) -> &[Part<'a>] {
        let at = Kind::PARTS.iter().position(|part| *part == kind);
        at.and_then(|at| self.parts.get(at))
            .map_or(&[], Vec::as_slice)
    }
}

/// The different shanks in each holder.
fn held(library: &Library) -> HashMap<&str, Vec<f64>> {
    let overrides = Overrides::default();
    let mut found: HashMap<&str, Vec<f64>> = HashMap::new();
    for assembly in &library.assemblies {
        let part = assembly.part(Kind::Holder);
        let record = part.and_then(|at| library.records(Kind::Holder).get(at));
        let view = View::new(library, assembly, None, &overrides);
        let id = record.and_then(|record| record.text(Field::Holder));
        let shank = view.number(Field::ShankDiameter).value;
        if let (Some(id), Some(shank)) = (id, shank) {
            let shanks = found.entry(id).or_default();
            if !shanks.contains(&shank) {
                shanks.push(shank);
            }
        }
    }
    found
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
        let quantity = row.value(Field::Quantity).and_then(Value::number);
        if quantity == Some(0.0) || !taken.insert(id) {
            continue;
        }
        parts.push(Part {
            kind,
            id,
            record: match known.get(id) {
                Some(record) => Cow::Borrowed(*record),
                None => Cow::Owned(row.taken_for(kind)),
            },
            location: row.text(Field::Location),
            quantity,
            in_stock: true,
        });
    }
    parts
}
