//! The parts of a tool, where they lie, and the marking of the bore that grips.

use std::collections::HashMap;

use crate::facts::{Fact, Scene};
use crate::library::{Field, Kind, Library, Origin};
use crate::units::Scalar;

/// A part of a tool.
#[derive(Clone, Debug, PartialEq)]
pub struct CardPart {
    /// Its kind: `cutter`.
    pub kind: &'static str,
    /// Its id, if its record states one.
    pub id: Option<String>,
    /// Its description.
    pub description: Option<String>,
    /// Whether it is named and nowhere described.
    pub unresolved: bool,
    /// Where the stock has it.
    pub lies: Vec<Lies>,
}

/// A place in the stock.
#[derive(Clone, Debug, PartialEq)]
pub struct Lies {
    /// Where; none if the table of stock does not say.
    pub location: Option<String>,
    /// How many are there, if it says so.
    pub quantity: Option<f64>,
}

/// The marking to look for on what grips.
#[derive(Clone, Debug, PartialEq)]
pub struct BoreMarked {
    /// What grips: `collet`, `sleeve` or `holder`.
    pub of: &'static str,
    /// Its size, where it is a collet.
    pub size: Option<f64>,
    /// The nominal bore, mm.
    pub bore: Option<f64>,
    /// The smallest shank it is marked for, mm, if that is stated.
    pub smallest: Option<f64>,
    /// The form of its bore, if that is stated.
    pub form: Option<&'static str>,
}

/// The nut that closes a collet.
#[derive(Clone, Debug, PartialEq)]
pub struct NutShown {
    /// Its style.
    pub style: Option<&'static str>,
    /// Whether the nut seals.
    pub sealed: Option<bool>,
    /// Whether the collet seals.
    pub collet_sealed: Option<bool>,
}

/// Where the stock has which part.
pub(super) struct Stock<'a>(HashMap<(Kind, &'a str), Vec<Lies>>);

impl<'a> Stock<'a> {
    pub(super) fn of(library: &'a Library) -> Stock<'a> {
        let mut all: HashMap<(Kind, &str), Vec<Lies>> = HashMap::new();
        for row in library.records(Kind::Stock) {
            let lies = || Lies {
                location: row.text(Field::Location).map(str::to_owned),
                quantity: row.value(Field::Quantity).and_then(Scalar::number),
            };
            for kind in Kind::PARTS {
                let id = Field::id_of(kind).and_then(|field| row.text(field));
                if let Some(id) = id {
                    all.entry((kind, id)).or_default().push(lies());
                }
            }
        }
        Stock(all)
    }
}

/// All parts of a tool, in the order in which they hold each other.
pub(super) fn all(base: &Scene<'_>, stock: &Stock<'_>) -> Vec<CardPart> {
    let view = &base.view;
    let parts = Kind::PARTS.into_iter().filter(|kind| view.names(*kind));
    let shown = parts.map(|kind| {
        let unresolved = view.assembly.is_unresolved(kind);
        let own = |field: Field| view.word(field).value.map(str::to_owned);
        let named = Field::id_of(kind).and_then(|field| view.part(kind)?.text(field));
        // What is named and nowhere described still has its name, and so may lie somewhere.
        let id = named.or_else(|| view.assembly.record.text(Field::naming(kind)?));
        let lies = id.and_then(|id| stock.0.get(&(kind, id)));
        CardPart {
            kind: kind.name(),
            id: id.map(str::to_owned),
            description: description(kind).and_then(own),
            unresolved,
            lies: lies.cloned().unwrap_or_default(),
        }
    });
    // Of a part that a row describes without naming it there is nothing to fetch.
    shown
        .filter(|part| part.id.is_some() || part.unresolved)
        .collect()
}

const fn description(kind: Kind) -> Option<Field> {
    match kind {
        Kind::Cutter => Some(Field::CutterDescription),
        Kind::Collet => Some(Field::ColletDescription),
        Kind::Nut => Some(Field::NutDescription),
        Kind::Holder => Some(Field::HolderDescription),
        Kind::Assembly | Kind::Operation | Kind::Stock => None,
    }
}

/// A word of a closed list.
pub(super) fn word(base: &Scene<'_>, field: Field) -> Option<&'static str> {
    match base.view.datum(field).value {
        Some(Scalar::Word(word)) => Some(word.word),
        _ => None,
    }
}

impl BoreMarked {
    /// None where no shank is held, or nothing is known of what grips.
    pub(super) fn of(base: &Scene<'_>) -> Option<BoreMarked> {
        let is_chuck = base.truth(Fact::HeldInChuck).value == Some(true);
        let slotted = base.truth(Fact::SlottedCollet).value == Some(true);
        // What is only assumed is no marking.
        let stated = |field: Field| {
            let (found, origin) = base.view.with_origin(field);
            let is_known = matches!(origin, Origin::Stated | Origin::Default);
            found.value.filter(|_| is_known)
        };
        let number = |field: Field| stated(field).and_then(Scalar::number);
        let marked = if slotted || base.view.names(Kind::Collet) {
            BoreMarked {
                of: if is_chuck { "sleeve" } else { "collet" },
                size: number(Field::ColletSize),
                bore: number(Field::BoreDiameter),
                smallest: number(Field::BoreDiameterMin),
                form: stated(Field::BoreForm).and(word(base, Field::BoreForm)),
            }
        } else {
            BoreMarked {
                of: "holder",
                size: None,
                bore: number(Field::HolderBoreDiameter),
                smallest: None,
                form: None,
            }
        };
        let says = marked.bore.is_some() || marked.size.is_some();
        (says && base.view.held_by_shank().value != Some(false)).then_some(marked)
    }
}

impl NutShown {
    pub(super) fn of(base: &Scene<'_>) -> NutShown {
        NutShown {
            style: word(base, Field::NutStyle),
            sealed: base.view.flag(Field::NutSealed).value,
            collet_sealed: base.view.flag(Field::ColletSealed).value,
        }
    }
}
