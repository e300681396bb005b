//! Texts for people, so that a reader of the log takes nothing in them for a sign of its own.

use serde::Serialize;

use super::super::json::text;

/// A text for people.
#[derive(Serialize)]
pub(super) struct Message {
    text: String,
}

impl Message {
    /// Braces would stand for arguments, and brackets with parentheses behind them for a link: the
    /// first are doubled, as the standard says, the others are parted.
    pub(super) fn of(words: &str) -> Message {
        let words = text(words);
        let words = words.replace('{', "{{").replace('}', "}}");
        Message {
            text: words.replace("](", "] ("),
        }
    }

    /// Of a text that may be empty: then there is none.
    pub(super) fn unless_empty(words: &str) -> Option<Message> {
        (!words.is_empty()).then(|| Message::of(words))
    }
}
