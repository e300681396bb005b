//! A rule that fails somewhere in the middle breaks the window into parts.

use super::ends::check;
use super::shop::{ID, rule, with_rule};
use super::{near, tool};

const BOTH: &str = "[\"stick_out_min\", \"stick_out_max\"]";
/// Fails from 41 to 49: a speed at which this shop's tools sing, say.
const GAP: &str = "abs(stick_out - 45 mm) >= 4 mm - 0 * own";
/// The same as a square, smooth where the other has a corner.
const SQUARE: &str = "(stick_out - 45 mm) * (stick_out - 45 mm) >= 16 mm * 1 mm - 0 mm * own";

fn present(stick_out: &str) -> String {
    tool(&[("stick_out", stick_out)])
}

/// The window of the worked example is 38 to 56.33; between 41 and 49 the shop's rule fails.
#[test]
fn the_part_with_the_present_stick_out_is_reported() {
    let upper = 83.0 - 40.0 * 2.0 / 3.0;
    for expect in [GAP, SQUARE] {
        for (stick_out, span, other) in [
            ("39", (38.0, 41.0), (49.0, upper)),
            ("52", (49.0, upper), (38.0, 41.0)),
            // The wider part, where the present one forbids itself or is not known.
            ("45", (49.0, upper), (38.0, 41.0)),
            ("", (49.0, upper), (38.0, 41.0)),
            ("70", (49.0, upper), (38.0, 41.0)),
        ] {
            let own = rule("error", BOTH, expect, "1");
            let cell = with_rule(&present(stick_out), &own);
            let window = cell.window();
            let min = window.min.clone().expect("a lower end");
            let max = window.max.clone().expect("an upper end");
            // What counts as equal is in the rule's own unit, and moves the edge so far.
            let about = |a: f64, b: f64| (a - b).abs() < 0.011;
            assert!(about(min.value, span.0), "{stick_out}: {window:#?}");
            assert!(about(max.value, span.1), "{stick_out}: {window:#?}");
            assert_eq!(window.others.len(), 1, "{stick_out}: {window:#?}");
            let found = window.others[0];
            assert!(about(found.0, other.0) && about(found.1, other.1));
            let own = if span.0 > 40.0 { min } else { max };
            assert_eq!(own.rule, ID);
            assert_eq!(check(&cell), 0);
        }
    }
}

/// Three parts, of which two are others.
#[test]
fn two_gaps_leave_three_parts() {
    let expect = "abs(abs(stick_out - 46 mm) - 4 mm) >= 1 mm - 0 * own";
    let cell = with_rule(&present("47"), &rule("error", BOTH, expect, "1"));
    let window = cell.window();
    // Forbidden: 41 to 43 and 49 to 51.
    assert!(
        near(window.min.as_ref().expect("an end").value, 43.0),
        "{window:#?}"
    );
    assert!(
        near(window.max.as_ref().expect("an end").value, 49.0),
        "{window:#?}"
    );
    let others = &window.others;
    assert_eq!(others.len(), 2, "{window:#?}");
    assert!(near(others[0].0, 38.0) && near(others[0].1, 41.0));
    assert!(near(others[1].0, 51.0) && near(others[1].1, 83.0 - 40.0 * 2.0 / 3.0));
    assert_eq!(check(&cell), 0);
}

/// A gap narrower than the samples lie apart, beside an end that hides it: by an absolute value,
/// by two cases, by an alternative.
#[test]
fn a_gap_beside_an_end_is_seen() {
    for (expect, gap) in [
        (
            "stick_out <= 52 mm && abs(stick_out - 49.3 mm) >= 2 mm - 0 * own",
            (47.3, 51.3),
        ),
        (
            "(stick_out > 47 mm && stick_out < 51 mm ? stick_out <= 40 mm : stick_out <= 52 mm - 0 * own)",
            (47.0, 51.0),
        ),
        (
            "(stick_out <= 50 mm || stick_out >= 51 mm) && stick_out <= 52 mm - 0 * own",
            (50.0, 51.0),
        ),
        (
            "stick_out <= 52 mm && !(stick_out > 50 mm && stick_out < 51 mm - 0 * own)",
            (50.0, 51.0),
        ),
    ] {
        let cell = with_rule(&present(""), &rule("error", BOTH, expect, "1"));
        let window = cell.window();
        // Room for what counts as equal.
        let about = |a: f64, b: f64| (a - b).abs() < 0.011;
        let max = window.max.as_ref().expect("an upper end");
        assert!(about(max.value, gap.0), "{expect}: {window:#?}");
        let other = window.others[0];
        assert!(
            about(other.0, gap.1) && about(other.1, 52.0),
            "{expect}: {window:#?}"
        );
        assert_eq!(check(&cell), 0);
    }
}

/// A gap of a tenth of a millimetre just where the stick-out is recommended: no sample lies in
/// it, but the recommended one is asked for.
#[test]
fn no_recommended_stick_out_is_forbidden() {
    let narrow = "(stick_out - 38.5 mm) * (stick_out - 38.5 mm) >= 0.0025 mm * 1 mm - 0 mm * own";
    let cell = with_rule(&present(""), &rule("error", BOTH, narrow, "1"));
    let window = cell.window();
    let at = window.recommended.expect("a recommended one");
    assert!((at - 38.5).abs() > 0.049, "{window:#?}");
    assert_eq!(check(&cell), 0);
}

/// A rule that applies only in a band of one millimetre, and fails there: no sample may lie in it.
#[test]
fn a_rule_that_applies_only_somewhere_is_found_there() {
    for (from, to) in [(44.3, 45.3), (46.1, 46.6), (50.0, 54.0)] {
        let own = rule("error", BOTH, "gripped_length >= 60 mm - 0 * own", "1");
        let when = format!("when = \"stick_out > {from} mm && stick_out < {to} mm\"\nexpect");
        let cell = with_rule(&present(""), &own.replace("expect", &when));
        let window = cell.window();
        // Room for what counts as equal.
        let about = |a: f64, b: f64| (a - b).abs() < 0.011;
        let ends = window.ends();
        let mut all = [ends, window.others[0]];
        all.sort_by(|a, b| a.0.total_cmp(&b.0));
        assert!(about(all[0].1, from) && about(all[1].0, to), "{window:#?}");
        assert_eq!(check(&cell), 0);
    }
}
