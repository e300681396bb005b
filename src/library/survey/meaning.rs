//! What a header means by itself: a name of the vocabulary, an ISO 13399 symbol, a word of the trade.

use crate::text::{closest, is_slip};
use crate::units::split_unit;

use super::super::columns::{Host, entry_of, fields_of, normal};
use super::super::{Field, Kind, PROPERTIES, ReadSettings, hints, own_column};
use super::raw_columns::{RawColumn, RawColumns};

/// What a column means.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Meaning {
    /// A property, and why: `lint` reads it so.
    Taken(&'static str, &'static str),
    /// One of these, the likeliest first: `lint` does not read it.
    Guessed(Vec<Guess>),
    /// The shop says that it is not read.
    Ignored,
    /// Nothing is known.
    Open,
    /// No row says anything.
    Blank,
}

impl Meaning {
    /// The property that it is taken for, or is most likely to mean.
    #[must_use]
    pub fn likeliest(&self) -> Option<&'static str> {
        match self {
            Meaning::Taken(property, _) => Some(property),
            Meaning::Guessed(guesses) => guesses.first().map(|guess| guess.property),
            Meaning::Ignored | Meaning::Open | Meaning::Blank => None,
        }
    }
}

/// A property that a column may mean.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Guess {
    /// Its name.
    pub property: &'static str,
    /// What speaks for it, and what against.
    pub reasons: Vec<String>,
}

impl Guess {
    pub(super) fn new(property: &'static str, reason: &str) -> Guess {
        Guess {
            property,
            reasons: vec![reason.to_owned()],
        }
    }
}

/// Whether the rows are tools as set up, or what lies in stock: a list that says where things lie or
/// how many there are, and nothing of how far a tool sticks out.
pub(super) fn kind_of(raw: &RawColumns, settings: &ReadSettings) -> Kind {
    let means = |wanted: &[&str]| {
        raw.columns.iter().any(|column| {
            let found = of_column(column, Kind::Stock, settings);
            let assembly = of_column(column, Kind::Assembly, settings);
            [found, assembly].iter().any(|one| match one {
                Meaning::Taken(property, _) => wanted.contains(property),
                Meaning::Guessed(all) => all
                    .first()
                    .is_some_and(|one| wanted.contains(&one.property)),
                _ => false,
            })
        })
    };
    let is_set = means(&["stick_out", "protruding_length", "clamping_length"]);
    if !is_set && means(&["quantity"]) {
        Kind::Stock
    } else {
        Kind::Assembly
    }
}

/// What each column means by its header.
pub(super) fn meanings(raw: &RawColumns, kind: Kind, settings: &ReadSettings) -> Vec<Meaning> {
    let columns = raw.columns.iter();
    columns
        .map(|column| match of_column(column, kind, settings) {
            Meaning::Open if column.cells.is_empty() => Meaning::Blank,
            known => known,
        })
        .collect()
}

/// What a column means by its header.
fn of_column(column: &RawColumn, kind: Kind, settings: &ReadSettings) -> Meaning {
    let own = &settings.columns;
    let entry = own_column::find(own, &column.header).or_else(|| entry_of(&column.name, own).0);
    let said = entry.map_or(column.name.as_str(), |entry| entry.meant(&column.name));
    if entry.is_some_and(|entry| entry.ignored) {
        return Meaning::Ignored;
    }
    let bare = split_unit(said).0;
    let fields = [said, bare].into_iter().map(|name| fields_of(name, kind));
    let field = fields.flatten().next();
    if let Some(property) = field.map(Field::property) {
        let why = match entry {
            Some(_) => "[columns] says so",
            None if is_symbol(property.symbols, bare) => "its ISO 13399 symbol",
            None => "its name",
        };
        return Meaning::Taken(property.name, why);
    }
    let host = Host::table(kind);
    let words = hints::meant(bare, &host.kinds());
    if !words.is_empty() {
        let why = match words.len() {
            1 => "a word of the trade for it",
            _ => "a word that shops use for it, and for others",
        };
        let words = words.into_iter().map(|property| Guess::new(property, why));
        return Meaning::Guessed(words.collect());
    }
    if let Some(guesses) = by_last_part(bare, kind) {
        return Meaning::Guessed(guesses);
    }
    let folded = normal(bare);
    let kinds = host.kinds();
    let known = PROPERTIES.iter().filter(|one| kinds.contains(&one.kind));
    match closest(&folded, known.map(|one| one.name)) {
        Some(near) if is_slip(&folded, near) => {
            let property = PROPERTIES.iter().find(|one| one.name == near);
            let near = property.map(|one| Guess::new(one.name, "spelled almost so"));
            Meaning::Guessed(near.into_iter().collect())
        }
        _ => Meaning::Open,
    }
}

/// What the last part of a path of elements means: `shank/dia` is a diameter, and of a shank if the part
/// before it says so.
fn by_last_part(path: &str, kind: Kind) -> Option<Vec<Guess>> {
    let parts: Vec<&str> = path.split('/').collect();
    let (last, above) = parts.split_last()?;
    if above.is_empty()
        || parts
            .iter()
            .any(|part| part.is_empty() || part.contains(' '))
    {
        return None;
    }
    let host = Host::table(kind);
    let before = above.last().copied().unwrap_or_default();
    let together = hints::meant(&format!("{before} {last}"), &host.kinds());
    let as_named = || {
        let fields = fields_of(&format!("{before} {last}"), kind);
        let fields = if fields.is_empty() {
            fields_of(last, kind)
        } else {
            fields
        };
        fields.first().map(|field| vec![field.property().name])
    };
    let (meant, why) = if together.is_empty() {
        let alone = hints::meant(last, &host.kinds());
        match as_named() {
            Some(named) => (named, "its last part is a name of it"),
            None => (alone, "its last part is a word that shops use for it"),
        }
    } else {
        (
            together,
            "its last two parts are a word of the trade for it",
        )
    };
    let guesses = meant.into_iter().map(|property| Guess::new(property, why));
    let guesses: Vec<Guess> = guesses.collect();
    (!guesses.is_empty()).then_some(guesses)
}

fn is_symbol(symbols: &[&str], name: &str) -> bool {
    symbols
        .iter()
        .any(|symbol| symbol.eq_ignore_ascii_case(name))
}
