//! A small drawing to scale for a terminal: where the front face is, what is gripped, what is not.
//!
//! No text of a library is on it, so nothing has to be made safe: only numbers and the names of
//! the vocabulary.

mod canvas;
mod figure;
mod glyphs;
mod labels;
mod legend;
mod scale;

use crate::sheet::Drawing;
use crate::units::print::DisplayUnits;

use figure::Figure;
use scale::Scale;

/// How a sketch looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SketchLook {
    /// Whether only ASCII is used, for terminals and logs that show nothing else.
    pub ascii: bool,
    /// Whether the grip is coloured too; the characters alone say the same.
    pub colour: bool,
}

/// The assembly with its tip at the left, the dimensions from the tip below it, and a legend;
/// at most 76 columns wide, every line ended. None where the stick-out is not known, or neither
/// the tool's length nor the land's: there is nothing to see then.
#[must_use]
pub fn sketch(drawing: &Drawing, units: DisplayUnits, look: SketchLook) -> Option<String> {
    let scale = Scale::of(drawing)?;
    let glyphs = if look.ascii {
        &glyphs::ASCII
    } else {
        &glyphs::UNICODE
    };
    let figure = Figure {
        drawing,
        scale,
        glyphs,
    };
    let dimensions = labels::dimensions(drawing, scale, units, glyphs);
    Some(
        figure.drawn().lines(look.colour)
            + &dimensions.lines(look.colour)
            + &legend::legend(drawing, scale, units, glyphs, look.colour),
    )
}
