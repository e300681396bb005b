//! Rules that do not change with the stick-out all along the tool.

use shankwise::advice::{NO_WINDOW, advise};
use shankwise::judge::judge;
use shankwise::rulebook::Level;

use super::ends::check;
use super::shop::{ID, rule, with_rule};
use super::{Cell, tool};
use crate::support::options;

const SLENDER: &str = "reach/slender-overhang";

fn milling(feed: &str, more: &[(&str, &str)]) -> Cell {
    let mut columns = vec![
        ("operation_kind", "milling"),
        ("feed_per_tooth", feed),
        // A land that no shank fills: nothing but warnings narrows what is advised.
        ("shank_length", "58"),
        ("bore_length", "60"),
    ];
    columns.extend(more);
    // A rule of the shop's own on what a collet's class may run out: as a ratio, because lengths
    // within a hundredth of a millimetre count as equal.
    let expect = "run_out_tip / feed_per_tooth <= own / 1 mm";
    let upper = "[\"stick_out_max\"]";
    with_rule(
        &tool(&columns),
        &rule("warning", upper, expect, "0.6666666667"),
    )
}

/// The class of a bore of 12 is 0.02 up to 40 from the face, and grows in proportion beyond. Of
/// a feed of 0.03 that is two thirds, which just is accepted: level, on its edge, up to 40.
#[test]
fn an_edge_that_stays_level_ends_where_it_falls() {
    let cell = milling("0.03", &[]);
    let window = cell.window();
    let advised = window.advised.as_ref().expect("an advised part");
    let max = advised.max.as_ref().expect("an upper end");
    assert_eq!(max.rule, ID, "{window:#?}");
    assert!((max.value - 40.0).abs() < 1e-3, "{max:?}");
    assert_eq!(check(&cell), 0);
}

/// Of a feed of 0.025 a run-out of 0.02 is too much however short the tool sticks out: it binds
/// nothing, and is said to be beyond cure.
#[test]
fn what_fails_level_binds_nothing() {
    let cell = milling("0.025", &[]);
    let window = cell.window();
    assert_eq!(window.beyond_cure, [ID], "{window:#?}");
    let without = milling("0.3", &[]).window();
    let value = |end: Option<&shankwise::advice::End>| end.map(|end| end.value);
    let of = |window: &shankwise::advice::Window| {
        let advised = window.advised.as_ref().expect("an advised part");
        (value(advised.min.as_ref()), value(advised.max.as_ref()))
    };
    assert_eq!(of(&window), of(&without));
    assert_eq!(window.recommended, without.recommended);
    assert_eq!(check(&cell), 0);
}

/// Flutes that are ten diameters long are too slender at any stick-out.
#[test]
fn a_slender_head_is_beyond_cure() {
    let more = [
        ("cutter_kind", "end mill"),
        ("cutting_diameter", "2"),
        ("chip_flute_length", "20"),
    ];
    let cell = milling("0.3", &more);
    let window = cell.window();
    assert_eq!(window.beyond_cure, [SLENDER], "{window:#?}");
    assert!(window.advised.is_some());
    assert_eq!(check(&cell), 0);
}

/// A land as long as the tool and a shank too short for it: the grip is at its best as far in as
/// the tool goes, and carried on it would be enough at 38 - 80/3 = 11.33; the flutes are out of the
/// land from 38 - 20 = 18 on.
#[test]
fn the_lone_end_of_a_rule_that_always_fails_meets_others() {
    let text = tool(&[
        ("overall_length", "38"),
        ("shank_length", "20"),
        ("reach", "10"),
    ]);
    let window = Cell::flat(&text, "").window();
    assert!(window.is_empty(), "{window:#?}");
    let short = window.short_by.expect("short by something");
    assert!(
        (short - (18.0 - (38.0 - 80.0 / 3.0))).abs() < 1e-6,
        "{short}"
    );
    assert_eq!(window.max.expect("an upper end").rule, "grip/short-grip");
    assert_eq!(window.recommended, None);
}

/// A neck that is longer than the rear flutes of a double-ended cutter leave room for: both are
/// in order as far as the milder cases go, and so no error is made of their meeting.
#[test]
fn warnings_that_leave_nothing_make_no_error() {
    let necked = tool(&[
        ("shank_length", "32"),
        ("chip_flute_length", "26"),
        ("neck_diameter", "11"),
        ("neck_length", "51"),
        ("stick_out", "38"),
        ("rear_flute_length", "5"),
    ]);
    let cell = Cell::flat(&necked, "");
    let mut report = judge(&cell.library, &cell.setup, &options());
    let advice = advise(&cell.library, &cell.setup, &options(), false, &mut report);
    assert!(advice.windows[0].as_ref().expect("a window").is_empty());
    let none = report.findings.iter().find(|one| one.rule == NO_WINDOW);
    let level = none.expect("it is found").level;
    assert_eq!(level, Some(Level::Warning));
    assert_eq!(report.summary.error, 0, "{:#?}", report.findings);
}
