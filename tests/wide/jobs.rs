//! What a job asks of a tool, within what the tool can do.

use shankwise::library::Field;

use super::dice::{Dice, hundredths};
use super::tool::Tool;

/// Gives the tool an operation, if its kind has any.
pub fn give(dice: &mut Dice, tool: &mut Tool, stick_out: f64) {
    let kind = tool.text(Field::CutterKind).to_owned();
    if kind == "probe" || dice.chance(10) {
        return;
    }
    tool.say(Field::Operation, "op10");
    let clearance = dice.pick(&[0.0, 1.0, 2.0]);
    // What is not stated is a range, and may leave a sound tool unjudged.
    tool.set(Field::Clearance, clearance);
    if clearance <= 0.0 {
        // Thrown once for whether to state it: so the libraries stay those that were counted.
        let _ = dice.chance(30);
    }
    let most = stick_out - clearance;
    let reach = match kind.as_str() {
        "drill" => drilling(dice, tool, most),
        "spot drill" => {
            tool.say(Field::OperationKind, "drilling");
            3.0
        }
        "tap" => tapping(dice, tool, most),
        "reamer" => {
            tool.say(Field::OperationKind, "reaming");
            tool.say(Field::Finishing, dice.pick(&["yes", ""]));
            dice.between(5.0, most)
        }
        _ => milling(dice, tool, most),
    };
    tool.set(Field::Reach, hundredths(reach.min(most).max(0.5)));
    speeds(dice, tool);
    coolant(dice, tool);
    if dice.chance(50) {
        load(dice, tool);
    }
    if tool.text(Field::Hand) == "right" {
        tool.say(Field::SpindleDirection, "right");
    }
    if let (Some(nut), true) = (tool.number(Field::NutOuterDiameter), dice.chance(30)) {
        tool.set(Field::RoomDiameter, nut + dice.pick(&[1.0, 5.0, 40.0]));
        tool.set(Field::RoomDepth, 10.0);
    }
}

/// As deep as the maker says, or until one and a half diameters of flute stand out.
fn drilling(dice: &mut Dice, tool: &mut Tool, most: f64) -> f64 {
    tool.say(Field::OperationKind, "drilling");
    let cut = tool.number(Field::CuttingDiameter).unwrap();
    let flutes = tool.number(Field::ChipFluteLength).unwrap_or(cut * 8.0);
    let usable = tool.number(Field::UsableLength);
    let deepest = usable.unwrap_or(flutes - 1.5 * cut).min(most);
    let between = dice.between(1.0, deepest);
    dice.pick(&[deepest, between])
}

fn tapping(dice: &mut Dice, tool: &mut Tool, most: f64) -> f64 {
    tool.say(Field::OperationKind, "tapping");
    let pitch = tool.number(Field::ThreadPitch).unwrap();
    let held_fast = tool.text(Field::ClampingKind) != "tapping attachment";
    let part = if held_fast {
        1.0
    } else {
        dice.pick(&[1.0, 0.985])
    };
    tool.set(Field::FeedPerRevolution, pitch * part);
    dice.between(3.0, most)
}

/// Beside a closed wall a mill goes no deeper than its flutes, or than a relieved neck; a mill
/// wider than all that follows it goes as deep as it sticks out.
fn milling(dice: &mut Dice, tool: &mut Tool, most: f64) -> f64 {
    tool.say(Field::OperationKind, "milling");
    tool.say(Field::Finishing, dice.pick(&["yes", "no", ""]));
    let cut = tool.number(Field::CuttingDiameter).unwrap();
    let edges = tool.number(Field::DepthOfCutMax).unwrap();
    let flutes = tool.number(Field::ChipFluteLength).unwrap_or(edges);
    let neck = tool.number(Field::NeckDiameter).unwrap_or(cut);
    let shank = tool.number(Field::ShankDiameter).unwrap_or(0.0);
    let clear = match tool.number(Field::NeckLength) {
        Some(end) if neck < cut - 0.2 => end,
        _ if shank < cut - 0.2 => most,
        _ => flutes,
    };
    let deep = edges.min(most);
    let depth = dice.between(deep * 0.05, deep);
    let depth = dice.pick(&[deep, depth]).max(0.01);
    tool.set(Field::AxialDepth, hundredths(depth));
    // A slot is milled half a diameter deep, a wall over the whole edge with a thin chip.
    let most_width = (0.5 * cut / depth).min(1.0);
    let width = cut * dice.pick(&[0.05_f64, 0.3, 0.5, 1.0]).min(most_width);
    tool.set(Field::RadialWidth, hundredths(width));
    match dice.pick(&["closed", "open", ""]) {
        "closed" => {
            tool.say(Field::Wall, "closed");
            dice.pick(&[clear, depth]).min(most)
        }
        wall => {
            tool.say(Field::Wall, wall);
            dice.between(depth, most)
        }
    }
}

/// A material, a feed, and parts that may turn as fast as they are turned.
fn load(dice: &mut Dice, tool: &mut Tool) {
    let cut = tool.number(Field::CuttingDiameter).unwrap();
    let steel = tool.text(Field::CutterMaterial) != "carbide";
    let materials: &[&str] = if steel {
        &["S235JR", "EN AW-2017"]
    } else {
        &["C45E", "42CrMo4", "X5CrNi18-10", "EN-GJL-250", "EN AW-2017"]
    };
    tool.say(Field::WorkpieceMaterial, dice.pick(materials));
    match tool.text(Field::OperationKind) {
        "milling" => {
            tool.set(Field::FeedPerTooth, (cut * 0.005).clamp(0.02, 0.12));
            if dice.chance(30) {
                tool.set(Field::RunOut, dice.pick(&[0.003, 0.008]));
            }
        }
        "drilling" | "reaming" => tool.set(Field::FeedPerRevolution, (cut * 0.02).max(0.01)),
        _ => {}
    }
    let turns = tool.number(Field::SpindleSpeed).unwrap();
    for field in [
        Field::HolderSpeedMax,
        Field::NutSpeedMax,
        Field::CutterSpeedMax,
    ] {
        if dice.chance(25) {
            tool.set(field, turns + dice.pick(&[0.0, 5000.0]));
        }
    }
    if dice.chance(25) {
        tool.set(Field::BalanceGrade, 2.5);
        tool.set(Field::BalanceSpeed, 25_000.0);
        tool.set(Field::HolderMass, 1.2);
    }
}

/// Speeds that agree, rounded as a programmer rounds them.
fn speeds(dice: &mut Dice, tool: &mut Tool) {
    let cut = tool.number(Field::CuttingDiameter).unwrap();
    let steel = tool.text(Field::CutterMaterial) != "carbide";
    let cutting = dice.pick(if steel {
        &[12.0, 20.0, 25.0]
    } else {
        &[80.0, 120.0, 150.0]
    });
    let turns = 1000.0 * cutting / (std::f64::consts::PI * cut);
    tool.set(Field::SpindleSpeed, (turns / 10.0).round() * 10.0);
    if dice.chance(60) {
        tool.set(Field::CuttingSpeed, cutting);
    }
}

/// Coolant runs through only where the tool has channels for it and something seals.
fn coolant(dice: &mut Dice, tool: &mut Tool) {
    let channels = tool.text(Field::CoolantChannels);
    let ways: &[&str] = match channels {
        "yes" => &["through"],
        _ => &["flood", "air", "dry", ""],
    };
    tool.say(Field::Coolant, dice.pick(ways));
}
