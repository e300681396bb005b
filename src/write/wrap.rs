//! Lines that fit a terminal.

use std::borrow::Cow;

use crate::sheet::FindingPlace;
use crate::text::{self, quoted, visible};

/// Columns of a terminal that lines are broken for.
pub(super) const WIDTH: usize = 80;

/// Breaks words into lines: the first indented by `first`, the others by `rest`. A rule's id
/// is never broken, so that it can be copied. Words of the input or of a rule file may stand in
/// them: they are made safe here at the latest.
pub(super) fn wrapped(words: &str, first: usize, rest: usize) -> String {
    wrapped_to(WIDTH, words, first, rest)
}

/// The same for lines of so many columns.
pub(super) fn wrapped_to(width: usize, words: &str, first: usize, rest: usize) -> String {
    let (first, rest) = (" ".repeat(first), " ".repeat(rest));
    let options = textwrap::Options::new(width)
        .initial_indent(&first)
        .subsequent_indent(&rest)
        .word_separator(textwrap::WordSeparator::AsciiSpace)
        .word_splitter(textwrap::WordSplitter::NoHyphenation)
        .break_words(false);
    textwrap::fill(&lines_visible(words), options) + "\n"
}

/// A text of several lines, each made safe for a terminal.
pub(super) fn lines_visible(text: &str) -> Cow<'_, str> {
    if text
        .split('\n')
        .all(|line| matches!(visible(line), Cow::Borrowed(_)))
    {
        return Cow::Borrowed(text);
    }
    let lines: Vec<_> = text.split('\n').map(visible).collect();
    Cow::Owned(lines.join("\n"))
}

/// A name from input as a line shows it: cut, and safe for a terminal.
pub(super) fn name(text: &str) -> Cow<'_, str> {
    match quoted(text) {
        Cow::Borrowed(text) => visible(text),
        Cow::Owned(text) => Cow::Owned(visible(&text).into_owned()),
    }
}

/// Where something stands: `tools.csv:12:6`, or `tools.xlsx: Tools!F12`.
pub(super) fn spot(place: &FindingPlace) -> String {
    let sheet = place.sheet.as_deref().map(visible);
    let at = (place.line, place.column);
    text::spot(&visible(&place.file), sheet.as_deref(), at)
}

/// The line that something stands in: `tools.csv:12`, or the cell, where it is one.
pub(super) fn line_spot(place: &FindingPlace) -> String {
    match place.sheet {
        Some(_) => spot(place),
        None => format!("{}:{}", visible(&place.file), place.line),
    }
}

/// The same in words: `tools.csv line 12`, `tools.xlsx, sheet Tools, row 12`.
pub(super) fn file_and_line(place: &FindingPlace) -> String {
    let file = visible(&place.file);
    match &place.sheet {
        Some(sheet) => format!("{file}, sheet {}, row {}", name(sheet), place.line),
        None => format!("{file} line {}", place.line),
    }
}

/// Names with commas between them.
pub(super) fn list(items: &[&str]) -> String {
    let all: Vec<_> = items.iter().map(|item| name(item)).collect();
    all.join(", ")
}

/// `tool 7`, `tools 7, 9`.
pub(super) fn tools(tools: &[&str]) -> String {
    match tools {
        [] => String::new(),
        [one] => format!("tool {}", name(one)),
        many => format!("tools {}", list(many)),
    }
}
