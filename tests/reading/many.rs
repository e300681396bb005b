//! Faults by the thousand: what they have in common is held once, and each still says its own.

use std::fmt::Write as _;

use super::{HEADER, ROW, word};
use crate::support::library;

const ROWS: usize = 5_000;

fn rows(row: impl Fn(usize) -> String) -> String {
    (0..ROWS).fold(format!("{HEADER}\n"), |mut text, at| {
        writeln!(text, "{}", row(at)).unwrap();
        text
    })
}

#[test]
fn each_unreadable_cell_is_told_with_its_own_text() {
    let text = rows(|at| {
        ROW.replace("12,taper", &format!("{at},taper"))
            .replace(",33,", &format!(",x{at},"))
    });
    let library = library(&text);
    let faults = library.faults();
    let unread: Vec<_> = faults
        .filter(|fault| fault.kind == "record/cell-unreadable")
        .collect();
    assert_eq!(unread.len(), ROWS);
    for (at, fault) in unread.iter().enumerate() {
        assert_eq!(fault.of, Some(at));
        assert_eq!(word(fault, "text"), format!("x{at}"));
        assert_eq!(word(fault, "property"), "stick_out");
        assert_eq!(
            word(fault, "problem"),
            "expected the number alone, without signs or words before it"
        );
        let place = fault.places[0].place;
        assert_eq!(library.sources.position(place).line, at + 2);
        assert_eq!(library.sources.text(place), format!("x{at}"));
    }
}

#[test]
fn each_number_taken_twice_is_told_with_the_first() {
    let text = rows(|at| ROW.replace("12,taper", &format!("{},taper", at % 7)));
    let library = library(&text);
    let faults = library.faults();
    let twice: Vec<_> = faults
        .filter(|fault| fault.kind == "record/number-taken-twice")
        .collect();
    assert_eq!(twice.len(), ROWS - 7);
    for (before, fault) in twice.iter().enumerate() {
        let at = before + 7;
        assert_eq!(fault.of, Some(at));
        assert_eq!(word(fault, "number"), (at % 7).to_string());
        assert_eq!(word(fault, "line"), (at % 7 + 2).to_string());
        assert_eq!(
            library.sources.position(fault.places[1].place).line,
            at % 7 + 2
        );
    }
}

#[test]
fn each_missing_cell_is_told_of_its_assembly() {
    let text = rows(|at| {
        let row = ROW.replace("12,taper", &format!("{at},taper"));
        if at % 3 == 0 {
            row.replace(",33,", ",,")
        } else {
            row
        }
    });
    let library = library(&text);
    let missing: Vec<_> = library.faults().collect();
    let expected: Vec<usize> = (0..ROWS).step_by(3).collect();
    let of: Vec<usize> = missing.iter().filter_map(|fault| fault.of).collect();
    assert_eq!(of, expected);
    assert!(
        missing
            .iter()
            .all(|fault| fault.missing == Some("assembly.stick_out"))
    );
    assert!(library.gaps(1).is_empty() && library.gaps(3).len() == 1);
}

/// Two faults with a text of their own that is nowhere in the file.
#[test]
fn a_word_of_its_own_is_kept() {
    let text = rows(|at| {
        ROW.replace("12,taper", &format!("{at},taper"))
            .replace(",33,", &format!(",33 u{},", at % 11))
    });
    let library = library(&text);
    let all: Vec<_> = library
        .faults()
        .filter(|fault| fault.missing.is_none())
        .collect();
    assert_eq!(all.len(), ROWS);
    for (at, fault) in all.iter().enumerate() {
        let unit = format!("the unit `u{}` is not known", at % 11);
        assert!(word(fault, "problem").starts_with(&unit), "{fault:?}");
        assert_eq!(word(fault, "text"), format!("33 u{}", at % 11));
    }
}
