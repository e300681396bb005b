//! Every limit is fenced in: a case on either side within one part in a hundred of it.
//!
//! A case lies within 1 % of a limit if moving the limit by 1 % changes what comes of the
//! case. That needs no knowledge of the rule's formula, and counts a case only if the limit
//! decides it.

use std::sync::LazyLock;

use rayon::prelude::*;
use shankwise::advice::window;
use shankwise::judge::{AssemblyFacts, Judge, Setup};
use shankwise::library::Overrides;
use shankwise::rulebook::{Limit, Rule};

use crate::support::{library, options};

use super::cases::{CASES, Case, SETUP, Sort, none_of, of};
use super::variants::{SHARED, baseline, changed, rests_on, setup, table, with_limit};

/// One part in a hundred.
const NEAR: f64 = 0.01;

/// Whether the rule itself asks for the limit, and not only one of its milder or certain cases.
fn decides(rule: &Rule, limit: &Limit) -> bool {
    let conditions = rule.when.iter().chain(&rule.expect);
    let mut named = conditions.flat_map(|condition| &condition.symbols);
    if rule.limits.iter().any(|own| own.name == limit.name) {
        return named.any(|(name, _)| *name == limit.name);
    }
    rests_on_without_cases(&rule.id).contains(&limit.name)
}

/// The names of the shared limits that its findings rest on when it has no such cases.
fn rests_on_without_cases(rule: &str) -> Vec<String> {
    let mut file = table(rule);
    file.remove("milder");
    file.remove("certain");
    let setup = setup(rule, &file);
    let reports = of(rule).map(|case| case.alone(&setup));
    let findings = reports.flat_map(|report| report.findings);
    let limits = findings.flat_map(|finding| finding.limits);
    limits.map(|limit| limit.name).collect()
}

fn complaint(rule: &Rule, file: &str, limit: &Limit) -> Option<String> {
    let baseline = baseline(&rule.id);
    let near = |factor: f64| -> Vec<&Case> {
        let setup = with_limit(file, limit, factor);
        changed(&baseline, &setup).collect()
    };
    let sides = [near(1.0 - NEAR), near(1.0 + NEAR)];
    let name = &limit.name;
    if sides.iter().any(Vec::is_empty) {
        return Some(format!(
            "{}: no case within 1 % of {name} on one side of it",
            rule.id
        ));
    }
    let has = |sort: &Sort| sides.iter().flatten().any(|case| case.sort == *sort);
    (decides(rule, limit) && !(has(&Sort::Pass) && has(&Sort::Fail)))
        .then(|| format!("{}: no pass or no fail within 1 % of {name}", rule.id))
}

#[test]
fn every_limit_has_cases_within_one_in_a_hundred_on_both_sides() {
    let rules = SETUP.book.rules.iter();
    let pairs = rules.flat_map(|rule| {
        let own = rule
            .limits
            .iter()
            .map(move |limit| (rule, rule.id.as_str(), limit));
        let shared = rests_on(&rule.id).into_iter();
        own.chain(shared.map(move |limit| (rule, SHARED, limit)))
    });
    none_of(pairs.filter_map(|(rule, file, limit)| complaint(rule, file, limit)));
}

/// Whether a limit moves a fact of some case: what can be asked of one that decides no rule.
fn moves_a_fact(setup: &Setup) -> bool {
    let mut all = CASES.iter().zip(FACTS.iter());
    all.any(|(case, before)| facts(case, setup) != *before)
}

/// All facts of every case.
static FACTS: LazyLock<Vec<Vec<AssemblyFacts>>> =
    LazyLock::new(|| CASES.par_iter().map(|case| facts(case, &SETUP)).collect());

fn facts(case: &Case, setup: &Setup) -> Vec<AssemblyFacts> {
    let mut options = options();
    options.selection.only = vec!["record/field-missing".to_owned()];
    options.with_facts = true;
    let report = case.judged(setup, &options);
    report.assemblies.expect("facts are asked for")
}

/// Whether a limit moves a recommended stick-out: one that no rule asks for may decide that.
fn moves_a_recommendation(setup: &Setup) -> bool {
    // Flutes leave the land at 38.0 mm, and at 38.004: half a millimetre on, either side of a
    // whole step is met.
    ["45", "44.996"].into_iter().any(|shank| {
        let text = format!(
            "tool_number,bore_length,overall_length,shank_diameter,shank_length,collet\n1,40,83,12,{shank},c\n"
        );
        let library = library(&text);
        let recommended = |setup: &Setup| {
            let judge = Judge::new(&setup.book, false);
            let found = window(&judge, &library, &library.assemblies[0], &Overrides::default());
            found.expect("the overall length is known").recommended
        };
        recommended(&SETUP) != recommended(setup)
    })
}

/// The tolerances are named by no finding, as every comparison rests on them. A limit that no
/// finding rests on although a fact does, as a density behind a frequency that no rule judges,
/// must move that fact.
#[test]
fn every_shared_limit_is_fenced_in_by_some_rule() {
    let rules = SETUP.book.rules.iter();
    let rules: Vec<_> = rules
        .map(|rule| (rests_on(&rule.id), baseline(&rule.id)))
        .collect();
    let each = SETUP.book.limits.par_iter();
    let each = each.flat_map_iter(|limit| [1.0 - NEAR, 1.0 + NEAR].map(|factor| (limit, factor)));
    let loose = each.filter(|(limit, factor)| {
        let setup = with_limit(SHARED, limit, *factor);
        let names = |on: &[&Limit]| on.iter().any(|one| one.name == limit.name);
        // Those first that say they rest on it: they hardly leave anything to the others.
        let (say_so, others): (Vec<_>, Vec<_>) = rules.iter().partition(|(on, _)| names(on));
        let decisive = !say_so.is_empty();
        let mut all = say_so.into_iter().chain(others);
        let fenced = moves_a_recommendation(&setup)
            || !decisive && moves_a_fact(&setup)
            || all.any(|(_, baseline)| changed(baseline, &setup).next().is_some());
        !fenced
    });
    let loose: Vec<_> = loose.collect();
    none_of(loose.into_iter().map(|(limit, factor)| {
        let name = &limit.name;
        format!("no case of any rule within 1 % of {name} (x {factor})")
    }));
}
