//! What the job asks of a row's tool.

use super::holders::Shank;
use super::row::{Cell, Row};
use crate::window::dice::Dice;

/// Two in three rows have an operation.
pub fn give(dice: &mut Dice, row: &mut Row, shank: Shank, stick_out: f64) {
    if dice.chance(0.35) {
        return;
    }
    let kind = match row.0.get("cutter.cutter_kind") {
        Some(Cell::Text(kind)) => match kind.as_str() {
            "drill" => "drilling",
            "reamer" => "reaming",
            "tap" => "tapping",
            "boring bar" => "boring",
            _ => "milling",
        },
        _ => "milling",
    };
    row.say("operation.operation_kind", kind);
    row.length(
        "operation.reach",
        (stick_out * dice.between(0.3, 1.1)).max(1.0),
    );
    if dice.chance(0.6) {
        row.length("operation.clearance", dice.pick(&[0.5, 1.0, 2.0, 3.0]));
    }
    if dice.chance(0.1) {
        row.length("operation.room_diameter", dice.between(30.0, 80.0));
        row.length("operation.room_depth", dice.between(5.0, 20.0));
    }
    row.say("operation.wall", dice.pick(&["open", "open", "closed"]));
    let direction = dice.pick(&["right", "right", "right", "left"]);
    row.say("operation.spindle_direction", direction);
    if dice.chance(0.3) {
        cut(dice, row, shank);
    }
    if dice.chance(0.2) {
        row.say("operation.finishing", dice.pick(&["yes", "no"]));
    }
    if dice.chance(0.2) {
        row.say("operation.coolant", dice.pick(&["flood", "through", "air"]));
    }
}

/// Cutting data, so that what the cut does to the grip is judged too.
fn cut(dice: &mut Dice, row: &mut Row, shank: Shank) {
    row.say(
        "operation.workpiece_material",
        dice.pick(&["C45E", "42CrMo4", "EN AW-2017"]),
    );
    row.say("cutter.flute_count", dice.pick(&["2", "3", "4"]));
    row.length(
        "operation.axial_depth",
        shank.diameter * dice.between(0.1, 1.0),
    );
    row.length(
        "operation.radial_width",
        shank.diameter * dice.between(0.1, 1.0),
    );
    row.length("operation.feed_per_tooth", dice.pick(&[0.03, 0.06, 0.1]));
    row.length(
        "operation.feed_per_revolution",
        dice.pick(&[0.1, 0.2, 1.25]),
    );
    row.say(
        "operation.spindle_speed",
        dice.pick(&["1500", "3000", "6000"]),
    );
}
