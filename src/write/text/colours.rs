//! Colours that are read on light and on dark ground. Terminals choose the shades, and many draw
//! bold yellow, green and cyan so pale that on white they vanish. Red and magenta are dark enough on
//! white and light enough on black; all else is bold, underlined or as it is.

use miette::{GraphicalTheme, ThemeCharacters, ThemeStyles};

use crate::sheet::Level;

/// Bold.
pub(super) const BOLD: &str = "\x1b[1m";
const RED: &str = "\x1b[1;31m";
const MAGENTA: &str = "\x1b[1;35m";
/// Ends whatever was switched on.
pub(super) const NOT_MARKED: &str = "\x1b[0m";

/// What switches the colour of a level on.
pub(super) const fn of_level(level: Option<Level>) -> &'static str {
    match level {
        Some(Level::Error) => RED,
        Some(Level::Warning) => MAGENTA,
        Some(Level::Note) | None => BOLD,
    }
}

/// How a diagnostic is drawn.
pub(super) fn theme() -> GraphicalTheme {
    let plain = ThemeStyles::none().error;
    GraphicalTheme {
        characters: ThemeCharacters::unicode(),
        styles: ThemeStyles {
            error: plain.red(),
            warning: plain.magenta(),
            advice: plain,
            help: plain,
            link: plain.bold().underline(),
            linum: plain,
            highlights: vec![plain.magenta(), plain.bold()],
        },
    }
}
