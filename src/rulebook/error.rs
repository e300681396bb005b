//! A rule pack or shop file that cannot be used: where, what, and what to do.

use std::fmt;

use crate::text::{Position, Source, Span};

/// One error in a rule file, a limits table or a shop file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RuleError {
    /// The file as shown.
    pub file: String,
    /// Where in it.
    pub position: Position,
    /// The line that it stands in.
    pub line: String,
    /// What is wrong and what to do.
    pub message: String,
}

impl RuleError {
    /// An error at a span of a source.
    #[must_use]
    pub fn at(source: &Source, span: Span, message: impl Into<String>) -> RuleError {
        let position = source.position(span.start as usize);
        let line = source.text().lines().nth(position.line - 1);
        RuleError {
            file: source.name().to_owned(),
            position,
            line: line.unwrap_or("").to_owned(),
            message: message.into(),
        }
    }

    /// An error of a file as a whole.
    #[must_use]
    pub fn of_file(file: impl Into<String>, message: impl Into<String>) -> RuleError {
        RuleError {
            file: file.into(),
            position: Position { line: 1, column: 1 },
            line: String::new(),
            message: message.into(),
        }
    }
}

impl fmt::Display for RuleError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Position { line, column } = self.position;
        write!(f, "{}:{line}:{column}: {}", self.file, self.message)
    }
}
