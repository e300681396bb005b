//! The rules as a set, held against their fixtures.
//!
//! Everything here is driven by what lies in `rules/` and `fixtures/rules/`: whoever adds a
//! rule adds fixtures, and no Rust. That each rule is killed by its fixtures stands in
//! `mutation`, which also shows that every milder case is true in one of them and false in
//! another, and that two equal sides have a case.

pub mod cases;
mod compared;
mod expected;
mod gaps;
mod limits;
mod outcomes;
mod texts;
pub mod variants;

use std::collections::BTreeSet;

use cases::{SETUP, Sort, none_of, of, rule_folders};

#[test]
fn every_folder_belongs_to_a_rule() {
    let folders = rule_folders().into_iter().map(|(rule, _)| rule);
    let lost = folders.filter(|rule| SETUP.book.rule(rule).is_none());
    none_of(lost.map(|rule| format!("fixtures/rules/{rule}: there is no such rule")));
}

#[test]
fn every_rule_has_the_fixtures_it_can_have() {
    let mut complaints = Vec::new();
    for rule in &SETUP.book.rules {
        let sorts: Vec<&Sort> = of(&rule.id).map(|case| &case.sort).collect();
        let mut wanted = vec![(Sort::Pass, "pass"), (Sort::Fail, "fail")];
        // A rule that rests on what no library can state is there to say so, in words of its
        // own. It can neither hold nor fail; the mutants show that its gaps are judged.
        if cases::is_never_judged(rule) {
            wanted.clear();
        }
        // A condition that never comes out false is none; a job may always be missing.
        if rule.when.is_some() || rule.of_operation {
            wanted.push((Sort::NotApplicable, "na"));
        }
        for (sort, name) in wanted {
            if !sorts.contains(&&sort) {
                complaints.push(format!("{}: no {name}-* fixture", rule.id));
            }
        }
    }
    none_of(complaints);
}

/// A rule without a folder would be found by no walk over the fixtures.
#[test]
fn there_are_rules_of_both_kinds() {
    let (faults, rules): (Vec<_>, Vec<_>) =
        SETUP.book.rules.iter().partition(|rule| rule.is_fault());
    assert!(!faults.is_empty() && !rules.is_empty());
    let folders: BTreeSet<String> = rule_folders().into_iter().map(|(rule, _)| rule).collect();
    let without = SETUP.book.rules.iter().map(|rule| &rule.id);
    none_of(
        without
            .filter(|id| !folders.contains(*id))
            .map(|id| format!("{id}: no folder of fixtures")),
    );
}
