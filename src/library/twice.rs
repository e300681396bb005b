//! One property stated by two columns or elements of one record: the same, or two ways.

use crate::input::{Cell, Fault, fault_kind};
use crate::units::Unit;

use super::Field;
use super::chunk::Stated;
use super::property::ValueType;

/// Lengths nearer than this, mm, are one that was rounded: half of a thousandth of an inch.
const SAME_LENGTH: f64 = 0.0127;
/// Other quantities nearer than this ratio are one that was rounded, as by changing its unit.
const SAME_RATIO: f64 = 0.005;

/// What a cell states of a field.
#[derive(Clone, Debug)]
pub(super) struct Said<'t> {
    pub field: Field,
    pub value: Stated<'t>,
    /// Which cell of the record.
    pub cell: usize,
}

/// Raises a fault for every property that is stated two ways, and names it.
pub(super) fn settle(
    said: &mut [Said<'_>],
    cells: &[Cell<'_>],
    faults: &mut Vec<Fault>,
) -> Vec<Field> {
    // Stable: of one field the first cell stays first.
    said.sort_by_key(|one| one.field);
    let mut fields = Vec::new();
    let mut told: Vec<usize> = Vec::new();
    for pair in said.chunk_by(|a, b| a.field == b.field) {
        let Some((first, others)) = pair.split_first() else {
            continue;
        };
        let Some(other) = others.iter().find(|other| !agree(first, other)) else {
            continue;
        };
        fields.push(first.field);
        // One fault a cell, however many records share the property.
        if !told.contains(&other.cell) {
            told.push(other.cell);
            faults.extend(two_ways(first, other, cells));
        }
    }
    fields
}

/// Whether two cells state the same, as far as rounding goes.
fn agree(a: &Said<'_>, b: &Said<'_>) -> bool {
    let (Stated::Number(x), Stated::Number(y)) = (&a.value, &b.value) else {
        return a.value == b.value;
    };
    let apart = (x - y).abs();
    match a.field.property().value {
        ValueType::Quantity(Unit::Mm) => apart <= SAME_LENGTH,
        ValueType::Quantity(_) => apart <= SAME_RATIO * x.abs().max(y.abs()),
        _ => apart <= 0.0,
    }
}

fn two_ways(first: &Said<'_>, other: &Said<'_>, cells: &[Cell<'_>]) -> Option<Fault> {
    let field = first.field;
    let (first, other) = (cells.get(first.cell)?, cells.get(other.cell)?);
    let fault = Fault::new(fault_kind::STATED_TWO_WAYS, other.place, field.short())
        .with("property", field.property().name)
        .quoting("first", &first.text)
        .quoting("second", &other.text)
        .also(first.place, field.short());
    Some(fault)
}
