//! Columns: their units, what is unknown, what is there twice.

use shankwise::library::Field;
use shankwise::units::Scalar;

use super::{
    HEADER, ROW, faults, faults_of, folder_library, number, only, stated, with_column, word,
};
use crate::support::library;

#[test]
fn units_in_headers_hold_for_their_column_and_a_cells_own_unit_for_its_cell() {
    let text = "Tool Number,Stick-Out [in],OAL (mm),dc [ mm ],NUT TORQUE [lbf·ft],helix angle [°]\n12,1.25,83,12,100,38\n13,31.75 mm,3.25 in,1/2\",120 N·m,38 deg\n";
    let library = library(text);
    assert_eq!(faults(&library), [] as [&str; 0]);
    let of = |row: usize, field| {
        library.assemblies[row]
            .record
            .get(field)
            .unwrap()
            .value
            .number()
    };
    assert_eq!(of(0, Field::StickOut), Some(31.75));
    assert_eq!(of(0, Field::OverallLength), Some(83.0));
    assert_eq!(of(0, Field::NutTorque), Some(135.581_794_833_140_04));
    assert_eq!(of(1, Field::StickOut), Some(31.75));
    assert_eq!(of(1, Field::OverallLength), Some(82.55));
    assert_eq!(of(1, Field::CuttingDiameter), Some(12.7));
    assert_eq!(of(1, Field::NutTorque), Some(120.0));
    assert_eq!(of(1, Field::HelixAngle), Some(38.0));
}

#[test]
fn a_header_with_a_unit_that_is_none_spoils_its_bare_numbers_only() {
    let library = library("tool_number,stick_out [mmm],OAL [deg]\n12,33,83\n13,33 mm,83 mm\n");
    let expected = [
        "cell-unreadable 1:13 stick_out",
        "cell-unreadable 1:29 overall_length",
        "unit-missing 2:4 stick_out",
        "unit-missing 2:7 overall_length",
    ];
    assert_eq!(faults(&library), expected);
    assert!(word(library.faults().next().unwrap(), "problem").ends_with("did you mean `mm`?"));
    assert!(
        word(library.faults().nth(1).unwrap(), "problem")
            .starts_with("`deg` does not measure this")
    );
    assert_eq!(word(library.faults().next().unwrap(), "kind"), "header");
    let second = library.assemblies[1].record.get(Field::StickOut).unwrap();
    assert_eq!(second.value, Scalar::Number(33.0));
}

#[test]
fn a_shared_cell_is_stated_for_every_record_that_has_the_property() {
    let library = library(&format!("{HEADER}\n{ROW}\n"));
    for field in [
        Field::ColletSize,
        Field::NutColletSize,
        Field::HolderColletSize,
    ] {
        assert_eq!(
            number(&library, field).0,
            Some(32.0),
            "{}",
            field.qualified()
        );
    }
}

#[test]
fn a_header_that_names_its_record_outranks_one_that_does_not() {
    let columns = ["collet_size,nut collet_size", "nut collet_size,collet_size"];
    let rows = ["1,32,25\n2,32,\n", "1,25,32\n2,,32\n"];
    for (columns, rows) in columns.into_iter().zip(rows) {
        let library = library(&format!("tool_number,{columns}\n{rows}"));
        assert_eq!(faults(&library), [] as [&str; 0], "{columns}");
        let size = |row: usize, field| {
            let entry = library.assemblies[row].record.get(field).unwrap();
            entry.value.number()
        };
        assert_eq!(size(0, Field::ColletSize), Some(32.0));
        assert_eq!(size(0, Field::NutColletSize), Some(25.0));
        assert_eq!(size(0, Field::HolderColletSize), Some(32.0));
        assert_eq!(
            size(1, Field::NutColletSize),
            Some(32.0),
            "its own cell is empty"
        );
    }
}

#[test]
fn an_unknown_column_is_named_and_answered_with_the_nearest_name() {
    let text = with_column("overal_lenght", "83");
    let library = library(&text);
    let at = HEADER.len() + 2;
    assert_eq!(
        faults(&library),
        [format!("unknown-column 1:{at} overal_lenght")]
    );
    let fault = only(&library, "record/unknown-column");
    assert_eq!(word(&fault, "hint"), "did you mean `overall_length`?");
    assert_eq!(word(&fault, "table"), "assemblies.csv");
    let price = super::library(&with_column("price", "7"));
    assert_eq!(word(only(&price, "record/unknown-column"), "hint"), "");
}

#[test]
fn a_column_of_another_record_is_told_where_it_belongs() {
    let library = folder_library(&[
        (
            "assemblies.csv",
            "tool_number,cutter,stick_out\n12,EM12,33\n",
        ),
        (
            "cutters.csv",
            "cutter,overall_length,stick_out\nEM12,83,33\n",
        ),
    ]);
    let fault = only(&library, "record/unknown-column");
    assert_eq!(word(&fault, "hint"), "`stick_out` belongs to the assembly");
    assert_eq!(word(&fault, "table"), "cutters.csv");
    assert!(
        library
            .sources
            .name(fault.places[0].place)
            .ends_with("cutters.csv")
    );
}

#[test]
fn a_trailing_delimiter_is_no_column_and_a_gap_in_the_header_is_one() {
    assert_eq!(
        faults_of("tool_number,stick_out,\n12,33,\n"),
        [] as [&str; 0]
    );
    assert_eq!(
        faults_of("tool_number,stick_out,,,\n12,33\n"),
        [] as [&str; 0]
    );
    let gap = "tool_number,,stick_out\n12,,33\n";
    assert_eq!(faults_of(gap), ["unknown-column 1:13 "]);
}

#[test]
fn two_columns_for_one_property_are_one_fault_and_the_one_that_is_filled_counts() {
    let text = "tool_number,OAL,overall_length\n12,83,83.0\n13,,84\n";
    let library = library(text);
    assert_eq!(faults(&library), ["column-twice 1:17 overall_length"]);
    assert_eq!(
        stated(&library, Field::OverallLength),
        Some(Scalar::Number(83.0))
    );
    let second = library.assemblies[1].record.get(Field::OverallLength);
    assert_eq!(second.unwrap().value, Scalar::Number(84.0));
    let shared = "tool_number,collet_size,collet size\n12,32,32\n";
    assert_eq!(faults_of(shared), ["column-twice 1:25 collet size"]);
}
