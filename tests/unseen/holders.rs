//! What clamps a cutter: a collet with its nut, or a bore of its own, with or without a sleeve.

use super::row::Row;
use crate::window::dice::Dice;

/// A cylindrical shank, mm.
#[derive(Clone, Copy, Debug)]
pub struct Shank {
    pub diameter: f64,
    pub length: f64,
    pub overall: f64,
}

/// Size, largest bore, length of a collet.
const SIZES: &[(f64, f64, f64)] = &[
    (11.0, 7.0, 18.0),
    (16.0, 10.0, 27.5),
    (20.0, 13.0, 31.5),
    (25.0, 16.0, 34.0),
    (32.0, 20.0, 40.0),
    (40.0, 26.0, 46.0),
];

/// Gives the row what clamps it; returns an insertion with which it may be held well, mm.
pub fn give(dice: &mut Dice, row: &mut Row, clamping: &str, shank: Shank) -> f64 {
    if !clamping.is_empty() {
        row.say("holder.clamping_kind", clamping);
    }
    if dice.chance(0.5) {
        let depth = shank.length * dice.between(0.8, 1.6);
        row.length("holder.insertion_depth_max", depth);
    }
    if dice.chance(0.03) {
        row.say("extension", "x-100");
    }
    match clamping {
        "arbor" | "screwed-on head" | "one piece" | "none" => shank.length * 0.8,
        "collet chuck" | "other collet" => collet(dice, row, clamping, shank),
        "" if dice.chance(0.5) => collet(dice, row, clamping, shank),
        _ => bore(dice, row, clamping, shank),
    }
}

fn collet(dice: &mut Dice, row: &mut Row, clamping: &str, shank: Shank) -> f64 {
    let fits = |size: &&(f64, f64, f64)| size.1 >= shank.diameter;
    let (size, _, length) = *SIZES.iter().find(fits).unwrap_or(&SIZES[5]);
    if clamping == "other collet" {
        row.say(
            "collet.collet_system",
            dice.pick(&["ISO 10897", "straight", "other"]),
        );
    } else if dice.chance(0.3) {
        row.say("collet.collet_system", "ISO 15488");
    }
    row.say("collet.collet_size", size);
    let wide = dice.chance(0.2);
    let bore = shank.diameter
        + if wide {
            dice.pick(&[0.5, 1.0, 2.0])
        } else {
            0.0
        };
    row.length("collet.bore_diameter", bore);
    row.length(
        "collet.bore_diameter_min",
        bore - if size < 12.0 { 0.5 } else { 1.0 },
    );
    let through = dice.chance(0.7);
    let land = if through { length } else { length * 0.7 };
    row.length("collet.bore_length", land);
    let form = if through {
        "through"
    } else {
        dice.pick(&["relieved at the rear", "relieved in front"])
    };
    row.say("collet.bore_form", form);
    let recess = if form == "relieved in front" {
        1.5
    } else {
        0.0
    };
    if recess > 0.0 || dice.chance(0.3) {
        row.length("collet.bore_recess", recess);
    }
    row.length("collet.collet_length", length);
    if dice.chance(0.1) {
        row.length(
            "collet.clamping_length_min",
            dice.between(1.0, 3.0) * shank.diameter,
        );
    }
    nut(dice, row, size);
    row.say("holder.collet_size", size);
    if dice.chance(0.2) {
        row.length(
            "holder.clamping_length_min",
            dice.between(1.0, 2.5) * shank.diameter,
        );
    }
    land + 1.0
}

fn nut(dice: &mut Dice, row: &mut Row, size: f64) {
    let style = dice.pick(&["standard", "standard", "sealing", "bearing", "reduced"]);
    row.say("nut.nut_style", style);
    row.say("nut.collet_size", size);
    if dice.chance(0.6) {
        row.length("nut.face_setback", dice.between(-0.5, 2.0));
    }
    row.length("nut.nut_outer_diameter", 1.2 * size + 11.0);
    let torque = 2.5 * size + 20.0;
    row.torque("collet.torque_recommended", torque);
    row.torque("nut_torque", torque * dice.pick(&[0.6, 0.9, 1.0, 1.3]));
    row.torque("nut.torque_max", torque * 1.2);
    if dice.chance(0.2) {
        row.length("holder.mouth_setback", 10.0);
        row.length("holder.mouth_diameter", size + 1.0);
        row.length("holder.taper_length", size + 8.0);
        row.length("holder.nose_diameter", size + 12.0);
    }
}

fn bore(dice: &mut Dice, row: &mut Row, clamping: &str, shank: Shank) -> f64 {
    let least = shank.diameter * dice.between(1.3, 3.0);
    row.length("holder.clamping_length_min", least);
    let length = least + dice.between(2.0, 15.0);
    let sleeve = matches!(clamping, "hydraulic chuck" | "milling chuck") && dice.chance(0.4);
    let own = shank.diameter
        + if sleeve {
            8.0
        } else {
            dice.pick(&[0.0, 0.0, 0.0, 0.0, 2.0])
        };
    if dice.chance(0.7) {
        if clamping != "drill chuck" {
            row.length("holder.bore_diameter", own);
        }
        row.length("holder.bore_length", length);
        row.length("holder.bore_recess", dice.pick(&[0.0, 0.0, 1.0, 3.0]));
    }
    if dice.chance(0.2) {
        row.length("holder.clamping_length_max", length + 5.0);
    }
    if sleeve {
        row.say("collet.collet_system", "straight");
        row.length("collet.bore_diameter", shank.diameter);
        row.length("collet.bore_diameter_min", shank.diameter);
        row.length("collet.bore_length", length + 4.0);
        row.length("collet.bore_recess", 0.0);
    }
    match clamping {
        "side-lock holder" => screws(dice, row, shank),
        "drill chuck" => {
            row.say("holder.keyless", dice.pick(&["yes", "no"]));
            least + 3.0
        }
        _ => least + 3.0,
    }
}

fn screws(dice: &mut Dice, row: &mut Row, shank: Shank) -> f64 {
    row.say("holder.seat_form", dice.pick(&["HB", "HB", "HE", "round"]));
    let distance = 8.0 + 0.8 * shank.diameter;
    row.length("holder.screw_distance", distance);
    if shank.diameter > 24.0 || dice.chance(0.1) {
        row.length("holder.screw_spacing", dice.pick(&[17.0, 17.0, 25.0]));
    }
    distance + 14.0 + 0.6 * shank.diameter
}
