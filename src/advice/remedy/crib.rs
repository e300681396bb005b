//! What there is to choose from: parts on hand, each once, in the order of the records.

use std::borrow::Cow;
use std::collections::{HashMap, HashSet};
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};

use crate::library::{
    ClosedList, Field, Kind, Library, OfOneField, Overrides, Record, Thread, View,
};
use crate::units::Scalar;

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
        self.record.value(field)?.text()
    }

    pub(super) fn listed<L: OfOneField>(&self) -> Option<L> {
        self.listed_in(L::FIELD)
    }

    pub(super) fn listed_in<L: ClosedList>(&self, field: Field) -> Option<L> {
        match self.record.value(field)? {
            Scalar::Word(word) => L::of(word),
            _ => None,
        }
    }

    pub(super) fn thread(&self, field: Field) -> Option<&Thread> {
        self.record.thread(field)
    }

    pub(super) fn flag(&self, field: Field) -> Option<bool> {
        self.record.value(field)?.truth()
    }
}

/// Parts that state the same, but for their ids: what one of them does, all do. The first of the
/// crib comes first.
type SameStock<'a> = Vec<Part<'a>>;

/// All parts on hand. Equal ones are tried once, and what could serve is found by what decides
/// it, so that a remedy costs the same in a large crib as in a small one.
#[derive(Debug)]
pub struct Crib<'a> {
    parts: [Vec<SameStock<'a>>; Kind::PARTS.len()],
    /// Cutters by kind and cutting diameter, mm; collets and nuts by their size; holders by the
    /// spindle that they fit.
    by: [Index; Kind::PARTS.len()],
    /// The shanks that assemblies hold in each holder, mm, by its id.
    held: HashMap<&'a str, Vec<f64>>,
    attempts: Attempts,
}

/// Attempts with other parts, for all tools of a library: some thousands of failing tools in a
/// large crib. It is a number and no time, so that all machines find the same.
const ATTEMPTS: usize = 50_000;

/// How many attempts with other parts were made, and whether more are.
#[derive(Debug)]
struct Attempts {
    most: usize,
    made: AtomicUsize,
    are_spent: AtomicBool,
}

/// Numbers of parts by a word and, in order, a number.
type Index = HashMap<String, Vec<(f64, usize)>>;

impl<'a> Crib<'a> {
    /// Reads what the library lists, and what its stock has of it.
    #[must_use]
    pub fn read(library: &'a Library) -> Crib<'a> {
        let parts = Kind::PARTS.map(|kind| alike(on_hand(library, kind)));
        let by = std::array::from_fn(|at| {
            let kind = Kind::PARTS.get(at).zip(parts.get(at));
            kind.map_or_else(Index::default, |(kind, parts)| index(*kind, parts))
        });
        Crib {
            parts,
            by,
            held: held(library),
            attempts: Attempts {
                most: ATTEMPTS,
                made: AtomicUsize::new(0),
                are_spent: AtomicBool::new(false),
            },
        }
    }

    /// The same with another number of attempts.
    #[must_use]
    pub fn with_attempts(mut self, most: usize) -> Crib<'a> {
        self.attempts.most = most;
        self.settle();
        self
    }

    /// Counts attempts that were made, which takes effect when they are settled.
    pub(super) fn count(&self, attempts: usize) {
        self.attempts.made.fetch_add(attempts, Ordering::Relaxed);
    }

    /// Sees between some tools and the next ones whether attempts are left: so it does not
    /// matter in which order tools are looked at at once.
    pub fn settle(&self) {
        let made = self.attempts.made.load(Ordering::Relaxed);
        let are_spent = made >= self.attempts.most;
        self.attempts.are_spent.store(are_spent, Ordering::Relaxed);
    }

    /// Whether other parts are tried.
    pub(super) fn is_open(&self) -> bool {
        !self.attempts.are_spent.load(Ordering::Relaxed)
    }

    /// Whether a holder that takes shanks without a collet takes this one, mm. No property says
    /// what its bore is; another assembly of the library that uses it does.
    pub(super) fn clamps(&self, holder: &Part<'_>, shank: Option<f64>) -> bool {
        let held = self.held.get(holder.id).into_iter().flatten();
        let mut alike = held.filter(|held| shank.is_some_and(|shank| near(**held, shank)));
        alike.next().is_some()
    }

    /// Parts of a kind whose word is this one and whose number is near this one, in the order of
    /// the crib, equal ones together. Which word and number that are, says [`index`]; whether the
    /// number is near enough, who asks.
    pub(super) fn find(
        &self,
        kind: Kind,
        word: &str,
        number: Option<f64>,
    ) -> impl Iterator<Item = &[Part<'a>]> + use<'_, 'a> {
        let at = Kind::PARTS.iter().position(|part| *part == kind);
        let own = at.and_then(|at| self.by.get(at)?.get(word));
        let own = own.map_or(&[][..], Vec::as_slice);
        let number = number.unwrap_or(f64::NAN);
        let from = own.partition_point(|one| one.0 < number - 2.0 * SAME);
        let near = own.get(from..).unwrap_or_default().iter();
        let mut found: Vec<usize> = near
            .take_while(|one| one.0 <= number + 2.0 * SAME)
            .map(|one| one.1)
            .collect();
        found.sort_unstable();
        let parts = at.and_then(|at| self.parts.get(at));
        let get = move |number: usize| Some(parts?.get(number)?.as_slice());
        found.into_iter().filter_map(get)
    }
}

/// Puts equal parts together, in the order of the first of them.
fn alike(parts: Vec<Part<'_>>) -> Vec<SameStock<'_>> {
    let mut known: HashMap<Vec<u8>, usize> = HashMap::new();
    let mut found: Vec<SameStock<'_>> = Vec::new();
    for part in parts {
        let number = *known.entry(content(&part)).or_insert(found.len());
        match found.get_mut(number) {
            Some(alike) => alike.push(part),
            None => found.push(vec![part]),
        }
    }
    found
}

/// All that a part states but its id, as bytes: equal for equal parts only.
fn content(part: &Part<'_>) -> Vec<u8> {
    let mut bytes = Vec::new();
    let own = part.record.entries().filter(|entry| {
        entry.field.kind() == part.kind && Some(entry.field) != Field::id_of(part.kind)
    });
    for entry in own {
        bytes.push(entry.field as u8);
        match entry.value {
            Scalar::Number(number) => bytes.extend(number.to_bits().to_le_bytes()),
            Scalar::Truth(flag) => bytes.push(u8::from(flag)),
            Scalar::Word(word) => bytes.push(word.at),
            Scalar::Text(text) => {
                bytes.extend(text.len().to_le_bytes());
                bytes.extend(text.bytes());
            }
        }
    }
    bytes
}

/// What decides first whether a part may serve at all.
fn index(kind: Kind, parts: &[SameStock<'_>]) -> Index {
    let mut index = Index::default();
    for (number, alike) in parts.iter().enumerate() {
        let Some(part) = alike.first() else {
            continue;
        };
        let size = |field| Some(("", part.number(field)?));
        let key = match kind {
            Kind::Cutter => part
                .word(Field::CutterKind)
                .zip(part.number(Field::CuttingDiameter)),
            Kind::Collet => size(Field::ColletSize),
            Kind::Nut => size(Field::NutColletSize),
            _ => part
                .word(Field::MachineInterface)
                .map(|spindle| (spindle, 0.0)),
        };
        if let Some((word, size)) = key {
            index
                .entry(word.to_owned())
                .or_default()
                .push((size, number));
        }
    }
    for own in index.values_mut() {
        own.sort_by(|a, b| a.0.total_cmp(&b.0));
    }
    index
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
        let quantity = row.value(Field::Quantity).and_then(Scalar::number);
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
