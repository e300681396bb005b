//! What comes of every case: as its name says, and counted without a gap.

use shankwise::facts::Fact;
use shankwise::judge::{Finding, Outcome, Report};
use shankwise::library::PROPERTIES;
use shankwise::rulebook::{Level, Rule};

use crate::support::options;

use super::cases::{CASES, Case, SETUP, Sort, alone, is_never_judged, none_of};

/// How many findings of a report have a level.
fn failing(report: &Report) -> usize {
    let summary = &report.summary;
    summary.error + summary.warning + summary.note
}

#[test]
fn judged_alone_every_case_comes_out_as_its_name_says() {
    none_of(CASES.iter().filter_map(|case| {
        let report = case.report();
        let why = if case.rule().is_fault() {
            fault_of_form(case, report)
        } else {
            judgement(case, report)
        };
        Some(format!("{case}: {}\n  {:?}", why?, report.summary))
    }));
}

/// What is wrong with the outcome of a rule with `expect`.
fn judgement(case: &Case, report: &Report) -> Option<String> {
    let summary = &report.summary;
    let counts = [
        failing(report),
        summary.met,
        summary.not_applicable,
        summary.not_judged,
    ];
    if summary.faults + summary.accepted > 0 {
        return Some("a rule judged alone raises no fault of form".to_owned());
    }
    match &case.sort {
        Sort::Pass => (summary.met == 0 || failing(report) + summary.not_judged > 0)
            .then(|| "must be met at least once and wherever it applies, and be judged".to_owned()),
        Sort::Fail if counts[1..] != [0; 3] => Some("must only fail".to_owned()),
        Sort::Fail => (0..case.library.assemblies.len())
            .find(|at| {
                report
                    .findings
                    .iter()
                    .all(|f| f.assembly_index != Some(*at))
            })
            .map(|at| format!("assembly {at} does not fail")),
        Sort::NotApplicable => (counts != [0, 0, summary.judgements, 0] || counts[2] == 0)
            .then(|| "must only be not applicable".to_owned()),
        Sort::Gap(field) => {
            if counts != [0, 0, 0, summary.judgements] || counts[3] == 0 {
                return Some("must only be not judged".to_owned());
            }
            if is_never_judged(case.rule()) {
                return never_judged(field, case.rule(), report);
            }
            gap(field, report)
        }
    }
}

/// A rule that can never be judged names no field as missing, for none would help; what it is
/// about is a fact, and what it says are its own words.
fn never_judged(fact: &str, rule: &Rule, report: &Report) -> Option<String> {
    if !Fact::all().any(|info| info.name == fact) {
        return Some(format!("`{fact}` is no fact"));
    }
    let words = rule.unjudged.written();
    let says = |finding: &Finding| {
        let null = finding.facts.iter().find(|shown| shown.name == fact);
        finding.level.is_none()
            && finding.missing.is_empty()
            && finding.message == words.as_str()
            && null.is_some_and(|shown| shown.value.is_none())
    };
    let other = report.findings.iter().find(|finding| !says(finding))?;
    Some(format!(
        "{fact} is not said to be unknown: {}",
        other.message
    ))
}

/// A fact of which nothing is missing and which no table or model has: the finding says why.
fn without_result(fact: &str, report: &Report) -> Option<String> {
    let says = |finding: &Finding| {
        let shown = finding.facts.iter().find(|shown| shown.name == fact);
        let why = shown.and_then(|shown| shown.outside);
        finding.level.is_none()
            && finding.missing.is_empty()
            && why.is_some_and(|why| finding.message.ends_with(why))
    };
    let other = report.findings.iter().find(|finding| !says(finding))?;
    Some(format!(
        "why {fact} is not known is not said: {}",
        other.message
    ))
}

fn gap(field: &str, report: &Report) -> Option<String> {
    if Fact::all().any(|info| info.name == field) {
        return without_result(field, report);
    }
    if !PROPERTIES
        .iter()
        .any(|property| property.qualified == field)
    {
        return Some(format!("`{field}` is no property with its record"));
    }
    let says = |finding: &Finding| {
        finding.level.is_none()
            && finding.outcome == Outcome::NotJudged
            && finding.missing.contains(&field)
            && finding.message.contains(field)
    };
    let silent = report.findings.iter().find(|finding| !says(finding))?;
    Some(format!("{field} is not named: {:?}", silent.missing))
}

/// What is wrong with the outcome of a fault of form. It is never judged, so that it has no
/// other outcomes; where it happens is said by `expected.toml`.
fn fault_of_form(case: &Case, report: &Report) -> Option<String> {
    let summary = &report.summary;
    if summary.judgements > 0 || summary.faults != report.findings.len() {
        return Some("a fault of form is no judgement".to_owned());
    }
    match case.sort {
        Sort::Pass => (summary.faults > 0).then(|| "must not have this fault".to_owned()),
        Sort::Fail => (summary.faults == 0).then(|| "must have this fault".to_owned()),
        _ => Some("a fault of form has pass and fail fixtures only".to_owned()),
    }
}

/// A finding is lowered by one level if it rests on something assumed that could turn it, and only
/// then; whoever
/// is strict sees the full level, which is the rule's own or that of a milder case.
#[test]
fn levels_are_lowered_by_assumptions_only() {
    for case in CASES.iter() {
        let rule = case.rule();
        let mut options = alone(&case.rule);
        let usual = case.report();
        options.strict = true;
        let strict = case.judged(&SETUP, &options);
        let strict = strict.findings.iter().map(|finding| finding.level);
        for finding in &usual.findings {
            let harmless =
                |words: &String| words.ends_with("the result is the same over its whole band");
            let assumed = !finding.assumptions.iter().all(harmless);
            let milder = rule.milder.iter().map(|milder| milder.level);
            let mut possible = milder.chain([rule.level]);
            assert!(
                possible.any(|level| level == finding.full_level),
                "{case}: {finding:?}"
            );
            let full = finding.full_level;
            let right = if assumed { full.lowered() } else { full };
            if finding.outcome == Outcome::NotMet {
                assert_eq!(finding.level, Some(right), "{case}: {finding:?}");
            }
        }
        let full = usual.findings.iter().map(|finding| {
            let judged = finding.outcome == Outcome::NotMet;
            judged.then_some(finding.full_level)
        });
        let (mut full, mut strict): (Vec<_>, Vec<_>) = (full.collect(), strict.collect());
        full.sort();
        strict.sort();
        assert_eq!(
            full, strict,
            "{case}: whoever is strict sees the full level"
        );
    }
}

#[test]
fn with_all_rules_on_the_counts_add_up() {
    for case in CASES.iter() {
        let report = case.judged(&SETUP, &options());
        let summary = &report.summary;
        let counted = failing(&report)
            + summary.not_judged
            + summary.not_applicable
            + summary.met
            + summary.accepted;
        assert_eq!(counted, summary.judgements + summary.faults, "{case}");
        let at = |level: Option<Level>| {
            let findings = report.findings.iter();
            findings
                .filter(|f| f.accepted.is_none() && f.level == level)
                .count()
        };
        let levels = [
            Some(Level::Error),
            Some(Level::Warning),
            Some(Level::Note),
            None,
        ];
        let counts = [
            summary.error,
            summary.warning,
            summary.note,
            summary.not_judged,
        ];
        assert_eq!(levels.map(at), counts, "{case}");
        let faults = report.findings.iter().filter(|finding| {
            let rule = SETUP.book.rule(&finding.rule);
            rule.is_some_and(shankwise::rulebook::Rule::is_fault)
        });
        assert_eq!(faults.count(), summary.faults, "{case}");
    }
}
