//! What the record of an assembly says: its parts, every value with where it comes from, the
//! torques with their source.

use crate::draw::{self, Drawing};
use crate::facts::{Fact, Scene};
use crate::judge::Session;
use crate::library::{
    self, Assembly, Field, Kind, Overrides, PROPERTIES, Property, Reckoned, ValueType,
};
use crate::text::Place;
use crate::units::{Scalar, Unit};

use super::of_assembly::Records;

/// What the record of an assembly says.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct RecordShown {
    /// The machine that it is for.
    pub machine: Option<String>,
    /// Its pot in the magazine.
    pub pot: Option<String>,
    /// Its description.
    pub description: Option<String>,
    /// Its parts: cutter, collet, nut and holder.
    pub parts: Vec<PartShown>,
    /// Its values, as far as they are wanted, in the order of the vocabulary: those that are known,
    /// and the starred ones that are missing.
    pub values: Vec<ValueShown>,
    /// Its torques.
    pub torques: Torques,
}

/// A part of an assembly.
#[derive(Clone, Debug, PartialEq)]
pub struct PartShown {
    /// Its kind: `cutter`.
    pub kind: &'static str,
    /// Its id, if its record states one.
    pub id: Option<String>,
    /// Whether it is named and nowhere described.
    pub unresolved: bool,
}

/// Where a value comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Origin {
    /// Stated in the library.
    Stated,
    /// It follows from what is stated.
    Derived,
    /// The vocabulary or the shop says what holds where nothing is stated.
    Default,
    /// Assumed, and why.
    Assumed(&'static str),
    /// Nobody states it: it is taken as a range, from least to greatest, in the value's unit.
    Range(f64, f64),
    /// Nobody states it, and nothing stands in for it.
    Missing,
}

/// A value of a record.
#[derive(Clone, Debug, PartialEq)]
pub struct ValueShown {
    /// The property, with its record: `cutter.overall_length`.
    pub name: &'static str,
    /// The value, if known.
    pub value: Option<Scalar<String>>,
    /// Its canonical unit, if it is a number.
    pub unit: Option<Unit>,
    /// Where it comes from.
    pub origin: Origin,
    /// The file, line and column where it is stated.
    pub place: Option<(String, usize, usize)>,
    /// The sheet of it, if that is a workbook.
    pub sheet: Option<String>,
}

/// A torque, N·m, and the fields that it comes from.
#[derive(Clone, Debug, PartialEq)]
pub struct Sourced {
    /// The torque.
    pub value: f64,
    /// The fields, with their record.
    pub from: Vec<&'static str>,
}

/// The torques of an assembly: every one is stated, none is worked out.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Torques {
    /// What the setup calls for.
    pub set: Option<Sourced>,
    /// What is recommended.
    pub recommended: Option<Sourced>,
    /// What must not be exceeded.
    pub limit: Option<Sourced>,
}

/// What the record of an assembly says, and its drawing with the first of its operations.
pub(super) fn of(
    session: &Session<'_>,
    assembly: &Assembly,
    wanted: Records,
) -> (RecordShown, Drawing) {
    let as_it_is = Overrides::default();
    let library = session.library;
    session
        .judge
        .look(library, assembly, &as_it_is, |base, jobs| {
            let drawing = match jobs {
                [job, ..] => draw::assembly(job),
                [] => draw::assembly(base),
            };
            let text = |field| assembly.record.text(field).map(str::to_owned);
            let record = RecordShown {
                machine: text(Field::Machine),
                pot: text(Field::Pot),
                description: text(Field::AssemblyDescription),
                parts: Kind::PARTS
                    .into_iter()
                    .filter_map(|kind| part(base, kind))
                    .collect(),
                values: values(base, wanted),
                torques: torques(base),
            };
            (record, drawing)
        })
}

fn part(base: &Scene<'_>, kind: Kind) -> Option<PartShown> {
    let view = &base.view;
    let record = view.part(kind);
    let unresolved = view.assembly.is_unresolved(kind);
    let id = record.and_then(|record| record.text(Field::id_of(kind)?));
    (record.is_some() || unresolved).then(|| PartShown {
        kind: kind.name(),
        id: id.map(str::to_owned),
        unresolved,
    })
}

fn values(base: &Scene<'_>, wanted: Records) -> Vec<ValueShown> {
    let is_wanted = |property: &&Property| match wanted {
        Records::None => false,
        Records::OfFound => {
            property.kind == Kind::Assembly || property.field == Field::ClampingKind
        }
        Records::All => property.kind == Kind::Assembly || Kind::PARTS.contains(&property.kind),
    };
    let shown = PROPERTIES.iter().filter(is_wanted).filter_map(|property| {
        let one = value(base, property.field);
        let told = one.origin != Origin::Missing || property.starred;
        told.then_some(one)
    });
    shown.collect()
}

fn value(base: &Scene<'_>, field: Field) -> ValueShown {
    let view = &base.view;
    let (found, origin) = view.with_origin(field);
    let range = view.range(field);
    let origin = match (origin, range, found.is_known()) {
        (_, Some((low, high)), _) => Origin::Range(low, high),
        (_, None, false) => Origin::Missing,
        (library::Origin::Stated, None, true) => Origin::Stated,
        (library::Origin::Derived, None, true) => Origin::Derived,
        (library::Origin::Assumed(why), None, true) => Origin::Assumed(why),
        (library::Origin::Default | library::Origin::Ranged, None, true) => Origin::Default,
    };
    let shown = found.value.filter(|_| range.is_none());
    ValueShown {
        name: field.qualified(),
        value: shown.map(Scalar::owned),
        unit: match field.property().value {
            ValueType::Quantity(unit) => Some(unit),
            ValueType::Count | ValueType::Size => Some(Unit::One),
            _ => None,
        },
        origin,
        sheet: view.entry(field).and_then(|entry| {
            let sources = &base.view.library.sources;
            sources.sheet(entry.place()).map(str::to_owned)
        }),
        place: view.entry(field).map(|entry| located(base, entry.place())),
    }
}

fn located(base: &Scene<'_>, place: Place) -> (String, usize, usize) {
    let sources = &base.view.library.sources;
    let at = sources.position(place);
    (sources.name(place).to_owned(), at.line, at.column)
}

fn torques(base: &Scene<'_>) -> Torques {
    let sourced = |found: Reckoned<f64>| {
        Some(Sourced {
            value: found.value?,
            from: found.trace.used.iter().map(Field::qualified).collect(),
        })
    };
    Torques {
        set: sourced(base.field(Field::NutTorque)),
        recommended: sourced(base.number(Fact::TorqueRecommended)),
        limit: sourced(base.number(Fact::TorqueLimit)),
    }
}
