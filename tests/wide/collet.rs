//! A collet that grips a shank in full, to two thirds, or between, with its nut and holder.
//!
//! Collets have the dimensions that the trade gives them, from memory; torques are invented.

use shankwise::library::Field;

use super::clamping::{slender, stated};
use super::dice::{Dice, hundredths};
use super::tool::{Tool, Units};

/// Size, length, largest bore, collapse, thread of the nut, thread and outside of a small one.
type Size = (f64, [f64; 3], &'static str, &'static str, f64);

pub const SIZES: &[Size] = &[
    (11.0, [18.0, 7.0, 0.5], "M14x0.75", "M13x0.75", 19.0),
    (16.0, [27.5, 10.0, 1.0], "M22x1.5", "M19x1", 28.0),
    (20.0, [31.5, 13.0, 1.0], "M25x1.5", "M24x1", 34.0),
    (25.0, [34.0, 16.0, 1.0], "M32x1.5", "M30x1", 42.0),
    (32.0, [40.0, 20.0, 1.0], "M40x1.5", "M35x1.5", 50.0),
    (40.0, [46.0, 26.0, 1.0], "M50x1.5", "M42x1.5", 63.0),
];

/// A collet and its nut and holder; nothing if the shank does not suit the size.
pub fn in_collet(dice: &mut Dice, tool: &mut Tool, units: Units) -> Option<f64> {
    let (size, [length, bore_max, collapse], thread, reduced, outside) = dice.pick(SIZES);
    let shank = tool.number(Field::ShankDiameter)?;
    let sealed = tool.text(Field::CoolantChannels) == "yes";
    let bore = bore(dice, shank, collapse, sealed, units);
    if bore > bore_max {
        return None;
    }
    let (form, recess, land) = land(dice, tool, length, bore > bore_max / 2.0);
    let setback = dice.pick(&[0.0, 0.0, 0.5, 1.0, 2.0, -0.3]);
    let rear = (form == "tapping").then_some(setback + length);
    let stick_out = stick_out(dice, tool, (setback + recess, land), rear)?;
    tool.say(
        Field::ClampingKind,
        dice.pick(&["collet chuck", "taper collet", ""]),
    );
    tool.set(Field::ColletSize, size);
    tool.set(Field::BoreDiameter, bore);
    if dice.chance(60) {
        let range = if sealed { 0.1 } else { collapse };
        tool.set(Field::BoreDiameterMin, bore - range);
    }
    tool.set(Field::BoreLength, land);
    tool.say(Field::BoreForm, form);
    if form == "tapping" {
        tool.set(
            Field::ColletDriveSquare,
            tool.number(Field::CutterDriveSquare)?,
        );
    }
    // What is not stated is a range, and may leave a sound tool unjudged.
    tool.set(Field::FaceSetback, setback);
    if recess != 0.0 {
        tool.set(Field::BoreRecess, recess);
    }
    nut_and_holder(dice, tool, (size, thread, reduced, outside), sealed);
    torques(dice, tool, size, bore);
    stop(dice, tool, stick_out, bore - shank);
    makers(dice, tool, stick_out);
    stated(dice, tool, stick_out);
    Some(stick_out)
}

/// The nominal bore, or the next half millimetre above if that closes the collet by less than
/// half of its range.
fn bore(dice: &mut Dice, shank: f64, collapse: f64, sealed: bool, units: Units) -> f64 {
    let next = (shank * 2.0).ceil() / 2.0;
    let little = next - shank < collapse * 0.45;
    let inch = units == Units::Inch && dice.chance(70);
    if sealed || inch || !little {
        shank
    } else {
        next
    }
}

/// Form, recess and length of the gripping land.
fn land(dice: &mut Dice, tool: &Tool, length: f64, large: bool) -> (&'static str, f64, f64) {
    if tool.number(Field::CutterDriveSquare).is_some() {
        let big = tool.number(Field::CuttingDiameter).unwrap() >= 12.0;
        if big || dice.chance(60) {
            return ("tapping", 0.0, hundredths(length * 0.6));
        }
    }
    let forms: &[&str] = if large {
        &["through", "through", "", "relieved in front"]
    } else {
        &["relieved at the rear", "relieved at the rear", "through"]
    };
    match dice.pick(forms) {
        "relieved at the rear" => ("relieved at the rear", 0.0, hundredths(length * 0.55)),
        "relieved in front" => ("relieved in front", 3.0, length - 3.0),
        "through" => ("through", 0.0, length),
        _ => ("", 0.0, length),
    }
}

/// A stick-out at which the land is gripped in full, to two thirds, or between; and at which half
/// of a tap's square at least lies behind the land and before the collet's rear end.
fn stick_out(
    dice: &mut Dice,
    tool: &Tool,
    (setback, land): (f64, f64),
    rear: Option<f64>,
) -> Option<f64> {
    let now = tool.length_now();
    let shank = tool.number(Field::ShankLength)?;
    let square = tool.number(Field::DriveSquareLength).unwrap_or(0.0);
    let longest = slender(tool).unwrap_or(f64::INFINITY) * tool.number(Field::ShankDiameter)?;
    let least = now - shank - setback;
    let whole = now - square - setback - land;
    let thirds = now - square - setback - land * 2.0 / 3.0;
    let behind = now - setback - land - square / 2.0;
    let driven = rear.map_or(f64::INFINITY, |_| behind);
    let least = least.max(rear.map_or(least, |rear| now - rear - square / 2.0));
    let most = thirds.min(longest).min(driven);
    if least > most || most < 5.0 || whole < least && dice.chance(50) {
        return None;
    }
    let between = dice.between(least, most);
    let chosen = dice.pick(&[least, whole.clamp(least, most), most, most, between]);
    let chosen = hundredths(chosen.max(3.0));
    (chosen <= most + 0.005).then_some(chosen)
}

fn nut_and_holder(
    dice: &mut Dice,
    tool: &mut Tool,
    (size, thread, reduced, outside): (f64, &str, &str, f64),
    sealed: bool,
) {
    let styles: &[&str] = if sealed {
        &["sealing"]
    } else {
        &["standard", "standard", "reduced", "bearing", ""]
    };
    let style = dice.pick(styles);
    tool.say(Field::NutStyle, style);
    if dice.chance(80) {
        tool.set(Field::NutColletSize, size);
        tool.set(Field::HolderColletSize, size);
    }
    let thread = if style == "reduced" { reduced } else { thread };
    tool.say(Field::HolderNutThread, dice.pick(&[thread, ""]));
    if style == "reduced" || dice.chance(40) {
        tool.say(Field::NutThread, thread);
        let thinner = if style == "reduced" { 8.0 } else { 0.0 };
        tool.set(Field::NutOuterDiameter, outside - thinner);
    }
    if sealed {
        let (nut, collet) = dice.pick(&[("yes", "no"), ("no", "yes"), ("yes", "yes")]);
        tool.say(Field::NutSealed, nut);
        tool.say(Field::ColletSealed, collet);
    }
}

fn torques(dice: &mut Dice, tool: &mut Tool, size: f64, bore: f64) {
    let recommended = size * 3.0 + 10.0;
    match dice.pick(&["collet", "nut", "none"]) {
        "collet" => tool.set(Field::ColletTorqueRecommended, recommended),
        "nut" => {
            tool.set(Field::NutTorqueRecommended, recommended);
            tool.set(Field::TorqueBoreMin, bore - 1.0);
            tool.set(Field::TorqueBoreMax, bore + 3.0);
        }
        _ => {}
    }
    if dice.chance(50) {
        tool.set(Field::TorqueMax, recommended * 1.25);
    }
    if dice.chance(30) {
        tool.set(Field::WrenchTorqueMax, recommended * 1.5);
    }
    if dice.chance(80) {
        let torque = recommended * dice.pick(&[0.85, 0.95, 1.0, 1.0]);
        tool.set(Field::NutTorque, torque);
    }
}

/// A stop that leaves what the collet draws in, and a millimetre.
fn stop(dice: &mut Dice, tool: &mut Tool, stick_out: f64, gap: f64) {
    if dice.chance(50) {
        let draw_in = gap / (2.0 * 8_f64.to_radians().tan());
        let least = tool.length_now() - stick_out + draw_in + 1.0;
        let more = dice.pick(&[0.0, 0.0, 4.5, 20.0]);
        tool.set(Field::InsertionDepthMax, hundredths(least + 0.005 + more));
    }
}

fn makers(dice: &mut Dice, tool: &mut Tool, stick_out: f64) {
    let insertion = tool.length_now() - stick_out;
    // The plain shank has to cover a minimum, and a square in the rear is none.
    let plain = insertion - tool.number(Field::DriveSquareLength).unwrap_or(0.0);
    let least = [
        Field::CutterClampingLengthMin,
        Field::ColletClampingLengthMin,
        Field::HolderClampingLengthMin,
    ];
    for field in least {
        if dice.chance(15) {
            let less = dice.pick(&[0.0, 2.0]);
            tool.set(field, hundredths(plain - less).max(0.0));
        }
    }
    for field in [
        Field::CutterClampingLengthMax,
        Field::ColletClampingLengthMax,
    ] {
        if dice.chance(15) {
            tool.set(field, hundredths(insertion + dice.pick(&[0.0, 3.0])));
        }
    }
}
