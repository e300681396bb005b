//! Where the stick-out is advised to be set.

use shankwise::advice::{End, Window};

use super::tables::GENERATED;
use super::{Bench, Cell, near, tool};

/// Room that is left to both ends, mm.
const ROOM: f64 = 0.5;
/// A recommended stick-out is a whole number of these, mm.
const STEP: f64 = 0.5;
/// An end is known to a thousandth of a millimetre, as the program has it; the rest is rounding.
const ROUNDING: f64 = 1e-3 + 1e-9;

/// The advised part; the window itself if there is none, or if that leaves room for setting and
/// the advised part does not.
fn part(window: &Window) -> (f64, f64) {
    let span = |min: &Option<End>, max: &Option<End>| {
        let least = min.as_ref().map_or(0.0, |end| end.value);
        let most = max.as_ref().map_or(window.overall_length, |end| end.value);
        (least, most)
    };
    let narrow = |(least, most): (f64, f64)| most - least < 2.0 * ROOM - ROUNDING;
    let whole = span(&window.min, &window.max);
    let advised = window.advised.as_ref();
    match advised.map(|advised| span(&advised.min, &advised.max)) {
        Some(advised) if !narrow(advised) || narrow(whole) => advised,
        _ => whole,
    }
}

/// All multiples that leave room to both ends, shortest first.
fn candidates(least: f64, most: f64) -> Vec<f64> {
    let steps = (1..2000).map(|step| STEP * f64::from(step));
    steps
        .filter(|at| *at - least >= ROOM - ROUNDING && most - *at >= ROOM - ROUNDING)
        .collect()
}

#[test]
fn the_shortest_that_leaves_room() {
    let (mut with_room, mut narrow) = (0, 0);
    let tools = GENERATED.iter().flat_map(|one| {
        let each = one.cell.library.assemblies.iter().zip(&one.windows);
        each.map(|(assembly, window)| (&one.cell, assembly, window))
    });
    for (cell, assembly, window) in tools {
        // Where a clamp screw meets its flat there is one stick-out, or none: chucks.rs asks for it.
        let mut ends = window.min.iter().chain(&window.max);
        if ends.any(|end| end.rule == "grip/screw-misses-flat") {
            continue;
        }
        let Some(recommended) = window.recommended else {
            // Nor is anything recommended where the grip is not judged.
            let waits = !window.undecided.is_empty();
            assert!(window.is_empty() || waits, "{window:#?}");
            continue;
        };
        let (least, most) = part(window);
        assert!((least..=most).contains(&recommended), "{window:#?}");
        let bench = Bench::new(cell, assembly);
        let mut broken = bench.broken(recommended);
        broken.retain(|rule| !window.beyond_cure.iter().any(|one| one == rule));
        assert_eq!(broken, Vec::<&str>::new(), "{window:#?}");
        let candidates = candidates(least, most);
        if let Some(shortest) = candidates.first() {
            assert!(near(recommended, *shortest), "{window:#?}");
            with_room += 1;
        } else {
            let middle = f64::midpoint(least, most);
            assert!(near(recommended, middle), "{window:#?}");
            narrow += 1;
        }
    }
    assert!(with_room > 500 && narrow > 20, "{with_room} and {narrow}");
}

/// The grip lets 56.33 stick out at most: the reach leaves less and less room to set the tool.
#[test]
fn little_room() {
    let most = 83.0 - 40.0 * 2.0 / 3.0;
    for (reach, expected) in [
        ("54.9", 55.5),
        ("55.0", 55.5),
        ("55.3", f64::midpoint(55.3, most)),
        ("56.3", f64::midpoint(56.3, most)),
    ] {
        let window = Cell::flat(&tool(&[("reach", reach)]), "").window();
        let recommended = window.recommended.expect("a place");
        assert!(near(recommended, expected), "{reach}: {window:?}");
    }
}

/// The land is full from 38 to 38 + spare. A stretch in which nobody can set a tool is no advice:
/// the least that leaves room within the limits is.
#[test]
fn a_full_land_is_advised_where_it_leaves_room() {
    for (land, full, most) in [
        ("40", 43.0, 43.0),
        ("44", 39.0, 39.0),
        ("44.2", 38.8, 83.0 - 44.2 * 2.0 / 3.0),
        ("45", 38.0, 53.0),
    ] {
        let window = Cell::flat(&tool(&[("bore_length", land)]), "").window();
        assert!(
            near(window.full.expect("it can be filled").1, full),
            "{land}: {window:?}"
        );
        let advised = window
            .advised
            .as_ref()
            .and_then(|advised| advised.max.as_ref());
        assert!(
            near(advised.expect("an end").value, most),
            "{land}: {window:?}"
        );
        assert!(
            near(window.recommended.expect("a place"), 38.5),
            "{land}: {window:?}"
        );
    }
}
