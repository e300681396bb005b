//! Control characters from input never reach a terminal raw.

use std::borrow::Cow;
use std::fmt::Write as _;

/// Replaces what a terminal would act on by a visible escape such as `\u{1b}`: control
/// characters (tab and newline too), and the marks that turn the direction of writing.
#[must_use]
pub fn visible(text: &str) -> Cow<'_, str> {
    if !text.chars().any(acts_on_terminal) {
        return Cow::Borrowed(text);
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

/// Whether a terminal may act on the character instead of showing it.
fn acts_on_terminal(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{61c}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}')
}
