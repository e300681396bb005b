//! What stands in for a value that is not stated, and that it is never taken for a stated one.

use shankwise::library::{Field, FieldSet, Origin, Overrides, reason};

use super::{number, view};
use crate::support::library;

/// One flat row of `property value` pairs.
pub(super) fn row(pairs: &[(&str, &str)]) -> shankwise::library::Library {
    let headers: Vec<&str> = pairs.iter().map(|(header, _)| *header).collect();
    let cells: Vec<&str> = pairs.iter().map(|(_, cell)| *cell).collect();
    library(&format!(
        "tool_number,{}\n12,{}\n",
        headers.join(","),
        cells.join(",")
    ))
}

/// How a property that such a row does not state comes about.
pub(super) fn found(pairs: &[(&str, &str)], field: Field) -> (Option<f64>, &'static str) {
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
        Origin::Ranged => "range",
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
