//! Windows worked out by hand.

use shankwise::rulebook::Bound;

use super::{Cell, near, tool};

/// z from the tip: shank from 83 − 45 = 38 to 83, land from p to p + 40.
///
/// * No flutes in the bore: p ≥ 38.
/// * Two thirds of the land gripped: 83 − p ≥ 2/3 · 40, so p ≤ 56.33.
/// * The land is full: p ≥ 38 and p + 40 ≤ 83, so p ≤ 43.
/// * Half a millimetre from the lower end of the full land: 38.5.
///
/// Source: geometry along the axis, by hand.
#[test]
fn the_worked_example() {
    let window = Cell::flat(&tool(&[("reach", "35")]), "").window();
    let min = window.min.as_ref().expect("a lower end");
    let max = window.max.as_ref().expect("an upper end");
    assert!(near(min.value, 38.0), "{min:?}");
    assert_eq!(
        (min.rule.as_str(), min.name.as_str()),
        ("grip/flutes-in-bore", "flutes")
    );
    assert!(near(max.value, 83.0 - 40.0 * 2.0 / 3.0), "{max:?}");
    assert_eq!(
        (max.rule.as_str(), max.name.as_str()),
        ("grip/short-grip", "grip")
    );
    let (least, most) = window.full.expect("the land can be filled");
    assert!(near(least, 38.0) && near(most, 43.0), "{window:?}");
    assert_eq!(window.recommended, Some(38.5));
    assert_eq!(window.short_by, None);
    assert_eq!(window.others, []);
    let next = window.next_min.as_ref().expect("the reach is next");
    assert!(near(next.value, 35.0), "{next:?}");
    assert_eq!(next.rule, "reach/too-short-for-the-job");
    let advised = window.advised.expect("an advised part");
    assert!(near(advised.min.expect("a lower end").value, 38.0));
    assert!(near(advised.max.expect("an upper end").value, 43.0));
}

/// Each setback moves the land, and with it every end but the reach. Source: as above.
#[test]
fn the_setback_moves_the_ends() {
    for setback in ["-2", "-0.5", "1.25", "3"] {
        let text = tool(&[("bore_setback", setback), ("reach", "20")]);
        let window = Cell::flat(&text, "").window();
        let by: f64 = setback.parse().expect("a number");
        assert!(near(window.min.expect("a lower end").value, 38.0 - by));
        let most = 83.0 - 40.0 * 2.0 / 3.0 - by;
        assert!(near(window.max.expect("an upper end").value, most));
        let full = window.full.expect("the land can be filled");
        assert!(near(full.0, 38.0 - by) && near(full.1, 43.0 - by));
    }
}

/// The job needs 60 of stick-out, the grip allows 56.33: nothing is left, by 3.67.
/// Source: as above.
#[test]
fn an_empty_window_keeps_its_ends() {
    let window = Cell::flat(&tool(&[("reach", "58"), ("clearance", "2")]), "").window();
    assert!(window.is_empty());
    let min = window.min.as_ref().expect("a lower end");
    let max = window.max.as_ref().expect("an upper end");
    assert!(near(min.value, 60.0), "{min:?}");
    assert_eq!(min.rule, "reach/too-short-for-the-job");
    assert!(near(max.value, 83.0 - 40.0 * 2.0 / 3.0), "{max:?}");
    assert_eq!(max.rule, "grip/short-grip");
    let short_by = window.short_by.expect("it is empty");
    assert!(near(short_by, min.value - max.value), "{short_by}");
    assert_eq!(window.recommended, None);
    assert_eq!(window.advised, None);
    assert_eq!(window.full, None);
}

/// A shank of 20 never fills two thirds of a land of 40: 26.67 are needed, 6.67 lack. Where its
/// front leaves the land as soon as it may, p = 83 − 20 = 63, grip asks for 56.33.
/// Source: as above.
#[test]
fn a_shank_too_short_leaves_nothing() {
    let window = Cell::flat(&tool(&[("shank_length", "20")]), "").window();
    let short_by = window.short_by.expect("it is empty");
    assert!(near(short_by, 40.0 * 2.0 / 3.0 - 20.0), "{window:?}");
    assert!(near(window.min.expect("a lower end").value, 63.0));
    let most = 83.0 - 40.0 * 2.0 / 3.0;
    assert!(near(window.max.expect("an upper end").value, most));
}

/// Of several operations the one that needs most binds, by its name.
#[test]
fn the_deepest_operation_binds() {
    let operations = "operation,tool_number,reach,clearance\na,7,30,1\nb,7,45,2\nc,7,46,0\n";
    let assemblies = tool(&[]);
    let cell = Cell::new(&[
        ("assemblies.csv", &assemblies),
        ("operations.csv", operations),
    ]);
    let min = cell.window().min.expect("a lower end");
    assert!(near(min.value, 47.0), "{min:?}");
    assert_eq!(min.rule, "reach/too-short-for-the-job");
    assert_eq!(min.operation.as_deref(), Some("b"));
}

/// A stop that nobody measured bounds nothing, and is named with what is missing.
#[test]
fn a_stop_not_measured_is_told() {
    let unknown = Cell::flat(&tool(&[]), "").window();
    let stop = unknown.unjudged.iter();
    let stop: Vec<_> = stop
        .filter(|one| one.rule == "grip/tail-on-stop")
        .map(|one| (one.bound, one.missing.clone()))
        .collect();
    let expected = (Bound::StickOutMin, vec!["holder.insertion_depth_max"]);
    assert_eq!(stop, [expected]);
    let far = Cell::flat(&tool(&[("insertion_depth_max", "80")]), "").window();
    assert_eq!(unknown.min, far.min);
    assert_eq!(unknown.max, far.max);
    let of_stop = |rule: &str| rule == "grip/tail-on-stop";
    assert!(!far.unjudged.iter().any(|one| of_stop(&one.rule)));
}
