//! The worked example of the grip along the axis, found again from the judged rules alone.

use std::fs;

use shankwise::judge::{Setup, judge};
use shankwise::mechanics::axial;

use super::{facts, is_near};
use crate::support::{BUILT_IN, built_in, library, options};

/// Worked by hand: OAL 83, LS 45, B 40, s 0. The flutes leave the land at 83 − 45 = 38.0; the
/// land is full until 83 − 40 = 43.0; two thirds of it are 26.667, so the limit is 56.333.
/// Geometry; the two thirds are common practice, no source.
fn holds_at(rule: &str, stick_out: f64, setup: &Setup) -> bool {
    let text = format!(
        "tool_number,stick_out,overall_length,shank_length,shank_diameter,cutting_diameter,\
         collet_size,bore_diameter,bore_length,face_setback\n\
         1,{stick_out},83,45,12,12,32,12,40,0\n"
    );
    let report = judge(&library(&text), setup, &options());
    assert!(setup.book.rule(rule).is_some());
    !report.findings.iter().any(|finding| finding.rule == rule)
}

/// The stick-out at which a rule goes over from one answer to the other.
fn turning_point(rule: &str, setup: &Setup, mut low: f64, mut high: f64) -> f64 {
    let at_low = holds_at(rule, low, setup);
    assert_ne!(at_low, holds_at(rule, high, setup), "{rule} never turns");
    while high - low > 0.001 {
        let middle = f64::midpoint(low, high);
        if holds_at(rule, middle, setup) == at_low {
            low = middle;
        } else {
            high = middle;
        }
    }
    f64::midpoint(low, high)
}

/// Lengths within 0.01 mm are equal, so a turning point may be that much off.
#[track_caller]
fn turns_at(rule: &str, setup: &Setup, between: (f64, f64), expected: f64) {
    let found = turning_point(rule, setup, between.0, between.1);
    assert!(
        (found - expected).abs() <= 0.02,
        "{rule} turns at {found}, not {expected}"
    );
}

#[test]
fn flutes_leave_the_land() {
    turns_at("grip/flutes-in-bore", &BUILT_IN, (30.0, 42.0), 38.0);
}

#[test]
fn two_thirds_end() {
    turns_at("grip/short-grip", &BUILT_IN, (43.0, 80.0), 56.333);
    // The same third may lie under the flutes at the other end: 83 − 45 − 40/3.
    turns_at("grip/short-grip", &BUILT_IN, (10.0, 38.0), 24.667);
}

/// With the whole land asked for, the rule turns where the land is no longer full.
#[test]
fn the_land_is_full_until() {
    let folder = tempfile::tempdir().unwrap();
    let config = folder.path().join("whole-land.toml");
    fs::write(&config, "[limit]\nmin_grip_fraction = 1\n").unwrap();
    let setup = Setup::load(None, Some(&config), &[], true).unwrap();
    turns_at("grip/short-grip", &setup, (40.0, 60.0), 43.0);
    turns_at("grip/short-grip", &setup, (30.0, 40.0), 38.0);
}

/// The rule of thumb itself: two thirds, common practice, no source.
#[test]
fn two_thirds_are_common_practice() {
    let setup = built_in();
    let limit = setup.book.limit("min_grip_fraction").unwrap();
    assert_eq!(limit.value, 2.0 / 3.0);
    assert_eq!(limit.written, "2/3");
    assert_eq!(limit.basis.name(), "common practice");
    assert_eq!(limit.source, "");
}

/// A grip that misses two thirds by less than anyone sets a tool is no short grip: of a land of
/// 40 mm 26.66 holds where 26.667 is needed, and 26.65 does not.
#[test]
fn nobody_sets_a_tool_to_a_hundredth() {
    let setup = built_in();
    assert!(holds_at("grip/short-grip", 83.0 - 26.66, &setup));
    assert!(!holds_at("grip/short-grip", 83.0 - 26.65, &setup));
}

/// What is asked for never reads less than it is: 2/3 is 67 %, not 66 %; what is there never
/// more: 17.9 of 40 is 44 %.
#[test]
fn percents_never_lean_towards_enough() {
    let text = "tool_number,stick_out,overall_length,shank_length,shank_diameter,cutting_diameter,\
                collet_size,bore_diameter,bore_length,face_setback\n1,65.1,83,45,12,12,32,12,40,0\n";
    let report = judge(&library(text), &BUILT_IN, &options());
    let finding = report
        .findings
        .iter()
        .find(|f| f.rule == "grip/short-grip")
        .unwrap();
    assert!(
        finding
            .message
            .contains("(44 % of the 40.0 mm gripping length, not 67 %)"),
        "{}",
        finding.message
    );
}

/// Point lengths, by hand: 5 / tan 70° = 1.8199 and 5 / tan 59° = 3.0043.
#[test]
fn point_lengths() {
    assert_eq!(format!("{:.2}", axial::point_length(10.0, 140.0)), "1.82");
    assert_eq!(format!("{:.2}", axial::point_length(10.0, 118.0)), "3.00");
    assert!(
        axial::point_length(10.0, 180.0).abs() < 1e-12,
        "a flat face has no point"
    );
    for (angle, point) in [(140, 1.82), (118, 3.00)] {
        let found = facts(&format!(
            "tool_number,stick_out,gauge_length,cutter_kind,DC,SIG\n1,50,60,drill,10,{angle}\n"
        ));
        is_near(&found, "point_length", point, 0.005);
        is_near(&found, "built_protruding_length", 110.0, 1e-9);
        is_near(&found, "built_functional_length", 110.0 - point, 0.005);
    }
}

/// Setting angle 8° a side (ISO 15488): 1 / (2 tan 8°) = 3.5577 mm of travel a millimetre.
#[test]
fn draw_in() {
    assert_eq!(format!("{:.2}", axial::draw_in(1.0)), "3.56");
    let found = facts("tool_number,shank_diameter,bore_diameter,collet_size\n1,9.5,10,32\n");
    is_near(&found, "bore_gap", 0.5, 1e-9);
    is_near(&found, "draw_in", 1.78, 0.005);
}
