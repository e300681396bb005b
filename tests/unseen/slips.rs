//! Rows with a slip of the hand: a digit or a unit lost, two lengths changed over; and with what
//! is seldom stated.

use super::row::{Cell, Row};
use crate::window::dice::Dice;

/// What a number is wrong by: a digit, a unit, or as much as somebody guessed.
const FACTORS: [f64; 6] = [0.1, 10.0, 25.4, 1.0 / 25.4, 0.5, 1.6];

/// Cells that few libraries have.
const SELDOM: &[(&str, &[&str])] = &[
    ("collet.drive_square", &["4.9 mm", "6.2 mm", "9 mm"]),
    ("collet.sealed", &["yes", "no"]),
    ("cutter.coolant_channels", &["yes", "no"]),
    ("cutter.corner_radius", &["0.5 mm", "3 mm", "8 mm"]),
    ("cutter.cutter_speed_max", &["4000", "18000"]),
    ("cutter.description", &["tool D12", "tool D8 x 20"]),
    ("cutter.helix_angle", &["30", "45"]),
    ("cutter.helix_hand", &["right", "left"]),
    ("cutter.point_angle", &["118", "140", "220"]),
    ("holder.balance_grade", &["2.5", "6.3", "G 40"]),
    ("holder.balance_speed", &["5000", "15000"]),
    ("holder.holder_speed_max", &["8000", "20000"]),
    ("holder.mouth_diameter", &["22 mm", "33 mm"]),
    ("holder.mouth_setback", &["8 mm", "10 mm"]),
    ("holder.nose_diameter", &["32 mm", "41 mm"]),
    ("holder.nut_thread", &["M32x1.5", "M40x1.5"]),
    ("holder.taper_length", &["24 mm", "40 mm"]),
    ("measured_frequency", &["420", "900"]),
    ("operation.axial_depth", &["2 mm", "12 mm", "40 mm"]),
    ("operation.coolant", &["through"]),
    ("operation.cutting_speed", &["60", "400"]),
    ("operation.spindle_speed", &["2000", "6300", "16000"]),
    ("operation.workpiece_material", &["42CrMo4", "EN AW-2017"]),
    ("run_out", &["0.01 mm", "0.05 mm"]),
];

/// The row with what may happen to it.
pub fn slipped(dice: &mut Dice, mut row: Row) -> Row {
    for (column, words) in SELDOM {
        if dice.chance(0.3) {
            row.say(column, dice.pick(words));
        }
    }
    if dice.chance(0.4) {
        let columns: Vec<&'static str> = row.0.keys().copied().collect();
        let column = dice.pick(&columns);
        let factor = dice.pick(&FACTORS);
        if let Some(Cell::Length(value) | Cell::Torque(value)) = row.0.get_mut(column) {
            *value *= factor;
        }
    }
    if dice.chance(0.1) {
        let lengths = ["cutter.shank_length", "cutter.overall_length"];
        let taken = lengths.map(|column| row.0.remove(column));
        let changed = lengths.into_iter().rev().zip(taken);
        let changed = changed.filter_map(|(column, cell)| Some((column, cell?)));
        row.0.extend(changed);
    }
    row
}
