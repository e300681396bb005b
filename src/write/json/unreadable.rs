//! Inputs that could not be read, as JSON: every input has an object, whatever came of it.

use serde_json::{Value, json};

use crate::text::Unreadable;

use super::super::NOTICE;
use super::{PROGRAM, to_json_line};

/// An input as it is named, and what of it could not be read.
#[derive(Clone, Copy, Debug)]
pub struct Input<'a> {
    /// Its path as the user gave it, or what it is called.
    pub name: &'a str,
    /// What could not be read.
    pub unreadable: &'a [Unreadable],
}

impl<'a> Input<'a> {
    /// An input by its name.
    pub fn new(name: &'a str, unreadable: &'a [Unreadable]) -> Input<'a> {
        Input { name, unreadable }
    }
}

/// Whether an input was read; `judged` is whether enough of it was.
pub(super) fn status(unreadable: &[Unreadable], judged: bool) -> &'static str {
    match (judged, unreadable) {
        (true, []) => "read",
        (true, _) => "read in part",
        (false, _) => "unreadable",
    }
}

/// What could not be read, each with its place.
pub(super) fn faults(unreadable: &[Unreadable]) -> Value {
    let each = unreadable.iter().map(|fault| {
        json!({
            "file": fault.file,
            "line": fault.position.map(|position| position.line),
            "column": fault.position.map(|position| position.column),
            "message": fault.message,
        })
    });
    each.collect()
}

/// The object of an input of which nothing could be read. It has the keys of any other, so that
/// nobody takes it for a library without findings: there is no verdict.
#[must_use]
pub fn unreadable_json(input: Input<'_>) -> String {
    to_json_line(&json!({
        "format": 1,
        "program": PROGRAM,
        "notice": NOTICE,
        "input": input.name,
        "status": status(input.unreadable, false),
        "unreadable": faults(input.unreadable),
        "findings": [],
        "assemblies": null,
        "library": null,
        "summary": null,
        "fails": null,
    }))
}
