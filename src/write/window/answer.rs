//! An answer to a quick question, as its parts are written.

use crate::sheet::Answer;
use crate::text::visible;
use crate::units::print::{self, Rounding};

use super::super::wrap::wrapped;

/// Columns of the labels at the left.
const LABEL: usize = 12;

/// What is said under one label.
pub(in crate::write) struct Line {
    pub label: String,
    pub words: String,
}

/// What is said under a label; a label that begins with a blank belongs to the one above it.
pub(super) fn labelled(label: &str, words: &str) -> Line {
    Line {
        label: label.to_owned(),
        words: words.to_owned(),
    }
}

impl Line {
    /// As text; what does not fit goes on below it.
    pub(super) fn text(&self) -> String {
        let label = format!("{}:", self.label);
        wrapped(
            &format!("{label:<LABEL$}{}", visible(&self.words)),
            0,
            LABEL,
        )
    }
}

/// Lines as text.
pub(super) fn text(lines: &[Line]) -> String {
    lines.iter().map(Line::text).collect()
}

/// A length of an answer with its unit, rounded as told.
pub(super) fn length(answer: &Answer, length: f64, way: Rounding) -> String {
    let unit = answer.units.length();
    format!("{} {unit}", print::length(length, way, answer.units))
}
