//! Cutters in standard dimensions, and in those of the trade where there is no standard.
//!
//! Lengths of DIN 6527, DIN 6537, DIN 338, DIN 371, DIN 376, DIN 844 and the inch tools are
//! from memory: they are to be plausible, and no test asks for more of them. Shank lengths are
//! those of DIN 6535:1992, table 1.

use shankwise::library::{Field, standing};

use super::dice::Dice;
use super::tool::{Tool, Units};

/// Cutting diameter, shank, short overall and flute length, long ones.
const END_MILLS: &[[f64; 6]] = &[
    [3.0, 6.0, 50.0, 5.0, 57.0, 8.0],
    [4.0, 6.0, 54.0, 8.0, 57.0, 11.0],
    [5.0, 6.0, 54.0, 9.0, 57.0, 13.0],
    [6.0, 6.0, 54.0, 10.0, 57.0, 13.0],
    [8.0, 8.0, 58.0, 12.0, 63.0, 19.0],
    [10.0, 10.0, 66.0, 14.0, 72.0, 22.0],
    [12.0, 12.0, 73.0, 16.0, 83.0, 26.0],
    [14.0, 14.0, 75.0, 18.0, 83.0, 26.0],
    [16.0, 16.0, 82.0, 22.0, 92.0, 32.0],
    [18.0, 18.0, 84.0, 24.0, 92.0, 32.0],
    [20.0, 20.0, 92.0, 26.0, 104.0, 38.0],
    [25.0, 25.0, 105.0, 32.0, 121.0, 45.0],
];

/// Cutting diameter, shank, overall and flute length of high-speed steel end mills.
const STEEL_END_MILLS: &[[f64; 4]] = &[
    [6.0, 6.0, 57.0, 13.0],
    [8.0, 10.0, 69.0, 19.0],
    [10.0, 10.0, 72.0, 22.0],
    [12.0, 12.0, 83.0, 26.0],
    [16.0, 16.0, 92.0, 32.0],
    [20.0, 20.0, 104.0, 38.0],
];

/// Drill, shank, and overall, flute and usable length, short and long.
const DRILLS: &[[f64; 8]] = &[
    [3.3, 6.0, 62.0, 20.0, 14.0, 66.0, 28.0, 23.0],
    [4.2, 6.0, 66.0, 24.0, 17.0, 74.0, 36.0, 29.0],
    [5.0, 6.0, 66.0, 28.0, 20.0, 82.0, 44.0, 35.0],
    [6.8, 8.0, 79.0, 34.0, 24.0, 91.0, 53.0, 43.0],
    [8.0, 8.0, 79.0, 41.0, 29.0, 91.0, 53.0, 43.0],
    [8.5, 10.0, 89.0, 47.0, 35.0, 103.0, 61.0, 49.0],
    [10.2, 12.0, 102.0, 55.0, 40.0, 118.0, 71.0, 56.0],
    [12.0, 12.0, 102.0, 55.0, 40.0, 118.0, 71.0, 56.0],
    [14.0, 14.0, 107.0, 60.0, 43.0, 124.0, 77.0, 60.0],
    [16.0, 16.0, 115.0, 65.0, 45.0, 133.0, 83.0, 63.0],
    [20.0, 20.0, 131.0, 79.0, 55.0, 153.0, 101.0, 77.0],
];

/// Drill, overall and flute length; the shank is as thick as the drill.
const JOBBERS: &[[f64; 3]] = &[
    [1.0, 34.0, 12.0],
    [2.0, 49.0, 24.0],
    [2.5, 57.0, 30.0],
    [3.3, 65.0, 36.0],
    [4.2, 75.0, 43.0],
    [5.0, 86.0, 52.0],
    [5.2, 86.0, 52.0],
    [6.8, 109.0, 69.0],
    [7.8, 117.0, 75.0],
    [8.5, 117.0, 75.0],
    [10.2, 133.0, 87.0],
    [12.0, 151.0, 101.0],
];

/// A tap: name, diameter, pitch, shank, square, its length, overall and thread length.
type Tap = (&'static str, [f64; 7]);

const TAPS: &[Tap] = &[
    ("M3", [3.0, 0.5, 3.5, 2.7, 6.0, 56.0, 18.0]),
    ("M4", [4.0, 0.7, 4.5, 3.4, 6.0, 63.0, 21.0]),
    ("M5", [5.0, 0.8, 6.0, 4.9, 8.0, 70.0, 25.0]),
    ("M6", [6.0, 1.0, 6.0, 4.9, 8.0, 80.0, 30.0]),
    ("M8", [8.0, 1.25, 8.0, 6.2, 9.0, 90.0, 35.0]),
    ("M10", [10.0, 1.5, 10.0, 8.0, 11.0, 100.0, 39.0]),
    ("M12", [12.0, 1.75, 9.0, 7.0, 10.0, 110.0, 29.0]),
    ("M16", [16.0, 2.0, 12.0, 9.0, 12.0, 110.0, 32.0]),
    ("M20", [20.0, 2.5, 16.0, 12.0, 15.0, 140.0, 34.0]),
];

const INCH_TAPS: &[Tap] = &[
    ("1/4-20 UNC", [6.35, 1.27, 6.477, 4.851, 8.0, 63.5, 25.4]),
    (
        "3/8-16 UNC",
        [9.525, 1.5875, 9.677, 7.264, 11.0, 74.6, 31.75],
    ),
    ("1/2-13 UNC", [12.7, 1.9538, 9.322, 6.985, 11.0, 85.7, 42.0]),
];

/// Cutting diameter and shank, overall and flute length, in inches.
const INCH_END_MILLS: &[[f64; 3]] = &[
    [0.25, 2.5, 0.75],
    [0.3125, 2.5, 0.8125],
    [0.375, 2.5, 0.875],
    [0.5, 3.0, 1.0],
    [0.625, 3.5, 1.25],
    [0.75, 4.0, 1.5],
    [1.0, 4.0, 1.5],
];

/// Drill, overall and flute length, in inches.
const INCH_JOBBERS: &[[f64; 3]] = &[
    [0.125, 2.75, 1.625],
    [0.25, 4.0, 2.75],
    [0.375, 5.0, 3.625],
    [0.5, 6.0, 4.5],
];

const IN: f64 = 25.4;

/// A cutter of some kind.
pub fn any(dice: &mut Dice, units: Units) -> Tool {
    let mut tool = match (units, dice.pick(&KINDS)) {
        (Units::Metric, "end mill") => end_mill(dice),
        (Units::Inch, "end mill" | "steel end mill") => inch_end_mill(dice),
        (_, "steel end mill") => steel_end_mill(dice),
        (Units::Metric, "drill") => drill(dice),
        (Units::Metric, "jobber") => jobber(dice, JOBBERS, 1.0),
        (Units::Inch, "drill" | "jobber") => jobber(dice, INCH_JOBBERS, IN),
        (Units::Metric, "tap") => tap(dice, TAPS),
        (Units::Inch, "tap") => tap(dice, INCH_TAPS),
        (_, "reamer") => reamer(dice),
        (_, "chamfer") => chamfer(dice),
        (_, "spot drill") => spot_drill(dice),
        (_, "T-slot") => t_slot(dice),
        (_, "thread mill") => thread_mill(dice),
        (_, "slitting saw") => slitting_saw(dice),
        (_, "face mill") => face_mill(dice),
        (_, "probe") => probe(dice),
        (_, kind) => panic!("no {kind}"),
    };
    if units == Units::Inch && tool.text(Field::CutterDescription).contains('D') {
        tool.forget(&[Field::CutterDescription]);
    }
    tool
}

/// Kinds, the frequent ones several times.
const KINDS: [&str; 19] = [
    "end mill",
    "end mill",
    "end mill",
    "end mill",
    "steel end mill",
    "drill",
    "drill",
    "jobber",
    "jobber",
    "tap",
    "tap",
    "reamer",
    "chamfer",
    "spot drill",
    "T-slot",
    "thread mill",
    "slitting saw",
    "face mill",
    "probe",
];

fn cutter(kind: &str, material: &str, cut: f64, shank: f64, lengths: [f64; 3]) -> Tool {
    let [overall, flutes, shank_length] = lengths;
    let mut tool = Tool::default();
    tool.say(Field::CutterKind, kind);
    tool.say(Field::CutterMaterial, material);
    tool.set(Field::CuttingDiameter, cut);
    tool.set(Field::ShankDiameter, shank);
    tool.set(Field::OverallLength, overall);
    tool.set(Field::ChipFluteLength, flutes);
    tool.set(Field::ShankLength, shank_length);
    tool
}

fn standard_shank(diameter: f64) -> f64 {
    standing::shank_length(diameter).unwrap()
}

/// What end mills and ball noses may have besides.
fn mill(dice: &mut Dice, mut tool: Tool) -> Tool {
    let cut = tool.number(Field::CuttingDiameter).unwrap();
    let overall = tool.number(Field::OverallLength).unwrap();
    let flutes = tool.number(Field::ChipFluteLength).unwrap();
    let shank_length = tool.number(Field::ShankLength).unwrap();
    let edges = flutes - dice.pick(&[0.0, 0.0, 1.0]);
    tool.set(Field::DepthOfCutMax, edges);
    tool.set(Field::FluteCount, dice.pick(&[2.0, 3.0, 4.0]));
    tool.say(Field::Hand, dice.pick(&["right", ""]));
    tool.say(Field::HelixHand, "right");
    let mut text = format!("EM D{cut} L{overall}");
    match dice.pick(&["square", "square", "corner", "ball", "bare"]) {
        "corner" => {
            tool.say(Field::CutterKind, "end mill with corner radius");
            tool.set(Field::CornerRadius, 0.5);
            text = format!("D{cut} R0.5");
        }
        "ball" => {
            tool.say(Field::CutterKind, "ball nose");
            tool.set(Field::CornerRadius, cut / 2.0);
            text = format!("BN R{}", cut / 2.0);
        }
        "bare" => text = "R0.5".to_owned(),
        _ => {}
    }
    tool.say(Field::CutterDescription, &text);
    if dice.chance(40) {
        tool.set(Field::HeadLength, overall - shank_length);
    }
    let neck = overall - shank_length - 1.0;
    if dice.chance(30) && neck > flutes + 2.0 && neck < 5.5 * (cut - 0.5) {
        tool.set(Field::NeckDiameter, cut - 0.5);
        tool.set(Field::NeckLength, neck);
    }
    regrind(dice, &mut tool);
    tool
}

/// A cutter ground once or twice is a little shorter.
fn regrind(dice: &mut Dice, tool: &mut Tool) {
    if dice.chance(15) {
        let new = tool.number(Field::OverallLength).unwrap();
        tool.set(
            Field::OverallLengthActual,
            new - dice.pick(&[0.4, 1.0, 2.5]),
        );
    }
}

fn end_mill(dice: &mut Dice) -> Tool {
    let [cut, shank, short, short_flutes, long, long_flutes] = dice.pick(END_MILLS);
    let (overall, flutes) = dice.pick(&[(short, short_flutes), (long, long_flutes)]);
    let lengths = [overall, flutes, standard_shank(shank)];
    let mut tool = cutter("end mill", "carbide", cut, shank, lengths);
    let forms: &[&str] = if shank < 25.0 {
        &["HA", "HA", "HB", ""]
    } else {
        &["HA"]
    };
    tool.say(Field::ShankForm, dice.pick(forms));
    mill(dice, tool)
}

fn steel_end_mill(dice: &mut Dice) -> Tool {
    let [cut, shank, overall, flutes] = dice.pick(STEEL_END_MILLS);
    let lengths = [overall, flutes, standard_shank(shank)];
    let tool = cutter(
        "end mill",
        dice.pick(&["HSS", "HSS-Co"]),
        cut,
        shank,
        lengths,
    );
    mill(dice, tool)
}

fn inch_end_mill(dice: &mut Dice) -> Tool {
    let [cut, overall, flutes] = dice.pick(INCH_END_MILLS).map(|length| length * IN);
    let lengths = [overall, flutes, overall - flutes - 3.0];
    let tool = cutter("end mill", "carbide", cut, cut, lengths);
    let mut tool = mill(dice, tool);
    let text = match dice.pick(&["trade", "marked", "marked", "none"]) {
        "trade" => "1/2 EM 4FL".to_owned(),
        "marked" => {
            let inches = format!("{:.3}", cut / IN);
            format!("EM D{}", inches.strip_prefix('0').unwrap_or(&inches))
        }
        _ => String::new(),
    };
    tool.say(Field::AssemblyDescription, &text);
    tool
}

/// Channels for coolant, a point, and the words for it.
fn pointed(dice: &mut Dice, mut tool: Tool, angle: f64) -> Tool {
    tool.set(Field::PointAngle, angle);
    let cut = tool.number(Field::CuttingDiameter).unwrap();
    let words = dice.pick(&["DR D", "DRILL ", "5xD D", "DIN 6537 Ø"]);
    tool.say(Field::CutterDescription, &format!("{words}{cut}"));
    tool
}

fn drill(dice: &mut Dice) -> Tool {
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

fn jobber(dice: &mut Dice, sizes: &[[f64; 3]], unit: f64) -> Tool {
    let [cut, overall, flutes] = dice.pick(sizes).map(|length| length * unit);
    let material = dice.pick(&["HSS", "HSS-Co"]);
    let tool = cutter(
        "drill",
        material,
        cut,
        cut,
        [overall, flutes, overall - flutes],
    );
    let mut tool = pointed(dice, tool, dice_angle(cut));
    if dice.chance(30) {
        tool.forget(&[Field::ChipFluteLength]);
    }
    regrind(dice, &mut tool);
    tool
}

fn dice_angle(cut: f64) -> f64 {
    if cut < 5.0 { 118.0 } else { 130.0 }
}

fn tap(dice: &mut Dice, taps: &[Tap]) -> Tool {
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

fn reamer(dice: &mut Dice) -> Tool {
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

fn chamfer(dice: &mut Dice) -> Tool {
    let (cut, overall) = dice.pick(&[(6.0, 57.0), (8.0, 63.0), (10.0, 72.0), (12.0, 83.0)]);
    let lengths = [overall, cut, standard_shank(cut)];
    let mut tool = cutter("chamfer", "carbide", cut, cut, lengths);
    tool.set(Field::PointAngle, 90.0);
    tool.set(Field::DepthOfCutMax, cut / 2.0);
    tool.say(Field::CutterDescription, &format!("CH 90 D{cut}"));
    tool
}

fn spot_drill(dice: &mut Dice) -> Tool {
    let (cut, overall) = dice.pick(&[(6.0, 57.0), (8.0, 63.0), (10.0, 72.0), (12.0, 83.0)]);
    let lengths = [overall, cut * 1.5, standard_shank(cut)];
    let tool = cutter("spot drill", "carbide", cut, cut, lengths);
    pointed(dice, tool, 90.0)
}

fn t_slot(dice: &mut Dice) -> Tool {
    let (cut, width, neck, shank, overall, neck_end) = dice.pick(&[
        (16.0, 8.0, 7.0, 10.0, 60.0, 20.0),
        (21.0, 9.0, 10.0, 12.0, 74.0, 28.0),
        (25.0, 11.0, 12.0, 16.0, 82.0, 33.0),
    ]);
    let lengths = [overall, width, standard_shank(shank)];
    let mut tool = cutter(
        "T-slot",
        dice.pick(&["HSS-Co", "carbide"]),
        cut,
        shank,
        lengths,
    );
    tool.set(Field::DepthOfCutMax, width);
    tool.set(Field::NeckDiameter, neck);
    tool.set(Field::NeckLength, neck_end);
    tool.say(Field::CutterDescription, &format!("TS {cut}x{width}"));
    tool
}

fn thread_mill(dice: &mut Dice) -> Tool {
    let (name, cut, pitch, shank, overall, flutes) = dice.pick(&[
        ("M6", 4.8, 1.0, 6.0, 57.0, 13.0),
        ("M8", 6.0, 1.25, 6.0, 57.0, 17.0),
        ("M10", 8.0, 1.5, 8.0, 63.0, 21.0),
        ("M12", 9.9, 1.75, 10.0, 72.0, 26.0),
    ]);
    let lengths = [overall, flutes, standard_shank(shank)];
    let mut tool = cutter("thread mill", "carbide", cut, shank, lengths);
    tool.set(Field::ThreadPitch, pitch);
    tool.set(Field::DepthOfCutMax, flutes);
    tool.say(Field::CutterDescription, &format!("TM {name} D{cut}"));
    tool
}

/// A saw or a face mill sits on an arbor; what the library calls its shank is the arbor's.
fn on_arbor(kind: &str, material: &str, cut: f64, width: f64) -> Tool {
    let mut tool = Tool::default();
    tool.say(Field::CutterKind, kind);
    tool.say(Field::CutterMaterial, material);
    tool.set(Field::CuttingDiameter, cut);
    tool.set(Field::DepthOfCutMax, width);
    tool
}

fn slitting_saw(dice: &mut Dice) -> Tool {
    let (cut, width, arbor) = dice.pick(&[(40.0, 1.0, 10.0), (63.0, 2.0, 16.0), (80.0, 3.0, 22.0)]);
    let mut tool = on_arbor("slitting saw", "HSS", cut, width);
    tool.set(Field::ChipFluteLength, width);
    if dice.chance(50) {
        tool.set(Field::ShankDiameter, arbor);
    }
    tool.say(Field::CutterDescription, &format!("SAW D{cut}x{width}"));
    tool
}

fn face_mill(dice: &mut Dice) -> Tool {
    let cut = dice.pick(&[40.0, 50.0, 63.0, 80.0]);
    let mut tool = on_arbor("face mill", "steel", cut, 6.0);
    tool.set(Field::CuttingDiameterMax, cut + 12.0);
    tool.say(Field::CutterDescription, &format!("FM D{cut} 45°"));
    tool
}

fn probe(dice: &mut Dice) -> Tool {
    let mut tool = Tool::default();
    tool.say(Field::CutterKind, "probe");
    tool.set(Field::CuttingDiameter, dice.pick(&[2.0, 4.0, 6.0]));
    tool.say(Field::CutterDescription, "TOUCH PROBE");
    tool
}
