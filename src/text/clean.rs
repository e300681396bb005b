//! Text from input, safe and short enough to be shown: control characters never reach a
//! terminal raw, and a cell of a megabyte does not fill one.

use std::borrow::Cow;
use std::fmt::Write as _;

/// Longest name or cell that a message repeats, in characters.
const LONGEST_QUOTED: usize = 40;
/// Longest text that is shown in one piece, in characters: more than any message has to say.
const LONGEST: usize = 2000;

/// Replaces what a terminal would act on by a visible escape such as `\u{1b}`: control
/// characters (tab and newline too), and the marks that turn the direction of writing. What is
/// longer than any message is cut.
#[must_use]
pub fn visible(text: &str) -> Cow<'_, str> {
    let text = cut(text, LONGEST);
    if !text.chars().any(acts_on_terminal) {
        return text;
    }
    let mut clean = String::with_capacity(text.len() + 8);
    for c in text.chars() {
        if acts_on_terminal(c) {
            // Writing to a String cannot fail.
            let _ = write!(clean, "\\u{{{:x}}}", u32::from(c));
        } else {
            clean.push(c);
        }
    }
    Cow::Owned(clean)
}

/// A name or cell from input as a message repeats it: cut to what a line bears. It still has to
/// be made [`visible`].
#[must_use]
pub fn quoted(text: &str) -> Cow<'_, str> {
    cut(text, LONGEST_QUOTED)
}

/// A text of no more than `most` characters, and a mark where more was cut off.
#[must_use]
pub fn cut(text: &str, most: usize) -> Cow<'_, str> {
    // A character is one byte at least: most texts need no counting.
    if text.len() <= most {
        return Cow::Borrowed(text);
    }
    match text.char_indices().nth(most) {
        None => Cow::Borrowed(text),
        Some((at, _)) => Cow::Owned(text.get(..at).unwrap_or("").to_owned() + "…"),
    }
}

/// Whether a terminal may act on the character instead of showing it.
fn acts_on_terminal(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{61c}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}')
}
