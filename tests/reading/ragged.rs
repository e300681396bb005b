//! Rows with the wrong number of cells, open quotes, and cells without measure.

use shankwise::library::{Field, Library};

use super::{HEADER, ROW, faults, faults_of, only, word};
use crate::support::{library, lint_text};

const GOOD: &str = "14,taper collet,33,12,12,45,83,32,12,40";

fn grip_judged(text: &str) -> (usize, usize) {
    let summary = lint_text(text).summary;
    (summary.grip_judged, summary.assemblies)
}

fn cells_of(library: &Library, row: usize) -> usize {
    library.assemblies[row].record.entries().count()
}

#[test]
fn too_few_cells_are_unknown_cells_and_a_warning_at_the_last_one() {
    let text = format!("{HEADER}\n13,taper collet,33,12\n{GOOD}\n");
    let library = library(&text);
    assert_eq!(faults(&library), ["row-ragged 2:20 "]);
    let fault = only(&library, "record/row-ragged");
    let words = ["cells", "columns", "how"].map(|name| word(&fault, name));
    assert_eq!(words, ["4", "10", "too few"]);
    assert_eq!(cells_of(&library, 0), 4, "what stands there is believed");
    assert_eq!(grip_judged(&text), (1, 2), "the rest is judged");
}

#[test]
fn too_many_cells_put_the_whole_row_in_doubt() {
    // A decimal comma without quotes: 33,5 becomes two cells.
    let text = format!("{HEADER}\n13,taper collet,33,5,12,12,45,83,32,12,40\n{GOOD}\n");
    let library = library(&text);
    assert_eq!(faults(&library), ["row-ragged 2:40 "]);
    let fault = only(&library, "record/row-ragged");
    let words = ["cells", "columns", "how"].map(|name| word(&fault, name));
    assert_eq!(words, ["11", "10", "too many"]);
    assert_eq!(cells_of(&library, 0), 1, "only the tool number is believed");
    assert_eq!(library.assemblies[0].tool_number(), Some("13"));
    assert_eq!(grip_judged(&text), (1, 2), "the rest is judged");
}

#[test]
fn empty_cells_beyond_the_header_are_none_too_many() {
    assert_eq!(faults_of(&format!("{HEADER}\n{ROW},,,\n")), [] as [&str; 0]);
    assert_eq!(faults_of(&format!("{HEADER},,\n{ROW}\n")), [] as [&str; 0]);
}

#[test]
fn an_open_quote_spoils_its_own_row_and_no_other() {
    let text = format!("{HEADER}\n13,\"taper collet,33,12,12,45,83,32,12,40\n{GOOD}\n");
    let library = library(&text);
    assert_eq!(faults(&library), ["row-ragged 2:4 "]);
    assert_eq!(
        word(only(&library, "record/row-ragged"), "how"),
        "open quote"
    );
    assert_eq!(library.assemblies.len(), 2);
    assert_eq!(cells_of(&library, 0), 1);
    assert_eq!(grip_judged(&text), (1, 2));
}

#[test]
fn an_open_quote_before_an_inch_mark_spoils_its_own_row_and_no_other() {
    let text = format!(
        "{HEADER},description\n13,\"taper collet,33,12,12,45,83,32,12,40,\n{GOOD},1/2\" shank\n"
    );
    let library = library(&text);
    assert_eq!(faults(&library), ["row-ragged 2:4 "]);
    assert_eq!(library.assemblies.len(), 2, "no record is swallowed");
    let shown = library.assemblies[1]
        .record
        .text(Field::AssemblyDescription);
    assert_eq!(shown, Some("1/2\" shank"));
    assert_eq!(grip_judged(&text), (1, 2));
}

/// The numbers of cells are right, and tool 13 has vanished into tool 12's description.
#[test]
fn a_record_swallowed_between_two_stray_quotes_is_told_at_the_first() {
    let text = format!(
        "{HEADER},description\n{ROW},\"stub\n13{},3/8\"\n",
        &GOOD[2..]
    );
    let library = library(&text);
    let at = ROW.len() + 2;
    assert_eq!(faults(&library), [format!("row-ragged 2:{at} ")]);
    assert_eq!(
        word(only(&library, "record/row-ragged"), "how"),
        "open quote"
    );
    assert_eq!(lint_text(&text).summary.verdict.name(), "fails");
}

#[test]
fn a_text_of_several_lines_with_commas_is_no_swallowed_record() {
    let text = "tool_number,description,stick_out\n1,\"long,\nstub, 2 flutes, 12 mm\",33\n2,\"a\n2 flutes, HB\",33\n";
    assert_eq!(faults_of(text), [] as [&str; 0]);
}

#[test]
fn quoted_newlines_are_text() {
    let text = format!("{HEADER},description\r\n{ROW},\"two\r\nlines\"\r\n{GOOD},one\r\n");
    let library = library(&text);
    assert_eq!(faults(&library), [] as [&str; 0]);
    let entry = library.assemblies[1].record.get(Field::ToolNumber).unwrap();
    assert_eq!(library.sources.position(entry.place()).line, 4);
    let shown = library.assemblies[0]
        .record
        .text(Field::AssemblyDescription);
    assert_eq!(shown, Some("two\r\nlines"));
}

#[test]
fn a_cell_of_100_kilobytes_is_read_and_never_repeated_in_full() {
    let long = "x".repeat(100_000);
    let text = format!("{HEADER},description,neck_length\n{ROW},{long},{long}\n");
    let library = library(&text);
    let fault = only(&library, "record/cell-unreadable");
    assert_eq!(
        word(&fault, "text").chars().count(),
        41,
        "40 characters and an ellipsis"
    );
    let shown = library.assemblies[0]
        .record
        .text(Field::AssemblyDescription);
    assert_eq!(shown.map(str::len), Some(100_000));
    let report = lint_text(&text);
    let finding = report
        .findings
        .iter()
        .find(|f| f.rule == "record/cell-unreadable");
    assert!(finding.unwrap().message.len() < 500);
    assert_eq!(report.summary.grip_judged, 1);
}

#[test]
fn a_header_with_two_thousand_unknown_columns() {
    let header = format!("{HEADER}{}", ",x".repeat(2_000));
    let library = library(&format!("{header}\n{ROW}\n"));
    let unknown = library
        .faults()
        .filter(|f| f.kind == "record/unknown-column");
    assert_eq!(unknown.count(), 2_000);
    assert_eq!(library.assemblies.len(), 1);
}
