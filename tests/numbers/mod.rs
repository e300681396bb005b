//! Reading and printing of quantities, and the places of text.

mod exact;
mod faults;
mod print;
mod spellings;
mod text;

use shankwise::units::{Decimal, Problem, Spelling, Unit, read};

/// Reads a cell of a millimetre library with a decimal point.
fn length(text: &str) -> Result<f64, Problem> {
    read(text, Unit::Mm, Some(Spelling::millimetre()), Decimal::Point)
}

/// Reads a cell of an inch library.
fn inch(text: &str) -> Result<f64, Problem> {
    read(
        text,
        Unit::Mm,
        Spelling::find("in", Unit::Mm),
        Decimal::Point,
    )
}

/// Reads a cell that states its unit, or has none.
fn stated(text: &str, unit: Unit) -> Result<f64, Problem> {
    read(text, unit, None, Decimal::Point)
}
