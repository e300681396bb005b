//! Lines of a table that are no records: titles, units, the header again, headings, totals.

use shankwise::library::{Field, Library};

use shankwise::units::Scalar;

use super::{faults, only, stated, word};
use crate::support::library;

/// A number that the first row states.
fn value(library: &Library, field: Field) -> f64 {
    stated(library, field).and_then(Scalar::number).unwrap()
}

const HEADER: &str = "tool_number,stick_out,shank_length,overall_length,description,nut_torque";

/// What each line is said to be.
fn said(text: &str) -> Vec<String> {
    let library = library(text);
    let of = library
        .faults()
        .filter(|fault| fault.kind == "record/line-passed-over");
    of.map(|fault| {
        let line = library.sources.position(fault.places[0].place).line;
        format!("{line} {}", word(fault, "what"))
    })
    .collect()
}

#[test]
fn what_is_no_record_is_said_and_all_else_is_read() {
    let text = format!(
        "\"Setup sheet, cell 3\"\nprinted,2027-03-01\n\n{HEADER}\n,mm,[mm],(mm),-,Nm\n1,40,45,83,slot,60\n\nFacing tools\n2,41,45,83,face,60\n{HEADER}\n,mm,[mm],(mm),-,Nm\n3,42,45,83,rough,60\nTotal tools: 3\n"
    );
    let expected = [
        "1 above the header",
        "5 the units of the columns",
        "8 a heading or remark",
        "10 the header once more",
        "11 the units of the columns",
        "13 a total",
    ];
    assert_eq!(said(&text), expected);
    let library = library(&text);
    assert_eq!(faults(&library).len(), expected.len());
    let numbers = library
        .assemblies
        .iter()
        .map(|one| one.record.text(Field::ToolNumber));
    assert_eq!(
        numbers.collect::<Vec<_>>(),
        [Some("1"), Some("2"), Some("3")]
    );
    assert_eq!(value(&library, Field::StickOut), 40.0);
}

#[test]
fn a_line_of_units_holds_for_its_columns_and_yields_to_none() {
    let rows = "12,1.5,3 in,83,slot,60\n";
    let library_of = |units: &str| library(&format!("{HEADER}\n{units}\n{rows}"));
    let inches = library_of(",in,mm,mm,,Nm");
    assert_eq!(value(&inches, Field::StickOut), 38.1);
    assert_eq!(value(&inches, Field::ShankLength), 76.2);
    assert_eq!(value(&inches, Field::NutTorque), 60.0);
    let torque = library_of("-,mm,mm,mm,text,lbf·in");
    assert!((value(&torque, Field::NutTorque) - 6.779).abs() < 0.001);
    // A length is no torque: the bare number has no unit then, and a cell's own remains.
    let wrong = library_of(",mm,Nm,mm,,Nm");
    let kinds = faults(&wrong);
    assert!(
        kinds
            .iter()
            .any(|kind| kind == "cell-unreadable 2:5 shank_length"),
        "{kinds:?}"
    );
    assert_eq!(value(&wrong, Field::ShankLength), 76.2);
}

#[test]
fn units_of_header_and_line_that_differ_are_a_fault() {
    let text = "tool_number,stick_out [mm],shank_length\n,in,mm\n12,40,45\n";
    let library = library(text);
    let fault = only(&library, "record/cell-unreadable");
    assert_eq!(word(fault, "problem"), "the header says mm");
    assert_eq!(library.assemblies[0].record.value(Field::StickOut), None);
}

#[test]
fn what_only_looks_alike_is_a_record() {
    for row in [
        "Total,40,45,83,total rework,60",
        "14,,,,,",
        ",40,45,83,without a number,60",
        "Sum,,45,83,,60",
        "tool_number,40,45,83,slot,60",
        "T14,,,,,",
        "T 14,,,,,",
        "Machine 3,,,,,",
    ] {
        let text = format!("{HEADER}\n1,40,45,83,slot,60\n{row}\n");
        assert_eq!(said(&text), [""; 0], "{row}");
        assert_eq!(library(&text).assemblies.len(), 2, "{row}");
    }
    // Where tools are described, a description alone may be a tool.
    let text = "description,tool_number,stick_out,shank_length,nut_torque\nslot,1,40,45,60\nlong end mill,,,,\nRoughing:,,,,\n";
    assert_eq!(said(text), ["4 a heading or remark"]);
    assert_eq!(library(text).assemblies.len(), 2);
    // A first line with known headers is the header, whatever is below it.
    let text = format!("tool_number,stick_out,overall_length\n1,40,83\n{HEADER}\n");
    assert_eq!(said(&text), ["3 the header once more"]);
}

#[test]
fn a_title_does_not_tell_what_parts_the_cells() {
    let text = "Werkzeugliste, Halle 2, Stand 1.3.\n\ntool_number;stick_out;shank_length\n1;40,5;45\nSumme;;1\n";
    assert_eq!(said(text), ["1 above the header", "5 a total"]);
    assert_eq!(value(&library(text), Field::StickOut), 40.5);
}

#[test]
fn a_unit_below_that_does_not_measure_its_column_is_a_fault() {
    let text =
        "tool_number,stick_out,shank_length,feed_per_revolution\n-,mm,mm,mm/min\n1,40,45,1500\n";
    let library = library(text);
    let fault = only(&library, "record/cell-unreadable");
    assert!(word(&fault, "text").contains("mm/min"), "{fault:?}");
    let feed = library.assemblies[0].record.value(Field::FeedPerRevolution);
    assert_eq!(feed, None, "a feed rate is no feed per revolution");
}
