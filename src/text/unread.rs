//! A file that should be part of a library, or of its rules, and was not read.

use super::Position;

/// An input that was meant to be read and was not, or one that was passed over.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Unread {
    /// The file as it is shown.
    pub file: String,
    /// Why it was not read, and what to do.
    pub reason: String,
}

impl Unread {
    /// A file and why it was not read.
    pub fn new(file: impl Into<String>, reason: impl Into<String>) -> Unread {
        Unread {
            file: file.into(),
            reason: reason.into(),
        }
    }
}

/// What is wrong with an input that could not be read, or with what it is judged by: then the
/// exit status is 2.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unreadable {
    /// The file as it is shown; none where an option is wrong.
    pub file: Option<String>,
    /// Where in it, if that can be said.
    pub position: Option<Position>,
    /// What is wrong, what was expected, what to do.
    pub message: String,
}
