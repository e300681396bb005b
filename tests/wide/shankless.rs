//! What no collet holds by a shank: saws, face mills, probes.

use shankwise::library::Field;

use super::dice::Dice;
use super::tool::Tool;

/// A saw or a face mill sits on an arbor; what the library calls its shank is the arbor's.
fn on_arbor(kind: &str, material: &str, cut: f64, width: f64) -> Tool {
    let mut tool = Tool::default();
    tool.say(Field::CutterKind, kind);
    tool.say(Field::CutterMaterial, material);
    tool.set(Field::CuttingDiameter, cut);
    tool.set(Field::DepthOfCutMax, width);
    tool
}

pub fn slitting_saw(dice: &mut Dice) -> Tool {
    let (cut, width, arbor) = dice.pick(&[(40.0, 1.0, 10.0), (63.0, 2.0, 16.0), (80.0, 3.0, 22.0)]);
    let mut tool = on_arbor("slitting saw", "HSS", cut, width);
    tool.set(Field::ChipFluteLength, width);
    tool.set(Field::FluteCount, 64.0);
    if dice.chance(50) {
        tool.set(Field::ShankDiameter, arbor);
    }
    tool.say(Field::CutterDescription, &format!("SAW D{cut}x{width}"));
    tool
}

pub fn face_mill(dice: &mut Dice) -> Tool {
    let cut = dice.pick(&[40.0, 50.0, 63.0, 80.0]);
    let mut tool = on_arbor("face mill", "steel", cut, 6.0);
    tool.set(Field::CuttingDiameterMax, cut + 12.0);
    tool.set(Field::FluteCount, 5.0);
    tool.say(Field::CutterDescription, &format!("FM D{cut} 45°"));
    tool
}

pub fn probe(dice: &mut Dice) -> Tool {
    let mut tool = Tool::default();
    tool.say(Field::CutterKind, "probe");
    tool.set(Field::CuttingDiameter, dice.pick(&[2.0, 4.0, 6.0]));
    tool.say(Field::CutterDescription, "TOUCH PROBE");
    tool
}
