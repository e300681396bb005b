//! Lines that fit a terminal.

use crate::text::visible;

/// Columns of a terminal that lines are broken for.
pub(super) const WIDTH: usize = 80;

/// Breaks words into lines: the first indented by `first`, the others by `rest`.
pub(super) fn wrapped(words: &str, first: usize, rest: usize) -> String {
    let mut text = String::new();
    let mut line = " ".repeat(first);
    let mut is_empty = true;
    for word in words.split_whitespace() {
        if !is_empty && line.chars().count() + 1 + word.chars().count() > WIDTH {
            text.push_str(line.trim_end());
            text.push('\n');
            line = " ".repeat(rest);
            is_empty = true;
        }
        if !is_empty {
            line.push(' ');
        }
        line.push_str(word);
        is_empty = false;
    }
    text.push_str(line.trim_end());
    text.push('\n');
    text
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
