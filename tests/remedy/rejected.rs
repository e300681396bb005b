//! Each reason for which a cutter of the crib is left where it is, and what is nearest then.

use shankwise::advice::{Crib, RemedyKind, remedies_from};
use shankwise::judge::Judge;
use shankwise::library;

use super::shop::Shop;
use super::{STOCK, pocket, stocked};
use crate::support::built_in;

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
        let cutter = found
            .list
            .iter()
            .find(|remedy| remedy.kind == RemedyKind::Cutter);
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
    assert!(
        found
            .list
            .iter()
            .all(|remedy| remedy.kind != RemedyKind::Cutter)
    );
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
        let cutter = found
            .list
            .iter()
            .any(|remedy| remedy.kind == RemedyKind::Cutter);
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

/// Cutters too short for the job do not push out the one that serves, however many they are.
#[test]
fn many_short_cutters_hide_no_long_one() {
    let mut shop = stocked();
    let stock = shop.0.get_mut("stock").unwrap();
    let short = stock[0].clone();
    for number in 0..60 {
        let mut row = short.clone();
        row.insert("cutter".to_owned(), format!("em16-s{number:02}"));
        row.insert(
            "overall_length".to_owned(),
            format!("{}", 70.0 + 0.3 * f64::from(number)),
        );
        stock.insert(0, row);
    }
    let found = shop.advised();
    assert_eq!(
        found.list[0].changed(library::Kind::Cutter),
        Some("em16-125")
    );
}

/// What differs in one respect is the nearest miss, and that respect is named.
#[test]
fn a_cutter_that_differs_in_one_respect_is_the_nearest() {
    let other = |column: &str, cell: &str| {
        let shop = thread().and("stock", STOCK);
        shop.with("stock", ("cutter", "em16-125"), column, cell)
    };
    for (column, cell, present) in [
        ("flute_count", "3", Some("4")),
        ("cutter_material", "HSS", Some("carbide")),
        ("corner_radius", "2", None),
    ] {
        let found = other(column, cell).advised();
        assert_eq!(found.list, []);
        let near = found.nearest.unwrap().cutter.expect(column);
        assert_eq!(near.cutter.id, "em16-125");
        assert_eq!(near.cutter.location.as_deref(), Some("drawer 3"));
        assert_eq!((near.differs, near.stick_out), (column, 67.5));
        let values = (near.own.as_deref(), near.present.as_deref());
        let own = if column == "corner_radius" {
            "2.0 mm"
        } else {
            cell
        };
        assert_eq!(values, (Some(own), present));
    }
    // Another diameter is another tool, and two differences are no near miss.
    for shop in [
        other("cutting_diameter", "15"),
        other("hand", "left"),
        other("flute_count", "3").with("stock", ("cutter", "em16-125"), "corner_radius", "2"),
    ] {
        assert_eq!(shop.advised().nearest.unwrap().cutter, None);
    }
}

/// A maker who wants more clamped than the grip needs, and a stop that leaves less.
#[test]
fn nearest_minds_makers_and_stops() {
    let near = |a: Option<f64>, b: f64| assert!((a.unwrap() - b).abs() < 1e-9, "{a:?} {b}");
    let collet = ("collet", "c32-16");
    let shop = thread().with("collets", collet, "clamping_length_min", "36");
    let nearest = shop.advised().nearest.unwrap();
    near(nearest.overall_length_min, 67.0 + 36.0);
    near(nearest.shank_length_min, 35.0);
    near(nearest.clamped_min, 36.0);
    assert_eq!(nearest.needed_grip, None);
    near(Some(nearest.room), 1.0);
    // One millimetre of closing room, and a bore that fits: 27 are left of the 27.67 needed.
    let shop = thread().with("holders", ("holder", "h32"), "insertion_depth_max", "28");
    let nearest = shop.advised().nearest.unwrap();
    assert_eq!(nearest.overall_length_min, None);
    assert!(
        nearest.why.starts_with("no cutter suits: a stop"),
        "{}",
        nearest.why
    );
}

/// The failing cutter's own demand falls away with it; that the new one makes none is to be
/// looked up.
#[test]
fn the_old_cutters_own_demand_hides_no_new_one() {
    let shop = stocked().with("cutters", ("cutter", "em16"), "clamping_length_min", "26");
    let found = shop.advised();
    let first = &found.list[0];
    assert_eq!(first.changed(library::Kind::Cutter), Some("em16-125"));
    assert_eq!(first.unstated, ["cutter.clamping_length_min"]);
}

/// What the shop accepts needs no cure, and hinders none.
#[test]
fn what_is_accepted_is_left_alone() {
    let library = stocked().load();
    let setup = built_in();
    let judge = Judge::new(&setup.book, false);
    let crib = Crib::read(&library);
    let with = |accepted: &[&str]| {
        let assembly = &library.assemblies[0];
        remedies_from(&crib, &judge, &library, assembly, accepted).curable
    };
    assert!(with(&[]));
    assert!(!with(&["grip/short-grip"]));
}

/// Once the attempts for a library are made no other part is tried, and that is said. A split is
/// no choice: the tool would do less than half.
#[test]
fn beyond_the_attempts_no_part_is_tried_and_that_is_said() {
    let library = stocked()
        .with("operations", ("operation", "floor"), "reach", "124")
        .with("stock", ("cutter", "em16-125"), "overall_length", "185")
        .with("stock", ("cutter", "em16-125"), "shank_length", "140")
        .load();
    let setup = built_in();
    let judge = Judge::new(&setup.book, false);
    let crib = Crib::read(&library).with_attempts(1);
    let look = || remedies_from(&crib, &judge, &library, &library.assemblies[0], &[]);
    let first = look();
    assert_eq!(first.list.len(), 1);
    assert_eq!(look(), first, "attempts count from when they are settled");
    crib.settle();
    let later = look();
    assert_eq!(later.list, []);
    let why = later.nearest.unwrap().why;
    assert!(why.starts_with("other parts were not tried"), "{why}");
}
