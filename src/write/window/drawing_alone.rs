//! The answer to a quick question as a drawing.

use crate::sheet::Answer;

use super::super::json::Drawn;
use super::super::svg::{self, Labels};

/// The tool as it is stated to be set, else as it should be, with the stick-out that is advised;
/// `None` if not enough is stated to draw it.
#[must_use]
pub fn window_svg(answer: &Answer) -> Option<String> {
    let drawn = Drawn::of(&answer.drawing);
    let labels = Labels {
        assembly: answer.number.as_deref().unwrap_or("the tool"),
        recommended: answer.advised,
        units: answer.units,
    };
    svg::document(&drawn, &labels)
}
