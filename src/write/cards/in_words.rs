//! Names from a library, and words of its lists, as a card has room for them.

use crate::sheet::{Card, Caution, ClampingKind};
use crate::text::cut;

/// Longest name of a part, in characters.
const LONGEST_NAME: usize = 40;
/// Longest text that describes something, in characters.
const LONGEST_TEXT: usize = 72;
/// Longest reason, in characters.
const LONGEST_REASON: usize = 260;

/// A name, cut to what a card bears.
pub(super) fn name(text: &str) -> String {
    cut(text, LONGEST_NAME).into_owned()
}

/// A description, cut likewise.
pub(super) fn text(text: &str) -> String {
    cut(text, LONGEST_TEXT).into_owned()
}

/// A reason, cut likewise.
pub(super) fn reason(text: &str) -> String {
    cut(text, LONGEST_REASON).into_owned()
}

/// What a tool is called.
pub(super) fn tool(card: &Card) -> String {
    match card.name.as_str() {
        "" => format!("line {}", card.line),
        own => name(own),
    }
}

/// The face from which a stick-out is measured.
pub(super) const fn face(card: &Card) -> &'static str {
    match card.nut {
        Some(_) => "nut face",
        None => "holder face",
    }
}

/// When a length is measured.
pub(super) const fn once(card: &Card) -> &'static str {
    match (&card.nut, card.clamping) {
        (Some(_), _) => "once the nut is tight",
        (None, Some(ClampingKind::ShrinkFit)) => "once it is cold",
        (None, _) => "once it is clamped",
    }
}

/// A caution in a sentence.
pub(super) const fn caution(caution: Caution) -> &'static str {
    match caution {
        Caution::Clean => "Clean taper, bore and shank.",
        Caution::Mark => "Mark with a pen, never with a scriber.",
        Caution::SnapIn => "Snap the collet into the nut first.",
        Caution::NoEmptyCollet => "Never tighten the nut without a shank.",
        Caution::NoEmptyChuck => "Never actuate the chuck without a shank.",
        Caution::NoExtension => "No extension on the wrench.",
        Caution::FlutesOutOfCollet => "No flutes in the collet.",
        Caution::FlutesOutOfBore => "No flutes in the bore.",
        Caution::Lubricate => "Lubricate thread and cone only as the manufacturer says.",
        Caution::Discard => "Discard a collet that was closed on a short or undersize shank.",
    }
}
