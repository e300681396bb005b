//! A file that should be part of a library, or of its rules, and was not read.

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
