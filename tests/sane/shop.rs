//! A generated shop of sane assemblies: standard dimensions, gripped in full or to two thirds,
//! jobs that they can do, every kind of clamping. The same from run to run.

use std::fmt::Write as _;

/// A small generator of numbers: only that they vary matters.
pub struct Dice(u64);

impl Dice {
    pub fn new(seed: u64) -> Dice {
        Dice(seed)
    }

    /// A number from 0 to `below` − 1.
    pub fn roll(&mut self, below: usize) -> usize {
        // Knuth's MMIX constants; the high bits are the good ones.
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(self.0 >> 33).unwrap() % below
    }

    pub fn pick<'a, T>(&mut self, of: &'a [T]) -> &'a T {
        &of[self.roll(of.len())]
    }

    pub fn chance(&mut self, one_in: usize) -> bool {
        self.roll(one_in) == 0
    }
}

/// Lengths of a cutter, mm: diameter, shank, overall, flutes, plain shank.
type Lengths = (f64, f64, f64, f64, f64);

/// DIN 6527, short and long (from memory), with the shanks of DIN 6535.
const END_MILLS: [Lengths; 14] = [
    (6.0, 6.0, 54.0, 10.0, 36.0),
    (6.0, 6.0, 57.0, 13.0, 36.0),
    (8.0, 8.0, 58.0, 12.0, 36.0),
    (8.0, 8.0, 63.0, 19.0, 36.0),
    (10.0, 10.0, 66.0, 14.0, 40.0),
    (10.0, 10.0, 72.0, 22.0, 40.0),
    (12.0, 12.0, 73.0, 16.0, 45.0),
    (12.0, 12.0, 83.0, 26.0, 45.0),
    (14.0, 14.0, 75.0, 18.0, 45.0),
    (16.0, 16.0, 82.0, 22.0, 48.0),
    (16.0, 16.0, 92.0, 32.0, 48.0),
    (18.0, 18.0, 92.0, 32.0, 48.0),
    (20.0, 20.0, 92.0, 26.0, 50.0),
    (20.0, 20.0, 104.0, 38.0, 50.0),
];

/// DIN 6537, short and long (from memory).
const DRILLS: [Lengths; 10] = [
    (5.0, 6.0, 66.0, 28.0, 36.0),
    (5.0, 6.0, 82.0, 44.0, 36.0),
    (6.8, 8.0, 79.0, 34.0, 36.0),
    (6.8, 8.0, 91.0, 53.0, 36.0),
    (8.5, 10.0, 89.0, 47.0, 40.0),
    (8.5, 10.0, 103.0, 61.0, 40.0),
    (10.2, 12.0, 102.0, 55.0, 45.0),
    (12.0, 12.0, 118.0, 71.0, 45.0),
    (14.0, 14.0, 124.0, 77.0, 45.0),
    (16.0, 16.0, 133.0, 83.0, 48.0),
];

/// Taps, DIN 371 and 376 (from memory): thread, pitch, shank, overall, square, its length.
const TAPS: [(f64, f64, f64, f64, f64, f64); 5] = [
    (5.0, 0.8, 6.0, 70.0, 4.9, 8.0),
    (6.0, 1.0, 6.0, 80.0, 4.9, 8.0),
    (8.0, 1.25, 8.0, 90.0, 6.2, 9.0),
    (10.0, 1.5, 10.0, 100.0, 8.0, 11.0),
    (12.0, 1.75, 9.0, 110.0, 7.0, 10.0),
];

/// Sizes of collets with the length of the collet and the largest bore.
const SIZES: [(f64, f64, f64); 6] = [
    (11.0, 18.0, 7.0),
    (16.0, 27.5, 10.0),
    (20.0, 31.5, 13.0),
    (25.0, 34.0, 16.0),
    (32.0, 40.0, 20.0),
    (40.0, 46.0, 26.0),
];

/// One row, by column.
#[derive(Default)]
pub struct Row(pub Vec<(&'static str, String)>);

impl Row {
    #[allow(
        clippy::needless_pass_by_value,
        reason = "numbers and texts are set alike"
    )]
    pub fn set(&mut self, column: &'static str, value: impl ToString) {
        self.0.retain(|(known, _)| *known != column);
        self.0.push((column, value.to_string()));
    }

    fn number(&self, column: &str) -> f64 {
        let found = self.0.iter().find(|(known, _)| *known == column);
        found.map_or(0.0, |(_, value)| value.parse().unwrap())
    }
}

/// A shop of so many sane assemblies.
pub fn rows(count: usize) -> Vec<Row> {
    let mut dice = Dice::new(20_261_125);
    (1..=count)
        .map(|number| {
            let mut row = Row::default();
            row.set("tool_number", number);
            match dice.roll(10) {
                0..=3 => mill(&mut row, &mut dice),
                4..=6 => drill(&mut row, &mut dice),
                7 => tap(&mut row, &mut dice),
                8 => reamer(&mut row, &mut dice),
                _ => other(&mut row, &mut dice),
            }
            row
        })
        .collect()
}

fn cutter(row: &mut Row, kind: &str, (cut, shank, overall, flutes, plain): Lengths) {
    row.set("cutter_kind", kind);
    row.set("cutter_material", "carbide");
    row.set("cutting_diameter", cut);
    row.set("shank_diameter", shank);
    row.set("overall_length", overall);
    row.set("chip_flute_length", flutes);
    row.set("shank_length", plain);
}

fn mill(row: &mut Row, dice: &mut Dice) {
    let lengths = *dice.pick(&END_MILLS);
    let kind = *dice.pick(&[
        "end mill",
        "end mill",
        "ball nose",
        "end mill with corner radius",
    ]);
    cutter(row, kind, lengths);
    let (cut, _, _, flutes, _) = lengths;
    row.set("cutter description", format!("{kind} D{cut}"));
    row.set("depth_of_cut_max", flutes);
    row.set("flute_count", 3);
    row.set("hand", "right");
    row.set("helix_hand", "right");
    if kind == "ball nose" {
        row.set("corner_radius", cut / 2.0);
    }
    clamp(row, dice);
    let reach = (row.number("stick_out") - 3.0).min(flutes);
    row.set("operation_kind", "milling");
    row.set("reach", reach);
    row.set("wall", dice.pick(&["open", "closed"]));
    row.set("axial_depth", (reach / 2.0).min(cut / 2.0));
    row.set("radial_width", cut / 5.0);
    row.set("feed_per_tooth", 0.05);
    row.set("spindle_speed", 3000);
    row.set("spindle_direction", "right");
    row.set(
        "workpiece_material",
        dice.pick(&["C45E", "EN AW-2017", "S235JR"]),
    );
    if kind != "ball nose" {
        let speed = std::f64::consts::PI * cut * 3.0;
        row.set("cutting_speed", format!("{speed:.1}"));
    }
}

fn drill(row: &mut Row, dice: &mut Dice) {
    let lengths = *dice.pick(&DRILLS);
    cutter(row, "drill", lengths);
    let (cut, _, _, flutes, _) = lengths;
    row.set("point_angle", 140);
    row.set("cutter description", format!("drill Ø{cut}"));
    clamp(row, dice);
    row.set("operation_kind", "drilling");
    row.set(
        "reach",
        (flutes - 1.5 * cut).min(row.number("stick_out") - 2.0),
    );
    row.set("feed_per_revolution", 0.15);
    row.set("spindle_speed", 2500);
    if dice.chance(3) {
        row.set("coolant", "through");
        row.set("coolant_channels", "yes");
        row.set("collet sealed", "yes");
        row.set("nut sealed", "no");
    }
}

fn tap(row: &mut Row, dice: &mut Dice) {
    let (thread, pitch, shank, overall, square, square_length) = *dice.pick(&TAPS);
    cutter(row, "tap", (thread, shank, overall, thread * 2.0, 50.0));
    row.set("cutter_material", "HSS");
    row.set("cutter description", format!("tap M{thread}"));
    row.set("drive_square", square);
    row.set("drive_square_length", square_length);
    row.set("thread_pitch", pitch);
    row.set("bore_form", "tapping");
    clamp(row, dice);
    row.set("operation_kind", "tapping");
    row.set("reach", thread * 1.5);
    row.set("feed_per_revolution", pitch);
}

fn reamer(row: &mut Row, dice: &mut Dice) {
    let (cut, shank, overall, plain) = *dice.pick(&[
        (8.0, 8.0, 117.0, 45.0),
        (10.0, 10.0, 133.0, 45.0),
        (12.0, 12.0, 151.0, 50.0),
    ]);
    cutter(row, "reamer", (cut, shank, overall, 35.0, plain));
    clamp(row, dice);
    row.set("operation_kind", "reaming");
    row.set("reach", 30);
    row.set("finishing", "yes");
}

/// What sits in no collet, or is no common cutter.
fn other(row: &mut Row, dice: &mut Dice) {
    row.set("cutting_diameter", 63);
    row.set("stick_out", 40);
    match dice.roll(6) {
        0 => {
            row.set("cutter_kind", "face mill");
            row.set("clamping_kind", "arbor");
            row.set("operation_kind", "milling");
            row.set("reach", 20);
        }
        1 => {
            row.set("cutter_kind", "slitting saw");
            row.set("clamping_kind", "arbor");
        }
        2 => {
            row.set("cutter_kind", "probe");
            row.set("cutting_diameter", 6);
            row.set("clamping_kind", dice.pick(&["none", "one piece"]));
        }
        3 => {
            row.set("cutter_kind", "indexable");
            row.set("cutting_diameter", 20);
            row.set("clamping_kind", "screwed-on head");
        }
        4 => {
            row.set("cutter_kind", "boring bar");
            row.set("clamping_kind", "other");
            row.set("stick_out", 60);
            row.set("shank_diameter", 32);
            row.set("overall_length", 140);
            row.set("shank_length", 90);
            chuck(row, 32.0, 80.0);
        }
        _ => {
            cutter(row, "T-slot", (21.0, 12.0, 74.0, 9.0, 45.0));
            row.set("neck_diameter", 10);
            row.set("neck_length", 29);
            clamp(row, dice);
        }
    }
}

fn clamp(row: &mut Row, dice: &mut Dice) {
    let shank = row.number("shank_diameter");
    if row.number("drive_square") == 0.0 && dice.chance(5) {
        let kinds = [
            "shrink fit",
            "hydraulic chuck",
            "milling chuck",
            "drill chuck",
            "other collet",
            "side-lock holder",
        ];
        let kind: &'static str = dice.pick::<&str>(&kinds);
        let kind = suited(row, kind);
        row.set("clamping_kind", kind);
        let plain = row.number("shank_length") - 2.0;
        let out = row.number("overall_length") - plain;
        row.set("stick_out", out);
        match kind {
            "other collet" => {
                row.set("collet_size", 25);
                row.set("collet bore_diameter", shank);
                row.set("collet bore_length", plain - 1.0);
                row.set("face_setback", 0);
            }
            "side-lock holder" => side_lock(row, shank, plain),
            _ => chuck(row, shank, plain),
        }
        lengths(row, dice);
        return;
    }
    collet(row, dice, shank);
}

/// No drill chuck for what cuts sideways, and no shrink fit for a shank of steel.
fn suited(row: &Row, kind: &'static str) -> &'static str {
    let word = |column: &str| {
        let mut cells = row.0.iter();
        cells.find_map(|(known, word)| (*known == column).then_some(word.as_str()))
    };
    let drills = matches!(word("cutter_kind"), Some("drill" | "reamer"));
    match kind {
        "drill chuck" if !drills => "milling chuck",
        "shrink fit" if word("cutter_material") != Some("carbide") => "hydraulic chuck",
        _ => kind,
    }
}

/// A bore for this shank that asks for twice its diameter; the plain shank that is in covers it.
fn chuck(row: &mut Row, shank: f64, plain: f64) {
    row.set("holder bore_diameter", shank);
    row.set("holder bore_length", plain - 1.0);
    row.set("holder bore_recess", 0);
    row.set("holder clamping_length_min", 2.0 * shank);
}

/// A drive flat in the middle of the shank, and a screw that meets it.
fn side_lock(row: &mut Row, shank: f64, plain: f64) {
    row.set("shank_form", "HB");
    row.set("flat_distance", plain / 2.0);
    row.set("screw_distance", plain / 2.0);
    row.set("holder bore_diameter", shank);
    row.set("holder bore_recess", 0);
}

/// A collet that takes the shank, its land gripped in full or down to two thirds.
fn collet(row: &mut Row, dice: &mut Dice, shank: f64) {
    let fits: Vec<_> = SIZES
        .iter()
        .filter(|(_, length, bore)| {
            let plain = row.number("shank_length") - row.number("drive_square_length");
            shank <= *bore && plain >= length * 0.7
        })
        .collect();
    let (size, length, _) = **dice.pick(&fits);
    row.set("clamping_kind", "taper collet");
    row.set("collet_size", size);
    let fine = row.number("flute_count") == 0.0;
    let bore = if fine || dice.chance(2) {
        shank
    } else {
        shank + 0.3
    };
    row.set("bore_diameter", bore);
    let taps = row.0.iter().any(|(column, _)| *column == "bore_form");
    let land = if !taps && dice.chance(3) {
        row.set("bore_form", "relieved at the rear");
        (length * 0.75 * 10.0f64).round() / 10.0
    } else {
        length
    };
    row.set("bore_length", land);
    row.set("face_setback", dice.pick(&[0.0, 0.5, 1.0, -0.5]));
    row.set(
        "nut_style",
        dice.pick(&["standard", "sealing", "bearing", "reduced"]),
    );
    row.set("nut_torque", 40);
    row.set("nut torque_max", 50);
    if dice.chance(2) {
        row.set("collet torque_recommended", 42);
    }
    place(row, dice, land);
    lengths(row, dice);
}

/// Flutes out of the land, and at least two thirds gripped.
fn place(row: &mut Row, dice: &mut Dice, land: f64) {
    let overall = row.number("overall_length");
    let setback = row.number("face_setback");
    let front = overall - row.number("shank_length") - setback;
    let grip = overall - row.number("drive_square_length") - setback;
    let (full, least) = (grip - land, grip - land * 2.0 / 3.0);
    let out = match dice.roll(3) {
        0 => front.max(full.min(least)),
        1 => front.max(1.0).midpoint(least),
        _ => (least - 0.02).max(front),
    };
    row.set("stick_out", format!("{:.3}", out + 0.001));
}

/// Lengths that agree with the build, a stop that leaves room.
fn lengths(row: &mut Row, dice: &mut Dice) {
    let (out, overall) = (row.number("stick_out"), row.number("overall_length"));
    if dice.chance(3) {
        row.set("gauge_length", 80);
        row.set("protruding_length", format!("{:.3}", 80.0 + out));
        row.set("clamping_length", format!("{:.3}", overall - out));
    }
    if dice.chance(3) {
        row.set("insertion_depth_max", format!("{:.3}", overall - out + 6.0));
    }
    if dice.chance(4) {
        row.set("clamping_length_min", 15);
        row.set("clamping_length_max", overall);
    }
    if dice.chance(6) {
        row.set("cutter_speed_max", 30_000);
    }
}

/// The rows as one flat CSV.
pub fn csv(rows: &[Row]) -> String {
    let mut columns: Vec<&str> = Vec::new();
    for (column, _) in rows.iter().flat_map(|row| &row.0) {
        if !columns.contains(column) {
            columns.push(column);
        }
    }
    let mut text = columns.join(",") + "\n";
    for row in rows {
        let cells = columns.iter().map(|column| {
            let found = row.0.iter().find(|(known, _)| known == column);
            found.map_or("", |(_, value)| value)
        });
        writeln!(text, "{}", cells.collect::<Vec<_>>().join(",")).unwrap();
    }
    text
}
