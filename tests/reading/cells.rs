//! Cells that are no value of their property: which fault, where, in which words.

use shankwise::judge::Report;
use shankwise::library::{ClampingKind, ClosedList as _, Field};
use shankwise::rulebook::Level;
use shankwise::units::Scalar;

use super::{HEADER, ROW, faults, faults_of, stated, with_column, word};
use crate::support::{library, lint_text};

/// The kind of cell fault that a cell in a further column is.
fn kind(header: &str, cell: &str) -> String {
    let library = library(&with_column(header, cell));
    let at = ROW.chars().count() + 2 + usize::from(cell.starts_with('"'));
    let told = faults(&library);
    assert_eq!(told.len(), 1, "{header} {cell}: {told:?}");
    let (fault, place) = told[0].split_once(' ').unwrap();
    assert!(
        place.starts_with(&format!("2:{at} ")),
        "{header} {cell}: {told:?}"
    );
    let kind = word(library.faults().next().unwrap(), "kind");
    format!("{fault} {kind}").trim().to_owned()
}

#[test]
fn every_kind_of_broken_cell() {
    let broken = [
        ("neck_length", "long", "cell-unreadable number"),
        ("neck_length", "~12", "cell-unreadable number"),
        ("neck_length", "Ø12", "cell-unreadable number"),
        ("neck_length", "\"12,5\"", "cell-unreadable number"),
        ("neck_length", "12.5.1", "cell-unreadable number"),
        ("neck_length", "1 250", "cell-unreadable number"),
        ("neck_length", "12-14", "cell-unreadable number"),
        ("neck_length", "1/0", "cell-unreadable number"),
        ("neck_length", "1e999", "cell-unreadable number"),
        ("neck_length", "NaN", "cell-unreadable number"),
        ("neck_length", "inf", "cell-unreadable number"),
        ("neck_length", "12 mmm", "cell-unreadable unit"),
        ("neck_length", "12 kg", "cell-unreadable unit"),
        ("flute_count", "2.5", "cell-unreadable number"),
        ("flute_count", "two", "cell-unreadable number"),
        ("flute_count", "2 mm", "cell-unreadable unit"),
        ("cutter_kind", "endmil", "cell-unreadable word"),
        ("sealed", "maybe", "cell-unreadable word"),
        ("nut_thread", "40x1.5", "cell-unreadable word"),
        ("nut_thread", "M", "cell-unreadable word"),
        ("nut_thread", "M40x", "cell-unreadable word"),
        ("nut_thread", "M40x-1", "cell-unreadable word"),
        ("balance_grade", "fine", "cell-unreadable number"),
        ("holder.holder_mass", "1.2 m", "cell-unreadable unit"),
        ("neck_length", "0", "negative-length"),
        ("neck_length", "-3", "negative-length"),
        ("neck_length", "−3", "negative-length"),
        ("run_out", "-0.01", "negative-length"),
        ("flute_count", "0", "negative-length"),
        ("balance_grade", "G-2.5", "negative-length"),
    ];
    for (header, cell, expected) in broken {
        assert_eq!(kind(header, cell), expected, "{header}: {cell}");
    }
}

#[test]
fn zero_and_negative_numbers_where_they_make_sense() {
    for (header, cell) in [
        ("run_out", "0"),
        ("corner_radius", "0"),
        ("bore_recess", "0"),
        ("face_setback", "-1.5"),
        ("bore_setback", "-2"),
        ("helix_angle", "-30"),
        ("mouth_setback", "-1"),
    ] {
        assert_eq!(
            faults_of(&with_column(header, cell)),
            [] as [&str; 0],
            "{header}"
        );
    }
}

/// The stand-ins for "nothing" are a note in a column of any type, and no value.
#[test]
fn stand_ins_are_notes_whatever_the_column() {
    let columns = [
        "neck_length",
        "flute_count",
        "balance_grade",
        "cutter_kind",
        "sealed",
        "nut_thread",
        "nut_torque",
        "nut",
    ];
    for header in columns {
        for cell in [
            "-", "--", "–", "—", "?", "n/a", "N/A", "na", "n.a.", "tbd", "TBD", "NULL", "unknown",
        ] {
            assert_eq!(
                kind(header, cell),
                "cell-unreadable stand-in",
                "{header}: {cell}"
            );
            let report = lint_text(&with_column(header, cell));
            assert_eq!(level(&report), Some(Level::Note), "{header}: {cell}");
        }
    }
}

fn level(report: &Report) -> Option<Level> {
    let finding = report
        .findings
        .iter()
        .find(|f| f.rule == "record/cell-unreadable");
    finding.unwrap().level
}

#[test]
fn a_stand_in_that_is_a_word_of_the_column_is_that_word() {
    let text = "tool_number,clamping_kind,stick_out,cutting_diameter\n12,none,33,12\n";
    let library = library(text);
    assert_eq!(faults(&library), [] as [&str; 0]);
    assert_eq!(
        stated(&library, Field::ClampingKind),
        Some(Scalar::Word(ClampingKind::Nothing.word()))
    );
}

#[test]
fn a_broken_cell_is_an_error_shows_its_text_and_counts_as_not_stated() {
    let text = format!("{HEADER}\n12,taper collet,33 mmm,12,12,45,83,32,12,40\n");
    let report = lint_text(&text);
    assert_eq!(level(&report), Some(Level::Error));
    let finding = report
        .findings
        .iter()
        .find(|f| f.rule == "record/cell-unreadable")
        .unwrap();
    assert_eq!(
        finding.message,
        "stick_out: `33 mmm`: the unit `mmm` is not known; did you mean `mm`?"
    );
    let place = &finding.places[0];
    assert_eq!(
        (place.line, place.column, place.text.as_str()),
        (2, 17, "33 mmm")
    );
    let missing = report
        .findings
        .iter()
        .find(|f| f.rule == "record/field-missing");
    assert_eq!(missing.unwrap().missing, ["assembly.stick_out"]);
    assert_eq!(report.summary.grip_judged, 0);
}
