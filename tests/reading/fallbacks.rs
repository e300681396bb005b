//! What stands in for a value that is not stated, and that it is never taken for a stated one.

use shankwise::library::{Field, FieldSet, Origin, Overrides, PROPERTIES, reason};

use super::{number, view};
use crate::support::library;

/// One flat row of `property value` pairs.
fn row(pairs: &[(&str, &str)]) -> shankwise::library::Library {
    let headers: Vec<&str> = pairs.iter().map(|(header, _)| *header).collect();
    let cells: Vec<&str> = pairs.iter().map(|(_, cell)| *cell).collect();
    library(&format!(
        "tool_number,{}\n12,{}\n",
        headers.join(","),
        cells.join(",")
    ))
}

/// How a property that such a row does not state comes about.
fn found(pairs: &[(&str, &str)], field: Field) -> (Option<f64>, &'static str) {
    let library = row(pairs);
    let (value, origin) = number(&library, field);
    let overrides = Overrides::default();
    let view = view(&library, &overrides);
    let trace = view.number(field).trace;
    let assumed = matches!(origin, Origin::Assumed(_));
    if value.is_some() {
        assert_eq!(trace.assumed.contains(field), assumed, "{pairs:?}");
        assert_eq!(reason(&view, field).is_some(), assumed, "{pairs:?}");
        assert!(trace.missing.is_empty(), "{pairs:?}");
    } else {
        assert_eq!(
            trace.missing,
            FieldSet::of(field),
            "only itself is missing: {pairs:?}"
        );
    }
    let name = match origin {
        _ if value.is_none() => "unknown",
        Origin::Stated => "stated",
        Origin::Derived => "derived",
        Origin::Default => "default",
        Origin::Assumed(_) => "assumed",
    };
    (value, name)
}

#[test]
fn stick_out_follows_from_the_gauge_plane_or_from_the_insertion() {
    let of = |pairs: &[(&str, &str)]| found(pairs, Field::StickOut);
    let gauge = [("LPR", "133.5"), ("gauge_length", "100")];
    let insertion = [("OAL", "83"), ("LSC", "50")];
    assert_eq!(
        of(&[("stick_out", "33"), ("LPR", "140"), ("gauge_length", "100")]),
        (Some(33.0), "stated")
    );
    assert_eq!(of(&gauge), (Some(33.5), "derived"));
    assert_eq!(of(&insertion), (Some(33.0), "derived"));
    assert_eq!(
        of(&[gauge, insertion].concat()),
        (Some(33.5), "derived"),
        "the gauge plane first"
    );
    let reground = [
        ("OAL", "83"),
        ("overall_length_actual", "81"),
        ("LSC", "50"),
    ];
    assert_eq!(
        of(&reground),
        (Some(31.0), "derived"),
        "the length that it has now"
    );
    assert_eq!(of(&[("LPR", "133.5"), ("OAL", "83")]), (None, "unknown"));
    assert_eq!(
        of(&[("LF", "133.5"), ("gauge_length", "100")]),
        (None, "unknown"),
        "LF is another length"
    );
}

#[test]
fn the_smallest_known_overall_length_judges() {
    let length = |pairs: &[(&str, &str)]| {
        let library = row(pairs);
        let overrides = Overrides::default();
        view(&library, &overrides).overall_length().value
    };
    assert_eq!(length(&[("OAL", "83")]), Some(83.0));
    assert_eq!(
        length(&[("OAL", "83"), ("overall_length_min", "78")]),
        Some(78.0)
    );
    assert_eq!(
        length(&[
            ("OAL", "83"),
            ("overall_length_min", "78"),
            ("overall_length_actual", "80")
        ]),
        Some(78.0)
    );
    assert_eq!(length(&[("overall_length_actual", "80")]), Some(80.0));
    assert_eq!(length(&[("stick_out", "80")]), None);
}

#[test]
fn shank_length_falls_back_step_by_step() {
    let of = |pairs: &[(&str, &str)]| found(pairs, Field::ShankLength);
    let carbide = [("cutter_material", "carbide"), ("DMM", "12")];
    let same = [("DMM", "12"), ("DC", "12.1"), ("OAL", "83"), ("LCF", "26")];
    assert_eq!(
        of(&[("LS", "45"), ("OAL", "83"), ("LH", "40")]),
        (Some(45.0), "stated")
    );
    assert_eq!(
        of(&[("OAL", "83"), ("LH", "38"), ("LN", "30")]),
        (Some(45.0), "derived")
    );
    assert_eq!(of(&[("OAL", "83"), ("LN", "36")]), (Some(47.0), "derived"));
    assert_eq!(of(&same), (Some(57.0), "assumed"));
    assert_eq!(of(&carbide), (Some(45.0), "assumed"));
    // The upper bound from the flutes stands before the table.
    let both = [&same[..], &[("cutter_material", "carbide")]].concat();
    assert_eq!(of(&both), (Some(57.0), "assumed"));
}

#[test]
fn shank_length_is_never_taken_from_what_does_not_tell_it() {
    let of = |pairs: &[(&str, &str)]| found(pairs, Field::ShankLength);
    let unknown = (None, "unknown");
    assert_eq!(
        of(&[("OAL", "83"), ("APMX", "26"), ("DMM", "12"), ("DC", "12")]),
        unknown
    );
    assert_eq!(
        of(&[("OAL", "83"), ("LCF", "26"), ("DMM", "12"), ("DC", "10")]),
        unknown,
        "a step"
    );
    assert_eq!(
        of(&[("OAL", "83"), ("LCF", "26"), ("DMM", "12"), ("DC", "12.2")]),
        unknown
    );
    let necked = [
        ("OAL", "83"),
        ("LCF", "26"),
        ("DMM", "12"),
        ("DC", "12"),
        ("DN", "11.5"),
    ];
    assert_eq!(of(&necked), unknown, "a neck of unknown end");
    assert_eq!(of(&[("cutter_material", "HSS"), ("DMM", "12")]), unknown);
    assert_eq!(
        of(&[("cutter_material", "carbide"), ("DMM", "12.7")]),
        unknown,
        "no metric shank"
    );
    assert_eq!(of(&[("OAL", "83")]), unknown);
}

#[test]
fn bore_length_is_assumed_only_for_a_large_through_bore() {
    let of = |pairs: &[(&str, &str)]| found(pairs, Field::BoreLength);
    let large = [
        ("collet_size", "32"),
        ("DCONWS", "12"),
        ("bore_form", "through"),
    ];
    let with = |more: &[(&'static str, &'static str)]| of(&[&large[..], more].concat());
    assert_eq!(with(&[("bore_length", "30")]), (Some(30.0), "stated"));
    assert_eq!(with(&[("collet_length", "40")]), (Some(40.0), "assumed"));
    assert_eq!(
        with(&[]),
        (Some(40.0), "assumed"),
        "from an assumed length of the collet"
    );
    assert_eq!(
        with(&[("collet_length", "40"), ("bore_recess", "2")]),
        (Some(38.0), "assumed")
    );
    assert_eq!(with(&[("collet_system", "other")]), (None, "unknown"));
    let unknown = (None, "unknown");
    assert_eq!(
        of(&[
            ("collet_size", "32"),
            ("DCONWS", "6"),
            ("bore_form", "through")
        ]),
        unknown
    );
    assert_eq!(
        of(&[("collet_size", "32"), ("DCONWS", "12")]),
        unknown,
        "the form is not known"
    );
    let relieved = [
        ("collet_size", "32"),
        ("DCONWS", "12"),
        ("bore_form", "counterbored"),
    ];
    assert_eq!(of(&relieved), unknown);
    assert_eq!(
        of(&[
            ("collet_length", "40"),
            ("DCONWS", "12"),
            ("bore_form", "through")
        ]),
        unknown
    );
}

#[test]
fn the_smallest_bore_is_the_nominal_one_less_the_collapse_of_the_size() {
    let of = |pairs: &[(&str, &str)]| found(pairs, Field::BoreDiameterMin);
    let bore = [("collet_size", "32"), ("DCONWS", "12")];
    assert_eq!(
        of(&[&bore[..], &[("bore_diameter_min", "11.5")]].concat()),
        (Some(11.5), "stated")
    );
    assert_eq!(of(&bore), (Some(11.0), "assumed"));
    assert_eq!(
        of(&[&bore[..], &[("collet sealed", "yes")]].concat()),
        (Some(11.9), "assumed")
    );
    assert_eq!(
        of(&[&bore[..], &[("collet sealed", "no")]].concat()),
        (Some(11.0), "assumed")
    );
    assert_eq!(
        of(&[("collet_size", "50"), ("DCONWS", "1")]),
        (Some(0.0), "assumed"),
        "never below nothing"
    );
    assert_eq!(
        of(&[("collet_size", "33"), ("DCONWS", "12")]),
        (None, "unknown"),
        "no such size"
    );
    assert_eq!(of(&[("DCONWS", "12")]), (None, "unknown"));
    assert_eq!(
        of(&[&bore[..], &[("collet_system", "other")]].concat()),
        (None, "unknown")
    );
}

#[test]
fn harmless_conventions_are_defaults_and_no_assumptions() {
    let plain = [("stick_out", "33")];
    for (field, value) in [
        (Field::FaceSetback, 0.0),
        (Field::BoreRecess, 0.0),
        (Field::Clearance, 0.0),
        (Field::SideClearance, 0.5),
        (Field::DriveSquareLength, 0.0),
    ] {
        assert_eq!(
            found(&plain, field),
            (Some(value), "default"),
            "{}",
            field.qualified()
        );
    }
    let square = [("drive_square", "9")];
    assert_eq!(
        found(&square, Field::DriveSquareLength),
        (None, "unknown"),
        "a square has a length"
    );
}

#[test]
fn a_collet_is_of_iso_15488_if_its_size_is_one_of_its_sizes() {
    let system = |pairs: &[(&str, &str)]| {
        let library = row(pairs);
        let overrides = Overrides::default();
        let view = view(&library, &overrides);
        let (_, origin) = view.with_origin(Field::ColletSystem);
        (
            view.word(Field::ColletSystem).value.map(str::to_owned),
            origin,
        )
    };
    let iso = Some("ISO 15488".to_owned());
    for size in ["8", "11", "16", "20", "25", "32", "40", "50"] {
        assert_eq!(
            system(&[("collet_size", size)]),
            (iso.clone(), Origin::Default),
            "{size}"
        );
    }
    assert_eq!(system(&[("collet_size", "33")]).0, None);
    let stated = [("collet_size", "32"), ("collet_system", "straight")];
    assert_eq!(
        system(&stated),
        (Some("straight".to_owned()), Origin::Stated)
    );
}

#[test]
fn whether_a_collet_holds_the_tool_is_never_guessed_from_an_empty_cell() {
    let held = |pairs: &[(&str, &str)]| {
        let library = row(pairs);
        let overrides = Overrides::default();
        view(&library, &overrides).held_in_collet().value
    };
    assert_eq!(
        held(&[("clamping_kind", "taper collet ISO 15488")]),
        Some(true)
    );
    assert_eq!(
        held(&[("clamping_kind", "shrink fit"), ("collet_size", "32")]),
        Some(false)
    );
    assert_eq!(held(&[("clamping_kind", "other collet")]), Some(false));
    assert_eq!(held(&[("collet", "C12")]), Some(true));
    assert_eq!(held(&[("bore_length", "40")]), Some(true));
    assert_eq!(
        held(&[("collet_size", "32"), ("collet_system", "ISO 10897")]),
        Some(false)
    );
    assert_eq!(held(&[("stick_out", "33")]), None);
    assert_eq!(
        held(&[("collet", "-"), ("stick_out", "33")]),
        None,
        "a stand-in names no collet"
    );
}

/// The vocabulary marks which properties may be assumed and which have a default; nothing else
/// may come from nowhere.
#[test]
fn no_other_property_is_made_up() {
    let library = row(&[
        ("collet_size", "32"),
        ("DCONWS", "12"),
        ("bore_form", "through"),
        ("cutter_material", "carbide"),
        ("DMM", "12"),
        ("OAL", "83"),
        ("LSC", "50"),
    ]);
    let overrides = Overrides::default();
    let view = view(&library, &overrides);
    let made: Vec<&str> = PROPERTIES
        .iter()
        .filter(|p| view.entry(p.field).is_none() && view.datum(p.field).is_known())
        .map(|p| p.qualified)
        .collect();
    let expected = [
        "assembly.stick_out",
        "cutter.shank_length",
        "cutter.drive_square_length",
        "collet.collet_system",
        "collet.bore_diameter_min",
        "collet.bore_length",
        "collet.bore_recess",
        "collet.collet_length",
        "nut.face_setback",
        "operation.clearance",
        "operation.side_clearance",
    ];
    assert_eq!(made, expected);
}
