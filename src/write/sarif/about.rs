//! What is said of a library as a whole.

use serde::Serialize;

use crate::sheet::Overview;

use super::super::json::{About as Own, Groups, Record, Tally};

/// A library of the run.
#[derive(Serialize)]
pub(super) struct About<'a> {
    /// Its path as the user gave it.
    input: &'a str,
    /// Whether anything of it could be read.
    status: &'static str,
    library: Option<Own<'a>>,
    /// Its counts, whatever the log leaves out.
    summary: Option<Counts>,
    /// Whether it fails the run.
    fails: Option<bool>,
    run: Option<Record<'a>>,
}

#[derive(Serialize)]
struct Counts {
    #[serde(flatten)]
    tally: Tally,
    assemblies: Groups,
}

impl<'a> About<'a> {
    pub(super) fn of(
        input: &'a str,
        in_part: bool,
        overview: &'a Overview,
        fails: bool,
    ) -> About<'a> {
        About {
            input,
            status: if in_part { "read in part" } else { "read" },
            library: Some(Own::of(&overview.library)),
            summary: Some(Counts {
                tally: Tally::of(&overview.summary),
                assemblies: Groups::of(overview.came),
            }),
            fails: Some(fails),
            run: Some(Record::of(overview)),
        }
    }

    /// Of an input of which nothing could be read.
    pub(super) const fn unreadable(input: &'a str) -> About<'a> {
        About {
            input,
            status: "unreadable",
            library: None,
            summary: None,
            fails: None,
            run: None,
        }
    }
}
