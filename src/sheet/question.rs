//! The answer to a quick question as plain data: the window, lengths around it, the torque as
//! stated, the drawing. All asked of one scene at one stick-out; nothing is judged here.

use super::front::Front;
use crate::advice::{
    End, Window, insertion_needed, insertion_possible, setting_tolerance, shank_needed,
    stick_out_needed, window,
};
use crate::draw::{self, Drawing};
use crate::facts::{Fact, Scene};
use crate::judge::{Finding, Judge, defaults_in_use};
use crate::library::{
    Assembly, Field, Library, Overrides, RANGED, Reckoned, Setting, SettingSet, View,
};
use crate::rulebook::Level;
use crate::units::print::DisplayUnits;

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

/// The answer. Lengths in mm, torques in N·m.
pub struct Answer {
    /// The tool number, if one is asked with.
    pub number: Option<String>,
    /// The window.
    pub window: Window,
    /// The units in which it is asked.
    pub units: DisplayUnits,
    /// Whether an error stands that no stick-out cures.
    pub stopped: bool,
    /// The shop's defaults that it rests on.
    pub defaults: Vec<String>,
    /// The stick-out that is stated or follows from what is. It is shown, else the recommended.
    pub present: Option<f64>,
    /// The recommended one; none where nothing says how far the tool may go in.
    pub advised: Option<f64>,
    /// How far the collet's land goes.
    pub land: Option<f64>,
    /// The least of it that must be filled.
    pub needed_grip: Option<f64>,
    /// The shortest tool that still serves.
    pub shortest: Shortest,
    /// How far the tool must go in behind the front face.
    pub insertion_needed: Option<f64>,
    /// The plain shank that this takes.
    pub shank_needed: Option<f64>,
    /// How far it may go in where a stop or a maker limits that.
    pub insertion_possible: Option<f64>,
    /// The stick-out at which a clamp screw meets its flat.
    pub flat: Option<f64>,
    /// The insertion that the holder's manufacturer asks for.
    pub holder_minimum: Option<f64>,
    /// Ranges that the window rests on, and what stating them would win.
    pub ranges: Vec<RangeAsked>,
    /// The longest that the tool is stated to be, before regrinding.
    pub longest: Option<f64>,
    /// How nearly a stick-out is set.
    pub setting_tolerance: f64,
    /// Room that the tail needs behind it: closing room, and the draw-in where it is known.
    pub room: f64,
    /// Whether the draw-in is known.
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

/// A property that is not stated and taken as a range, mm, and the windows if it were stated at
/// either end.
pub struct RangeAsked {
    /// The property.
    pub name: &'static str,
    /// Its least and its greatest value.
    pub range: (f64, f64),
    /// The windows there.
    pub windows: [Window; 2],
}

impl RangeAsked {
    /// Whether stating it would move an end.
    fn moves(&self, window: &Window) -> bool {
        let differs = |a: f64, b: f64| (a - b).abs() > MOVED;
        self.windows.iter().any(|stated| {
            let (stated, now) = (stated.ends(), window.ends());
            differs(stated.0, now.0) || differs(stated.1, now.1)
        })
    }
}

/// An end that moves by less has not moved, mm.
const MOVED: f64 = 0.01;

/// What is stated of a job.
#[derive(Clone, Copy)]
pub enum Job {
    /// No reach.
    NoReach,
    /// A reach at least.
    Stated,
}

/// The shortest overall length after regrinding, mm.
pub enum Shortest {
    /// For the reach that is stated.
    ForThisReach(f64),
    /// At the stick-out that is shown.
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

    /// Works the answer out; `failing` is what is wrong whatever the stick-out.
    #[must_use]
    pub fn answer(&self, failing: &[&Finding]) -> Answer {
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
        let answer = self.look(&at(present.or(advised)), |base, jobs| Answer {
            number: self.assembly.tool_number().map(str::to_owned),
            window: self.window.clone(),
            units: self.library.units,
            stopped: failing
                .iter()
                .any(|finding| finding.level == Some(Level::Error)),
            defaults: defaults_in_use(self.library),
            present,
            advised,
            land: base.field(Field::BoreLength).value,
            needed_grip: base.number(Fact::NeededGrip).value,
            shortest,
            insertion_needed: insertion_needed(base).value,
            shank_needed: shank_needed(base),
            insertion_possible: insertion_possible(base).value,
            flat: base.number(Fact::FlatStickOut).value,
            holder_minimum: base.field(Field::HolderClampingLengthMin).value,
            ranges: Vec::new(),
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
        });
        Answer {
            ranges: self.ranges(),
            ..answer
        }
    }

    /// The ranges that move an end of the window, each with the windows at its ends.
    fn ranges(&self) -> Vec<RangeAsked> {
        let as_stated = Overrides::default();
        let ranges = self.look(&as_stated, |base, jobs| {
            let of = |view: &View<'_>| RANGED.map(|field| (field, view.range(field)));
            match jobs.first() {
                Some(job) => of(&job.view),
                None => of(&base.view),
            }
        });
        let stated = |field, value| {
            let overrides = Overrides {
                numbers: vec![(field, value)],
                ..Overrides::default()
            };
            window(self.judge, self.library, self.assembly, &overrides)
        };
        let ranges = ranges
            .into_iter()
            .filter_map(|(field, range)| Some((field, range?)));
        let asked = ranges.filter_map(|(field, (low, high))| {
            Some(RangeAsked {
                name: field.short(),
                range: (low, high),
                windows: [stated(field, low)?, stated(field, high)?],
            })
        });
        asked.filter(|asked| asked.moves(self.window)).collect()
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
        words.extend(self.judge.assumptions(base, needed, SettingSet::default()));
        words.sort_unstable();
        words.dedup();
        words
    }
}

fn job(jobs: &[Scene<'_>]) -> Job {
    let deep = jobs.iter().any(|job| job.field(Field::Reach).is_known());
    if deep { Job::Stated } else { Job::NoReach }
}

fn room(base: &Scene<'_>) -> f64 {
    let closing = base.setting(Setting::ClosingRoom).value.unwrap_or(0.0);
    closing + base.number(Fact::DrawIn).value.unwrap_or(0.0)
}

/// With a reach: what the job and the collet ask for. Without: at this stick-out.
fn shortest(base: &Scene<'_>, jobs: &[Scene<'_>]) -> Shortest {
    let reach = stick_out_needed(jobs);
    let behind = insertion_needed(base);
    let front = reach.map_or_else(|| base.field(Field::StickOut), Reckoned::free);
    let found = front.zip(behind).map(|(front, behind)| front + behind);
    let flutes = base.number(Fact::ShortestForFlutes);
    // Regrinding takes a drill's flutes too; where they are not known, neither is this.
    let found = if flutes.is_known() || flutes.trace.missing.contains(Field::ChipFluteLength) {
        found.zip(flutes).map(|(length, flutes)| length.max(flutes))
    } else {
        found
    };
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
