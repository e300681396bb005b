//! Where a cell may be what makes a rule apply: by rule, column, tool and reason.

use super::row::{Cell, Row};

/// Rules that may fall silent without a cell.
pub struct Exception {
    /// Rules, or topics that end with a slash.
    pub rules: &'static [&'static str],
    /// Columns, one of which is taken away.
    pub columns: &'static [&'static str],
    /// Of which tools this is so.
    pub of: fn(&Row) -> bool,
    /// Why.
    pub reason: &'static str,
}

fn text<'r>(row: &'r Row, column: &str) -> &'r str {
    match row.0.get(column) {
        Some(Cell::Text(text)) => text,
        _ => "",
    }
}

fn any(_: &Row) -> bool {
    true
}

fn kind_is(row: &Row, kinds: &[&str]) -> bool {
    kinds.contains(&text(row, "holder.clamping_kind"))
}

/// In a collet of its own taper, or under a screw that a flat must meet.
fn judged_without_a_minimum(row: &Row) -> bool {
    let kinds = ["collet chuck", "other collet", "side-lock holder", ""];
    kind_is(row, &kinds)
}

/// The holder's own bore grips, and what stands of a collet is a sleeve.
pub fn sleeved(row: &Row) -> bool {
    kind_is(row, &["hydraulic chuck", "milling chuck"])
}

fn clearance_beyond_its_range(row: &Row) -> bool {
    matches!(row.0.get("operation.clearance"), Some(Cell::Length(mm)) if *mm > 1.0)
}

fn relief_not_stated(row: &Row) -> bool {
    text(row, "collet.bore_form") != "relieved in front"
}

/// Without a kind, a tool of which a collet is named or that is a probe is taken for what those
/// are.
fn told_by_collet_or_probe(row: &Row) -> bool {
    let collet = row.0.keys().any(|column| column.starts_with("collet."));
    collet || text(row, "cutter.cutter_kind") == "probe"
}

/// Cells of a job: without one there is nothing to ask.
const JOB: &[&str] = &[
    "operation.axial_depth",
    "operation.coolant",
    "operation.feed_per_revolution",
    "operation.feed_per_tooth",
    "operation.finishing",
    "operation.operation_kind",
    "operation.radial_width",
    "operation.reach",
    "operation.room_depth",
    "operation.room_diameter",
    "operation.spindle_direction",
    "operation.spindle_speed",
    "operation.wall",
    "operation.workpiece_material",
];

/// Cells that a model or a piece of good advice is worked out from, starred ones aside.
const INPUTS: &[&str] = &[
    "clamping_length",
    "collet.bore_diameter_min",
    "collet.bore_form",
    "collet.bore_recess",
    "collet.collet_length",
    "collet.collet_system",
    "collet.torque_recommended",
    "cutter.chip_flute_length",
    "cutter.cutter_kind",
    "cutter.cutter_material",
    "cutter.flute_count",
    "cutter.hand",
    "cutter.neck_diameter",
    "cutter.neck_length",
    "cutter.drive_square",
    "cutter.drive_square_length",
    "cutter.rear_flute_length",
    "cutter.shank_form",
    "cutter.thread_pitch",
    "holder.bore_length",
    "holder.bore_recess",
    "holder.clamping_kind",
    "holder.gauge_length",
    "holder.insertion_depth_max",
    "holder.mouth_diameter",
    "holder.mouth_setback",
    "holder.nose_diameter",
    "holder.taper_length",
    "nut.face_setback",
    "nut.nut_outer_diameter",
    "nut.nut_style",
    "nut.torque_max",
    "nut_torque",
    "protruding_length",
];

/// All of them; no starred cell is among them.
pub const EXCEPTIONS: &[Exception] = &[
    Exception {
        rules: &["record/implausible-flute-count"],
        columns: &["cutter.flute_count"],
        of: any,
        reason: "a number that nobody states is not implausible",
    },
    Exception {
        rules: &["grip/below-cutter-minimum"],
        columns: &["cutter.clamping_length_min"],
        of: any,
        reason: "a limit that this manufacturer does not state is no limit of his",
    },
    Exception {
        rules: &["grip/below-collet-minimum"],
        columns: &["collet.clamping_length_min"],
        of: any,
        reason: "a limit that this manufacturer does not state is no limit of his",
    },
    Exception {
        rules: &["grip/beyond-maker-clamping"],
        columns: &[
            "cutter.clamping_length_max",
            "collet.clamping_length_max",
            "holder.clamping_length_max",
        ],
        of: any,
        reason: "a limit that this manufacturer does not state is no limit of his",
    },
    Exception {
        rules: &["grip/below-holder-minimum", "grip/shank-too-short"],
        columns: &["holder.clamping_length_min"],
        of: judged_without_a_minimum,
        reason: "a slotted collet is judged by two thirds, a screw by its flat; a minimum is judged beside that",
    },
    Exception {
        rules: &["grip/tail-on-stop"],
        columns: &["holder.insertion_depth_max"],
        of: any,
        reason: "a stop that nobody states is not known to be there; the stick-out limits say so",
    },
    Exception {
        rules: &[
            "grip/",
            "reach/",
            "suits/",
            "torque/",
            "holding/",
            "stiffness/",
        ],
        columns: &["extension"],
        of: any,
        reason: "it says that something stands between the tool and the holder",
    },
    Exception {
        rules: &[
            "suits/",
            "grip/screw-misses-flat",
            "grip/second-screw-misses-flat",
            "grip/little-shank",
            "grip/tail-on-stop",
        ],
        columns: &["holder.clamping_kind"],
        of: any,
        reason: "they are about this kind; without it the grip itself is not judged",
    },
    Exception {
        rules: &["grip/"],
        columns: &["holder.clamping_kind"],
        of: told_by_collet_or_probe,
        reason: "where it is empty a collet that is named clamps, and a probe is held in its own way",
    },
    Exception {
        rules: &["suits/", "grip/flat-in-bore"],
        columns: &["cutter.shank_form"],
        of: any,
        reason: "a flat or a cone that nobody states is not asked about",
    },
    Exception {
        rules: &["grip/flat-in-bore"],
        columns: &["cutter.flat_distance", "cutter.flat_spacing"],
        of: any,
        reason: "a flat whose place is not stated lies where the standard has it",
    },
    Exception {
        rules: &["suits/"],
        columns: &[
            "cutter.shank_tolerance",
            "holder.keyless",
            "holder.seat_form",
        ],
        of: any,
        reason: "a pair is asked about where both of its parts are stated",
    },
    Exception {
        rules: &["grip/"],
        columns: &["cutter.rear_flute_length"],
        of: any,
        reason: "flutes at the shank end that nobody states are none: hardly a cutter has them",
    },
    Exception {
        rules: &["grip/", "torque/covers-short-grip"],
        columns: &["cutter.drive_square", "cutter.drive_square_length"],
        of: any,
        reason: "a square that nobody states is none",
    },
    Exception {
        rules: &[
            "grip/",
            "reach/",
            "holding/",
            "stiffness/",
            "torque/",
            "record/",
        ],
        columns: &["cutter.overall_length_min", "cutter.overall_length_actual"],
        of: any,
        reason: "without them the tool is taken to be new",
    },
    Exception {
        rules: &["grip/", "torque/covers-short-grip"],
        columns: &["collet.bore_recess"],
        of: relief_not_stated,
        reason: "a bore grips from the front of its collet unless it is stated as relieved there",
    },
    Exception {
        rules: &["grip/"],
        columns: &["collet.bore_form"],
        of: any,
        reason: "a bore grips from the front of its collet unless it is stated as relieved there",
    },
    Exception {
        rules: &["grip/"],
        columns: &["nut.nut_style"],
        of: any,
        reason: "a nut whose style nobody states counts as standard, and its recess lies in the narrower range",
    },
    Exception {
        rules: &["reach/", "grip/part-grip"],
        columns: &["operation.clearance"],
        of: clearance_beyond_its_range,
        reason: "unstated it is taken to lie within its range",
    },
    Exception {
        rules: &["grip/shank-outside-holder-bore"],
        columns: &["holder.bore_diameter"],
        of: any,
        reason: "a bore that nobody states cannot be compared",
    },
    Exception {
        rules: &[
            "grip/tail-on-stop",
            "grip/shank-outside-bore-range",
            "grip/little-shank",
        ],
        columns: &["collet.collet_system"],
        of: |row| kind_is(row, &[""]),
        reason: "a collet of a standard size counts as ISO 15488 where nothing else is said of it",
    },
    Exception {
        rules: &["record/stick-out-beyond-tool"],
        columns: &["extension", "holder.clamping_kind"],
        of: any,
        reason: "a tool that may stand on an arbor sticks out by all of its length",
    },
    Exception {
        rules: &["grip/second-screw-misses-flat"],
        columns: &["holder.screw_spacing"],
        of: any,
        reason: "it says that there is a second screw",
    },
    Exception {
        rules: &["grip/size-mismatch"],
        columns: &["holder.collet_size", "nut.collet_size"],
        of: any,
        reason: "sizes that nobody states cannot be compared",
    },
    Exception {
        rules: &[
            "grip/collapsed-collet",
            "grip/square-missing",
            "grip/coolant-unsealed",
        ],
        columns: &[
            "collet.bore_diameter_min",
            "collet.bore_form",
            "cutter.cutter_kind",
            "operation.coolant",
        ],
        of: any,
        reason: "a warning about what is stated",
    },
    Exception {
        rules: &[
            "reach/",
            "record/",
            "suits/",
            "speed/",
            "stiffness/",
            "holding/",
            "grip/part-grip",
            "torque/torque-cannot-hold",
        ],
        columns: JOB,
        of: any,
        reason: "without the cell the job asks nothing of the tool",
    },
    Exception {
        rules: &[
            "holding/",
            "stiffness/",
            "torque/",
            "grip/part-grip",
            "reach/more-overhang-than-needed",
            "reach/slender-overhang",
        ],
        columns: INPUTS,
        of: any,
        reason: "models and good advice speak where all that they use is stated; no error is among them",
    },
    Exception {
        rules: &[
            "reach/drill-deeper-than-flutes",
            "reach/shank-or-neck-rubs",
            "reach/nut-fouls",
            "reach/flutes-too-short",
        ],
        columns: &[
            "cutter.chip_flute_length",
            "cutter.cutter_kind",
            "cutter.neck_diameter",
            "cutter.neck_length",
            "nut.nut_outer_diameter",
            "cutter.depth_of_cut_max",
        ],
        of: any,
        reason: "what follows the flutes, or a nut's size, is compared where it is stated",
    },
    Exception {
        rules: &["record/"],
        columns: &[
            "cutter.hand",
            "cutter.thread_pitch",
            "cutter.cutter_kind",
            "cutter.chip_flute_length",
            "clamping_length",
            "protruding_length",
            "holder.gauge_length",
        ],
        of: any,
        reason: "two statements are compared where both are there",
    },
];

/// Cells of a collet that are starred, and are not needed in a chuck: there they are a sleeve's,
/// and the holder's minimum judges the grip.
pub const OF_A_SLEEVE: (&[&str], &[&str]) = (
    &[
        "grip/short-grip",
        "grip/shank-outside-bore-range",
        "grip/shank-too-short",
    ],
    &["collet.bore_length", "collet.bore_diameter"],
);

/// What holds no shank: there an overall length is not needed, though it is starred.
pub fn holds_no_shank(row: &Row) -> bool {
    let kinds = ["arbor", "screwed-on head", "one piece", "none"];
    kind_is(row, &kinds) || text(row, "cutter.shank_form") == "Morse taper"
}
