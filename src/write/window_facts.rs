//! What the answer to a quick question needs besides the window: lengths around it, the torque
//! as stated, the drawing. All asked of one scene at one stick-out; nothing is judged here.

use super::window_front::Front;
use crate::advice::{End, Window, setting_tolerance, shank_needed, stick_out_needed};
use crate::draw::{self, Drawing};
use crate::facts::{Fact, Scene};
use crate::judge::Judge;
use crate::library::{Assembly, Field, Library, Overrides, Reckoned, Setting};

/// The question with all that judges it.
#[derive(Clone, Copy)]
pub struct Asked<'a> {
    /// The judge.
    pub judge: &'a Judge<'a>,
    /// The library of the one row.
    pub library: &'a Library,
    /// That row.
    pub assembly: &'a Assembly,
    /// Its window.
    pub window: &'a Window,
}

/// Lengths in mm, torques in N·m.
pub(super) struct Around {
    /// The stick-out that is stated or follows from what is. It is shown, else the recommended.
    pub present: Option<f64>,
    /// The recommended one; none where nothing says how far the tool may go in.
    pub advised: Option<f64>,
    /// How far the collet's land goes, and the least of it that must be filled.
    pub land: Option<f64>,
    pub needed_grip: Option<f64>,
    /// The shortest tool that still serves.
    pub shortest: Shortest,
    /// How far the tool must go in behind the front face, the plain shank that this takes, and
    /// how far it may go in where a stop or a maker limits that.
    pub insertion_needed: Option<f64>,
    pub shank_needed: Option<f64>,
    pub insertion_possible: Option<f64>,
    /// The insertion that the holder's manufacturer asks for.
    pub holder_minimum: Option<f64>,
    /// How far the land lies behind the front face, where anything of that is stated.
    pub setback: Option<f64>,
    /// The longest that the tool is stated to be, before regrinding.
    pub longest: Option<f64>,
    /// How nearly a stick-out is set.
    pub setting_tolerance: f64,
    /// Room that the tail needs behind it: closing room, and the draw-in where it is known.
    pub room: f64,
    pub draw_in_known: bool,
    /// Torques that are stated, each with the word for it.
    pub torques: Vec<(&'static str, f64)>,
    /// What holds the tool.
    pub front: Front,
    /// What is stated of the job.
    pub job: Job,
    /// Whether the collet's size is stated.
    pub sized: bool,
    /// What is assumed, and why.
    pub assumed: Vec<String>,
    /// The drawing at the stick-out that is shown.
    pub drawing: Drawing,
}

/// What is stated of a job.
#[derive(Clone, Copy)]
pub(super) enum Job {
    NoReach,
    NoClearance,
    /// Both.
    Stated,
}

/// The shortest overall length after regrinding, mm.
pub(super) enum Shortest {
    ForThisReach(f64),
    AtThisStickOut(f64),
    /// What would have to be stated.
    Unknown(Vec<&'static str>),
}

impl Asked<'_> {
    fn present(&self) -> Option<f64> {
        let as_stated = Overrides::default();
        self.judge
            .look(self.library, self.assembly, &as_stated, |base, _| {
                base.field(Field::StickOut).value
            })
    }

    pub(super) fn around(&self) -> Around {
        let (present, advised) = (self.present(), self.window.recommended);
        let at = |stick_out: Option<f64>| Overrides {
            numbers: stick_out
                .map(|at| (Field::StickOut, at))
                .into_iter()
                .collect(),
            ..Overrides::default()
        };
        let recommended = at(advised.or(present));
        let shortest = self.look(&recommended, shortest);
        self.look(&at(present.or(advised)), |base, jobs| Around {
            present,
            advised,
            land: base.field(Field::BoreLength).value,
            needed_grip: base.number(Fact::NeededGrip).value,
            shortest,
            insertion_needed: base.number(Fact::InsertionNeeded).value,
            shank_needed: shank_needed(base),
            insertion_possible: base.number(Fact::InsertionPossible).value,
            holder_minimum: base.field(Field::HolderClampingLengthMin).value,
            setback: setback(base),
            longest: base.field(Field::OverallLength).value,
            setting_tolerance: setting_tolerance(self.judge),
            room: room(base),
            draw_in_known: base.number(Fact::DrawIn).is_known(),
            torques: torques(base),
            front: Front::of(base),
            job: job(jobs),
            sized: base.field(Field::ColletSize).is_known(),
            assumed: self.assumed(base),
            drawing: match jobs {
                [job, ..] => draw::assembly(job),
                [] => draw::assembly(base),
            },
        })
    }

    /// The scene of the assembly, and those of its jobs.
    fn look<R>(
        &self,
        what_if: &Overrides<'_>,
        see: impl FnOnce(&Scene<'_>, &[Scene<'_>]) -> R,
    ) -> R {
        self.judge.look(self.library, self.assembly, what_if, see)
    }

    /// What the ends of the window and the needed grip rest on that is only assumed.
    fn assumed(&self, base: &Scene<'_>) -> Vec<String> {
        let window = self.window;
        let advised = window.advised.iter();
        let ends = [&window.min, &window.max, &window.next_min, &window.next_max];
        let ends = ends
            .into_iter()
            .chain(advised.flat_map(|advised| [&advised.min, &advised.max]));
        let of_ends = ends.flatten().flat_map(|end: &End| end.assumptions.clone());
        let needed = base.number(Fact::NeededGrip).trace;
        let mut words: Vec<String> = of_ends.collect();
        words.extend(self.judge.assumptions(base, needed));
        words.sort_unstable();
        words.dedup();
        words
    }
}

fn setback(base: &Scene<'_>) -> Option<f64> {
    let fields = [Field::FaceSetback, Field::BoreRecess, Field::BoreSetback];
    let mut stated = fields.iter().filter_map(|field| base.view.entry(*field));
    stated.next()?;
    base.number(Fact::BoreSetback).value
}

fn job(jobs: &[Scene<'_>]) -> Job {
    let mut deep = jobs
        .iter()
        .filter(|job| job.field(Field::Reach).is_known())
        .peekable();
    if deep.peek().is_none() {
        Job::NoReach
    } else if deep.any(|job| job.view.entry(Field::Clearance).is_none()) {
        Job::NoClearance
    } else {
        Job::Stated
    }
}

fn room(base: &Scene<'_>) -> f64 {
    let closing = base.setting(Setting::ClosingRoom).value.unwrap_or(0.0);
    closing + base.number(Fact::DrawIn).value.unwrap_or(0.0)
}

/// With a reach: what the job and the collet ask for. Without: at this stick-out.
fn shortest(base: &Scene<'_>, jobs: &[Scene<'_>]) -> Shortest {
    let reach = stick_out_needed(jobs);
    let behind = base.number(Fact::InsertionNeeded);
    let front = reach.map_or_else(|| base.field(Field::StickOut), Reckoned::free);
    let found = front.zip(behind).map(|(front, behind)| front + behind);
    match found.value {
        Some(length) if reach.is_some() => Shortest::ForThisReach(length),
        Some(length) => Shortest::AtThisStickOut(length),
        None => Shortest::Unknown(found.trace.missing.iter().map(Field::short).collect()),
    }
}

/// Every torque that is stated; none is worked out.
fn torques(base: &Scene<'_>) -> Vec<(&'static str, f64)> {
    let all = [
        ("set up with", base.field(Field::NutTorque)),
        ("recommended", base.number(Fact::TorqueRecommended)),
        ("at most", base.number(Fact::TorqueLimit)),
    ];
    let known = all.into_iter();
    known
        .filter_map(|(word, torque)| Some((word, torque.value?)))
        .collect()
}
