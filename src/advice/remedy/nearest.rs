//! Where nothing serves: what would have to be bought, or stated.

use crate::facts::{Fact, Scene};
use crate::judge::{Judge, Ruling};
use crate::library::{Field, Overrides};
use crate::rulebook::Rule;

use super::kinds::Nearest;
use super::trial::Patient;
use super::verify;

/// Rules that a longer cutter cures, one with a longer shank, or another depth of holder.
const OF_LENGTH: [&str; 6] = [
    "grip/short-grip",
    "grip/shank-too-short",
    "grip/flutes-in-bore",
    "grip/tail-on-stop",
    "grip/below-maker-clamping",
    "reach/too-short-for-the-job",
];
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
        let held = base.view.held_in_collet().value == Some(true);
        if held && fails(&OF_LENGTH) {
            lengths(&mut found, base, operations);
        }
        if fails(&OF_FLUTES) {
            found.flute_length_min = flutes(patient.judge, &patient.before, operations);
        }
        if fails(&["grip/square-mismatch", "grip/shank-outside-bore-range"]) {
            found.bore = base.field(Field::ShankDiameter).value;
        }
        if fails(&["grip/square-mismatch"]) {
            found.drive_square = base.field(Field::CutterDriveSquare).value;
        }
        found.why = String::from(why(held, &missing, &fails));
        found
    });
    nearest.rules = rules.iter().map(|rule| rule.id.clone()).collect();
    nearest.missing = missing;
    nearest
}

fn why(held: bool, missing: &[&str], fails: &dyn Fn(&[&str]) -> bool) -> &'static str {
    if !held {
        return "it is not held in a collet, and the library does not state what else clamps how far";
    }
    if !missing.is_empty() {
        return "nothing can be verified until what is missing is stated";
    }
    if fails(&["grip/square-mismatch"]) {
        return "no collet on hand has this bore and this square";
    }
    if fails(&["grip/shank-outside-bore-range"]) {
        return "no collet on hand fits this shank in this holder";
    }
    if fails(&["grip/size-mismatch"]) {
        return "no collet, nut and holder on hand belong together";
    }
    if fails(&OF_FLUTES) {
        return "no cutter on hand that cuts the same has flutes or a neck long enough";
    }
    "no cutter, collet or holder on hand leaves both reach and grip"
}

/// The lengths that a cutter for this collet needs.
///
/// # Formula
/// overall length ≥ reach needed + bore setback + needed grip + square length;
/// plain shank ≥ needed grip + square length.
fn lengths(found: &mut Nearest, base: &Scene<'_>, operations: &[Scene<'_>]) {
    let number = |fact| base.number(fact).value;
    found.reach_needed = operations
        .iter()
        .filter_map(|scene| scene.number(Fact::ReachNeeded).value)
        .reduce(f64::max);
    found.bore_setback = number(Fact::BoreSetback);
    found.needed_grip = number(Fact::NeededGrip);
    found.land = base.field(Field::BoreLength).value;
    found.square_length = base.field(Field::DriveSquareLength).value;
    let back = found.needed_grip.zip(found.square_length);
    let back = back.map(|(grip, square)| grip + square);
    found.shank_length_min = back;
    let front = found.reach_needed.zip(found.bore_setback);
    let front = front.map(|(reach, setback)| reach + setback);
    found.overall_length_min = front.zip(back).map(|(front, back)| front + back);
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
