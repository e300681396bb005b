//! How a tool is set, how it is measured, and within which limits.

use crate::advice::{insertion_needed, setting_tolerance};
use crate::facts::{Fact, Scene};
use crate::judge::Judge;
use crate::library::Field;

use super::built::{Protruding, Shortest, StickOut, Stop, TorqueShown};
use super::run_out::RunOutShown;

/// All that is set, measured and kept. Lengths in mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Setting {
    /// The recorded stick-out.
    pub stick_out: Option<StickOut>,
    /// The overall length that the mark is worked out for.
    pub overall_length: Option<f64>,
    /// From the shank end to the mark, which is flush with the nut or holder face.
    pub mark: Option<f64>,
    /// How nearly a stick-out is set.
    pub tolerance: f64,
    /// The length of the bore that grips.
    pub gripping_length: Option<f64>,
    /// The least of it that must be filled, of a slotted collet.
    pub grip_needed: Option<f64>,
    /// How much of it is filled as recorded.
    pub gripped: Option<f64>,
    /// How far the tool must go in behind the nut or holder face.
    pub insertion_needed: Option<f64>,
    /// The protruding length to measure once it is clamped.
    pub protruding: Option<Protruding>,
    /// What is behind the shank end.
    pub stop: Option<Stop>,
    /// The nut's torque; none without a nut.
    pub torque: Option<TorqueShown>,
    /// The run-out.
    pub run_out: RunOutShown,
    /// The greatest speed, rpm, and the part that has it.
    pub speed: Option<(f64, &'static str)>,
    /// The shortest that the tool may be.
    pub shortest: Option<Shortest>,
    /// Whether a shank is held at all.
    pub held: bool,
}

impl Setting {
    pub(super) fn of(
        base: &Scene<'_>,
        judge: &Judge<'_>,
        nut: bool,
        run_out: RunOutShown,
    ) -> Setting {
        let tolerance = setting_tolerance(judge);
        let stick_out = StickOut::of(base);
        let overall = overall_length(base);
        let out = stick_out.map(|one| one.length);
        let mark = overall.zip(out).map(|(overall, out)| overall - out);
        let mark = mark.filter(|mark| *mark > 0.0);
        let held = base.view.held_by_shank().value != Some(false);
        let least = |fact| base.at_least(|scene| scene.number(fact)).value;
        let most = |fact| base.at_most(|scene| scene.number(fact)).value;
        let speed = base.number(Fact::SpeedLimit).value;
        let speed_of = base.fact(Fact::SpeedLimitIs).text().value;
        Setting {
            stick_out,
            overall_length: overall,
            mark: mark.filter(|_| held),
            tolerance,
            gripping_length: base.number(Fact::BoreLength).value.filter(|_| held),
            grip_needed: most(Fact::NeededGrip),
            gripped: least(Fact::GrippedLength),
            insertion_needed: insertion_needed(base).value,
            protruding: Protruding::of(base, tolerance),
            stop: held.then(|| Stop::of(base, mark)).flatten(),
            torque: nut.then(|| TorqueShown::of(base)),
            run_out: RunOutShown {
                recorded: base.field(Field::RunOut).value,
                class: class(base),
                ..run_out
            },
            speed: speed.zip(speed_of.and_then(part_of)),
            shortest: Shortest::of(base),
            held,
        }
    }
}

/// The length of the tool that lies there: as it is now if that is stated, else as it was new.
pub(super) fn overall_length(base: &Scene<'_>) -> Option<f64> {
    let now = base.field(Field::OverallLengthActual).value;
    now.or(base.field(Field::OverallLength).value)
}

/// What the class of a new collet allows at the tip, where nobody has measured.
fn class(base: &Scene<'_>) -> Option<f64> {
    let measured = base.field(Field::RunOut).is_known();
    let at_tip = base.number(Fact::RunOutTip);
    at_tip.value.filter(|_| !measured)
}

/// The part that a speed limit is of.
fn part_of(word: &str) -> Option<&'static str> {
    let parts = ["cutter", "nut", "holder"];
    parts.into_iter().find(|part| *part == word)
}
