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
mod rows;
mod texts;
pub mod variants;

use cases::{CASES, Case, SETUP, Sort, Source, none_of, of, rules_with_cases};

#[test]
fn all_cases_belong_to_a_rule() {
    let rules = rules_with_cases().into_iter();
    let lost = rules.filter(|rule| SETUP.book.rule(rule).is_none());
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
                complaints.push(format!("{}: no fixture for {name}", rule.id));
            }
        }
    }
    none_of(complaints);
}

/// Cases of one rule are told apart by what is expected and by name, and stand in a fixed order,
/// so that whoever adds one sees what is there.
#[test]
fn tables_are_in_order() {
    let orders = SETUP.book.rules.iter().map(|rule| {
        let rows = of(&rule.id).filter_map(|case| match &case.source {
            Source::Rows(rows) => Some(rows),
            Source::Path(_) => None,
        });
        let keys = rows.map(|rows| {
            let words = ["pass", "fail", "na", "gap"];
            let sort = words.iter().position(|word| *word == rows.expect);
            (sort, &rows.field, &rows.case)
        });
        (rule, keys.collect::<Vec<_>>())
    });
    none_of(orders.flat_map(|(rule, keys)| {
        let wrong = keys.windows(2).filter(|two| two[0] >= two[1]);
        let wrong =
            wrong.map(|two| format!("{}: {} stands before {}", rule.id, two[0].2, two[1].2));
        wrong.collect::<Vec<_>>()
    }));
    let of_rows = |case: &&Case| matches!(case.source, Source::Rows(_));
    assert!(
        CASES.iter().filter(of_rows).count() > 1000,
        "tables are read"
    );
}

/// A rule without fixtures would be found by no walk over them.
#[test]
fn there_are_rules_of_both_kinds() {
    let (faults, rules): (Vec<_>, Vec<_>) =
        SETUP.book.rules.iter().partition(|rule| rule.is_fault());
    assert!(!faults.is_empty() && !rules.is_empty());
    let with = rules_with_cases();
    let without = SETUP.book.rules.iter().map(|rule| &rule.id);
    none_of(
        without
            .filter(|id| !with.contains(*id))
            .map(|id| format!("{id}: no fixtures")),
    );
}
