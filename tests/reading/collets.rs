//! What stands in for what is not stated of a collet, and what is never made up.

use shankwise::library::{Field, Origin, Overrides, PROPERTIES};

use super::fallbacks::{found, row};
use super::view;

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
        (Field::BoreRecess, 0.0),
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

/// Zero would be a statement: what nobody states of these is marked as a range, and known.
#[test]
fn what_may_lie_between_two_ends_is_a_range() {
    let plain = [("stick_out", "33")];
    for field in [
        Field::FaceSetback,
        Field::HolderBoreRecess,
        Field::Clearance,
    ] {
        assert_eq!(found(&plain, field), (Some(0.0), "range"));
    }
    assert_eq!(
        found(&[("bore_form", "relieved in front")], Field::BoreRecess),
        (None, "unknown"),
        "how far it is relieved in front nobody knows"
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
    assert_eq!(held(&[("clamping_kind", "collet chuck")]), Some(true));
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
        "cutter.rear_flute_length",
        "cutter.drive_square_length",
        "collet.collet_system",
        "collet.bore_diameter_min",
        "collet.bore_length",
        "collet.bore_recess",
        "collet.collet_length",
        "nut.face_setback",
        "holder.bore_recess",
        "operation.clearance",
        "operation.side_clearance",
    ];
    assert_eq!(made, expected);
}
