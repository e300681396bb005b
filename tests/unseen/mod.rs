//! Nothing passes unseen: tools of every clamping, right and wrong, with cells left out.
//!
//! Nobody vouches for what is right with them. What must be so whatever they are: a missing value
//! proves nothing, all advice can be followed at once, every tool is in one place of the sum.

mod advice;
mod counted;
mod deleted;
mod exceptions;
mod facts;
mod found;
mod holders;
mod jobs;
mod quick;
mod row;
mod rows;
mod settled;
mod slips;

use shankwise::library::{Input, Library, load};
use shankwise::units::{Spelling, Unit};

use crate::support::BUILT_IN;
use crate::window::dice::Dice;

/// In what a library is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Units {
    /// Millimetres.
    Metric,
    /// Inches.
    Inch,
}

/// A library of so many generated tools, the same for the same number; every third has slips of
/// the hand in it.
pub fn generated(number: u64, tools: usize, units: Units) -> String {
    let mut dice = Dice::new(7 + number);
    let rows = rows::rows(tools, number);
    let slips = number.is_multiple_of(3);
    let rows: Vec<row::Row> = rows
        .into_iter()
        .map(|row| {
            if slips {
                slips::slipped(&mut dice, row)
            } else {
                row
            }
        })
        .collect();
    row::flat(&rows, units)
}

/// Reads a flat table whose bare lengths are of these units.
fn read(text: &str, units: Units) -> Library {
    let mut settings = BUILT_IN.read_settings();
    if units == Units::Inch {
        settings.length = Spelling::find("in", Unit::Mm).expect("there are inches");
        settings.torque = None;
    }
    let loaded = load(Input::Bytes("library.csv", text.as_bytes()), &settings);
    assert_eq!(loaded.errors, []);
    loaded.library.expect("there is a library")
}
