//! Each reason for which a cutter of the crib is left where it is, and what is nearest then.

use shankwise::advice::Kind;

use super::shop::Shop;
use super::{pocket, stocked};

/// The cutter of the crib with another cell.
fn but(column: &str, cell: &str) -> Shop {
    stocked().with("stock", ("cutter", "em16-125"), column, cell)
}

#[test]
fn cutters_that_do_not_serve() {
    let reasons = [
        ("quantity", "0"),
        ("cutter_kind", "ball nose"),
        ("cutting_diameter", "15"),
        ("corner_radius", "2"),
        ("hand", "left"),
        ("flute_count", "3"),
        ("cutter_material", "HSS"),
        // No collet has a bore for it.
        ("shank_diameter", "20"),
        // 67 + 1 + 26.67 = 94.67 are needed.
        ("overall_length", "94"),
        // Less than the grip needed, 26.67.
        ("shank_length", "26"),
        // Nobody knows how deep it clears.
        ("chip_flute_length", ""),
        // 125 − 20 = 105 at least, and the grip allows 125 − 1 − 26.67 = 97.33.
        ("clamping_length_max", "20"),
    ];
    for (column, cell) in reasons {
        let found = but(column, cell).advised();
        let cutter = found.list.iter().find(|remedy| remedy.kind == Kind::Cutter);
        assert_eq!(cutter, None, "{column} {cell}");
    }
}

#[test]
fn flutes_are_not_brought_into_the_bore() {
    // The shank begins 85 from the tip, so that 84 must stick out; 50 must go in, so that at
    // most 75 may.
    let shop = but("shank_length", "40").with(
        "stock",
        ("cutter", "em16-125"),
        "clamping_length_min",
        "50",
    );
    let found = shop.advised();
    assert!(found.list.iter().all(|remedy| remedy.kind != Kind::Cutter));
}

#[test]
fn what_a_stock_row_does_not_say_is_named() {
    let found = but("flute_count", "").advised();
    assert_eq!(found.list[0].unstated, ["cutter.flute_count"]);
}

/// A thread is not cut in two goes, and no other tap is there.
fn thread() -> Shop {
    pocket().with(
        "operations",
        ("operation", "floor"),
        "operation_kind",
        "tapping",
    )
}

#[test]
fn nearest_says_what_to_buy() {
    let found = thread().advised();
    assert!(found.curable);
    assert_eq!(found.list, []);
    let nearest = found.nearest.unwrap();
    let near = |a: Option<f64>, b: f64| assert!((a.unwrap() - b).abs() < 1e-9, "{a:?} {b}");
    // 65 + 2; two thirds of 40; 67 + 1 + 26.67.
    near(nearest.reach_needed, 67.0);
    near(nearest.land, 40.0);
    near(nearest.bore_setback, 1.0);
    near(nearest.needed_grip, 80.0 / 3.0);
    near(nearest.shank_length_min, 80.0 / 3.0);
    near(nearest.overall_length_min, 68.0 + 80.0 / 3.0);
    assert_eq!(nearest.rules, ["grip/short-grip"]);
}

#[test]
fn what_nearest_asks_for_is_just_enough() {
    // Half a millimetre more than 94.67, and one less.
    for (overall, serves) in [("95.2", true), ("94.6", false)] {
        let shop = but("overall_length", overall).with(
            "stock",
            ("cutter", "em16-125"),
            "shank_length",
            "50",
        );
        let found = shop.advised();
        let cutter = found.list.iter().any(|remedy| remedy.kind == Kind::Cutter);
        assert_eq!(cutter, serves, "{overall}");
    }
}

#[test]
fn an_unknown_land_is_to_be_measured_first() {
    let shop = pocket().with("collets", ("collet", "c32-16"), "bore_length", "");
    // Too short a reach is known all the same.
    let shop = shop.with("assemblies", ("tool_number", "1"), "stick_out", "60");
    let found = shop.advised();
    assert_eq!(found.list, []);
    assert_eq!(found.nearest.unwrap().missing, ["collet.bore_length"]);
}
