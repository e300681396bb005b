//! An answer to a quick question, as its parts are written.

use crate::sheet::Answer;
use crate::text::visible;
use crate::units::print::{self, Rounding};

use super::super::wrap::wrapped;

/// Columns of the labels at the left.
const LABEL: usize = 12;

/// A line of the answer under its label; what does not fit goes on below it.
pub(super) fn labelled(label: &str, words: &str) -> String {
    let label = format!("{label}:");
    wrapped(&format!("{label:<LABEL$}{}", visible(words)), 0, LABEL)
}

/// A length of an answer with its unit, rounded as told.
pub(super) fn length(answer: &Answer, length: f64, way: Rounding) -> String {
    let unit = answer.units.length();
    format!("{} {unit}", print::length(length, way, answer.units))
}
