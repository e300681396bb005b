//! Every bounding rule binds in a hundred of the generated cases and more.

use std::collections::BTreeMap;

use shankwise::judge::Judge;

use super::ends::{Side, ends};
use super::tables::GENERATED;
use crate::support::built_in;

/// In how many cases a rule must bind an end.
const ENOUGH: usize = 100;

/// Who bounds the stick-out, and on which side.
pub(super) const BOUNDING: [(&str, Side); 19] = [
    ("grip/below-collet-minimum", Side::Upper),
    ("grip/below-cutter-minimum", Side::Upper),
    ("grip/below-holder-minimum", Side::Upper),
    ("grip/beyond-maker-clamping", Side::Lower),
    ("grip/flutes-in-bore", Side::Lower),
    ("grip/little-shank", Side::Upper),
    ("grip/rear-flutes-in-bore", Side::Upper),
    ("grip/screw-misses-flat", Side::Lower),
    ("grip/screw-misses-flat", Side::Upper),
    ("grip/short-grip", Side::Lower),
    ("grip/short-grip", Side::Upper),
    ("grip/square-not-driven", Side::Lower),
    ("grip/square-not-driven", Side::Upper),
    ("grip/tail-on-stop", Side::Lower),
    ("holding/mouth-overstressed", Side::Upper),
    ("reach/nut-fouls", Side::Lower),
    ("reach/slender-overhang", Side::Upper),
    ("reach/too-short-for-the-job", Side::Lower),
    ("stiffness/tip-bends", Side::Upper),
];

/// A bounding rule that is added must be added to the list, and to what is generated.
#[test]
fn the_list_is_complete() {
    let setup = built_in();
    let judge = Judge::new(&setup.book, false);
    let mut ids: Vec<&str> = judge.bounding().map(|(_, rule)| rule.id.as_str()).collect();
    ids.sort_unstable();
    let mut listed = BOUNDING.map(|(id, _)| id).to_vec();
    listed.dedup();
    assert_eq!(ids, listed);
}

#[test]
fn every_bounding_rule_binds_a_hundred_times() {
    let mut counts: BTreeMap<(String, Side), usize> = BTreeMap::new();
    let windows = GENERATED.iter().flat_map(|one| &one.windows);
    for window in windows.filter(|window| !window.is_empty()) {
        // Ends of the window and of its advised part; one that binds next is no end yet.
        let ends = ends(window);
        let binding = ends.iter().filter(|(_, binds, _)| *binds);
        let mut bound: Vec<(String, Side)> = binding
            .map(|(side, _, end)| (end.rule.clone(), *side))
            .collect();
        bound.sort();
        bound.dedup();
        for one in bound {
            *counts.entry(one).or_default() += 1;
        }
    }
    for (id, side) in BOUNDING {
        let count = counts.get(&(id.to_owned(), side)).copied().unwrap_or(0);
        assert!(count >= ENOUGH, "{id} {side:?}: {count} of {counts:#?}");
    }
}
