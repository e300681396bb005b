//! A cell with two numbers: a diameter and a corner radius, or a diameter and nobody knows what.

use crate::input::{Cell, Fault, fault_kind};
use crate::text::quoted;
use crate::units::{self, Unit};

use super::cell::Settled;
use super::{Field, trade_size};

/// The texts of a diameter and a corner radius that stand in one cell; what is wrong where two
/// numbers have more than one reading; none if the cell has one.
pub(super) fn of<'c>(
    cell: &'c Cell<'_>,
    settled: &Settled,
) -> Option<Result<(&'c str, &'c str), String>> {
    if settled.property.field != Field::CuttingDiameter {
        return None;
    }
    if let Some((first, second)) = trade_size::crossed(&cell.text) {
        return Some(Err(format!(
            "two readings, a diameter of {first} and a width or length of {second}, or one of {first} and a corner radius of {second}; state the diameter alone"
        )));
    }
    let (diameter, radius) = trade_size::with_radius(&cell.text)?;
    let read = |text: &str| {
        let text = text.trim_start_matches(['Ø', 'ø', '⌀', ' ']);
        units::read(text, Unit::Mm, settled.bare(), settled.decimal()).ok()
    };
    let (own, corner) = (read(diameter)?, read(radius)?);
    // A ball has half of it.
    if corner * 2.0 > own * 1.001 {
        return Some(Err(format!(
            "a corner radius of {radius}, which is more than half of the diameter {diameter}"
        )));
    }
    Some(Ok((diameter, radius)))
}

/// The corner radius beside a diameter in one cell, mm, and what is said of that reading.
pub(super) fn radius_beside(cell: &Cell<'_>, settled: &Settled) -> Option<(f64, Fault)> {
    let (diameter, radius) = of(cell, settled)?.ok()?;
    let number = units::read(radius, Unit::Mm, settled.bare(), settled.decimal()).ok()?;
    let property = settled.property.name;
    let fault = Fault::new(fault_kind::TWO_IN_A_CELL, cell.place, property)
        .quoting("text", &cell.text)
        .with("diameter", with_unit(&quoted(diameter), settled))
        .with("radius", with_unit(&quoted(radius), settled));
    Some((number, fault))
}

/// Both as every form reads them: with a decimal point, and each with its unit.
pub(super) fn plainly(cell: &Cell<'_>, settled: &Settled) -> Option<String> {
    let (diameter, radius) = of(cell, settled)?.ok()?;
    let plain = |text: &str| with_unit(text, settled).replace(',', ".");
    Some(format!("{} R{}", plain(diameter), plain(radius)))
}

/// A number with the unit of bare ones, if it has none of its own.
fn with_unit(number: &str, settled: &Settled) -> String {
    match settled.bare() {
        Some(unit) if number.ends_with(|c: char| c.is_ascii_digit()) => {
            format!("{number} {}", unit.name)
        }
        _ => number.to_owned(),
    }
}
