//! How a cutter is held: in a collet or in anything else.

use shankwise::library::{Field, standard_sizes};

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
        let holders: &[&str] = if flat { &["side-lock holder"] } else { OTHERS };
        let other = suited(tool, dice.pick(holders));
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
        suited(tool, "shrink fit")
    };
    elsewhere(dice, tool, rest)
}

/// What a tool setter takes instead where a holder does not suit the cutter: no drill chuck for
/// what cuts sideways, and no shrink fit for a steel shank.
fn suited(tool: &Tool, holder: &'static str) -> &'static str {
    let drills = matches!(
        tool.text(Field::CutterKind),
        "drill" | "spot drill" | "tap" | "reamer" | "chamfer"
    );
    match holder {
        "drill chuck" if !drills => "milling chuck",
        "shrink fit" if tool.text(Field::CutterMaterial) != "carbide" => "hydraulic chuck",
        _ => holder,
    }
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
        "probe" => dice.pick(&["one piece", "screwed-on head", "none", "one piece"]),
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
    match kind {
        "other collet" => collet(tool, stick_out),
        "side-lock holder" => side_lock(tool, stick_out),
        "screwed-on head" | "none" => {}
        _ => chuck(tool, kind, stick_out),
    }
    stated(dice, tool, stick_out);
    stick_out
}

/// Plain shank that is in at a stick-out: a square in the rear does not count.
fn plain(tool: &Tool, stick_out: f64) -> f64 {
    let square = tool.number(Field::DriveSquareLength).unwrap_or(0.0);
    tool.length_now() - stick_out - square
}

/// A slotted collet of another system: the nominal bore, whose land is filled.
fn collet(tool: &mut Tool, stick_out: f64) {
    let land = hundredths(plain(tool, stick_out) * 0.9);
    tool.set(Field::ColletSize, 25.0);
    tool.set(
        Field::BoreDiameter,
        tool.number(Field::ShankDiameter).unwrap(),
    );
    tool.set(Field::BoreLength, land);
    tool.set(Field::FaceSetback, 0.0);
}

/// A bore for this shank, from the front face on, and the minimum insertion of its manufacturer:
/// all of the plain shank that is in, or less. It has dice of its own.
fn chuck(tool: &mut Tool, kind: &str, stick_out: f64) {
    let mut dice = Dice::new(stick_out.to_bits());
    let shank = tool.number(Field::ShankDiameter).unwrap();
    let takes = if kind == "drill chuck" {
        dice.pick(&[16.0_f64, 20.0, 26.0]).max(shank)
    } else {
        shank
    };
    let plain = plain(tool, stick_out);
    let part = dice.pick(&[0.6, 0.8, 0.9, 1.0]);
    // A hundredth less: the lengths in the library are rounded, and to the last digit in inches.
    tool.set(
        Field::HolderClampingLengthMin,
        hundredths(plain * part) - 0.01,
    );
    tool.set(Field::HolderBoreDiameter, takes);
    tool.set(Field::HolderBoreLength, hundredths(plain * 0.95));
    tool.set(Field::HolderBoreRecess, 0.0);
}

/// A screw that meets the flat of DIN 6535 at this stick-out, give or take less than a millimetre.
fn side_lock(tool: &mut Tool, stick_out: f64) {
    let mut dice = Dice::new(stick_out.to_bits());
    let shank = tool.number(Field::ShankDiameter).unwrap();
    let mut flats = standard_sizes::FLATS.table.flat.iter();
    let flat = flats.find(|flat| flat.diameter == shank).unwrap().centre;
    let beside = dice.pick(&[0.0, 0.0, 0.5, -0.8]);
    tool.set(Field::FlatDistance, flat);
    tool.set(
        Field::ScrewDistance,
        hundredths(tool.length_now() - stick_out - flat + beside),
    );
    tool.say(Field::SeatForm, dice.pick(&["HB", ""]));
    tool.set(Field::HolderBoreDiameter, shank);
    tool.set(Field::HolderBoreRecess, 0.0);
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
