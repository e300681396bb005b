//! Inputs that could not be read: every input has an object, whatever came of it.

use schemars::JsonSchema;
use serde::Serialize;

use crate::text::Unreadable;

use super::notation::piece;
use super::object::{Head, Object, Tail};

/// An input as it is named, and what of it could not be read.
#[derive(Clone, Copy, Debug)]
pub struct Input<'a> {
    /// Its path as the user gave it, or what it is called.
    pub name: &'a str,
    /// What could not be read.
    pub unreadable: &'a [Unreadable],
    /// The tools of a job that it lacks.
    pub lacking: &'a [String],
}

impl<'a> Input<'a> {
    /// An input by its name.
    #[must_use]
    pub const fn new(name: &'a str, unreadable: &'a [Unreadable]) -> Input<'a> {
        Input {
            name,
            unreadable,
            lacking: &[],
        }
    }

    /// The same with the tools of a job that it lacks.
    #[must_use]
    pub const fn lacking(self, lacking: &'a [String]) -> Input<'a> {
        Input { lacking, ..self }
    }
}

/// Whether an input was read.
#[derive(Clone, Copy)]
pub(super) enum Status {
    Read,
    InPart,
    Unreadable,
}

impl Status {
    pub(super) const ALL: [Status; 3] = [Status::Read, Status::InPart, Status::Unreadable];

    /// Of an input of which something was read.
    pub(super) const fn of(input: Input<'_>) -> Status {
        match input.unreadable {
            [] => Status::Read,
            _ => Status::InPart,
        }
    }

    pub(super) const fn name(self) -> &'static str {
        match self {
            Status::Read => "read",
            Status::InPart => "read in part",
            Status::Unreadable => "unreadable",
        }
    }
}

/// What is wrong with an input.
#[derive(Serialize, JsonSchema)]
pub(in crate::write) struct Fault<'a> {
    /// The file; null where an option is wrong.
    file: Option<&'a str>,
    /// The line, from 1; null where that cannot be said.
    #[schemars(range(min = 1))]
    line: Option<usize>,
    /// The column in characters, from 1; null where that cannot be said.
    #[schemars(range(min = 1))]
    column: Option<usize>,
    /// What is wrong, what was expected, and what to do.
    message: &'a str,
}

impl<'a> Fault<'a> {
    pub(in crate::write) fn of(fault: &'a Unreadable) -> Fault<'a> {
        Fault {
            file: fault.file.as_deref(),
            line: fault.position.map(|position| position.line),
            column: fault.position.map(|position| position.column),
            message: &fault.message,
        }
    }
}

/// The object of an input of which nothing could be read. It has the keys of any other, so that
/// nobody takes it for a library without findings: there is no verdict.
#[must_use]
pub fn unreadable_json(input: Input<'_>) -> String {
    let object = Object {
        head: Head::of(input, Status::Unreadable),
        findings: Vec::new(),
        assemblies: None,
        tail: Tail::default(),
    };
    piece(&object) + "\n"
}
