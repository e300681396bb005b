//! The rows: a cutter, what clamps it, a stick-out that may be anything, and a job.

use super::holders::{self, Shank};
use super::jobs;
use super::row::Row;
use crate::window::dice::Dice;

/// What may clamp a tool; empty is not stated.
pub const CLAMPINGS: &[&str] = &[
    "collet chuck",
    "collet chuck",
    "collet chuck",
    "other collet",
    "shrink fit",
    "hydraulic chuck",
    "side-lock holder",
    "milling chuck",
    "drill chuck",
    "tapping attachment",
    "other",
    "arbor",
    "screwed-on head",
    "one piece",
    "none",
    "",
];

/// Columns that the main rules cannot do without: left out more rarely than others.
const STARRED: &[&str] = &[
    "stick_out",
    "cutter.cutting_diameter",
    "cutter.shank_diameter",
    "cutter.shank_length",
    "cutter.overall_length",
    "collet.collet_size",
    "collet.bore_diameter",
    "collet.bore_length",
    "holder.clamping_kind",
    "holder.clamping_length_min",
];

/// So many rows, the same in every run. Each is a tool of its own.
pub fn rows(count: usize, seed: u64) -> Vec<Row> {
    let mut dice = Dice::new(seed);
    (1..=count).map(|number| row(&mut dice, number)).collect()
}

fn row(dice: &mut Dice, number: usize) -> Row {
    let mut row = Row::default();
    let clamping = dice.pick(CLAMPINGS);
    let shank = cutter(dice, &mut row, clamping);
    let holds = holders::give(dice, &mut row, clamping, shank);
    let stick_out = stick_out(dice, &mut row, shank, holds);
    jobs::give(dice, &mut row, shank, stick_out);
    let columns: Vec<&'static str> = row.0.keys().copied().collect();
    for column in columns {
        let part = if STARRED.contains(&column) {
            0.03
        } else {
            0.12
        };
        if dice.chance(part) {
            row.0.remove(column);
        }
    }
    row.say("tool_number", number);
    row
}

fn kind(dice: &mut Dice, clamping: &str) -> &'static str {
    const MILLS: &[&str] = &[
        "end mill",
        "end mill",
        "ball nose",
        "end mill with corner radius",
    ];
    match clamping {
        "tapping attachment" => "tap",
        "drill chuck" => dice.pick(&["drill", "drill", "reamer", "end mill", "tap"]),
        "arbor" => "face mill",
        _ if dice.chance(0.6) => dice.pick(MILLS),
        _ => dice.pick(&[
            "drill",
            "reamer",
            "tap",
            "boring bar",
            "chamfer",
            "probe",
            "T-slot",
        ]),
    }
}

fn cutter(dice: &mut Dice, row: &mut Row, clamping: &str) -> Shank {
    let diameter = dice.pick(&[6.0, 8.0, 10.0, 12.0, 16.0, 20.0, 25.0]);
    let length = dice.between(18.0 + 1.2 * diameter, 30.0 + 2.2 * diameter);
    let overall = length + dice.between(diameter, 7.0 * diameter);
    let kind = kind(dice, clamping);
    row.say("cutter.cutter_kind", kind);
    let material = dice.pick(&["carbide", "carbide", "HSS", "HSS-Co", "steel"]);
    row.say("cutter.cutter_material", material);
    let other_cut = dice.between(0.4, 1.3);
    let same = dice.chance(0.7);
    let cut = if same { diameter } else { diameter * other_cut };
    row.length("cutter.cutting_diameter", cut);
    row.length("cutter.shank_diameter", diameter);
    row.length("cutter.shank_length", length);
    row.length("cutter.overall_length", overall);
    let flutes = overall - length - dice.between(0.0, 5.0);
    if flutes > 1.0 {
        row.length("cutter.chip_flute_length", flutes);
    }
    shape(dice, row, (diameter, length, overall));
    if kind == "tap" {
        row.length("cutter.drive_square", diameter * 0.8);
        row.length("cutter.drive_square_length", diameter * 0.8 + 2.0);
        row.length("cutter.thread_pitch", 1.25);
    }
    if dice.chance(0.3) {
        row.say("cutter.hand", dice.pick(&["right", "right", "left"]));
    }
    Shank {
        diameter,
        length,
        overall,
    }
}

/// Form of the shank, necks, regrinds, a second end.
fn shape(dice: &mut Dice, row: &mut Row, (diameter, length, overall): (f64, f64, f64)) {
    let form = dice.pick(&["HA", "HA", "HA", "HB", "HE", "flat", "Morse taper"]);
    row.say("cutter.shank_form", form);
    if matches!(form, "HB" | "HE" | "flat") {
        row.length("cutter.flat_distance", 14.0 + 0.6 * diameter);
        if diameter > 24.0 {
            row.length("cutter.flat_spacing", 17.0);
        }
    }
    if dice.chance(0.4) {
        row.say(
            "cutter.shank_tolerance",
            dice.pick(&["h6", "h5", "h7", "h9"]),
        );
    }
    if dice.chance(0.15) {
        row.length("cutter.neck_diameter", diameter * 0.94);
        row.length("cutter.neck_length", overall - length);
    }
    if dice.chance(0.1) {
        row.length(
            "cutter.overall_length_min",
            overall - dice.between(0.0, 3.0),
        );
    }
    if dice.chance(0.1) {
        row.length(
            "cutter.overall_length_actual",
            overall - dice.between(0.0, 3.0),
        );
    }
    if dice.chance(0.1) {
        row.length("cutter.rear_flute_length", dice.between(5.0, 0.6 * length));
    }
    if dice.chance(0.15) {
        row.length(
            "cutter.clamping_length_min",
            dice.between(1.0, 3.0) * diameter,
        );
    }
    if dice.chance(0.1) {
        row.length(
            "cutter.clamping_length_max",
            dice.between(2.0, 4.0) * diameter,
        );
    }
}

/// Where the tool stands: often as it should, else anywhere, now and then beyond its own end.
fn stick_out(dice: &mut Dice, row: &mut Row, shank: Shank, holds: f64) -> f64 {
    let near = dice.chance(0.5);
    let insertion = if near {
        holds + dice.between(-4.0, 4.0)
    } else {
        shank.length * dice.between(0.1, 1.3)
    };
    let beyond = dice.chance(0.02);
    let stick_out = if beyond {
        shank.overall + dice.between(0.0, 20.0)
    } else {
        (shank.overall - insertion).max(2.0)
    };
    let gauge = dice.between(50.0, 120.0);
    row.length("holder.gauge_length", gauge);
    match dice.pick(&[
        "stick_out",
        "stick_out",
        "stick_out",
        "from gauge",
        "insertion",
    ]) {
        "from gauge" => row.length("protruding_length", gauge + stick_out),
        "insertion" if !beyond => row.length("clamping_length", shank.overall - stick_out),
        _ => row.length("stick_out", stick_out),
    }
    stick_out
}
