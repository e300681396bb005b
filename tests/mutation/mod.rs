//! Each rule is killed by its fixtures: change it, and some outcome must change.
//!
//! Mutants are made in the rule file's TOML and loaded as any pack is. For every mutant at
//! least one case of the rule must come out otherwise: hold, fail, not apply or not be judged
//! where it did not before, have another level, or say other words (numbers aside, or a moved
//! limit would be "seen" only because it is printed).

mod mutants;

use rayon::prelude::*;
use shankwise::rulebook::{Rule, Rulebook};

use crate::rule_fixtures::cases::{Case, SETUP, none_of};
use crate::rule_fixtures::variants::{SHARED, Shape, baseline, changed, rests_on, with_limit};

use mutants::{MOVES, Mutant};

fn book() -> &'static Rulebook {
    &SETUP.book
}

/// Mutants of a rule that none of these of its cases notices.
fn survivors(rule: &Rule, baseline: &[(&'static Case, Shape)]) -> Vec<String> {
    let lives = |mutant: &Mutant| changed(baseline, &mutant.setup()).next().is_none();
    let of_rule = mutants::of(rule).into_iter().filter(lives);
    let of_rule = of_rule.map(|mutant| format!("{} survives: {}", rule.id, mutant.what));
    let shared = rests_on(&rule.id)
        .into_iter()
        .flat_map(|limit| MOVES.into_iter().map(move |factor| (limit, factor)));
    let of_shared = shared.filter_map(|(limit, factor)| {
        let setup = with_limit(SHARED, limit, factor);
        let lives = changed(baseline, &setup).next().is_none();
        lives.then(|| {
            format!(
                "{} survives: shared limit {} x {factor}",
                rule.id, limit.name
            )
        })
    });
    of_rule.chain(of_shared).collect()
}

#[test]
fn every_rule_is_killed_by_its_fixtures() {
    let rules: Vec<&Rule> = book().rules.iter().collect();
    let survivors: Vec<Vec<String>> = rules
        .into_par_iter()
        .map(|rule| survivors(rule, &baseline(&rule.id)))
        .collect();
    none_of(survivors.into_iter().flatten());
}

/// A single comfortable case kills little: what it does not, is said by name.
#[test]
fn survivors_are_found() {
    let rule = book()
        .rule("grip/short-grip")
        .expect("the first rule of all");
    let mut cases = baseline(&rule.id);
    cases.retain(|(case, _)| case.name == "pass full land");
    assert_eq!(cases.len(), 1);
    let found = survivors(rule, &cases);
    for part in [
        "expect = true",
        "when = true",
        "bound >=",
        "min_grip_fraction x 1.02",
    ] {
        assert!(
            found.iter().any(|survivor| survivor.contains(part)),
            "{found:?}"
        );
    }
    assert!(
        !found
            .iter()
            .any(|survivor| survivor.contains("expect = false"))
    );
}

/// Too few mutants would be killed too easily: what a rule is made of, each gives its own.
#[test]
fn mutants_are_made_of_every_part() {
    for rule in &book().rules {
        let made: Vec<String> = mutants::of(rule)
            .into_iter()
            .map(|mutant| mutant.what)
            .collect();
        let has = |what: &str| made.iter().filter(|made| made.starts_with(what)).count();
        assert_eq!(
            has("expect = "),
            2 * usize::from(rule.expect.is_some()),
            "{}",
            rule.id
        );
        assert_eq!(
            has("when = "),
            usize::from(rule.when.is_some()),
            "{}",
            rule.id
        );
        assert_eq!(has("milder "), 3 * rule.milder.len(), "{}", rule.id);
        let despite = rule.certain.iter().map(|case| case.despite.len());
        let certain = 3 * rule.certain.len() + despite.sum::<usize>();
        assert_eq!(has("certain "), certain, "{}", rule.id);
        assert_eq!(
            has("limit "),
            MOVES.len() * rule.limits.len(),
            "{}",
            rule.id
        );
        let conditions = rule.when.iter().chain(&rule.expect);
        let cases = rule.milder.iter().map(|milder| &milder.when);
        let certain = rule.certain.iter().map(|certain| &certain.when);
        let bounds = conditions.chain(cases).chain(certain).map(|condition| {
            condition.text.matches(">=").count() + condition.text.matches("<=").count()
        });
        assert_eq!(has("bound "), bounds.sum::<usize>(), "{}", rule.id);
    }
}
