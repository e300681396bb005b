//! What the demo is made to show, tool by tool.

/// Rules and levels of one tool; `none` is "not judged".
type Wanted = &'static [(&'static str, &'static str)];

/// Tools that are built as they should be: no error, no warning, nothing left unjudged.
pub const RIGHT: [&str; 25] = [
    "1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "12", "13", "14", "15", "16", "18",
    "19", "20", "21", "22", "23", "24", "25", "26",
];

/// Every finding of the demo. `-` stands for records that belong to no one tool.
pub const EXPECTED: &[(&str, Wanted)] = &[
    // Right, with something worth knowing.
    ("2", &[("stiffness/run-out-not-measured", "note")]),
    // Right, with something worth knowing.
    ("4", &[("stiffness/run-out-not-measured", "note")]),
    // Right, with something worth knowing.
    ("15", &[("stiffness/run-out-not-measured", "note")]),
    // Right, with something worth knowing.
    (
        "16",
        &[
            ("stiffness/run-out-not-measured", "note"),
            ("stiffness/tip-bends", "note"),
        ],
    ),
    // A thin drill in a collet with a chip under it.
    (
        "17",
        &[
            ("stiffness/run-out-eats-the-chip", "warning"),
            ("stiffness/run-out-of-a-small-drill", "warning"),
        ],
    ),
    // Nobody wrote down a torque; the tool itself is right.
    ("11", &[("torque/not-stated", "note")]),
    // Right, and further out than its job asks for.
    (
        "26",
        &[
            ("grip/part-grip", "note"),
            ("reach/more-overhang-than-needed", "note"),
        ],
    ),
    // Pulled out to reach the floor, and the nut made up for it; nobody entered the new length.
    (
        "27",
        &[
            ("grip/short-grip", "error"),
            ("holding/edge-lifts", "note"),
            ("holding/mouth-overstressed", "warning"),
            ("reach/no-window", "error"),
            ("reach/shank-or-neck-rubs", "warning"),
            ("record/lengths-disagree", "warning"),
            ("torque/covers-short-grip", "error"),
            ("torque/over-torqued", "error"),
        ],
    ),
    // Its shank is turned down behind: no stick-out cures it.
    (
        "28",
        &[
            ("grip/shank-too-short", "error"),
            ("grip/short-grip", "error"),
            ("reach/no-window", "error"),
        ],
    ),
    // Two tools under one number: a thin tap squeezed in a collet; an end mill pushed past the
    // stop, its run-out deep in the bore.
    (
        "29",
        &[
            ("grip/flutes-in-bore", "error"),
            ("grip/shank-outside-bore-range", "error"),
            ("grip/square-missing", "note"),
            ("grip/tail-on-stop", "error"),
            ("holding/slips", "note"),
            ("record/number-taken-twice", "error"),
            ("torque/torque-cannot-hold", "note"),
        ],
    ),
    // A large tap held by friction in a loose nut, with the feed of another pitch.
    (
        "30",
        &[
            ("grip/square-missing", "warning"),
            ("holding/slips", "note"),
            ("record/tap-feed-is-not-pitch", "error"),
            ("torque/torque-cannot-hold", "note"),
            ("torque/under-torqued", "warning"),
        ],
    ),
    // A left-hand tap on a spindle that turns right, a square copied from the line below, and
    // a reduced nut that does not go on this holder.
    (
        "31",
        &[
            ("grip/size-mismatch", "error"),
            ("grip/square-mismatch", "error"),
            ("grip/square-not-driven", "error"),
            ("record/hand-mismatch", "error"),
        ],
    ),
    // Half an inch forced into 12 mm, with more than the wrench may give; and 1.1 mm of run-out
    // in the bore, which the tolerance of the shank's length may explain.
    (
        "32",
        &[
            ("grip/flutes-in-bore", "warning"),
            ("grip/shank-outside-bore-range", "error"),
            ("torque/over-torqued", "error"),
        ],
    ),
    // Pushed in until it touched: flutes in the bore, no room left behind the shank end.
    (
        "33",
        &[
            ("grip/beyond-maker-clamping", "error"),
            ("grip/flutes-in-bore", "error"),
            ("grip/tail-on-stop", "warning"),
        ],
    ),
    // Its neck lies in the bore; that it does not reach is accepted by the shop.
    (
        "34",
        &[
            ("grip/flutes-in-bore", "warning"),
            ("reach/too-short-for-the-job", "accepted"),
        ],
    ),
    // The land is only assumed, so the short grip is lowered, and what would hold is not judged.
    (
        "35",
        &[
            ("grip/shank-too-short", "none"),
            ("grip/short-grip", "warning"),
            ("reach/nut-fouls", "error"),
            ("record/value-assumed", "note"),
            ("torque/covers-short-grip", "none"),
            ("stiffness/run-out-not-measured", "note"),
        ],
    ),
    // A bore relieved at the rear whose land nobody measured; the torque cannot be read.
    (
        "36",
        &[
            ("grip/shank-too-short", "none"),
            ("grip/short-grip", "none"),
            ("reach/shank-or-neck-rubs", "error"),
            ("record/cell-unreadable", "error"), // nut_torque `55 Nmn`
            ("record/field-missing", "none"),
            ("speed/over-speed", "error"),
            ("speed/unbalanced", "warning"),
            ("stiffness/run-out-eats-the-chip", "warning"),
            ("stiffness/tooth-frequency-near", "note"),
            ("torque/not-stated", "note"),
        ],
    ),
    // A collet that is not there, and a stick-out with a decimal comma.
    (
        "37",
        &[
            ("grip/collet-closed-too-far", "none"),
            ("grip/flutes-in-bore", "none"),
            ("grip/little-shank", "none"),
            ("grip/shank-outside-bore-range", "none"),
            ("grip/shank-too-short", "none"),
            ("grip/short-grip", "none"),
            ("grip/size-mismatch", "none"),
            ("grip/tail-on-stop", "none"),
            ("reach/too-short-for-the-job", "none"),
            ("record/cell-unreadable", "error"), // stick_out `28,5`
            ("record/field-missing", "none"),    // stick_out
            ("record/field-missing", "none"),    // collet_size
            ("record/field-missing", "none"),    // bore_diameter
            ("record/field-missing", "none"),    // bore_length
            ("record/part-unknown", "error"),
            ("record/stick-out-beyond-tool", "none"),
        ],
    ),
    // Drilled deeper than the flutes clear, coolant let out at the collet, and a torque in
    // pound-feet without saying so.
    (
        "38",
        &[
            ("grip/coolant-unsealed", "warning"),
            ("holding/slips", "note"),
            ("reach/drill-deeper-than-flutes", "error"),
            ("torque/pound-feet-suspected", "warning"),
            ("torque/under-torqued", "warning"),
        ],
    ),
    // Its lengths stand one column to the side, and the shank in inches.
    (
        "39",
        &[
            ("record/flutes-and-shank-overlap", "error"),
            ("record/flutes-longer-than-tool", "error"),
            ("record/implausible-cutting-diameter", "error"),
            ("record/looks-like-inches", "error"),
            ("record/shank-longer-than-tool", "error"),
            ("record/stick-out-beyond-tool", "error"),
        ],
    ),
    // Radius 10 for 1.0, two lengths changed over, a description nobody updated, and a torque
    // with two noughts too many.
    (
        "40",
        &[
            ("holding/mouth-overstressed", "note"),
            ("record/corner-radius-too-large", "error"),
            ("record/description-disagrees", "note"),
            ("record/flutes-under-depth-of-cut", "error"),
            ("record/implausible-torque", "warning"),
            ("torque/nose-yields", "error"),
            ("torque/over-torqued", "error"),
        ],
    ),
    // The cutter's length in place of the tool's, two flats in the bore, a cut above its edges.
    (
        "41",
        &[
            ("grip/flat-in-bore", "warning"),
            ("holding/pulls-out", "note"),
            ("reach/flutes-too-short", "error"),
            ("reach/flutes-too-short", "error"), // of its second operation
            ("record/length-of-the-wrong-thing", "warning"),
            ("record/lengths-disagree", "warning"),
        ],
    ),
    // A quarter inch in the nearest metric collet, as long as it goes, for finishing.
    (
        "42",
        &[
            ("grip/below-collet-minimum", "error"),
            ("grip/collapsed-collet", "warning"),
            ("grip/part-grip", "note"),
            ("reach/slender-overhang", "warning"),
            ("record/speeds-disagree", "warning"),
            ("stiffness/run-out-not-measured", "note"),
        ],
    ),
    // 12 mm, entered as 12 in.
    (
        "43",
        &[
            ("grip/shank-outside-holder-bore", "error"),
            ("record/implausible-overall-length", "error"),
            ("record/looks-like-millimetres", "error"),
        ],
    ),
    // Sound as far as a library can tell.
    (
        "44",
        &[
            ("grip/extension", "none"),
            ("stiffness/run-out-not-measured", "note"),
        ],
    ),
    (
        "-",
        &[
            ("record/cell-unreadable", "error"), // reach `14,5`
            ("record/cell-unreadable", "note"),  // corner_radius `n/a`
            ("record/negative-length", "error"), // neck_length `0`
            ("record/part-twice", "error"),
            ("record/part-unused", "note"), // an end mill
        ],
    ),
];

/// Rule, table, field and text of what `-` stands for, and of the broken cells of assemblies.
pub const BROKEN_CELLS: [(&str, &str, &str, &str); 7] = [
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
    ("record/part-unused", "cutters", "cutter", "em14-83"),
];

/// Rules that only a CSV table, only a document or only an inch library can break, and slips of a
/// digit or a unit, of which one in the demo is enough: they have fixtures of their own.
pub const SHOWN_ELSEWHERE: [&str; 46] = [
    // Only of MTConnect assets.
    "record/asset-departs",
    "record/measured-not-nominal",
    // Only of a workbook.
    "record/hidden-cells",
    "record/merged-cells",
    "record/sheet-not-read",
    // A document has no lines.
    "record/line-passed-over",
    "record/blank-rows",
    // The demo has no headers of its own, and one number in a cell.
    "record/column-not-there",
    "record/two-in-a-cell",
    // About what a shop file accepts; the demo's is as it should be.
    "record/accepted-ends-soon",
    "record/accepted-expired",
    "record/accepted-too-long",
    "record/accepted-unmatched",
    "record/accepted-unused",
    "record/accepted-whatever",
    // In the library of all clampings.
    "grip/below-cutter-minimum",
    "grip/below-holder-minimum",
    "grip/rear-flutes-in-bore",
    "grip/screw-misses-flat",
    "grip/second-screw-misses-flat",
    "suits/coarse-shank-tolerance",
    "suits/flat-in-shrink-fit",
    "suits/flat-under-membrane",
    "suits/left-hand-in-keyless-chuck",
    "suits/morse-taper-in-round-bore",
    "suits/other-seat",
    "suits/plain-shank-in-side-lock",
    "suits/side-cutter-in-drill-chuck",
    "suits/steel-shank-in-shrink-fit",
    "record/bore-far-shorter-than-collet",
    "record/column-twice",
    "record/stated-two-ways",
    "record/implausible-collet-size",
    "record/implausible-face-setback",
    "record/implausible-feed-per-tooth",
    "record/implausible-flute-count",
    "record/implausible-insertion-depth",
    "record/implausible-nut-diameter",
    "record/implausible-point-angle",
    "record/implausible-reach",
    "record/implausible-recommended-torque",
    "record/row-ragged",
    "record/unit-missing",
    "record/unknown-column",
    "record/unknown-element",
    "record/unknown-table",
];
