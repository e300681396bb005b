//! The answer to a quick question as a drawing.

use crate::sheet::{Answer, Drawing};

use super::super::json::Drawn;
use super::super::svg::{self, Labels};

/// A tool with the stick-out that is advised; `None` if not enough is stated to draw it.
#[must_use]
pub fn window_svg(answer: &Answer, drawing: &Drawing) -> Option<String> {
    let drawn = Drawn::of(drawing);
    let labels = Labels {
        assembly: answer.number.as_deref().unwrap_or("the tool"),
        recommended: answer.advised,
        units: answer.units,
        beside: None,
    };
    svg::document(&drawn, &labels)
}
