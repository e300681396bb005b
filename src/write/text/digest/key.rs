//! In which order tools stand.

use std::cmp::Reverse;

use crate::sheet::{Consequence, Level};

use super::tool::Tool;

/// The order of blocks.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Sort {
    /// By tool number.
    #[default]
    Number,
    /// Worst first.
    Severity,
}

/// Where a tool stands: numbers by their value, then other names, then what has none; of two with
/// one number the first of the library.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Key {
    worst: Option<(Reverse<Option<Level>>, Consequence)>,
    number: u64,
    name: String,
    at: usize,
}

impl Key {
    /// Of a tool that is number `at` of what passes by.
    pub(super) fn of(tool: &Tool, sort: Sort, at: usize) -> Key {
        let worst = (sort == Sort::Severity).then(|| tool.worst());
        let number = tool.number.as_deref();
        Key {
            worst,
            number: number.and_then(|own| own.parse().ok()).unwrap_or(u64::MAX),
            name: number.unwrap_or("\u{10ffff}").to_owned(),
            at,
        }
    }
}
