//! Where nothing serves: what would have to be bought, or stated.

use crate::facts::{Fact, Scene};
use crate::judge::{Judge, Ruling};
use crate::library::{Field, Overrides};
use crate::rulebook::Rule;

use super::super::needs::{
    grip_needed, insertion_needed, insertion_possible, setting_tolerance, shank_needed,
    stick_out_needed,
};
use super::kinds::Nearest;
use super::trial::Patient;
use super::verify;

/// Rules that a longer cutter cures, one with a longer shank, or another depth of holder.
const OF_LENGTH: [&str; 9] = [
    "grip/short-grip",
    "grip/below-holder-minimum",
    "grip/below-cutter-minimum",
    "grip/below-collet-minimum",
    "grip/little-shank",
    "grip/shank-too-short",
    "grip/flutes-in-bore",
    "grip/tail-on-stop",
    "reach/too-short-for-the-job",
];
/// The rule about the room that a nut has.
const NUT_FOULS: [&str; 1] = ["reach/nut-fouls"];
/// Rules about what collet, nut and holder have of each other, and of the tool's tail.
const OF_SQUARE: [&str; 1] = ["grip/square-mismatch"];
const OF_BORE: [&str; 1] = ["grip/shank-outside-bore-range"];
const OF_SIZE: [&str; 1] = ["grip/size-mismatch"];
/// Rules about flutes and neck.
const OF_FLUTES: [&str; 3] = [
    "reach/drill-deeper-than-flutes",
    "reach/flutes-too-short",
    "reach/shank-or-neck-rubs",
];

/// What comes nearest to a cure of these rules.
pub(super) fn nearest(patient: &Patient<'_>, rules: &[&Rule]) -> Nearest {
    let missing = verify::missing(patient.judge, &patient.before);
    let fails = |ids: &[&str]| rules.iter().any(|rule| ids.contains(&rule.id.as_str()));
    let mut nearest = patient.look(&Overrides::default(), |base, operations| {
        let mut found = Nearest::default();
        let held = base.view.held_by_shank().value == Some(true);
        if held && fails(&OF_LENGTH) {
            lengths(&mut found, base, operations);
        }
        if fails(&OF_FLUTES) {
            found.flute_length_min = flutes(patient.judge, &patient.before, operations);
        }
        if fails(&OF_SQUARE) || fails(&OF_BORE) {
            found.bore = base.field(Field::ShankDiameter).value;
        }
        if fails(&OF_SQUARE) {
            found.drive_square = base.field(Field::CutterDriveSquare).value;
        }
        if fails(&NUT_FOULS) {
            found.nut_diameter_max = nut(base, operations);
        }
        if found.why.is_empty() {
            let misfit = rules.iter().any(|rule| rule.needs_part());
            let (why, about) = why(held, misfit, &missing, &fails);
            found.why = String::from(why);
            found.about = about.to_vec();
        }
        found
    });
    nearest.rules = rules.iter().map(|rule| rule.id.clone()).collect();
    nearest.missing = missing;
    nearest.room = 2.0 * setting_tolerance(patient.judge);
    nearest
}

/// Why nothing serves, and the rules that this is about; none if it is about all.
fn why(
    held: bool,
    misfit: bool,
    missing: &[&str],
    fails: &dyn Fn(&[&str]) -> bool,
) -> (&'static str, &'static [&'static str]) {
    if !held {
        return (
            "nothing stated says that it is held by its shank, and by what",
            &[],
        );
    }
    if !missing.is_empty() {
        return (
            "no remedy can be rechecked until what is missing is stated",
            &[],
        );
    }
    let reasons: [(&[&str], &str); 5] = [
        (
            &OF_SQUARE,
            "no collet on hand has this bore and this square",
        ),
        (&OF_BORE, "no collet on hand fits this shank in this holder"),
        (
            &OF_SIZE,
            "no collet, nut and holder on hand belong together",
        ),
        (
            &NUT_FOULS,
            "no nut on hand is slim enough for the pocket, and no cutter keeps it above",
        ),
        (
            &OF_FLUTES,
            "no cutter on hand that cuts the same has flutes or a neck long enough",
        ),
    ];
    let found = reasons.into_iter().find(|(rules, _)| fails(rules));
    if found.is_none() && misfit {
        return (
            "nothing on hand takes the place of the part that does not suit",
            &[],
        );
    }
    found.map_or(
        (
            "no cutter that cuts the same, and no other collet or holder on hand, leaves both reach and grip",
            &[],
        ),
        |(rules, why)| (why, rules),
    )
}

/// The lengths that a cutter for this collet or holder needs; none if the present one has them, so that
/// they are not what is wrong.
///
/// # Formula
/// overall length ≥ stick-out needed + insertion needed; plain shank ≥ insertion needed - bore
/// setback. mm.
fn lengths(found: &mut Nearest, base: &Scene<'_>, operations: &[Scene<'_>]) {
    let number = |fact| base.number(fact).value;
    let grip = number(Fact::NeededGrip);
    let square = base.field(Field::DriveSquareLength).value;
    let setback = base.at_most(|scene| scene.number(Fact::BoreSetback)).value;
    let behind = insertion_needed(base).value;
    let reach = stick_out_needed(operations);
    let overall = reach.zip(behind).map(|(reach, behind)| reach + behind);
    let shank = shank_needed(base);
    let has = |has: Option<f64>, needed: Option<f64>| {
        needed.is_none_or(|needed| has.is_some_and(|has| has >= needed))
    };
    let long = base.view.overall_length().value;
    let plain = base.field(Field::ShankLength).value;
    let stopped = insertion_possible(base).value.zip(behind);
    if stopped.is_some_and(|(room, behind)| room < behind) {
        found.why = String::from(
            "no cutter serves: a stop, or a maker's greatest insertion, leaves less behind the front face than the grip needs",
        );
        return;
    }
    if has(long, overall) && has(plain, shank) {
        return;
    }
    found.reach_needed = reach;
    found.land = base.field(Field::BoreLength).value;
    found.overall_length_min = overall;
    found.shank_length_min = shank;
    if behind > grip_needed(base).value {
        found.clamped_min = behind;
    } else {
        found.bore_setback = setback;
        found.needed_grip = grip;
        found.square_length = square;
    }
}

/// The largest nut that fits into the pockets of all operations.
///
/// # Formula
/// room diameter - 2 side clearance = diameter of the present nut + its room, mm.
fn nut(base: &Scene<'_>, operations: &[Scene<'_>]) -> Option<f64> {
    let own = base.field(Field::NutOuterDiameter).value?;
    let rooms = operations.iter();
    let rooms = rooms.filter_map(|scene| scene.number(Fact::NutRoom).value);
    rooms.map(|room| own + room).reduce(f64::min)
}

/// The flutes, or flutes and relieved neck, that the failing operations need.
///
/// # Formula
/// drills: reach + so many diameters as the rule asks to be left for the chips; cuts deeper than
/// the edges: the axial depth; what rubs: the reach. mm.
fn flutes(judge: &Judge<'_>, before: &[Ruling], operations: &[Scene<'_>]) -> Option<f64> {
    let failing = before.iter().filter(|ruling| verify::is_error(ruling.said));
    let needed = failing.filter_map(|ruling| {
        let rule = judge.book.rules.get(ruling.rule)?;
        let scene = operations.get(ruling.operation?)?;
        let reach = scene.field(Field::Reach).value;
        match rule.id.as_str() {
            "reach/drill-deeper-than-flutes" => {
                let mut limits = rule.limits.iter();
                let limit = limits.find(|limit| limit.name == "clear_diameters");
                let clear = limit.map_or(0.0, |limit| limit.value);
                Some(reach? + clear * scene.field(Field::CuttingDiameter).value?)
            }
            "reach/flutes-too-short" => scene.field(Field::AxialDepth).value,
            "reach/shank-or-neck-rubs" => reach,
            _ => None,
        }
    });
    needed.reduce(f64::max)
}
