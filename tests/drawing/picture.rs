//! The sketch: true to scale, at most 76 columns, the same in every look.

use shankwise::units::print::DisplayUnits;
use shankwise::write::{SketchLook, sketch};

use super::{DRAWN, TOOL, drawing, drawn, row, with_scene};

/// The line that begins with the scale's first tick.
pub fn scale_line(text: &str) -> Vec<char> {
    let line = text.lines().find(|line| line.trim_start().starts_with('├'));
    line.expect("there is a scale").chars().collect()
}

/// Where a character stands in the first line that has it.
fn column(text: &str, glyph: char) -> usize {
    let mut columns = text
        .lines()
        .map(|line| line.chars().position(|c| c == glyph));
    columns.find_map(|at| at).expect("it is drawn")
}

/// How often a character stands in the first line that has it, the legend aside.
fn count(text: &str, glyph: char) -> usize {
    let line = text.lines().find(|line| line.contains(glyph)).unwrap_or("");
    line.chars().filter(|c| *c == glyph).count()
}

/// Millimetres of a column, from the scale line and the length it spans.
fn per_column(text: &str, length: f64) -> f64 {
    let line = scale_line(text);
    let first = line.iter().position(|c| *c == '├').unwrap();
    length / f64::from(u32::try_from(line.len() - 1 - first).unwrap())
}

#[test]
fn the_front_face_stands_where_the_stick_out_says() {
    for stick_out in 1..90 {
        let text = drawn(&[TOOL, &format!("stick_out={stick_out}")]);
        let out = f64::from(stick_out);
        let mm = per_column(&text, 83_f64.max(out + 41.0));
        let tip = scale_line(&text).iter().position(|c| *c == '├').unwrap();
        let face = column(&text, '┃') - tip;
        let off = f64::from(u32::try_from(face).unwrap()) - out / mm;
        assert!(off.abs() <= 1.0, "{text}");
    }
}

#[test]
fn grip_and_land_without_grip_are_as_long_as_they_are() {
    for stick_out in 1..83 {
        let out = f64::from(stick_out);
        let text = drawn(&[TOOL, &format!("stick_out={stick_out}")]);
        let mm = per_column(&text, 83_f64.max(out + 41.0));
        let gripped = (83_f64.min(out + 41.0) - 38_f64.max(out + 1.0)).max(0.0);
        let columns = |glyph| f64::from(u32::try_from(count(&text, glyph)).unwrap());
        assert!((columns('█') - gripped / mm).abs() <= 2.0, "{text}");
        assert!(
            (columns('░') - (40.0 - gripped) / mm).abs() <= 2.0,
            "{text}"
        );
    }
}

#[test]
fn what_is_there_is_seen_however_short() {
    let sliver = drawn(&[TOOL, "overall_length=400,shank_length=60,stick_out=398.9"]);
    assert!(count(&sliver, '█') >= 1, "{sliver}");
    let crumb = drawn(&[TOOL, "overall_length=400,shank_length=200,stick_out=198.9"]);
    assert!(
        count(&crumb, '░') >= 1 || !crumb.contains("no grip"),
        "{crumb}"
    );
}

#[test]
fn the_picture_is_symmetric_about_the_axis() {
    let text = drawn(&[TOOL, "stick_out=50"]);
    let rows: Vec<&str> = text.lines().take(7).collect();
    let flipped = |row: &str| row.replace('└', "┌").replace('┘', "┐");
    assert_eq!(rows[1], rows[5]);
    assert_eq!(rows[2], flipped(rows[4]));
}

#[test]
fn ascii_is_ascii_and_says_the_same() {
    let ascii = SketchLook {
        ascii: true,
        ..DRAWN
    };
    for out in [
        "stick_out=50",
        "stick_out=90",
        "bore_length=",
        "shank_length=",
    ] {
        let drawing = drawing(&[TOOL, out, "insertion_depth_max=60"]);
        let text = sketch(&drawing, DisplayUnits::default(), ascii).unwrap();
        assert!(text.is_ascii(), "{text}");
        let drawn = sketch(&drawing, DisplayUnits::default(), DRAWN).unwrap();
        let widths = |text: &str| -> Vec<usize> {
            let lines = text.lines();
            lines.map(|line| line.chars().count()).collect()
        };
        assert_eq!(widths(&text), widths(&drawn), "{text}\n{drawn}");
    }
}

#[test]
fn colour_adds_nothing_but_colour() {
    let coloured = SketchLook {
        colour: true,
        ..DRAWN
    };
    let drawing = drawing(&[TOOL, "stick_out=50"]);
    let plain = sketch(&drawing, DisplayUnits::default(), DRAWN).unwrap();
    let coloured = sketch(&drawing, DisplayUnits::default(), coloured).unwrap();
    assert!(!plain.contains('\u{1b}'));
    let mut bare = String::new();
    let mut inks = std::collections::BTreeSet::new();
    for (at, piece) in coloured.split('\u{1b}').enumerate() {
        match piece.split_once('m').filter(|_| at > 0) {
            Some((ink, rest)) => {
                inks.insert(ink.to_owned());
                bare.push_str(rest);
            }
            None => bare.push_str(piece),
        }
    }
    assert_eq!(bare, plain);
    // Grip, land without grip and the face each have an ink of their own.
    assert_eq!(inks.len(), 4, "{inks:?}");
}

#[test]
fn nothing_to_see_is_no_drawing() {
    let none = |cells: &[&str]| {
        let drawing = with_scene(&row(cells), &[], shankwise::draw::assembly);
        sketch(&drawing, DisplayUnits::default(), DRAWN).is_none()
    };
    assert!(none(&["tool_number=1,overall_length=83"]));
    assert!(none(&["tool_number=1,stick_out=40"]));
    assert!(none(&[TOOL, "stick_out="]));
    assert!(!none(&["tool_number=1,stick_out=40,overall_length=83"]));
    assert!(!none(&[
        "tool_number=1,stick_out=40,collet_size=32,bore_length=40"
    ]));
    assert!(none(&[TOOL, "overall_length=1e9"]));
}

#[test]
fn text_of_the_library_is_not_on_it() {
    let text = drawn(&[TOOL, "description=\u{1b}[31mred,assembly=boo"]);
    assert!(!text.contains('\u{1b}') && !text.contains("red") && !text.contains("boo"));
}
