//! Dimensions and legend: whole, none across another, in the library's units.

use shankwise::units::print::DisplayUnits;
use shankwise::write::sketch;

use super::{DRAWN, TOOL, drawing, drawn};

/// A dimension that can be read: hooked to its column, or with a blank before and behind it.
pub fn has_whole(text: &str, label: &str) -> bool {
    let apart = |c: Option<char>| c.is_none_or(|c| " \n└┘├┤│".contains(c));
    text.match_indices(label).any(|(at, _)| {
        let before = text[..at].chars().next_back();
        let behind = text[at + label.len()..].chars().next();
        apart(before) && apart(behind)
    })
}

#[test]
fn every_dimension_is_whole() {
    let job = "operation_kind=milling,reach=37,clearance=2,insertion_depth_max=44";
    for tenth in 5..80 {
        let (whole, part) = (tenth / 10 * 10 + tenth % 7, tenth % 10);
        let text = drawn(&[TOOL, job, &format!("stick_out={whole}.{part}")]);
        for label in ["tip 0", "end 83.0", "job needs 39.0"] {
            assert!(has_whole(&text, label), "{label}\n{text}");
        }
        let land = (whole + 1, whole + 41);
        for (name, whole) in [
            ("stick-out", whole),
            ("bore from", land.0),
            ("bore to", land.1),
        ] {
            assert!(
                text.contains(&format!("{name} {whole}.{part}")) || text.contains(", end"),
                "{name}\n{text}"
            );
        }
    }
}

#[test]
fn every_tick_has_a_dimension_hooked_to_it() {
    for stick_out in 1..90 {
        let text = drawn(&[TOOL, &format!("stick_out={stick_out}")]);
        let lines: Vec<Vec<char>> = text.lines().map(|line| line.chars().collect()).collect();
        let at = lines
            .iter()
            .position(|line| line.contains(&'┬') && line.contains(&'├'));
        let at = at.unwrap();
        for (column, tick) in lines[at].iter().enumerate() {
            if !"├┬┤".contains(*tick) {
                continue;
            }
            let mut below = lines[at + 1..].iter().map(|line| line.get(column));
            let end = below.find(|glyph| *glyph != Some(&'│'));
            let hook = end.flatten().is_some_and(|glyph| "└┘├┤".contains(*glyph));
            assert!(hook, "column {column}\n{text}");
        }
        // No line is spent on leaders alone.
        let bare = |line: &Vec<char>| line.iter().all(|glyph| " │".contains(*glyph));
        assert!(!lines[at + 1..].iter().any(bare), "{text}");
    }
}

#[test]
fn places_that_are_one_have_one_label() {
    let flush = drawn(&[TOOL, "face_setback=0,bore_length=43"]);
    assert!(flush.contains("stick-out, bore from 40.0"), "{flush}");
    assert!(flush.contains("bore to, end 83.0"), "{flush}");
}

#[test]
fn inches_are_printed_as_inches() {
    let drawing = drawing(&[TOOL, "stick_out=50"]);
    let inches = DisplayUnits::new("in", "N·m");
    let text = sketch(&drawing, inches, DRAWN).unwrap();
    for label in ["stick-out 1.969", "end 3.268"] {
        assert!(has_whole(&text, label), "{label}\n{text}");
    }
    assert!(text.contains("in from the tip"));
    assert!(!text.contains("mm"), "{text}");
}

#[test]
fn the_legend_says_how_much_is_gripped() {
    let out = drawn(&[TOOL, "stick_out=50"]);
    assert!(
        out.contains("█ gripped: 32.0 mm of the 40.0 mm gripping length"),
        "{out}"
    );
    assert!(out.contains("░ no grip: 8.0 mm"), "{out}");
    let full = drawn(&[TOOL]);
    assert!(
        full.contains("gripped: the whole 40.0 mm gripping length"),
        "{full}"
    );
    assert!(!full.contains('░'), "{full}");
    let gone = drawn(&[TOOL, "stick_out=90"]);
    assert!(gone.contains("nothing gripped"), "{gone}");
    // Never rounded towards enough.
    let nearly = drawn(&[TOOL, "shank_length=41.96"]);
    assert!(nearly.contains("39.96 mm of the 40.00 mm"), "{nearly}");
}

#[test]
fn what_is_not_known_is_said() {
    let no_land = drawn(&[TOOL, "bore_length="]);
    assert!(
        no_land.contains("grip not known: collet.bore_length not stated"),
        "{no_land}"
    );
    let no_shank = drawn(&[TOOL, "shank_length=,cutting_diameter=8"]);
    assert!(no_shank.contains("shank_length not stated"), "{no_shank}");
    assert!(no_shank.contains("▒ grip not known"), "{no_shank}");
    assert!(!no_shank.contains('█'), "{no_shank}");
    let assumed = drawn(&[TOOL, "shank_length="]);
    assert!(assumed.contains("┄ plain shank, assumed"), "{assumed}");
    assert!(assumed.contains("partly assumed"), "{assumed}");
}

#[test]
fn a_stop_far_behind_the_tail_does_not_shrink_the_tool() {
    let near = drawn(&[TOOL, "insertion_depth_max=50"]);
    assert!(near.contains('▐') && near.contains("stop 90.0"), "{near}");
    let far = drawn(&[TOOL, "insertion_depth_max=150"]);
    assert!(!far.contains('▐'), "{far}");
    assert!(far.contains("stop 107.0 mm behind the shank end"), "{far}");
}

/// Where a collet ends is shown with a square that it drives, and not without: 40 sticks out, and
/// the collet ends 1 + 42 behind the face.
#[test]
fn the_rear_end_of_a_collet_is_shown_where_it_drives_a_square() {
    let squared = "drive_square_length=6,collet drive_square=8,collet_length=42,face_setback=1";
    let driven = drawn(&[TOOL, squared, "cutter drive_square=8"]);
    assert!(driven.contains("collet to 83.0"), "{driven}");
    let plain = drawn(&[TOOL, "collet_length=42,face_setback=1"]);
    assert!(!plain.contains("collet to"), "{plain}");
}
