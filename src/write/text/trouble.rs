//! What keeps the program from running, in words: `error:` and what is wrong, then the hint.

use crate::library::ReadError;
use crate::rulebook::RuleError;
use crate::text::{Position, Unread, visible};

use super::super::wrap::wrapped;
use super::Look;

/// What keeps the program from running.
#[derive(Clone, Copy, Debug)]
pub enum Trouble<'e> {
    /// An input.
    Read(&'e ReadError),
    /// A rule pack or shop file.
    Rule(&'e RuleError),
    /// An input that is left out, and the rest goes on.
    Unread(&'e Unread),
    /// Anything else: what is wrong, and what to do; empty where there is nothing to say.
    Said {
        /// What is wrong.
        what: &'e str,
        /// What to do.
        hint: &'e str,
    },
}

/// Longest line of a file that is shown, in characters.
const LONGEST_LINE: usize = 200;
/// Bold red, bold, and the end of both.
const BAD: &str = "\u{1b}[1;31m";
const BOLD: &str = "\u{1b}[1m";
const END: &str = "\u{1b}[0m";

/// An error as text: what is wrong, the line that it stands in, what to do.
#[must_use]
pub fn error_text(error: &Trouble<'_>, look: Look) -> String {
    let (level, what, line, hint) = match error {
        Trouble::Read(error) => {
            let at = error.position.map_or(String::new(), |position| {
                format!(":{}:{}", position.line, position.column)
            });
            let (what, hint) = parted(&error.reason);
            let what = format!("{}{at}: {what}", error.file);
            ("error", what, String::new(), hint)
        }
        Trouble::Rule(error) => {
            let (what, hint) = parted(&error.message);
            let what = format!("{}: {what}", place(error));
            ("error", what, marked(error, look), hint)
        }
        Trouble::Unread(input) => {
            let (what, hint) = parted(&input.reason);
            let what = format!("{} {what}", input.file);
            ("warning", what, String::new(), hint)
        }
        Trouble::Said { what, hint } => ("error", (*what).to_owned(), String::new(), *hint),
    };
    let mut text = inked(
        &wrapped(&format!("{level}: {what}"), 0, 2),
        level,
        BAD,
        look,
    );
    text.push_str(&line);
    if !hint.is_empty() {
        let hint = wrapped(&format!("hint: {hint}"), 2, 8);
        text.push_str(&inked(&hint, "hint", BOLD, look));
    }
    text
}

/// The file, and where in it unless it is wrong as a whole.
fn place(error: &RuleError) -> String {
    let Position { line, column } = error.position;
    if error.line.is_empty() && (line, column) == (1, 1) {
        return error.file.clone();
    }
    format!("{}:{line}:{column}", error.file)
}

/// Between what is wrong and what to do, in messages that say both.
const BETWEEN: &str = "; ";

/// What is wrong, and what to do: the two halves of a message, of which the second may be empty.
/// What a name says between backticks parts nothing.
#[must_use]
pub fn parted(message: &str) -> (&str, &str) {
    let mut at = 0;
    for (nth, piece) in message.split('`').enumerate() {
        let outside = nth % 2 == 0;
        if let (true, Some(found)) = (outside, piece.find(BETWEEN)) {
            let what = message.get(..at + found).unwrap_or(message);
            let hint = message.get(at + found + BETWEEN.len()..).unwrap_or("");
            return (what, hint);
        }
        at += piece.len() + 1;
    }
    (message, "")
}

/// The first word in an ink, where there is colour.
fn inked(text: &str, word: &str, ink: &str, look: Look) -> String {
    if look != Look::Colour {
        return text.to_owned();
    }
    text.replacen(word, &format!("{ink}{word}{END}"), 1)
}

/// The line of a file with a mark below what is wrong; who listens hears no mark.
fn marked(error: &RuleError, look: Look) -> String {
    if error.line.trim().is_empty() {
        return String::new();
    }
    let line: String = visible(&error.line).chars().take(LONGEST_LINE).collect();
    let before = error.position.column.saturating_sub(1);
    let rest: Vec<char> = line.chars().skip(before).collect();
    let is_word = |c: &&char| c.is_alphanumeric() || matches!(c, '_' | '.' | '-');
    let word = rest.iter().take_while(is_word).count().max(1);
    if look == Look::Plain || rest.is_empty() {
        return format!("    {line}\n");
    }
    format!(
        "    {line}\n    {}{}\n",
        " ".repeat(before),
        "^".repeat(word)
    )
}
