//! Where a banned word is right.

use super::texts::Text;

/// The start of a place, the word, and why it is right there.
pub const EXCEPTIONS: &[(&str, &str, &str)] = &[
    (
        "src/units/",
        "1/min",
        "the unit as JSON, rule files and tables write it",
    ),
    (
        "src/library/stray.rs",
        "crib",
        "a name by which the table of the stock is recognised",
    ),
    (
        "src/library/closed_lists.rs",
        "clamp screw on flat",
        "a former word that is accepted on input",
    ),
    (
        "src/library/closed_lists.rs",
        "taper collet iso 15488",
        "a former word that is accepted on input",
    ),
    (
        "src/mechanics/axial.rs",
        "maker",
        "the name of an input in the tables of evidence",
    ),
    (
        "src/write/json/window.rs",
        "window",
        "the name of a definition in the schema",
    ),
    ("src/cli/args.rs", "window", "the name of the command"),
    ("src/cli/usage.rs", "window", "the name of the command"),
    ("--help", "window", "the name of the command"),
    ("window --help", "room", "names of columns"),
    ("window --help", "setback", "names of columns"),
    (
        "facts --evidence",
        "maker",
        "the name of an input in the tables of evidence",
    ),
    (
        "facts --evidence",
        "room",
        "the name of an input in the tables of evidence",
    ),
    (
        "README.md",
        "crib",
        "a reader may know the stock by this name",
    ),
    ("DEVELOPERS.md", "window", "the module and its type"),
];

/// Whether a word is right where it is.
pub fn is_excused(text: &Text, phrase: &str) -> bool {
    let mut all = EXCEPTIONS.iter();
    all.any(|(place, word, _)| text.place.starts_with(place) && *word == phrase)
}
