//! Why an input could not be read.

use crate::text::Position;

/// An input that could not be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ReadError {
    /// The file as it is shown.
    pub file: String,
    /// Where in it, if that can be said.
    pub position: Option<Position>,
    /// What is wrong, what was expected, what to do.
    pub reason: String,
}

impl ReadError {
    /// An error of a file as a whole.
    pub(super) fn of(file: impl Into<String>, reason: impl Into<String>) -> ReadError {
        ReadError {
            file: file.into(),
            position: None,
            reason: reason.into(),
        }
    }
}
