//! Cutters in standard dimensions, and in those of the trade where there is no standard.
//!
//! Shank lengths are those of DIN 6535:1992, table 1.

use shankwise::library::{Field, standard_sizes};

use super::dice::Dice;
use super::dimensions::{
    END_MILLS, INCH_END_MILLS, INCH_JOBBERS, INCH_TAPS, JOBBERS, STEEL_END_MILLS, TAPS,
};
use super::holes::{drill, jobber, reamer, spot_drill, tap};
use super::shankless::{face_mill, probe, slitting_saw};
use super::tool::{Tool, Units};

pub const IN: f64 = 25.4;

/// A cutter of some kind.
pub fn any(dice: &mut Dice, units: Units) -> Tool {
    match (units, dice.pick(&KINDS)) {
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
    }
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

pub fn cutter(kind: &str, material: &str, cut: f64, shank: f64, lengths: [f64; 3]) -> Tool {
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

pub fn standard_shank(diameter: f64) -> f64 {
    standard_sizes::shank_length(diameter).unwrap()
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
    tool.set(Field::HelixAngle, if cut < 8.0 { 30.0 } else { 38.0 });
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
        "bare" => text = String::from("R0.5"),
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
pub fn regrind(dice: &mut Dice, tool: &mut Tool) {
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

fn chamfer(dice: &mut Dice) -> Tool {
    let (cut, overall) = dice.pick(&[(6.0, 57.0), (8.0, 63.0), (10.0, 72.0), (12.0, 83.0)]);
    let lengths = [overall, cut, standard_shank(cut)];
    let mut tool = cutter("chamfer", "carbide", cut, cut, lengths);
    tool.set(Field::PointAngle, 90.0);
    tool.set(Field::FluteCount, 4.0);
    tool.set(Field::DepthOfCutMax, cut / 2.0);
    tool.say(Field::CutterDescription, &format!("CH 90 D{cut}"));
    tool
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
    tool.set(Field::FluteCount, 6.0);
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
    tool.set(Field::FluteCount, 3.0);
    tool.set(Field::DepthOfCutMax, flutes);
    tool.say(Field::CutterDescription, &format!("TM {name} D{cut}"));
    tool
}
