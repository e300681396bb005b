//! A shop's own rules take part in the window.

use shankwise::advice::Window;
use shankwise::rulebook::Bound;

use super::ends::check;
use super::tables::GENERATED;
use super::tools::Aim;
use super::{Bench, Cell, near, tool};

/// What the shop's file says of the folder with its rules.
pub(super) const FOLDER: &str = "rules = [\"my-rules\"]\n";
pub(super) const OWN: &str = "my-rules/reach/shop-own.toml";
pub(super) const ID: &str = "reach/shop-own";

/// A rule file of the shop's.
pub(super) fn rule(level: &str, bounds: &str, expect: &str, limit: &str) -> String {
    format!(
        "title = \"a rule of the shop's\"\nlevel = \"{level}\"\nbasis = \"shop\"\n\
         consequence = \"scrap\"\nbounds = {bounds}\nbinds = \"the shop\"\n\
         expect = \"{expect}\"\nmessage = \"{{stick_out}}\"\nwhy = \"so it is here\"\n\
         advice = \"move it\"\n\n[limit.own]\nvalue = {limit}\nunit = \"mm\"\nbasis = \"shop\"\n\
         reason = \"ours\"\nsource = \"\"\nstricter = \"lower\"\n"
    )
}

pub(super) fn with_rule(assemblies: &str, rule: &str) -> Cell {
    Cell::new(&[
        ("assemblies.csv", assemblies),
        ("shankwise.toml", FOLDER),
        (OWN, rule),
    ])
}

const MAX: &str = "[\"stick_out_max\"]";
const MIN: &str = "[\"stick_out_min\"]";

fn solved(level: &str, bounds: &str, expect: &str, limit: &str) -> Window {
    with_rule(&tool(&[]), &rule(level, bounds, expect, limit)).window()
}

/// The end moves with the limit; what bound before binds next.
#[test]
fn a_shop_rule_binds() {
    for limit in [40.0, 44.25, 50.0, 56.0] {
        let expect = "stick_out <= own";
        let window = solved("error", MAX, expect, &limit.to_string());
        let max = window.max.expect("an upper end");
        assert!(near(max.value, limit), "{max:?}");
        assert_eq!((max.rule.as_str(), max.name.as_str()), (ID, "the shop"));
        let next = window.next_max.expect("one binds next");
        assert_eq!(next.rule, "grip/short-grip");
        assert!(near(next.value, 83.0 - 40.0 * 2.0 / 3.0));
        assert!(near(window.min.expect("a lower end").value, 38.0));
    }
    let loose = solved("error", MAX, "stick_out <= own", "70");
    assert_eq!(loose.max.expect("an end").rule, "grip/short-grip");
    let next = loose.next_max.expect("one binds next");
    assert!(near(next.value, 70.0) && next.rule == ID, "{next:?}");
}

/// Below as above.
#[test]
fn a_shop_rule_binds_below() {
    for limit in [38.5, 41.0, 55.0] {
        let window = solved("error", MIN, "stick_out >= own", &limit.to_string());
        let min = window.min.expect("a lower end");
        assert!(near(min.value, limit) && min.rule == ID, "{min:?}");
        let next = window.next_min.expect("one binds next");
        assert!(near(next.value, 38.0), "{next:?}");
    }
}

/// A strict comparison fails on its edge and within what counts as equal: the end keeps clear of
/// it, by no more than that.
#[test]
fn a_strict_rule_holds_at_its_end() {
    for limit in [40.0, 44.25, 50.0] {
        let text = rule("error", MAX, "stick_out < own", &limit.to_string());
        let cell = with_rule(&tool(&[]), &text);
        let max = cell.window().max.expect("an upper end");
        assert_eq!(max.rule, ID);
        assert!(
            max.value < limit && max.value > limit - 0.0105,
            "{limit}: {max:?}"
        );
        let bench = Bench::new(&cell, &cell.library.assemblies[0]);
        let own = bench.rule(ID).expect("it is loaded");
        assert!(!bench.fails(own, max.value), "{max:?}");
        assert!(bench.fails(own, max.value + 0.05), "{max:?}");
    }
}

/// A warning leaves the window and narrows what is advised.
#[test]
fn a_warning_narrows_what_is_advised() {
    let window = solved("warning", MAX, "stick_out <= own", "41.3");
    let advised = window.advised.expect("an advised part");
    let end = advised.max.expect("an upper end");
    assert!(near(end.value, 41.3) && end.rule == ID, "{end:?}");
    assert_eq!(window.max.expect("an end").rule, "grip/short-grip");
    // A note advises nothing.
    let noted = solved("note", MAX, "stick_out <= own", "41.3");
    let end = noted.advised.expect("a part").max.expect("an end");
    assert!(near(end.value, 43.0), "{end:?}");
}

/// A rule that lacks a field says which, and for which end; it moves none.
#[test]
fn a_rule_without_its_field_is_told() {
    let without = Cell::flat(&tool(&[]), "").window();
    for (bounds, bound) in [(MAX, Bound::StickOutMax), (MIN, Bound::StickOutMin)] {
        let window = solved("error", bounds, "stick_out <= usable_length - own", "0");
        assert!(!window.is_empty());
        assert_eq!(window.min, without.min);
        assert_eq!(window.max, without.max);
        assert_eq!(window.recommended, without.recommended);
        let own = window.unjudged.iter().filter(|one| one.rule == ID);
        let own: Vec<_> = own.map(|one| (one.bound, one.missing.clone())).collect();
        assert_eq!(own, [(bound, vec!["cutter.usable_length"])]);
    }
}

/// Without the land's length two thirds of it bound nothing, at either end, and do not empty the
/// window; only the shank's own diameter is left.
#[test]
fn a_missing_land_is_told() {
    let window = Cell::flat(&tool(&[("bore_length", "")]), "").window();
    assert!(!window.is_empty());
    let max = window.max.as_ref().map(|end| end.rule.as_str());
    assert_eq!(max, Some("grip/little-shank"));
    let grip = window.unjudged.iter();
    let grip = grip.filter(|one| one.rule == "grip/short-grip");
    let grip: Vec<_> = grip.map(|one| (one.bound, one.missing.clone())).collect();
    let land = vec!["collet.bore_length"];
    assert_eq!(
        grip,
        [
            (Bound::StickOutMin, land.clone()),
            (Bound::StickOutMax, land)
        ]
    );
}

/// Over generated tools, with the shop's rule in the middle of the window.
#[test]
fn a_shop_rule_binds_generated_tools() {
    let mut bound = 0;
    for inch in [false, true] {
        let mut of_reach = GENERATED.iter().filter(|one| one.aim == Aim::Reach);
        let tools = of_reach.find(|one| one.inch == inch).expect("there is one");
        let tools = &tools.tools[..100];
        let expect = "stick_out + bore_setback <= overall_length - bore_length * 0.8 - own";
        let own = rule("error", MAX, expect, "0");
        let cell = super::tables::with_shop(Aim::Reach, inch, tools, (FOLDER, OWN, &own));
        check(&cell);
        let windows = cell.library.assemblies.iter();
        bound += windows
            .filter_map(|assembly| cell.of(assembly)?.max)
            .filter(|end| end.rule == ID)
            .count();
    }
    assert!(bound >= 100, "{bound}");
}

/// Conditions that turn over and back within a millimetre, unseen by samples that lie further
/// apart.
const NARROW: [&str; 5] = [
    "stick_out <= own || stick_out >= own + 1 mm",
    "abs(stick_out - own) >= 0.4 mm",
    "min(abs(stick_out - own), abs(stick_out - own - 7 mm)) >= 0.5 mm",
    "gripped_length > bore_length * 0.9 + 0.6 mm || gripped_length < bore_length * 0.9",
    "(stick_out - own) * (stick_out - own - 1 mm) / own >= 0 mm",
];

/// No stick-out within the limits breaks a rule, however narrow the place where it does.
#[test]
fn what_a_rule_forbids_in_passing_is_found() {
    let mut met = 0;
    let mut of_reach = GENERATED.iter().filter(|one| one.aim == Aim::Reach);
    let tools = of_reach.find(|one| !one.inch).expect("there is one");
    for (expect, own) in NARROW
        .iter()
        .flat_map(|expect| ["31.3", "47.9", "60.2"].map(|own| (expect, own)))
    {
        let own = rule(
            "error",
            "[\"stick_out_min\", \"stick_out_max\"]",
            expect,
            own,
        );
        let cell =
            super::tables::with_shop(Aim::Reach, false, &tools.tools[..40], (FOLDER, OWN, &own));
        for assembly in &cell.library.assemblies {
            let Some(window) = cell.of(assembly).filter(|window| !window.is_empty()) else {
                continue;
            };
            let bench = Bench::new(&cell, assembly);
            let own = bench.rule(ID).expect("the shop's rule");
            let (from, to) = super::ends::span(
                window.min.as_ref(),
                window.max.as_ref(),
                window.overall_length,
            );
            let mut at = from + 0.011;
            while at < to - 0.011 {
                assert!(!bench.fails(own, at), "{expect}: {at} in {window:?}");
                at += 0.07;
                met += 1;
            }
        }
    }
    assert!(met > 50_000, "{met}");
}
