//! What the bounding rules say of one assembly at any stick-out.

use std::cell::Cell;

use crate::facts::{Fact, Scene};
use crate::judge::{Judge, Measure, Outcome, worst};
use crate::library::{Field, Marks, Provenance};
use crate::rulebook::{Bound, CuredBy, Hinge, Level, Rule};

/// A slack nearer to 0 than this is on the edge.
pub(super) const ON_EDGE: f64 = 1e-9;

/// The least stick-out that is looked at, mm: one above 0.
pub(super) const LEAST: f64 = 0.01;

/// One subject at one stick-out. Samples carry marks alone: what an end rests on is asked there.
pub(super) type Sample = (f64, Measure<Marks>);

/// All subjects at one stick-out.
pub(super) struct Station {
    /// The stick-out, mm.
    pub at: f64,
    /// What each says there, in their order.
    pub said: Vec<Measure<Marks>>,
    /// What each hangs on there, if it may jump and that tells where; else empty.
    pub hinges: Vec<Vec<Hinge>>,
}

/// Who bounds the stick-out.
#[derive(Clone, Debug)]
pub(super) struct Subject<'a> {
    /// Number of the rule; `None` for the full bore, which no rule demands.
    rule: Option<(usize, &'a Rule)>,
    /// The rule under whose name its end is shown; empty if there is none.
    id: &'a str,
    /// Which of the assembly's operations, if the rule is on one.
    operation: Option<usize>,
    /// Whether it may change its mind unseen between two stick-outs.
    jumps: bool,
    /// Whether what it hangs on tells where.
    hinged: bool,
    /// What it says at every stick-out, where it never asks how far the tool sticks out.
    still: Option<Measure<Marks>>,
}

impl Subject<'_> {
    pub(super) fn id(&self) -> &str {
        self.id
    }

    /// The word for what binds.
    pub(super) fn name(&self) -> &str {
        self.rule.map_or("full grip", |(_, rule)| &rule.binds)
    }

    /// What to do where no stick-out meets it, if that is not a longer tool.
    pub(super) fn where_none(&self) -> &str {
        self.rule.map_or("", |(_, rule)| &rule.where_none)
    }

    /// What corrects it besides another stick-out.
    pub(super) fn is_cured_by(&self, by: CuredBy) -> bool {
        self.rule.is_some_and(|(_, rule)| rule.is_cured_by(by))
    }

    pub(super) fn level(&self) -> Option<Level> {
        self.rule.map(|(_, rule)| rule.level)
    }

    /// Whether its answer is the grip's.
    pub(super) fn judges_grip(&self) -> bool {
        self.rule.is_some_and(|(_, rule)| rule.stands_for.grip)
    }

    pub(super) fn bounds(&self, bound: Bound) -> bool {
        self.rule
            .is_none_or(|(_, rule)| rule.bounds.contains(&bound))
    }

    pub(super) fn operation(&self) -> Option<usize> {
        self.operation
    }

    pub(super) fn jumps(&self) -> bool {
        self.jumps
    }

    pub(super) fn is_hinged(&self) -> bool {
        self.hinged
    }
}

/// One assembly, asked at different stick-outs. `'v` is how long its scenes see.
pub(super) struct Bounding<'a, 'v> {
    pub judge: &'a Judge<'a>,
    pub subjects: Vec<Subject<'a>>,
    /// The stick-out at which a clamp screw meets its flat, mm, where one holds the tool.
    pub flat: Option<f64>,
    base: &'a Scene<'v>,
    jobs: &'a [Scene<'v>],
}

impl<'a, 'v> Bounding<'a, 'v> {
    /// From an assembly and its operations, and the cell that they set when asked how far the
    /// tool sticks out; rules of these levels are asked.
    pub(super) fn new(
        judge: &'a Judge<'a>,
        (base, jobs): (&'a Scene<'v>, &'a [Scene<'v>]),
        moved: &Cell<bool>,
        asked: &impl Fn(Option<Level>) -> bool,
    ) -> Bounding<'a, 'v> {
        let mut subjects = subjects(judge, jobs.len());
        subjects.retain(|subject| asked(subject.level()));
        let mut bounding = Bounding {
            judge,
            subjects,
            flat: flat(base),
            base,
            jobs,
        };
        let still = bounding.still(moved);
        for (subject, still) in bounding.subjects.iter_mut().zip(still) {
            subject.still = still;
            subject.jumps &= still.is_none();
        }
        bounding
    }

    /// What each subject says that never asks for the stick-out. One that did not ask at one
    /// stick-out comes to the same answer in the same way at any.
    fn still(&self, moved: &Cell<bool>) -> Vec<Option<Measure<Marks>>> {
        let subjects = self.subjects.iter();
        let said = subjects.map(|subject| {
            moved.set(false);
            let said = self.measure(subject, self.scene(subject).quick());
            (!moved.get()).then_some(said)
        });
        said.collect()
    }

    /// The scene that a subject is about: of its operation, if it is on one.
    fn scene(&self, subject: &Subject<'_>) -> &'a Scene<'v> {
        let job = subject.operation.and_then(|at| self.jobs.get(at));
        job.unwrap_or(self.base)
    }

    /// Looks at the assembly with another stick-out, mm, as a subject does: at its operation, if
    /// it is on one.
    pub(super) fn look<R>(
        &self,
        subject: &Subject<'_>,
        stick_out: f64,
        see: impl FnOnce(&Scene<'_>) -> R,
    ) -> R {
        let base = self.base.at_stick_out(stick_out, None);
        match subject.operation.and_then(|at| self.jobs.get(at)) {
            Some(job) => see(&job.at_stick_out(stick_out, Some(&base))),
            None => see(&base),
        }
    }

    /// All subjects at a stick-out, mm.
    pub(super) fn all(&self, stick_out: f64) -> Station {
        let base = self.base.quick().at_stick_out(stick_out, None);
        let jobs = self.jobs.iter().map(Scene::quick);
        let jobs = jobs.map(|job| job.at_stick_out(stick_out, Some(&base)));
        let jobs: Vec<Scene<'_, Marks>> = jobs.collect();
        let subjects = self.subjects.iter();
        let asked = subjects.map(|subject| {
            let job = subject.operation.and_then(|at| jobs.get(at));
            let scene = job.unwrap_or(&base);
            let ask = || self.measure(subject, scene);
            (
                subject.still.unwrap_or_else(ask),
                self.hinges(subject, scene),
            )
        });
        let (said, hinges) = asked.unzip();
        Station {
            at: stick_out,
            said,
            hinges,
        }
    }

    /// What a subject hangs on in a scene, if it may jump and that tells where.
    fn hinges(&self, subject: &Subject<'_>, scene: &Scene<'_, Marks>) -> Vec<Hinge> {
        match subject.rule {
            Some((index, rule)) if subject.jumps && subject.hinged => {
                self.judge.hinges(index, rule, scene)
            }
            _ => Vec::new(),
        }
    }

    /// What one subject says at a stick-out, mm.
    pub(super) fn one(&self, subject: &Subject<'_>, stick_out: f64) -> Measure<Marks> {
        let ask = || {
            let base = self.base.quick().at_stick_out(stick_out, None);
            match subject.operation.and_then(|at| self.jobs.get(at)) {
                Some(job) => {
                    let job = job.quick().at_stick_out(stick_out, Some(&base));
                    self.measure(subject, &job)
                }
                None => self.measure(subject, &base),
            }
        };
        subject.still.unwrap_or_else(ask)
    }

    /// The same, with all that it rests on.
    pub(super) fn in_full(&self, subject: &Subject<'_>, stick_out: f64) -> Measure {
        self.look(subject, stick_out, |scene| self.measure(subject, scene))
    }

    fn measure<P: Provenance>(&self, subject: &Subject<'_>, scene: &Scene<'_, P>) -> Measure<P> {
        match subject.rule {
            Some((index, rule)) => self.judge.measure(index, rule, scene),
            None => {
                let tolerance = self.judge.book.tolerance().length;
                worst(scene, |corner| full_land(corner, tolerance))
            }
        }
    }
}

/// All who bound the stick-out of an assembly with so many operations; the full land is the last.
fn subjects<'a>(judge: &'a Judge<'_>, operations: usize) -> Vec<Subject<'a>> {
    let mut subjects = Vec::new();
    for (index, rule) in judge.bounding() {
        let jumps = Judge::may_jump(rule);
        let of = |operation| Subject {
            rule: Some((index, rule)),
            id: &rule.id,
            operation,
            jumps,
            hinged: jumps && Judge::is_hinged(rule),
            still: None,
        };
        if rule.of_operation {
            subjects.extend((0..operations).map(|at| of(Some(at))));
        } else {
            subjects.push(of(None));
        }
    }
    let mut full = judge.book.rules.iter();
    let full = full.find(|rule| rule.stands_for.full_grip);
    subjects.push(Subject {
        rule: None,
        id: full.map_or("", |rule| &rule.id),
        operation: None,
        jumps: false,
        hinged: false,
        still: None,
    });
    subjects
}

/// Whether the land is filled, within what counts as equal.
fn full_land<P: Provenance>(scene: &Scene<'_, P>, tolerance: f64) -> Measure<P> {
    let gripped = scene.number(Fact::GrippedLength);
    let lengths = gripped.zip(scene.number(Fact::BoreLength));
    let spare = lengths.map(|(gripped, land)| gripped - land);
    Measure {
        outcome: match spare.value {
            None => Outcome::NotJudged,
            Some(spare) if spare >= -tolerance => Outcome::Met,
            Some(_) => Outcome::NotMet,
        },
        waits: (!spare.is_known()).then_some(spare.trace),
        outside: None,
        slack: spare.value.unwrap_or(f64::NAN),
        trace: spare.trace,
    }
}

fn flat(scene: &Scene<'_>) -> Option<f64> {
    let screwed = scene.truth(Fact::ScrewOnFlat).value == Some(true);
    scene.number(Fact::FlatStickOut).value.filter(|_| screwed)
}

/// Stick-outs at which a length along the axis changes its law: where the land's ends meet the
/// shank's. Between them such lengths are straight lines. mm.
pub(super) fn kinks(scene: &Scene<'_>) -> Vec<f64> {
    let setback = scene.number(Fact::BoreSetback);
    let corners = scene.corners(setback.trace);
    std::iter::once(scene)
        .chain(corners)
        .flat_map(kinks_of)
        .collect()
}

fn kinks_of(scene: &Scene<'_>) -> Vec<f64> {
    let length = |found: crate::library::Reckoned<f64>| found.value;
    let overall = length(scene.view.overall_length());
    let shank = length(scene.field(Field::ShankLength));
    let square = length(scene.field(Field::DriveSquareLength)).unwrap_or(0.0);
    let rear_flutes = length(scene.field(Field::RearFluteLength)).unwrap_or(0.0);
    let square = square.max(rear_flutes);
    let setback = length(scene.number(Fact::BoreSetback));
    let land = length(scene.number(Fact::BoreLength));
    let ends = [
        overall.zip(shank).map(|(overall, shank)| overall - shank),
        overall.map(|overall| overall - square),
    ];
    let mut found = Vec::new();
    // Where the square's ends meet those of the collet's square.
    let behind = setback.zip(land).map(|(setback, land)| setback + land);
    let rear = length(scene.number(Fact::ColletRear));
    let squared = [behind, rear].into_iter().filter(|_| square > 0.0);
    for place in squared.flatten() {
        found.extend(overall.map(|overall| overall - place));
        found.extend(overall.map(|overall| overall - place - square));
    }
    for (end, setback) in ends.into_iter().flatten().zip(setback.into_iter().cycle()) {
        found.push(end - setback);
        found.extend(land.map(|land| end - setback - land));
    }
    found
}
