//! One property stated by two columns or elements of one record: the same, or two ways.

use crate::input::{Cell, Fault, fault_kind};
use crate::text::Place;
use crate::units::Unit;

use super::property::ValueType;
use super::{Entry, Field, Value};

/// Lengths nearer than this, mm, are one that was rounded: half of a thousandth of an inch.
const SAME_LENGTH: f64 = 0.0127;
/// Other quantities nearer than this ratio are one that was rounded, as by changing its unit.
const SAME_RATIO: f64 = 0.005;

/// Raises a fault for every property that is stated two ways, and names it.
pub(super) fn settle(
    entries: &mut [Entry],
    cells: &[Cell<'_>],
    faults: &mut Vec<Fault>,
) -> Vec<Field> {
    // Stable: of one field the first cell stays first.
    entries.sort_by_key(|entry| entry.field);
    let mut fields = Vec::new();
    let mut told: Vec<Place> = Vec::new();
    for pair in entries.chunk_by(|a, b| a.field == b.field) {
        let Some((first, others)) = pair.split_first() else {
            continue;
        };
        let Some(other) = others.iter().find(|other| !agree(first, other)) else {
            continue;
        };
        fields.push(first.field);
        // One fault a cell, however many records share the property.
        if !told.contains(&other.place) {
            told.push(other.place);
            faults.push(two_ways(first, other, cells));
        }
    }
    fields
}

/// Whether two cells state the same, as far as rounding goes.
fn agree(a: &Entry, b: &Entry) -> bool {
    let (Value::Number(x), Value::Number(y)) = (&a.value, &b.value) else {
        return a.value == b.value;
    };
    let apart = (x - y).abs();
    match a.field.property().value {
        ValueType::Quantity(Unit::Mm) => apart <= SAME_LENGTH,
        ValueType::Quantity(_) => apart <= SAME_RATIO * x.abs().max(y.abs()),
        _ => apart <= 0.0,
    }
}

fn two_ways(first: &Entry, other: &Entry, cells: &[Cell<'_>]) -> Fault {
    let text = |entry: &Entry| {
        let mut cells = cells.iter();
        let cell = cells.find(|cell| cell.place == entry.place);
        cell.map_or("", |cell| cell.text.as_ref())
    };
    let name = first.field.property().name;
    Fault::new(
        fault_kind::STATED_TWO_WAYS,
        other.place,
        first.field.short(),
    )
    .with("property", name)
    .quoting("first", text(first))
    .quoting("second", text(other))
    .also(first.place, first.field.short())
}
