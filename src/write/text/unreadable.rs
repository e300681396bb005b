//! Inputs that could not be read, where what could be read is written: who keeps the report sees
//! what it lacks.

use crate::text::{Unreadable, visible};

use super::super::json::Input;
use super::super::wrap::wrapped;

/// What stands in place of an input of which nothing could be read.
#[must_use]
pub fn unreadable_text(input: Input<'_>) -> String {
    let title = format!(
        "{} was not read, so nothing in it was judged:",
        visible(input.name)
    );
    let mut text = wrapped(&title, 0, 2);
    for fault in input.unreadable {
        let words = format!("{}{}", place(fault), visible(&fault.message));
        text.push_str(&wrapped(&words, 2, 6));
    }
    text.push('\n');
    text
}

/// One line for everything that could not be read.
#[must_use]
pub fn unreadable_brief(unreadable: &[Unreadable]) -> String {
    let line = |fault: &Unreadable| {
        let message = visible(&fault.message);
        format!("{}error: not read: {message}\n", place(fault))
    };
    unreadable.iter().map(line).collect()
}

/// `file:line:column: `, as far as it is known.
fn place(fault: &Unreadable) -> String {
    let Some(file) = &fault.file else {
        return String::new();
    };
    let file = visible(file);
    match fault.position {
        Some(at) => format!("{file}:{}:{}: ", at.line, at.column),
        None => format!("{file}: "),
    }
}
