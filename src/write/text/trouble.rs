//! What keeps the program from running, in words.

use miette::Severity;

use crate::library::ReadError;
use crate::rulebook::RuleError;
use crate::sheet::{FindingPlace, Lack};
use crate::text::visible;

use super::Look;
use super::block::rendered;
use super::diagnostic::{Shown, Snippet, Snippets};

/// An input, rule pack or shop file that cannot be used.
#[must_use]
pub fn error_text(error: &Trouble<'_>, look: Look) -> String {
    let (message, snippet) = match error {
        Trouble::Read(error) => {
            let at = error.position.map_or(String::new(), |position| {
                format!(":{}:{}", position.line, position.column)
            });
            (format!("{}{at}: {}", error.file, error.reason), None)
        }
        Trouble::Rule(error) => {
            let place = FindingPlace {
                file: error.file.clone(),
                line: error.position.line,
                column: error.position.column,
                field: String::new(),
                text: String::new(),
                record: String::new(),
                absent: false,
                lack: Lack::NotStated,
            };
            match Snippet::of_line(&place, &error.line) {
                Some(snippet) => (error.message.clone(), Some(snippet)),
                None => (error.to_string(), None),
            }
        }
        Trouble::Other(message) => ((*message).to_owned(), None),
    };
    let shown = Shown {
        message: visible(&message).into_owned(),
        code: None,
        severity: Severity::Error,
        snippets: Snippets::of(snippet),
    };
    rendered(&shown, look)
}

/// What keeps the program from running.
#[derive(Clone, Copy, Debug)]
pub enum Trouble<'e> {
    /// An input.
    Read(&'e ReadError),
    /// A rule pack or shop file.
    Rule(&'e RuleError),
    /// Anything else, in words.
    Other(&'e str),
}
