//! Outside checks: numbers printed elsewhere, or worked out by hand, with their source beside
//! each; and that every formula and fact names its own.

mod along;
mod axial;
mod chain;
mod exchange;
mod holding;
mod rows;
mod sources;
mod tables;

use shankwise::units::Scalar;
use std::collections::BTreeMap;

use shankwise::judge::{FactShown, Options, Setup, judge};

use crate::support::{BUILT_IN, library, options};

/// The facts of a library's first assembly and of its first operation, by name.
fn facts(text: &str) -> BTreeMap<String, FactShown> {
    facts_with(text, &BUILT_IN)
}

fn facts_with(text: &str, setup: &Setup) -> BTreeMap<String, FactShown> {
    let options = Options {
        with_facts: true,
        ..options()
    };
    let report = judge(&library(text), setup, &options);
    let first = report.assemblies.expect("facts were asked for").remove(0);
    let of_operation = first.operations.into_iter().take(1).flat_map(|o| o.facts);
    let all = first.facts.into_iter().chain(of_operation);
    all.map(|fact| (fact.name.clone(), fact)).collect()
}

/// Asserts that a fact is a number within `by` of what the source says.
#[track_caller]
fn is_near(facts: &BTreeMap<String, FactShown>, name: &str, expected: f64, by: f64) {
    match &facts[name].value {
        Some(Scalar::Number(number)) => assert!(
            (number - expected).abs() <= by,
            "{name} is {number}, not {expected}"
        ),
        other => panic!("{name} is {other:?}, not {expected}"),
    }
}
