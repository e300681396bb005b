//! What is said of a library as a whole.

use serde::Serialize;

use crate::sheet::{Overview, Summary};

use super::super::json::{About as Own, Record};

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
    verdict: &'static str,
    error: usize,
    warning: usize,
    note: usize,
    not_judged: usize,
    not_applicable: usize,
    met: usize,
    accepted: usize,
    assemblies: usize,
    held_by_shank: usize,
    grip_judged: usize,
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
            summary: Some(Counts::of(&overview.summary, overview)),
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

impl Counts {
    fn of(summary: &Summary, overview: &Overview) -> Counts {
        Counts {
            verdict: summary.verdict.name(),
            error: summary.error,
            warning: summary.warning,
            note: summary.note,
            not_judged: summary.not_judged,
            not_applicable: summary.not_applicable,
            met: summary.met,
            accepted: summary.accepted,
            assemblies: summary.assemblies,
            held_by_shank: overview.coverage.held_by_shank(),
            grip_judged: overview.coverage.grip_judged(),
        }
    }
}
