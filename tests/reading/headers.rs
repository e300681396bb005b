//! Headers: every spelling of every property, units, record names, and what is unknown.

use shankwise::library::{Field, Kind, PROPERTIES, Value, fields_of};

use super::{
    HEADER, ROW, faults, faults_of, folder_library, number, only, stated, with_column, word,
};
use crate::support::library;

/// Properties by qualified name that a header of a table stands for.
fn meant(header: &str, table: Kind) -> Vec<&'static str> {
    let fields = fields_of(header, table);
    fields.into_iter().map(Field::qualified).collect()
}

fn flat(header: &str) -> Vec<&'static str> {
    meant(header, Kind::Assembly)
}

#[test]
fn every_property_is_known_in_its_own_table_in_all_spellings() {
    for property in PROPERTIES {
        let name = property.name;
        let spaced = name.replace('_', " ");
        let spellings = [
            name.to_owned(),
            name.to_uppercase(),
            name.replace('_', "-"),
            name.replace('_', "  "),
            format!("  {spaced} "),
            format!("{} {name}", property.kind.name()),
            property.qualified.to_owned(),
        ];
        let symbols = property.symbols.iter().map(|symbol| (*symbol).to_owned());
        let lower = property.symbols.iter().map(|symbol| symbol.to_lowercase());
        for spelling in spellings.into_iter().chain(symbols).chain(lower) {
            let fields = fields_of(&spelling, property.kind);
            assert_eq!(
                fields,
                [property.field],
                "`{spelling}` of {}",
                property.qualified
            );
        }
    }
}

#[test]
fn every_property_of_a_part_is_known_in_a_flat_row_under_its_records_name() {
    for property in PROPERTIES {
        let id = Field::id_of(property.kind) == Some(property.field);
        let links = ["operation.tool_number", "operation.machine"];
        let in_row = Kind::PARTS.contains(&property.kind) || property.kind == Kind::Operation;
        if !in_row || id || links.contains(&property.qualified) {
            continue;
        }
        for join in [" ", "_", ".", "-"] {
            let header = format!("{}{join}{}", property.kind.name(), property.name);
            assert_eq!(flat(&header), [property.qualified], "{header}");
        }
    }
}

#[test]
fn symbols_of_iso_13399() {
    let symbols = [
        ("LPR", "assembly.protruding_length"),
        ("LF", "assembly.functional_length"),
        ("LSC", "assembly.clamping_length"),
        ("DC", "cutter.cutting_diameter"),
        ("DCX", "cutter.cutting_diameter_max"),
        ("RE", "cutter.corner_radius"),
        ("SIG", "cutter.point_angle"),
        ("FHA", "cutter.helix_angle"),
        ("NOF", "cutter.flute_count"),
        ("APMX", "cutter.depth_of_cut_max"),
        ("LCF", "cutter.chip_flute_length"),
        ("LU", "cutter.usable_length"),
        ("LH", "cutter.head_length"),
        ("DN", "cutter.neck_diameter"),
        ("LN", "cutter.neck_length"),
        ("DMM", "cutter.shank_diameter"),
        ("DCONMS", "cutter.shank_diameter"),
        ("LS", "cutter.shank_length"),
        ("TCDMM", "cutter.shank_tolerance"),
        ("OAL", "cutter.overall_length"),
        ("LSCN", "cutter.clamping_length_min"),
        ("LSCX", "cutter.clamping_length_max"),
        ("TP", "cutter.thread_pitch"),
        ("RPMX", "cutter.cutter_speed_max"),
        ("DCONWS", "collet.bore_diameter"),
        ("collet LSCN", "collet.clamping_length_min"),
        ("collet.LSCX", "collet.clamping_length_max"),
        ("ap", "operation.axial_depth"),
        ("ae", "operation.radial_width"),
        ("fz", "operation.feed_per_tooth"),
        ("f", "operation.feed_per_revolution"),
        ("n", "operation.spindle_speed"),
        ("vc", "operation.cutting_speed"),
    ];
    for (symbol, property) in symbols {
        assert_eq!(flat(symbol), [property], "{symbol}");
        assert_eq!(flat(&symbol.to_lowercase()), [property], "{symbol}");
    }
}

#[test]
fn a_shared_name_is_every_records_that_has_it_but_for_the_named_exceptions() {
    let shared: [(&str, &[&str]); 9] = [
        (
            "collet_size",
            &[
                "collet.collet_size",
                "nut.collet_size",
                "holder.collet_size",
            ],
        ),
        ("sealed", &["collet.sealed", "nut.sealed"]),
        (
            "torque_recommended",
            &["collet.torque_recommended", "nut.torque_recommended"],
        ),
        ("nut_thread", &["nut.nut_thread", "holder.nut_thread"]),
        ("description", &["assembly.description"]),
        ("drive_square", &["cutter.drive_square"]),
        ("clamping_length_min", &["cutter.clamping_length_min"]),
        ("tool_number", &["assembly.tool_number"]),
        ("machine", &["assembly.machine"]),
    ];
    for (header, fields) in shared {
        assert_eq!(flat(header), fields, "{header}");
    }
    assert_eq!(flat("nut collet_size"), ["nut.collet_size"]);
    assert_eq!(flat("holder.collet_size"), ["holder.collet_size"]);
    assert_eq!(
        flat("collet clamping_length_min"),
        ["collet.clamping_length_min"]
    );
    assert_eq!(flat("collet drive_square"), ["collet.drive_square"]);
    assert_eq!(flat("cutter description"), ["cutter.description"]);
}

#[test]
fn a_whole_header_that_is_a_name_is_that_name_before_its_first_word_is_a_record() {
    assert_eq!(flat("collet length"), ["collet.collet_length"]);
    assert_eq!(flat("nut torque"), ["assembly.nut_torque"]);
    assert_eq!(flat("cutter material"), ["cutter.cutter_material"]);
    assert_eq!(flat("holder mass"), ["holder.holder_mass"]);
    assert_eq!(flat("assembly mass"), ["assembly.assembly_mass"]);
    assert_eq!(flat("operation kind"), ["operation.operation_kind"]);
    assert!(flat("nut length").is_empty(), "a nut has no length");
    assert!(
        flat("shelf overall_length").is_empty(),
        "a shelf is no record"
    );
}

#[test]
fn names_of_parts_are_references_in_a_row_and_ids_in_their_tables() {
    for kind in Kind::PARTS {
        let own = format!("{0}.{0}", kind.name());
        let reference = format!("assembly.{}", kind.name());
        assert_eq!(flat(kind.name()), [reference.as_str()]);
        assert_eq!(meant(kind.name(), kind), [own.as_str()]);
        assert_eq!(meant("id", kind), [own.as_str()]);
    }
    assert_eq!(meant("id", Kind::Assembly), ["assembly.assembly"]);
    assert_eq!(
        meant("tool_number", Kind::Operation),
        ["operation.tool_number"]
    );
    assert_eq!(
        meant("overall_length", Kind::Stock),
        ["cutter.overall_length"]
    );
    assert_eq!(
        meant("bore_diameter", Kind::Stock),
        ["collet.bore_diameter"]
    );
}

#[test]
fn units_in_headers_hold_for_their_column_and_a_cells_own_unit_for_its_cell() {
    let text = "Tool Number,Stick-Out [in],OAL (mm),dc [ mm ],NUT TORQUE [lbf·ft],helix angle [°]\n12,1.25,83,12,100,38\n13,31.75 mm,3.25 in,1/2\",136 N·m,38 deg\n";
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
    assert_eq!(of(1, Field::NutTorque), Some(136.0));
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
    assert!(word(&library.faults[0], "problem").ends_with("did you mean `mm`?"));
    assert!(word(&library.faults[1], "problem").starts_with("`deg` does not measure this"));
    assert_eq!(word(&library.faults[0], "kind"), "header");
    let second = library.assemblies[1].record.get(Field::StickOut).unwrap();
    assert_eq!(second.value, Value::Number(33.0));
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
fn an_unknown_column_is_named_and_answered_with_the_nearest_name() {
    let text = with_column("overal_lenght", "83");
    let library = library(&text);
    let at = HEADER.len() + 2;
    assert_eq!(
        faults(&library),
        [format!("unknown-column 1:{at} overal_lenght")]
    );
    let fault = only(&library, "record/unknown-column");
    assert_eq!(word(fault, "hint"), "did you mean `overall_length`?");
    assert_eq!(word(fault, "table"), "assemblies.csv");
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
    assert_eq!(word(fault, "hint"), "`stick_out` belongs to the assembly");
    assert_eq!(word(fault, "table"), "cutters.csv");
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
fn two_columns_for_one_property_are_one_fault_and_the_first_that_is_filled_counts() {
    let text = "tool_number,OAL,overall_length\n12,83,84\n13,,84\n";
    let library = library(text);
    assert_eq!(faults(&library), ["column-twice 1:17 overall_length"]);
    assert_eq!(
        stated(&library, Field::OverallLength),
        Some(&Value::Number(83.0))
    );
    let second = library.assemblies[1].record.get(Field::OverallLength);
    assert_eq!(second.unwrap().value, Value::Number(84.0));
    let shared = "tool_number,collet_size,collet size\n12,32,32\n";
    assert_eq!(faults_of(shared), ["column-twice 1:25 collet size"]);
}
