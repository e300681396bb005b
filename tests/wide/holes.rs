//! Cutters that make holes: drills, taps, reamers.

use shankwise::library::Field;

use super::cutters::{cutter, regrind, standard_shank};
use super::dice::Dice;
use super::dimensions::{DRILLS, Tap};
use super::tool::Tool;

/// Channels for coolant, a point, and the words for it.
fn pointed(dice: &mut Dice, mut tool: Tool, angle: f64) -> Tool {
    tool.set(Field::PointAngle, angle);
    let cut = tool.number(Field::CuttingDiameter).unwrap();
    let words = dice.pick(&["DR D", "DRILL ", "5xD D", "DIN 6537 Ø"]);
    tool.say(Field::CutterDescription, &format!("{words}{cut}"));
    tool
}

pub fn drill(dice: &mut Dice) -> Tool {
    let [
        cut,
        shank,
        short,
        short_flutes,
        short_reach,
        long,
        long_flutes,
        long_reach,
    ] = dice.pick(DRILLS);
    let of = [
        (short, short_flutes, short_reach),
        (long, long_flutes, long_reach),
    ];
    let (overall, flutes, reach) = dice.pick(&of);
    let lengths = [overall, flutes, standard_shank(shank)];
    let mut tool = pointed(dice, cutter("drill", "carbide", cut, shank, lengths), 140.0);
    if dice.chance(50) {
        tool.set(Field::UsableLength, reach);
    }
    tool.say(Field::CoolantChannels, dice.pick(&["yes", "yes", "no", ""]));
    tool
}

pub fn jobber(dice: &mut Dice, sizes: &[[f64; 3]], unit: f64) -> Tool {
    let [cut, overall, flutes] = dice.pick(sizes).map(|length| length * unit);
    let material = dice.pick(&["HSS", "HSS-Co"]);
    let tool = cutter(
        "drill",
        material,
        cut,
        cut,
        [overall, flutes, overall - flutes],
    );
    let mut tool = pointed(dice, tool, point_of(cut));
    if dice.chance(30) {
        tool.forget(&[Field::ChipFluteLength]);
    }
    regrind(dice, &mut tool);
    tool
}

fn point_of(cut: f64) -> f64 {
    if cut < 5.0 { 118.0 } else { 130.0 }
}

pub fn tap(dice: &mut Dice, taps: &[Tap]) -> Tool {
    let (name, [cut, pitch, shank, square, square_length, overall, thread]) = dice.pick(taps);
    let lengths = [overall, thread, overall - thread - 4.0];
    let mut tool = cutter("tap", dice.pick(&["HSS", "HSS-Co"]), cut, shank, lengths);
    tool.set(Field::ThreadPitch, pitch);
    tool.set(Field::CutterDriveSquare, square);
    tool.set(Field::DriveSquareLength, square_length);
    tool.say(Field::Hand, "right");
    tool.say(Field::CutterDescription, &format!("{name} HSS"));
    tool
}

pub fn reamer(dice: &mut Dice) -> Tool {
    let (cut, overall, flutes) = dice.pick(&[
        (4.0, 75.0, 19.0),
        (6.0, 93.0, 26.0),
        (8.0, 117.0, 33.0),
        (10.0, 133.0, 38.0),
        (12.0, 151.0, 44.0),
    ]);
    let mut tool = cutter("reamer", "HSS", cut, cut, [overall, flutes, 45.0]);
    tool.say(Field::CutterDescription, &format!("{cut}H7"));
    tool.say(Field::Hand, "right");
    tool.say(Field::HelixHand, dice.pick(&["left", "right", ""]));
    tool
}

pub fn spot_drill(dice: &mut Dice) -> Tool {
    let (cut, overall) = dice.pick(&[(6.0, 57.0), (8.0, 63.0), (10.0, 72.0), (12.0, 83.0)]);
    let lengths = [overall, cut * 1.5, standard_shank(cut)];
    let tool = cutter("spot drill", "carbide", cut, cut, lengths);
    pointed(dice, tool, 90.0)
}
