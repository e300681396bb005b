//! Lines that fit a terminal.

use crate::text::visible;

/// Columns of a terminal that lines are broken for.
pub(super) const WIDTH: usize = 80;

/// Breaks words into lines: the first indented by `first`, the others by `rest`. A rule's id
/// is never broken, so that it can be copied.
pub(super) fn wrapped(words: &str, first: usize, rest: usize) -> String {
    let (first, rest) = (" ".repeat(first), " ".repeat(rest));
    let options = textwrap::Options::new(WIDTH)
        .initial_indent(&first)
        .subsequent_indent(&rest)
        .word_separator(textwrap::WordSeparator::AsciiSpace)
        .word_splitter(textwrap::WordSplitter::NoHyphenation)
        .break_words(false);
    textwrap::fill(words, options) + "\n"
}

/// Names with commas between them.
pub(super) fn list(items: &[&str]) -> String {
    let all: Vec<_> = items.iter().map(|item| visible(item)).collect();
    all.join(", ")
}

/// `tool 7`, `tools 7, 9`.
pub(super) fn tools(tools: &[&str]) -> String {
    match tools {
        [] => String::new(),
        [one] => format!("tool {}", visible(one)),
        many => format!("tools {}", list(many)),
    }
}
