//! The counts of a library, and who was judged.

use schemars::JsonSchema;
use serde::{Serialize, Serializer};

use crate::sheet::{Came, Coverage, OfKind, Overview, Summary, Verdict};

/// Counts over all judgements and faults of form.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "Summary")]
pub(in crate::write) struct Counts<'a> {
    #[serde(flatten)]
    tally: Tally,
    /// Who was judged.
    coverage: Covered<'a>,
    /// What came of the assemblies.
    assemblies: Groups,
}

/// Verdict and counts, in every form of output under these names.
#[derive(Serialize, JsonSchema)]
pub(in crate::write) struct Tally {
    /// The verdict on the library.
    #[schemars(extend("enum" = Verdict::ALL.map(Verdict::name)))]
    verdict: &'static str,
    /// Errors.
    error: usize,
    /// Warnings.
    warning: usize,
    /// Notes.
    note: usize,
    /// Judgements that could not be made.
    not_judged: usize,
    /// Judgements whose rule does not apply.
    not_applicable: usize,
    /// Judgements whose rule is met: no rule broken, which never means safe.
    met: usize,
    /// Findings that the shop accepts; they are in none of the other counts.
    accepted: usize,
    /// Assemblies that are, or may be, held in a collet, on which the grip was judged.
    grip_judged: usize,
    /// Assemblies that are, or may be, held in a collet.
    held_in_collets: usize,
    /// Assemblies that are, or may be, held by a shank, whatever clamps it.
    held_by_shank: usize,
}

/// Of which tools grip and reach were judged.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "Coverage")]
struct Covered<'a> {
    /// Tools held by a shank on which the grip was judged.
    grip_judged: usize,
    /// Tools that are, or may be, held by a shank.
    held_by_shank: usize,
    /// Whether rules that judge the grip were asked.
    grip_asked: bool,
    /// Whether the grip was judged on as many tools as is wanted.
    enough: bool,
    /// Tools held by a shank, by what clamps them.
    kinds: Vec<OfClamping<'a>>,
    /// The tools held by a shank whose grip was not judged.
    grip_not_judged: Unjudged<'a>,
    /// Other tools, by what clamps them.
    not_held_by_shank: Vec<OfClamping<'a>>,
    /// Tools whose reach was judged.
    reach_judged: usize,
    /// Tools of which a reach is stated.
    reach_stated: usize,
}

/// The tools whose grip was not judged: there may be a million, and no list of them is made.
#[derive(JsonSchema)]
#[schemars(with = "Vec<String>")]
struct Unjudged<'a>(&'a Coverage);

impl Serialize for Unjudged<'_> {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_seq(self.0.grip_not_judged())
    }
}

/// Tools of one clamping kind.
#[derive(Serialize, JsonSchema)]
struct OfClamping<'a> {
    /// What clamps them; null if it is not stated.
    clamping_kind: Option<&'a str>,
    /// How many there are.
    assemblies: usize,
    /// On how many the grip was judged, where they are held by a shank.
    #[serde(skip_serializing_if = "Option::is_none")]
    grip_judged: Option<usize>,
}

/// What came of the assemblies: each is counted once, in the first group that fits.
#[derive(Serialize, JsonSchema)]
pub(in crate::write) struct Groups {
    /// Something is found at or above the level that fails.
    fails: usize,
    /// Held by a shank, and the grip was not judged.
    grip_not_judged: usize,
    /// A warning, or an error that does not fail.
    warned: usize,
    /// Something else was not judged.
    not_judged: usize,
    /// Nothing was found, notes aside.
    nothing_found: usize,
}

impl<'a> Counts<'a> {
    pub(in crate::write) fn of(overview: &'a Overview) -> Counts<'a> {
        Counts {
            tally: Tally::of(&overview.summary),
            coverage: Covered::of(&overview.coverage),
            assemblies: Groups::of(overview.came),
        }
    }
}

impl Tally {
    pub(in crate::write) const fn of(summary: &Summary) -> Tally {
        Tally {
            verdict: summary.verdict.name(),
            error: summary.error,
            warning: summary.warning,
            note: summary.note,
            not_judged: summary.not_judged,
            not_applicable: summary.not_applicable,
            met: summary.met,
            accepted: summary.accepted,
            grip_judged: summary.grip_judged,
            held_in_collets: summary.held_in_collets,
            held_by_shank: summary.held_by_shank,
        }
    }
}

impl<'a> Covered<'a> {
    fn of(coverage: &'a Coverage) -> Covered<'a> {
        let kinds = |by_shank| {
            let kinds = coverage.kinds(by_shank).iter();
            kinds.map(|kind| OfClamping::of(kind, by_shank)).collect()
        };
        Covered {
            grip_judged: coverage.grip_judged(),
            held_by_shank: coverage.held_by_shank(),
            grip_asked: coverage.grip_asked(),
            enough: coverage.is_enough(),
            kinds: kinds(true),
            grip_not_judged: Unjudged(coverage),
            not_held_by_shank: kinds(false),
            reach_judged: coverage.reach_judged(),
            reach_stated: coverage.reach_stated(),
        }
    }
}

impl<'a> OfClamping<'a> {
    fn of(kind: &'a OfKind, by_shank: bool) -> OfClamping<'a> {
        OfClamping {
            clamping_kind: kind.word(),
            assemblies: kind.held_by_shank,
            grip_judged: by_shank.then_some(kind.grip_judged),
        }
    }
}

impl Groups {
    pub(in crate::write) const fn of(came: Came) -> Groups {
        Groups {
            fails: came.fails,
            grip_not_judged: came.grip_not_judged,
            warned: came.warned,
            not_judged: came.not_judged,
            nothing_found: came.nothing_found,
        }
    }
}
