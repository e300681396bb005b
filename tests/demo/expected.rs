//! What the demo is made to show, tool by tool.

/// Rules and levels of one tool; `none` is "cannot be judged".
type Wanted = &'static [(&'static str, &'static str)];

/// Tools that are built as they should be: no error, no warning, nothing left unjudged.
pub const RIGHT: [&str; 14] = [
    "1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "12", "13", "14",
];

/// Every finding of the demo. `-` stands for records that belong to no one tool.
pub const EXPECTED: &[(&str, Wanted)] = &[
    // Nobody wrote down a torque; the tool itself is right.
    ("11", &[("torque/not-stated", "note")]),
    // Pulled out to reach the floor, and the nut made up for it.
    (
        "15",
        &[
            ("grip/short-grip", "error"),
            ("torque/over-torqued", "error"),
        ],
    ),
    // Its shank was cut off: no stick-out cures it, and it does not reach either.
    (
        "16",
        &[
            ("grip/shank-too-short", "error"),
            ("grip/short-grip", "error"),
            ("reach/too-short-for-the-job", "error"),
        ],
    ),
    // Two tools under one number: a thin shank squeezed in a collet and over-torqued for that
    // bore; an end mill pushed past the stop, its run-out deep in the bore.
    (
        "17",
        &[
            ("grip/flutes-in-bore", "error"),
            ("grip/shank-outside-bore-range", "error"),
            ("grip/tail-on-stop", "error"),
            ("record/number-taken-twice", "error"),
            ("torque/over-torqued", "error"),
        ],
    ),
    // Half an inch forced into 12 mm, with more than the wrench may give; and 1.1 mm of run-out
    // in the bore, which the tolerance of the shank's length may explain.
    (
        "18",
        &[
            ("grip/flutes-in-bore", "warning"),
            ("grip/shank-outside-bore-range", "error"),
            ("torque/over-torqued", "error"),
        ],
    ),
    // Pushed in until it touched: flutes in the bore, no room left behind the tail.
    (
        "19",
        &[
            ("grip/flutes-in-bore", "error"),
            ("grip/tail-on-stop", "warning"),
        ],
    ),
    // Its neck lies in the bore; that it does not reach is accepted by the shop.
    (
        "20",
        &[
            ("grip/flutes-in-bore", "warning"),
            ("reach/too-short-for-the-job", "accepted"),
        ],
    ),
    // The land is only assumed, so the short grip is lowered, and what would hold is not judged.
    (
        "21",
        &[
            ("grip/shank-too-short", "none"),
            ("grip/short-grip", "warning"),
            ("record/value-assumed", "note"),
        ],
    ),
    // A bore relieved at the rear whose land nobody measured; the torque cannot be read.
    (
        "22",
        &[
            ("grip/shank-too-short", "none"),
            ("grip/short-grip", "none"),
            ("record/cell-unreadable", "error"), // nut_torque `55 Nmn`
            ("record/field-missing", "none"),
            ("torque/not-stated", "note"),
        ],
    ),
    // A collet that is not there, and a stick-out with a decimal comma.
    (
        "23",
        &[
            ("grip/flutes-in-bore", "none"),
            ("grip/shank-outside-bore-range", "none"),
            ("grip/shank-too-short", "none"),
            ("grip/short-grip", "none"),
            ("grip/tail-on-stop", "none"),
            ("reach/too-short-for-the-job", "none"),
            ("record/cell-unreadable", "error"), // stick_out `28,5`
            ("record/field-missing", "none"),    // stick_out
            ("record/field-missing", "none"),    // collet_size
            ("record/field-missing", "none"),    // bore_diameter
            ("record/field-missing", "none"),    // bore_length
            ("record/part-unknown", "error"),
        ],
    ),
    (
        "-",
        &[
            ("record/cell-unreadable", "error"), // reach `14,5`
            ("record/cell-unreadable", "note"),  // corner_radius `n/a`
            ("record/negative-length", "error"), // neck_length `0`
            ("record/part-twice", "error"),
            ("record/part-unused", "note"),
            ("record/part-unused", "note"), // an end mill
        ],
    ),
];

/// Rule, table, field and text of what `-` stands for.
pub const BROKEN_CELLS: [(&str, &str, &str, &str); 8] = [
    (
        "record/cell-unreadable",
        "assemblies",
        "nut_torque",
        "55 Nmn",
    ),
    ("record/cell-unreadable", "assemblies", "stick_out", "28,5"),
    ("record/cell-unreadable", "cutters", "corner_radius", "n/a"),
    ("record/cell-unreadable", "operations", "reach", "14,5"),
    ("record/negative-length", "cutters", "neck_length", "0"),
    ("record/part-twice", "collets", "collet", "c40-25"),
    ("record/part-unused", "collets", "collet", "c40-25"),
    ("record/part-unused", "cutters", "cutter", "em14-83"),
];
