//! Levels and places of findings, where a fixture's name does not say them.
//!
//! `expected.toml` in a rule's folder lists for a case what its findings are, in any order:
//!
//! ```toml
//! "fail-too-few.csv" = ["warning 2:9 -"]
//! "fail-folder" = ["error cutters.csv:2:12 overall_length"]
//! ```
//!
//! Level, place of the first cell that the finding points at (in a folder with its table), and
//! the field that stands there, `-` for a whole record. A case must be listed if its rule is a
//! fault of form, or if a finding's level is not the rule's own.

use std::collections::BTreeMap;
use std::fs;

use shankwise::judge::Finding;

use super::cases::{CASES, Case, EXPECTED, SETUP, Sort, none_of, of, rule_folders};

type Expected = BTreeMap<String, Vec<String>>;

fn described(case: &Case, finding: &Finding) -> String {
    let place = &finding.places[0];
    let root = format!("{}/", case.path.display());
    let table = match place.file.strip_prefix(&root) {
        Some(table) => format!("{table}:"),
        None => String::new(),
    };
    let field = match place.field.as_str() {
        "" => "-",
        field => field,
    };
    let level = finding.level_name();
    format!("{level} {table}{}:{} {field}", place.line, place.column)
}

fn listed() -> BTreeMap<String, Expected> {
    let folders = rule_folders().into_iter();
    let read = folders.map(|(rule, folder)| {
        let path = folder.join(EXPECTED);
        let expected = match fs::read_to_string(&path) {
            Ok(text) => toml::from_str(&text).unwrap_or_else(|why| panic!("{rule}: {why}")),
            Err(_) => Expected::new(),
        };
        (rule, expected)
    });
    read.collect()
}

#[test]
fn findings_have_the_levels_and_places_expected() {
    let listed = listed();
    none_of(CASES.iter().filter_map(|case| {
        let findings = case.alone(&SETUP).findings;
        let mut found: Vec<String> = findings.iter().map(|f| described(case, f)).collect();
        found.sort();
        let Some(expected) = listed[&case.rule].get(&case.name) else {
            let rule = case.rule();
            let own = |finding: &Finding| finding.level == Some(rule.level);
            let must = rule.is_fault() || !findings.iter().all(own);
            return (case.sort == Sort::Fail && must)
                .then(|| format!("{case}: list in {EXPECTED} {found:?}"));
        };
        let mut expected = expected.clone();
        expected.sort();
        (found != expected).then(|| format!("{case}:\n  {found:?} instead of\n  {expected:?}"))
    }));
}

#[test]
fn every_expectation_is_of_a_case() {
    let listed = listed();
    let stale = listed.iter().flat_map(|(rule, expected)| {
        let names = expected.keys();
        names
            .filter(|name| of(rule).all(|case| case.name != **name))
            .map(move |name| format!("{rule}/{EXPECTED}: there is no case {name}"))
    });
    none_of(stale);
}
