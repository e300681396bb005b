//! One tool as it is recorded: the sketch of its grip, and where its stick-out may be.

use crate::sheet::{Clamping, Sheet, span};
use crate::units::print::DisplayUnits;

use super::super::sketch::{SketchLook, sketch};
use super::super::wrap::{name, wrapped};
use super::Look;

/// What of a tool is drawn under its findings.
pub struct Figure {
    number: String,
    clampings: Vec<Clamping>,
}

impl Figure {
    /// Of a tool with a number, if its drawing was wanted.
    #[must_use]
    pub fn of(sheet: &Sheet) -> Option<Figure> {
        let number = sheet.tool_number.clone()?;
        let drawn = |clamping: &&Clamping| clamping.drawing.is_some();
        let clampings: Vec<Clamping> = sheet.clampings.iter().filter(drawn).cloned().collect();
        (!clampings.is_empty()).then_some(Figure { number, clampings })
    }

    /// The sketch, for who looks, and the limits in words.
    pub(super) fn text(&self, units: DisplayUnits, look: Look, ascii: bool) -> String {
        let mut text = String::new();
        for clamping in &self.clampings {
            let colour = look == Look::Colour;
            let drawn = clamping.drawing.as_ref().filter(|_| look != Look::Plain);
            let drawn = drawn.and_then(|one| sketch(one, units, SketchLook { ascii, colour }));
            if let Some(drawn) = drawn {
                let caption = format!("tool {} as recorded:", name(&self.number));
                text.push_str(&wrapped(&caption, 0, 2));
                text.push_str(&drawn);
                text.push('\n');
            }
            if let Some(window) = &clamping.window {
                let words = format!(
                    "stick-out of tool {}: {}",
                    name(&self.number),
                    span(window, units)
                );
                text.push_str(&wrapped(&words, 0, 2));
                text.push('\n');
            }
        }
        text
    }
}
