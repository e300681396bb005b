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

/// Where a tool stands: numbers by their value, then other names, `T2` before `T10`, then what has
/// none; of two with one number the first of the library.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Key {
    worst: Option<(Reverse<Option<Level>>, Consequence)>,
    number: u64,
    letters: String,
    behind: u64,
    name: String,
    at: usize,
}

impl Key {
    /// Of a tool that is number `at` of what passes by.
    pub(super) fn of(tool: &Tool, sort: Sort, at: usize) -> Key {
        let worst = (sort == Sort::Severity).then(|| tool.worst());
        let name = tool.number.as_deref().unwrap_or("\u{10ffff}");
        let is_digit = |c: char| c.is_ascii_digit();
        let (letters, rest) = name.split_at(name.find(is_digit).unwrap_or(name.len()));
        let behind = rest.split(|c| !is_digit(c)).next().unwrap_or_default();
        let number = |text: &str| text.parse().unwrap_or(u64::MAX);
        Key {
            worst,
            number: number(name),
            letters: letters.to_owned(),
            behind: number(behind),
            name: name.to_owned(),
            at,
        }
    }
}
