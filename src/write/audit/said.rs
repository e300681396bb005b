//! What JSON and the log say of an audit itself: their keys are the fields of the types here.

use serde::Serialize;

use crate::audit::{Change, Noted, Passed, State};

use super::head::{Head, Options, Since};
use super::story::Story;

/// What a later audit asks of a library.
#[derive(Serialize)]
pub(super) struct Kept {
    pub(super) key: String,
    pub(super) name: Option<String>,
    pub(super) status: &'static str,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(super) cut: Vec<String>,
}

#[derive(Serialize)]
pub(super) struct Properties<'a> {
    pub(super) id: &'a str,
    pub(super) day: &'a str,
    pub(super) rules_sha256: &'a str,
    pub(super) options: &'a Options,
    pub(super) roots: &'a [String],
    pub(super) seen: Counted,
    pub(super) since: Option<&'a Since>,
    pub(super) libraries: &'a [Kept],
}

#[derive(Serialize)]
pub(super) struct Counted {
    pub(super) files: usize,
    pub(super) libraries: usize,
    pub(super) ignored: usize,
    pub(super) unrecognised: usize,
    pub(super) unreadable: usize,
}

#[derive(Serialize)]
pub(super) struct Opening<'a> {
    pub(super) format: u8,
    pub(super) program: &'static str,
    pub(super) notice: &'static str,
    pub(super) audit: Properties<'a>,
    pub(super) passed_over: Vec<File<'a>>,
    pub(super) unreadable: Vec<File<'a>>,
}

#[derive(Serialize)]
pub(super) struct File<'a> {
    pub(super) file: &'a str,
    pub(super) reason: &'a str,
}

/// What became of a finding.
#[derive(Serialize)]
pub(super) struct Became {
    pub(super) state: &'static str,
    pub(super) value_before: Option<f64>,
    pub(super) needed_before: Option<f64>,
    /// Whether it was accepted and is not any more.
    pub(super) accepted_no_more: bool,
}

impl Became {
    pub(super) fn of(change: &Change) -> Became {
        Became {
            state: change.state.name(),
            value_before: change.before.map(|(value, _)| value),
            needed_before: change.before.map(|(_, needed)| needed),
            accepted_no_more: change.state == State::Lapsed,
        }
    }
}

#[derive(Serialize)]
pub(super) struct Earlier<'a> {
    pub(super) change: &'a str,
    pub(super) reason: &'a str,
    pub(super) finding: &'a Noted,
}

/// Of which rules not every finding is here, and how many there are.
pub(super) struct LeftOut<'a>(pub(super) &'a [(String, usize)]);

impl Serialize for LeftOut<'_> {
    fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_map(self.0.iter().map(|(rule, count)| (rule, count)))
    }
}

#[derive(Serialize)]
pub(super) struct Totals {
    pub(super) exit_status: u8,
    pub(super) fails: bool,
    pub(super) libraries: usize,
    pub(super) assemblies: usize,
    /// Assemblies that fail, whose grip is not judged, to be checked, else not judged, without a
    /// finding.
    pub(super) groups: [usize; 5],
    /// Errors, warnings, notes, not judged.
    pub(super) findings: [usize; 4],
    pub(super) accepted: usize,
    pub(super) held_by_shank: usize,
    pub(super) grip_judged: usize,
    pub(super) new: [usize; 4],
    pub(super) worse: [usize; 4],
    /// Accepted at the earlier audit, and not any more; without one, accepted before at all.
    pub(super) accepted_no_more: [usize; 4],
    pub(super) better: [usize; 4],
    pub(super) gone: [usize; 4],
    pub(super) not_compared: [usize; 4],
}

impl Totals {
    pub(super) fn of(story: &Story, exit_status: u8, fails: bool) -> Totals {
        Totals {
            exit_status,
            fails,
            libraries: story.libraries,
            assemblies: story.counts.assemblies(),
            groups: story.counts.groups,
            findings: story.counts.levels,
            accepted: story.counts.accepted,
            held_by_shank: story.counts.held_by_shank,
            grip_judged: story.counts.grip_judged,
            new: story.new.levels,
            worse: story.worse.levels,
            accepted_no_more: story.lapsed.levels,
            better: story.better.levels,
            gone: story.gone.levels,
            not_compared: story.not_compared.levels,
        }
    }
}

impl<'a> Properties<'a> {
    pub(super) fn of(head: &'a Head, kept: &'a [Kept]) -> Properties<'a> {
        Properties {
            id: &head.id,
            day: &head.day,
            rules_sha256: &head.rules_sha256,
            options: &head.options,
            roots: &head.roots,
            seen: Counted {
                files: head.seen.files,
                libraries: head.keys.len(),
                ignored: head.seen.ignored,
                unrecognised: head.seen.unrecognised,
                unreadable: head.seen.unreadable,
            },
            since: head.since.as_ref(),
            libraries: kept,
        }
    }
}

impl<'a> File<'a> {
    pub(super) fn of(passed: &'a Passed) -> File<'a> {
        File {
            file: &passed.file,
            reason: &passed.reason,
        }
    }
}
