//! How a cutter is held: in a collet or in anything else.

use shankwise::library::Field;

use super::collet::in_collet;
use super::dice::{Dice, hundredths};
use super::tool::{Tool, Units};

/// Puts a cutter into what may hold it; the stick-out is among what is stated afterwards.
pub fn hold(dice: &mut Dice, tool: &mut Tool, units: Units) -> f64 {
    let kind = tool.text(Field::CutterKind).to_owned();
    tool.say(
        Field::MachineInterface,
        dice.pick(&["steep taper 40", "hollow taper 63", ""]),
    );
    let gauge = hundredths(dice.pick(&[60.0, 70.0, 80.0, 100.0, 120.0]));
    tool.set(Field::GaugeLength, gauge);
    if tool.number(Field::OverallLength).is_none() {
        return without_shank(dice, tool, &kind);
    }
    let square = tool.number(Field::CutterDriveSquare).is_some();
    if square && dice.chance(15) {
        return elsewhere(dice, tool, "tapping attachment");
    }
    if dice.chance(30) && !square {
        let flat = tool.text(Field::ShankForm) == "HB";
        let holders: &[&str] = if flat {
            &["clamp screw on flat"]
        } else {
            OTHERS
        };
        let other = dice.pick(holders);
        return elsewhere(dice, tool, other);
    }
    for _ in 0..60 {
        if let Some(stick_out) = in_collet(dice, tool, units) {
            return stick_out;
        }
    }
    let rest = if square {
        "tapping attachment"
    } else {
        "shrink fit"
    };
    elsewhere(dice, tool, rest)
}

const OTHERS: &[&str] = &[
    "shrink fit",
    "hydraulic chuck",
    "milling chuck",
    "drill chuck",
    "other collet",
    "screwed-on head",
    "other",
    "none",
];

fn without_shank(dice: &mut Dice, tool: &mut Tool, kind: &str) -> f64 {
    let held = match kind {
        "probe" => dice.pick(&["one piece", "screwed-on head", "none", "other"]),
        _ => "arbor",
    };
    tool.say(Field::ClampingKind, held);
    let stick_out = dice.pick(&[30.0, 40.0, 45.5]);
    tool.set(Field::StickOut, stick_out);
    stick_out
}

/// A chuck or shrink holder takes the shank nearly whole.
fn elsewhere(dice: &mut Dice, tool: &mut Tool, kind: &str) -> f64 {
    let shank = tool.number(Field::ShankLength).unwrap();
    let diameter = tool.number(Field::ShankDiameter).unwrap();
    let longest = slender(tool).unwrap_or(f64::INFINITY) * diameter;
    let now = tool.length_now();
    let stick_out = hundredths((now - shank * dice.between(0.8, 0.98)).min(longest));
    tool.say(Field::ClampingKind, kind);
    tool.set(Field::NoseDiameter, diameter + 12.0);
    if kind == "other collet" {
        tool.set(Field::BoreDiameter, diameter);
    }
    stated(dice, tool, stick_out);
    stick_out
}

/// Overhang in diameters that is good practice for a cutter that mills.
pub fn slender(tool: &Tool) -> Option<f64> {
    let mills = !matches!(
        tool.text(Field::CutterKind),
        "drill" | "spot drill" | "tap" | "reamer" | "chamfer"
    );
    let carbide = tool.text(Field::CutterMaterial) == "carbide";
    mills.then_some(if carbide { 6.0 } else { 4.5 })
}

/// The stick-out and the other lengths, stated in one of the ways in which libraries do.
pub fn stated(dice: &mut Dice, tool: &mut Tool, stick_out: f64) {
    let gauge = tool.number(Field::GaugeLength).unwrap();
    let insertion = tool.length_now() - stick_out;
    let protruding = hundredths(gauge + stick_out);
    let point = tool.number(Field::PointAngle).map_or(0.0, |angle| {
        let half = (angle / 2.0).to_radians();
        tool.number(Field::CuttingDiameter).unwrap() / 2.0 / half.tan()
    });
    match dice.pick(&["plain", "plain", "plain", "protruding", "clamping", "all"]) {
        "protruding" => tool.set(Field::ProtrudingLength, protruding),
        "clamping" => tool.set(Field::ClampingLength, hundredths(insertion)),
        "all" => {
            tool.set(Field::StickOut, stick_out);
            tool.set(Field::ProtrudingLength, protruding);
            tool.set(Field::FunctionalLength, hundredths(protruding - point));
            tool.set(Field::ClampingLength, hundredths(insertion));
        }
        _ => tool.set(Field::StickOut, stick_out),
    }
}
