//! Levels and places of findings, where what is expected of a case does not say them.
//!
//! In a rule's table the column `finds` lists what the findings at that row are, in any order:
//! `warning stick_out; note -`. Level, and the field at which the finding points, `-` for a whole
//! record. Where the row states that field, the finding points at its cell, else at the row.
//!
//! For files and folders `expected.toml` beside them does so, with the place of the first cell,
//! in a folder with its table:
//!
//! ```toml
//! "fail-too-few.csv" = ["warning 2:9 -"]
//! "fail-folder" = ["error cutters.csv:2:12 overall_length"]
//! ```
//!
//! A case must be listed if its rule is a fault of form, or if a finding's level is not the
//! rule's own.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::sync::LazyLock;

use shankwise::judge::Finding;
use shankwise::library::{Kind, fields_of};
use shankwise::units::split_unit;

use super::cases::{CASES, Case, EXPECTED, Sort, Source, folder, none_of, of, rules_with_cases};
use super::rows::Rows;

type Expected = BTreeMap<String, Vec<String>>;

/// What a finding is, in the words of the list that its case has.
fn described(case: &Case, finding: &Finding) -> String {
    let level = finding.level_name();
    let field = match finding.places[0].field.as_str() {
        "" => "-",
        field => field,
    };
    match &case.source {
        Source::Rows(rows) => {
            let (row, odd) = in_rows(rows, finding);
            format!("row {row}: {level} {field}{odd}")
        }
        Source::Path(path) => format!("{level} {} {field}", in_file(path, finding)),
    }
}

/// The row at which a finding points, from 1, and what is unexpected about the place.
fn in_rows(rows: &Rows, finding: &Finding) -> (usize, String) {
    let place = &finding.places[0];
    let Some(row) = place
        .line
        .checked_sub(2)
        .filter(|row| *row < rows.cells.len())
    else {
        return (0, format!(" in line {}", place.line));
    };
    let states = |at: usize| {
        let (name, _) = split_unit(&rows.header[at]);
        let mut fields = fields_of(name, Kind::Assembly).into_iter();
        fields.any(|field| {
            let qualified = field.qualified();
            qualified == place.field || qualified.ends_with(&format!(".{}", place.field))
        })
    };
    let given = (0..rows.header.len()).any(|at| states(at) && !rows.cells[row][at].is_empty());
    let odd = match rows.column_at(row, place.column) {
        Some(at) if given && states(at) => String::new(),
        Some(0) if !given => String::new(),
        Some(at) => format!(" at {}", rows.header[at]),
        None => format!(" in column {}", place.column),
    };
    (row + 1, odd)
}

/// Table, line and column.
fn in_file(path: &Path, finding: &Finding) -> String {
    let place = &finding.places[0];
    let root = format!("{}/", path.display());
    let table = match place.file.strip_prefix(&root) {
        Some(table) => format!("{table}:"),
        None => String::new(),
    };
    format!("{table}{}:{}", place.line, place.column)
}

static LISTED: LazyLock<BTreeMap<String, Expected>> = LazyLock::new(|| {
    let rules = rules_with_cases().into_iter();
    let read = rules.map(|rule| {
        let expected = match fs::read_to_string(folder(&rule).join(EXPECTED)) {
            Ok(text) => toml::from_str(&text).unwrap_or_else(|why| panic!("{rule}: {why}")),
            Err(_) => Expected::new(),
        };
        (rule, expected)
    });
    read.collect()
});

/// What is listed for a case, if anything is.
fn listed(case: &Case) -> Option<Vec<String>> {
    let Source::Rows(rows) = &case.source else {
        return LISTED[&case.rule].get(&case.name).cloned();
    };
    let numbered = (1..).zip(&rows.finds).flat_map(|(row, finds)| {
        let finds = finds.iter();
        finds.map(move |finding| format!("row {row}: {finding}"))
    });
    let all: Vec<String> = numbered.collect();
    (!all.is_empty()).then_some(all)
}

#[test]
fn findings_have_the_levels_and_places_expected() {
    none_of(CASES.iter().filter_map(|case| {
        let findings = &case.report().findings;
        let mut found: Vec<String> = findings.iter().map(|f| described(case, f)).collect();
        found.sort();
        let Some(mut expected) = listed(case) else {
            let rule = case.rule();
            let own = |finding: &Finding| finding.level == Some(rule.level);
            let must = rule.is_fault() || !findings.iter().all(own);
            return (case.sort == Sort::Fail && must).then(|| format!("{case}: list {found:?}"));
        };
        expected.sort();
        (found != expected).then(|| format!("{case}:\n  {found:?} instead of\n  {expected:?}"))
    }));
}

#[test]
fn every_expectation_is_of_a_case() {
    let stale = LISTED.iter().flat_map(|(rule, expected)| {
        let names = expected.keys();
        names
            .filter(|name| of(rule).all(|case| case.name != **name))
            .map(move |name| format!("{rule}/{EXPECTED}: there is no case {name}"))
    });
    none_of(stale);
}
