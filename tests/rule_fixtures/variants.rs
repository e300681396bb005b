//! The built-in rules with one thing changed, and what a change may change.

use std::sync::LazyLock;

use shankwise::judge::{Outcome, Report, Setup, VocabularyNames};
use shankwise::rulebook::{Limit, Pack, Rulebook, built_in};
use toml::{Table, Value};

use super::cases::{Case, SETUP, of};
use crate::support::with_book;

/// Where the shared limits stand.
pub const SHARED: &str = "tables/limits";

static PACK: LazyLock<Pack> = LazyLock::new(built_in);

/// Where the rules of what suits what stand, and their topic.
const PAIRS: (&str, &str) = ("tables/pairs", "suits/");

/// A rule file or limits table as TOML; of a pair its part of the table of pairs.
pub fn table(file: &str) -> Table {
    if let Some(pair) = file.strip_prefix(PAIRS.1) {
        let mut all = table(PAIRS.0);
        let pairs = all.get_mut("pair").and_then(Value::as_table_mut);
        return match pairs.and_then(|pairs| pairs.remove(pair)) {
            Some(Value::Table(body)) => body,
            _ => panic!("there is no pair {pair}"),
        };
    }
    let name = format!("{file}.toml");
    let found = PACK.files.iter().find(|(known, _, _)| *known == name);
    let (_, _, text) = found.unwrap_or_else(|| panic!("there is no {name}"));
    toml::from_str(text).expect("a built-in file is TOML")
}

/// The built-in rules with another text for one of their files.
pub fn setup(file: &str, changed: &Table) -> Setup {
    if let Some(pair) = file.strip_prefix(PAIRS.1) {
        let mut all = table(PAIRS.0);
        all["pair"][pair] = Value::Table(changed.clone());
        return setup(PAIRS.0, &all);
    }
    let name = format!("{file}.toml");
    let mut pack = PACK.clone();
    // A rule is judged alone, so that only its own file and the tables need be read again.
    let beside = changed.get("beside").and_then(Value::as_str);
    let beside = beside.map(|rule| format!("{rule}.toml"));
    pack.files.retain(|(known, _, _)| {
        file == SHARED
            || *known == name
            || known.starts_with("tables/")
            || Some(known) == beside.as_ref()
    });
    for (known, _, text) in &mut pack.files {
        if *known == name {
            *text = toml::to_string(changed).expect("a table can be written");
        }
    }
    let book = Rulebook::load(&[pack], &VocabularyNames);
    with_book(book.unwrap_or_else(|errors| panic!("{name} no longer loads: {errors:?}")))
}

/// The built-in rules with a limit multiplied by a factor.
pub fn with_limit(file: &str, limit: &Limit, factor: f64) -> Setup {
    assert!(
        limit.value != 0.0,
        "{file}: a limit of zero cannot be moved; write it into the condition"
    );
    let mut changed = table(file);
    changed["limit"][limit.name.as_str()]["value"] = Value::Float(limit.value * factor);
    setup(file, &changed)
}

/// What came of a case, as far as an engineer would call it another result: the outcomes, the
/// levels, and which words are said, whatever numbers stand in them.
#[derive(Debug, PartialEq)]
pub struct Shape {
    met: usize,
    not_applicable: usize,
    findings: Vec<String>,
}

impl Shape {
    fn of(report: &Report) -> Shape {
        let findings = report.findings.iter().map(|finding| {
            let words = match finding.outcome {
                Outcome::NotMet => [&finding.message, &finding.why, &finding.advice],
                // Which fields are missing is the gap fixtures' affair.
                _ => [&finding.title; 3],
            };
            let words = words.map(|text| without_numbers(text));
            let subject = (finding.assembly_index, &finding.operation);
            format!("{subject:?} {} {words:?}", finding.level_name())
        });
        let mut findings: Vec<String> = findings.collect();
        findings.sort();
        Shape {
            met: report.summary.met,
            not_applicable: report.summary.not_applicable,
            findings,
        }
    }
}

fn without_numbers(text: &str) -> String {
    let in_number = |c: char| c.is_ascii_digit() || matches!(c, '.' | '-' | '/');
    text.chars().filter(|c| !in_number(*c)).collect()
}

/// The shapes of a rule's cases under the built-in rules.
pub fn baseline(rule: &str) -> Vec<(&'static Case, Shape)> {
    let shapes = of(rule).map(|case| (case, Shape::of(case.report())));
    shapes.collect()
}

/// The cases that come out otherwise under another setup.
pub fn changed<'b>(
    baseline: &'b [(&'static Case, Shape)],
    setup: &'b Setup,
) -> impl Iterator<Item = &'static Case> + 'b {
    let differ = |(case, shape): &&(&Case, Shape)| Shape::of(&case.alone(setup)) != *shape;
    baseline.iter().filter(differ).map(|(case, _)| *case)
}

/// The names of the shared limits that a rule's findings say they rest on.
pub fn rests_on(rule: &str) -> Vec<&'static Limit> {
    let findings = of(rule).flat_map(|case| &case.report().findings);
    let named: Vec<&str> = findings
        .flat_map(|finding| &finding.limits)
        .map(|limit| limit.name.as_str())
        .collect();
    let shared = SETUP.book.limits.iter();
    shared
        .filter(|limit| named.contains(&limit.name.as_str()))
        .collect()
}
