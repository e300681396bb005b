//! An answer to a quick question, as its parts are written.

use crate::advice::Window;
use crate::text::visible;
use crate::units::print::{self, DisplayUnits, Rounding};

use super::window_facts::Around;
use super::wrap::wrapped;

/// Columns of the labels at the left.
const LABEL: usize = 12;

/// A line of the answer under its label; what does not fit goes on below it.
pub(super) fn labelled(label: &str, words: &str) -> String {
    let label = format!("{label}:");
    wrapped(&format!("{label:<LABEL$}{}", visible(words)), 0, LABEL)
}

/// What an answer is put together from.
pub(super) struct Answer<'a> {
    pub number: Option<&'a str>,
    pub window: &'a Window,
    pub around: &'a Around,
    pub units: DisplayUnits,
    /// Whether an error stands that no stick-out cures.
    pub stopped: bool,
}

impl Answer<'_> {
    /// A length with its unit, rounded as told.
    pub(super) fn length(&self, length: f64, way: Rounding) -> String {
        let unit = self.units.length();
        format!("{} {unit}", print::length(length, way, self.units))
    }
}
