//! A block as text: a heading with how bad it is, lines, and the cells that they speak of.

use crate::sheet::{Brief, BriefPiece, FindingPlace, Level};
use crate::text::visible;

use super::super::super::wrap::{file_and_line, name, wrapped_to};
use super::super::Look;
use super::super::block::{rendered_to, severity};
use super::super::colours::{BOLD, NOT_MARKED, of_level};
use super::super::diagnostic::{ShownBlock, Snippet, Snippets};

/// Stands before a word that is bold, while lines are broken: it takes no room.
const STRONG: char = '\u{1}';
/// The same before one in the colour of the level.
const LEVEL: char = '\u{2}';
/// Stands behind either.
const AFTER: char = '\u{3}';

/// Words that are marked one by one, so that no mark reaches over the end of a line.
fn marked(words: &str, mark: char) -> String {
    let words = words.split(' ').map(|word| format!("{mark}{word}{AFTER}"));
    words.collect::<Vec<_>>().join(" ")
}

/// Words in bold.
pub(super) fn bold(words: &str) -> String {
    marked(words, STRONG)
}

/// What to do, safe for a terminal; in colour the values to set are bold.
pub(super) fn stressed(brief: &Brief, look: Look) -> String {
    let pieces = brief.pieces().iter().map(|piece| match piece {
        BriefPiece::Value(value) if look == Look::Colour => bold(&visible(value)),
        BriefPiece::Value(words) | BriefPiece::Words(words) => visible(words).into_owned(),
    });
    pieces.collect()
}

/// What a block says.
pub(super) struct BlockText {
    /// Of whom; may be empty.
    pub who: String,
    /// What that is, behind it.
    pub about: String,
    /// What is wrong, and what to do.
    pub lines: Vec<String>,
    /// How bad the worst of it is.
    pub level: Option<Level>,
}

impl BlockText {
    /// The block with these cells. The frame of the cells ends it; where there is none, an empty
    /// line does.
    pub(super) fn text(self, places: &[&FindingPlace], look: Look, width: usize) -> String {
        let level = self.level.map_or("", Level::name);
        let who = [level, &self.who].into_iter();
        let who: Vec<&str> = who.filter(|words| !words.is_empty()).collect();
        let mut who = who.join(": ");
        if look == Look::Colour {
            who = marked(&who, LEVEL);
        }
        let mut lines = vec![who + &self.about];
        lines.extend(self.lines);
        match look {
            Look::Plain => plain(&lines, places, width) + "\n",
            Look::Drawn => drawn(&lines, self.level, places, (width, look)),
            Look::Colour => {
                let text = drawn(&lines, self.level, places, (width, look));
                let text = text.replace(LEVEL, of_level(self.level));
                let text = text.replace(STRONG, BOLD);
                text.replace(AFTER, NOT_MARKED)
            }
        }
    }
}

/// The block for whoever looks: lines in a frame, then the cells in one of their own.
fn drawn(
    lines: &[String],
    level: Option<Level>,
    places: &[&FindingPlace],
    (width, look): (usize, Look),
) -> String {
    // One snippet: further cells stand in the full text.
    let cells = Snippet::of_record(places).into_iter().take(1);
    let shown = ShownBlock {
        message: lines.join("\n"),
        code: None,
        severity: severity(level),
        snippets: Snippets::of(cells),
    };
    // The renderer keeps two columns free.
    rendered_to(width + 2, &shown, look) + if places.is_empty() { "\n" } else { "" }
}

/// The block for whoever listens: lines, then where it stands.
fn plain(lines: &[String], places: &[&FindingPlace], width: usize) -> String {
    let mut text = String::new();
    for (nth, line) in lines.iter().enumerate() {
        let indent = if nth == 0 { 0 } else { 2 };
        text.push_str(&wrapped_to(width, line, indent, indent + 2));
    }
    let mut cells = places.iter();
    if let Some(first) = cells.next() {
        let one = |place: &FindingPlace| match (place.field.as_str(), place.absent) {
            ("", _) => String::new(),
            (field, true) => format!("{} not stated", name(field)),
            (field, false) => format!("{} is {}", name(field), name(&place.text)),
        };
        let all = std::iter::once(one(first)).chain(cells.map(|place| one(place)));
        let all: Vec<String> = all.filter(|words| !words.is_empty()).collect();
        let words = format!("in {}: {}", file_and_line(first), all.join(", "));
        text.push_str(&wrapped_to(width, &words, 2, 4));
    }
    text
}
