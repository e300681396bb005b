//! Headers: every spelling of every property, alone and with its record.

use shankwise::library::{Field, Kind, PROPERTIES, fields_of};

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
        ("collet DCONWS", "collet.bore_diameter"),
        ("holder DCONWS", "holder.bore_diameter"),
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
    // Collet and holder each have a bore: a bare symbol states that of both.
    assert_eq!(
        flat("DCONWS"),
        ["collet.bore_diameter", "holder.bore_diameter"]
    );
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
