//! Notes as text: what belongs to one tool is one note, and a guess is named.

use shankwise::advice::Plan;
use shankwise::write::{Look, Show, report};

use crate::support::lint_text;

/// Text of all that is found in a library, on one line, and without the folds of the lines.
fn text(library: &str) -> String {
    let drawn = report(
        &lint_text(library),
        &Plan::default(),
        Look::Drawn,
        Show::all(),
    );
    drawn.split_whitespace().collect::<Vec<_>>().join(" ")
}

const HEADER: &str = "tool_number,clamping_kind,stick_out,overall_length,shank_length,bore_length,reach,nut_torque,cutting_diameter,shank_diameter,bore_diameter,collet_size,face_setback,clearance";

/// A tool that could go further in has more grip to gain, and too much overhang: one note.
#[test]
fn part_grip_and_overhang_make_one_note_a_tool() {
    let row = |number, stick_out, shank, reach| {
        format!("{number},taper collet,{stick_out},80,{shank},30,{reach},80,12,12,12,32,0,0\n")
    };
    let rows = [
        row(1, 58, 50, 40),
        // The same words of another tool.
        row(2, 58, 50, 40),
        // A full land, and overhang to spare: a note of its own.
        row(3, 48, 50, 35),
    ];
    let library = format!("{HEADER}\n{}", rows.concat());
    let text = text(&library);
    let both = "note grip/part-grip, reach/more-overhang-than-needed: tools 1, 2: \
        22.0 mm of 30.0 mm gripped; 30.0 mm is possible at a stick-out of 40.0 mm; \
        and the stick-out is 58.0 mm, 18.0 mm more than needed at: library.csv:2, 3 \
        do: shorten the stick-out if the bore behind the collet is deep enough";
    assert!(text.contains(both), "{text}");
    assert_eq!(text.matches("note grip/part-grip").count(), 1, "{text}");
    let alone = "note reach/more-overhang-than-needed: tool 3: the stick-out is 48.0 mm, 13.0 mm more than needed";
    assert!(text.contains(alone), "{text}");
    assert_eq!(
        text.matches("reach/more-overhang-than-needed").count(),
        2,
        "{text}"
    );
}

/// What stands beside an error is not lost when the error has no note to stand beside.
#[test]
fn a_note_whose_host_is_not_there_stands_alone() {
    let library = format!("{HEADER}\n1,taper collet,48,80,50,30,35,80,12,12,12,32,0,0\n");
    let text = text(&library);
    assert!(!text.contains("grip/part-grip"), "{text}");
    assert!(
        text.contains("note reach/more-overhang-than-needed: tool 1"),
        "{text}"
    );
}

/// A note that rests on a guess says so, as a block does.
#[test]
fn a_note_names_what_it_assumes() {
    let library =
        format!("{HEADER},shank_form\n1,taper collet,48,80,50,30,45,80,12,12,12,32,0,0,HB\n");
    let text = text(&library);
    let note = "note grip/flat-in-bore: tool 1: about 8.0 mm of the gripping length sits on the drive flat";
    assert!(text.contains(note), "{text}");
    assert!(text.contains("assumed: cutter.shank_form HB:"), "{text}");
}

/// What no field could decide is not only counted, but said in the rule's own words.
#[test]
fn the_grip_of_an_extension_is_said_to_be_unknown() {
    let library =
        format!("{HEADER},extension\n1,taper collet,48,80,50,30,45,80,12,12,12,32,0,0,X16\n");
    let text = text(&library);
    let line = "library.csv:2 tool 1: the extension's grip in the holder is not judged";
    assert!(text.contains(line), "{text}");
}

/// Sizes are whole numbers, and are printed as such.
#[test]
fn sizes_have_no_decimals() {
    let library = "tool_number,collet collet_size,nut collet_size\n1,25,32\n";
    let text = text(library);
    assert!(text.contains("a size 25 collet in a size 32 nut"), "{text}");
}

/// Where no extension is used, none is missing.
#[test]
fn an_extension_that_nobody_uses_is_not_told() {
    let library = "tool_number,collet_size,nut_thread,holder nut_thread\n1,32,M40x1.5,M42x1.5\n";
    let text = text(library);
    assert!(text.contains("grip/size-mismatch"), "{text}");
    assert!(!text.contains("extension"), "{text}");
}
