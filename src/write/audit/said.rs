//! What JSON and the log say of an audit itself: their keys are the fields of the types here.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::Serialize;

use crate::audit::{Change, GONE, NOT_COMPARED, Noted, Passed, State};

use super::head::{Head, Options, Since};
use super::story::Story;

/// What a later audit asks of a library.
#[derive(Serialize, JsonSchema)]
pub(super) struct Kept {
    /// Its key.
    pub(super) key: String,
    /// Its name, if it states one.
    pub(super) name: Option<String>,
    /// What came of reading it.
    pub(super) status: &'static str,
    /// Rules of which the log has not every result; only where there are any.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(super) cut: Vec<String>,
}

/// An audit.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "Audit")]
pub(super) struct Properties<'a> {
    /// Its id: a hash of inputs, rules, configuration, version and day.
    pub(super) id: &'a str,
    /// The day by which it judges, such as `2027-01-31`.
    #[schemars(extend("pattern" = "^[0-9]{4}-[0-9]{2}-[0-9]{2}$"))]
    pub(super) day: &'a str,
    /// SHA-256 of the rules before any shop changes them.
    #[schemars(extend("pattern" = "^[0-9a-f]{64}$"))]
    pub(super) rules_sha256: &'a str,
    /// The options that decide what is judged and what fails.
    pub(super) options: &'a Options,
    /// The folders that were named.
    pub(super) roots: &'a [String],
    /// How much was seen.
    pub(super) seen: Counted,
    /// What it is compared with; null without `--since`, and the first time.
    pub(super) since: Option<&'a Since>,
    /// Empty here: in the log, what a later audit asks of each library.
    pub(super) libraries: &'a [Kept],
}

/// How much was seen.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "Seen")]
pub(super) struct Counted {
    /// Files, whatever they are.
    pub(super) files: usize,
    /// Libraries.
    pub(super) libraries: usize,
    /// Files and folders that are hidden, or named in `.shankwiseignore`.
    pub(super) ignored: usize,
    /// CSV files and XML documents that are no library, and links to what was seen already.
    pub(super) unrecognised: usize,
    /// Files and folders that could not be looked at.
    pub(super) unreadable: usize,
}

/// What is known before any library.
#[derive(Serialize, JsonSchema)]
pub(super) struct Opening<'a> {
    /// The version of the format.
    #[schemars(extend("const" = 1))]
    pub(super) format: u8,
    /// The program with its version.
    pub(super) program: &'static str,
    /// The program is an aid, not an approval.
    pub(super) notice: &'static str,
    /// By what and when it was judged.
    pub(super) audit: Properties<'a>,
    /// CSV files and XML documents that are no library.
    pub(super) passed_over: Vec<File<'a>>,
    /// Files and folders that could not be looked at.
    pub(super) unreadable: Vec<File<'a>>,
}

/// A file or folder that is no library.
#[derive(Serialize, JsonSchema)]
pub(super) struct File<'a> {
    /// The file or folder.
    pub(super) file: &'a str,
    /// Why.
    pub(super) reason: &'a str,
}

/// What became of a finding.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "Change")]
pub(super) struct Became {
    /// What became of it.
    #[schemars(extend("enum" = State::COMPARED.map(State::name)))]
    pub(super) state: &'static str,
    /// How much there was, in the unit of its shortfall; null where no numbers are compared.
    pub(super) value_before: Option<f64>,
    /// How much was wanted.
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

/// A finding of the earlier audit that is not among today's.
#[derive(Serialize, JsonSchema)]
pub(super) struct Earlier<'a> {
    /// What became of it.
    #[schemars(extend("enum" = [GONE, NOT_COMPARED]))]
    pub(super) change: &'a str,
    /// Why it is not among today's.
    pub(super) reason: &'a str,
    /// The finding as it was, in the columns of `findings.csv`.
    pub(super) finding: &'a Noted,
}

/// Of which rules not every finding is here, and how many there are.
#[derive(JsonSchema)]
#[schemars(with = "BTreeMap<String, usize>")]
pub(super) struct LeftOut<'a>(pub(super) &'a [(String, usize)]);

impl Serialize for LeftOut<'_> {
    fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_map(self.0.iter().map(|(rule, count)| (rule, count)))
    }
}

/// What an audit comes to. Findings are four numbers: errors, warnings, notes, not judged.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "AuditTotals")]
pub(super) struct Totals {
    /// The exit status.
    pub(super) exit_status: u8,
    /// Whether something fails; with `--only-new`, something that is news.
    pub(super) fails: bool,
    /// Libraries.
    pub(super) libraries: usize,
    /// Assemblies.
    pub(super) assemblies: usize,
    /// Assemblies that fail, whose grip is not judged, to be checked, else not judged, without a
    /// finding.
    pub(super) groups: [usize; 5],
    /// All of today, those aside that the shop accepts.
    pub(super) findings: [usize; 4],
    /// Findings that the shop accepts.
    pub(super) accepted: usize,
    /// Assemblies that are, or may be, held by a shank.
    pub(super) held_by_shank: usize,
    /// Those of them of which the grip was judged.
    pub(super) grip_judged: usize,
    /// Not there before.
    pub(super) new: [usize; 4],
    /// Worse than before.
    pub(super) worse: [usize; 4],
    /// Accepted at the earlier audit, and not any more; without one, accepted before at all.
    pub(super) accepted_no_more: [usize; 4],
    /// Accepted since the earlier audit; they are in no other count.
    pub(super) accepted_since: [usize; 4],
    /// Better than before.
    pub(super) better: [usize; 4],
    /// Not there any more.
    pub(super) gone: [usize; 4],
    /// There before, and not looked for today.
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
            accepted_since: story.accepted.levels,
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
