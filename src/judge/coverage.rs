//! Who was judged: of which tools the grip, of which the reach, and what came of each assembly.

use crate::facts::{Fact, Scene};
use crate::library::{ClampingKind, ClosedList as _, Field, Marks};
use crate::rulebook::Level;
use crate::text::Texts;

use super::finding::Finding;
use super::outcome::Outcome;
use super::report::Report;

/// Room for the rounding of a share of tools.
const ROUNDING: f64 = 1e-6;

/// What the rules that stand for one question said of one assembly.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Answered {
    judged: bool,
    open: bool,
    /// Whether one of them would have had something to say and was not asked.
    pub unasked: bool,
}

impl Answered {
    /// Takes the answer of one of these rules. Whoever did not ask it has no answer: where it
    /// would have had something to say, the question stays open.
    pub(super) fn take(&mut self, answer: Outcome, asked: bool) {
        match answer {
            Outcome::NotApplicable => {}
            _ if !asked => self.unasked = true,
            Outcome::NotJudged => self.open = true,
            Outcome::Met | Outcome::NotMet => self.judged = true,
        }
    }

    /// Adds what others of these rules said.
    pub(super) const fn add(&mut self, others: Answered) {
        self.judged |= others.judged;
        self.open |= others.open;
        self.unasked |= others.unasked;
    }

    /// Whether one of them was judged, and none that applies waits.
    pub(super) const fn is_judged(self) -> bool {
        self.judged && !self.open && !self.unasked
    }
}

/// One assembly, as far as coverage asks about it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Covered {
    /// The tool number, else the assembly's id; empty if it has neither.
    pub name: String,
    /// What clamps it; `None` if that is not stated.
    pub clamping_kind: Option<ClampingKind>,
    /// What is counted of it.
    pub counts: Counts,
    /// The grip as a part of the gripping length; `None` if it is not known.
    pub grip: Option<f64>,
    /// The least that the rules ask of it.
    pub needed: Option<f64>,
    /// How much further the tool reaches than its most demanding operation asks for, mm; below 0
    /// where it does not reach. `None` if no operation states a reach, or it is not known.
    pub reach_margin: Option<f64>,
}

/// What is counted of one assembly.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[expect(clippy::struct_excessive_bools, reason = "each is counted alone")]
pub struct Counts {
    /// Whether it is held by a cylindrical shank, or may be.
    pub by_shank: bool,
    /// Whether its grip was judged.
    pub grip_judged: bool,
    /// Whether its reach was judged.
    pub reach_judged: bool,
    /// Whether any of its operations states a reach.
    pub reach_stated: bool,
    /// Whether a rule that judges its grip was not asked for.
    pub grip_unasked: bool,
}

impl Counts {
    /// Whether it is held by a shank, and its grip was not judged.
    #[must_use]
    pub const fn is_open(self) -> bool {
        self.by_shank && !self.grip_judged
    }
}

/// The part of the gripping length that must be filled.
fn needed(scene: &Scene<'_, Marks>) -> Option<f64> {
    let needed = scene.number(Fact::NeededGrip).value?;
    let whole = scene.number(Fact::BoreLength).value?;
    Some(needed / whole)
}

impl Covered {
    pub(super) fn of(
        scene: &Scene<'_>,
        operations: &[Scene<'_>],
        (grip, reach): (Answered, Answered),
    ) -> Covered {
        let scene = scene.quick();
        let assembly = scene.view.assembly;
        let mut jobs = operations.iter().map(Scene::quick);
        let name = assembly.tool_number().or(assembly.id());
        let kind = scene.view.listed::<ClampingKind>().value;
        let margins = operations.iter().map(Scene::quick);
        let margins = margins.filter_map(|job| job.number(Fact::ReachMargin).value);
        Covered {
            grip: scene.number(Fact::GripFraction).value,
            needed: needed(scene),
            reach_margin: margins.reduce(f64::min),
            name: name.unwrap_or_default().to_owned(),
            clamping_kind: kind,
            counts: Counts {
                // Where nobody says so, it may be.
                by_shank: scene.view.held_by_shank().value != Some(false),
                grip_judged: grip.is_judged(),
                reach_judged: reach.is_judged(),
                reach_stated: jobs.any(|job| job.field(Field::Reach).is_known()),
                grip_unasked: grip.unasked,
            },
        }
    }
}

/// How many tools of one clamping kind there are, and of how many the grip was judged.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OfKind {
    /// The clamping kind; `None` if it is not stated.
    pub clamping_kind: Option<ClampingKind>,
    /// Tools that it holds by their shank.
    pub held_by_shank: usize,
    /// Those of them of which the grip was judged.
    pub grip_judged: usize,
}

impl OfKind {
    /// The clamping kind's word.
    #[must_use]
    pub fn word(&self) -> Option<&'static str> {
        self.clamping_kind.map(|kind| kind.word().word)
    }
}

/// Which assemblies were judged. Of each it keeps a few bytes, and the name only of those whose
/// grip was not.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Coverage {
    each: Vec<Counts>,
    /// Clamping kinds in the order in which they are met, of tools held by a shank and of others.
    kinds: [Vec<OfKind>; 2],
    not_judged: Texts,
    /// Whether there is a rule that judges the grip.
    pub grip_rules: bool,
    /// The share of the tools held by a shank of which the grip is to be judged, 0 to 1; `None`:
    /// of one of them at least, if that is asked for.
    pub wanted: Option<f64>,
}

impl Coverage {
    /// Of no assembly yet.
    #[must_use]
    pub fn new(grip_rules: bool) -> Coverage {
        Coverage {
            grip_rules,
            ..Coverage::default()
        }
    }

    /// Adds the next assembly.
    pub fn add(&mut self, one: &Covered) {
        self.each.push(one.counts);
        if one.counts.is_open() {
            self.not_judged.push(&one.name);
        }
        let [others, held] = &mut self.kinds;
        let kinds = if one.counts.by_shank { held } else { others };
        let same = |kind: &&mut OfKind| kind.clamping_kind == one.clamping_kind;
        let judged = usize::from(one.counts.grip_judged);
        match kinds.iter_mut().find(same) {
            Some(kind) => {
                kind.held_by_shank += 1;
                kind.grip_judged += judged;
            }
            None => kinds.push(OfKind {
                clamping_kind: one.clamping_kind,
                held_by_shank: 1,
                grip_judged: judged,
            }),
        }
    }

    /// How many assemblies there are.
    #[must_use]
    pub fn assemblies(&self) -> usize {
        self.each.len()
    }

    fn count(&self, wanted: impl Fn(&Counts) -> bool) -> usize {
        self.each.iter().filter(|one| wanted(one)).count()
    }

    /// Tools that are, or may be, held by a cylindrical shank.
    #[must_use]
    pub fn held_by_shank(&self) -> usize {
        self.count(|one| one.by_shank)
    }

    /// Those of them of which the grip was judged.
    #[must_use]
    pub fn grip_judged(&self) -> usize {
        self.count(|one| one.by_shank && one.grip_judged)
    }

    /// Those of them of which it was not, by name.
    pub fn grip_not_judged(&self) -> impl Iterator<Item = &str> {
        self.not_judged.iter()
    }

    /// Whether every rule that judges the grip of one of them was asked for.
    #[must_use]
    pub fn grip_asked(&self) -> bool {
        self.grip_rules && self.count(|one| one.by_shank && one.grip_unasked) == 0
    }

    /// Assemblies of which a reach is stated.
    #[must_use]
    pub fn reach_stated(&self) -> usize {
        self.count(|one| one.reach_stated)
    }

    /// Assemblies of which the reach was judged.
    #[must_use]
    pub fn reach_judged(&self) -> usize {
        self.count(|one| one.reach_judged)
    }

    /// Clamping kinds in the order in which they are met, of tools held by a shank or of others.
    #[must_use]
    pub fn kinds(&self, by_shank: bool) -> &[OfKind] {
        let [others, held] = &self.kinds;
        if by_shank { held } else { others }
    }

    /// Whether the grip was judged of as many tools as is wanted. Where none is held by a shank
    /// there is nothing to want.
    #[must_use]
    pub fn is_enough(&self) -> bool {
        let (judged, held) = (self.grip_judged(), self.held_by_shank());
        match self.wanted {
            _ if held == 0 => true,
            None => judged > 0 || !self.grip_asked(),
            #[expect(
                clippy::cast_precision_loss,
                reason = "counts of tools, far below 2^53"
            )]
            Some(share) => judged as f64 >= share * held as f64 - ROUNDING,
        }
    }
}

/// Every assembly is counted in exactly one of these, the first that fits.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Came {
    /// Something found is at or above the level that fails.
    pub fails: usize,
    /// Held by a shank, and its grip was not judged.
    pub grip_not_judged: usize,
    /// A warning, or an error that does not fail: below that level, or accepted by the shop.
    pub warned: usize,
    /// Something else was not judged.
    pub not_judged: usize,
    /// Nothing was found by the rules that were asked, notes aside.
    pub nothing_found: usize,
}

impl Came {
    /// All assemblies.
    #[must_use]
    pub const fn sum(&self) -> usize {
        self.fails + self.grip_not_judged + self.warned + self.not_judged + self.nothing_found
    }
}

/// In which of the groups of [`Came`] an assembly is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Group {
    /// Something found is at or above the level that fails.
    Fails,
    /// Held by a shank, and its grip was not judged.
    GripNotJudged,
    /// A warning, or an error that does not fail.
    Warned,
    /// Something else was not judged.
    NotJudged,
    /// Nothing was found, notes aside.
    #[default]
    NothingFound,
}

impl Group {
    /// Its name in data.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Group::Fails => "fails",
            Group::GripNotJudged => "grip_not_judged",
            Group::Warned => "warned",
            Group::NotJudged => "not_judged",
            Group::NothingFound => "nothing_found",
        }
    }
}

impl Came {
    /// Counts one more assembly.
    pub(super) const fn count(&mut self, group: Group) {
        *match group {
            Group::Fails => &mut self.fails,
            Group::GripNotJudged => &mut self.grip_not_judged,
            Group::Warned => &mut self.warned,
            Group::NotJudged => &mut self.not_judged,
            Group::NothingFound => &mut self.nothing_found,
        } += 1;
    }
}

/// The worst that was found of one assembly.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Worst {
    /// The highest level of what is not met and not accepted.
    open: Option<Level>,
    /// The highest level of what the shop accepts.
    accepted: Option<Level>,
    /// Whether something is not judged.
    not_judged: bool,
}

impl Report {
    /// What came of the assemblies.
    #[must_use]
    pub fn came(&self) -> Came {
        let mut found = vec![Worst::default(); self.coverage.each.len()];
        for finding in &self.findings {
            for at in finding.assembly_index.iter().chain(&finding.part_of) {
                if let Some(found) = found.get_mut(*at) {
                    found.add(finding);
                }
            }
        }
        let mut came = Came::default();
        for (one, found) in self.coverage.each.iter().zip(found) {
            came.count(found.group(*one, self.fail_on));
        }
        came
    }
}

impl Worst {
    pub(super) fn add(&mut self, finding: &Finding) {
        // A finding that is not met has a level.
        let level = finding.level.unwrap_or(finding.full_level);
        self.weigh(finding.outcome, level, finding.accepted.is_some());
    }

    pub(super) fn weigh(&mut self, outcome: Outcome, level: Level, accepted: bool) {
        match (outcome, accepted) {
            (Outcome::NotJudged, _) => self.not_judged = true,
            (Outcome::NotMet, false) => self.open = self.open.max(Some(level)),
            (Outcome::NotMet, true) => self.accepted = self.accepted.max(Some(level)),
            _ => {}
        }
    }

    pub(super) fn group(self, one: Counts, fail_on: Level) -> Group {
        if self.open >= Some(fail_on) {
            Group::Fails
        } else if one.is_open() {
            Group::GripNotJudged
        } else if self.open.max(self.accepted) >= Some(Level::Warning) {
            Group::Warned
        } else if self.not_judged {
            Group::NotJudged
        } else {
            Group::NothingFound
        }
    }
}
