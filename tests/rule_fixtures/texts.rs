//! The words of the rules: complete, with values in them, and every limit with its reasons.

use shankwise::units::Scalar;
use std::collections::BTreeSet;
use std::fs;

use shankwise::judge::{FactShown, Finding, Outcome};
use shankwise::rulebook::{Basis, Level, Limit, Rule, Template, parse};

use crate::support::{options, root};

use super::cases::{CASES, SETUP, none_of};
use super::compared::values_compared;

/// Every `<topic>/<rule>` in the folder of rules.
fn files() -> Vec<String> {
    let mut ids = Vec::new();
    for topic in fs::read_dir(root().join("rules")).unwrap() {
        let topic = topic.unwrap();
        let name = topic.file_name().into_string().unwrap();
        if name == "tables" {
            continue;
        }
        for rule in fs::read_dir(topic.path()).unwrap() {
            let rule = rule.unwrap().file_name().into_string().unwrap();
            let rule = rule.strip_suffix(".toml").expect("a rule is a TOML file");
            ids.push(format!("{name}/{rule}"));
        }
    }
    // The rules of what suits what stand in one table.
    let pairs = fs::read_to_string(root().join("rules/tables/pairs.toml")).unwrap();
    let pairs: toml::Table = toml::from_str(&pairs).unwrap();
    let pairs = pairs["pair"].as_table().expect("a table of pairs");
    ids.extend(pairs.keys().map(|pair| format!("suits/{pair}")));
    ids.sort();
    ids
}

#[test]
fn rules_are_well_named_and_all_in_the_book() {
    let ids: Vec<&str> = SETUP
        .book
        .rules
        .iter()
        .map(|rule| rule.id.as_str())
        .collect();
    assert_eq!(ids, files(), "the book holds what the folder holds");
    let unique: BTreeSet<&str> = ids.iter().copied().collect();
    assert_eq!(unique.len(), ids.len());
    let word = |word: &str| {
        let small = word
            .bytes()
            .all(|byte| byte.is_ascii_lowercase() || byte == b'-');
        small && !word.starts_with('-') && !word.ends_with('-') && !word.is_empty()
    };
    let odd = ids.into_iter().filter(|id| {
        let parts = id.split_once('/');
        !parts.is_some_and(|(topic, rule)| word(topic) && word(rule))
    });
    none_of(odd.map(|id| format!("{id}: expected topic/rule-name in small letters")));
}

/// A rule's message and those of its milder cases.
fn messages(rule: &Rule) -> impl Iterator<Item = &Template> {
    let milder = rule.milder.iter().filter_map(|case| case.message.as_ref());
    std::iter::once(&rule.message).chain(milder)
}

#[test]
fn texts_are_complete() {
    let mut complaints = Vec::new();
    for rule in &SETUP.book.rules {
        let words = [&rule.message, &rule.why, &rule.advice].map(Template::written);
        let milder = messages(rule).map(Template::written);
        for text in words
            .into_iter()
            .chain(milder)
            .chain([rule.title.to_string()])
        {
            if text.trim().is_empty() || text.trim() != text || text.contains("  ") {
                complaints.push(format!("{}: `{text}` is no text for people", rule.id));
            }
            // Two texts may follow one another, so each is a phrase, not a sentence.
            if text.ends_with('.') {
                complaints.push(format!("{}: `{text}` ends in a full stop", rule.id));
            }
        }
    }
    none_of(complaints);
}

/// What is wrong is said with the actual and the limiting value: a message of an error or a
/// warning has a placeholder for each value that its rule compares.
#[test]
fn messages_name_the_values_that_are_compared() {
    let rules = SETUP.book.rules.iter();
    none_of(
        rules
            .filter(|rule| rule.level > Level::Note)
            .flat_map(|rule| {
                let expect = rule
                    .expect
                    .as_ref()
                    .map(|expect| parse(&expect.text).unwrap());
                let wanted = expect.map_or(1, |expect| values_compared(&expect));
                let poor = messages(rule).filter(move |text| text.expressions().count() < wanted);
                poor.map(move |text| {
                    format!("{}: `{}` needs {wanted} values", rule.id, text.written())
                })
            }),
    );
}

fn complaint(owner: &str, limit: &Limit) -> Option<String> {
    let printed = matches!(limit.basis, Basis::Standard | Basis::Textbook);
    let lacks = if limit.reason.trim().is_empty() {
        "its reason"
    } else if printed && limit.source.trim().is_empty() {
        "the source that its basis promises"
    } else if limit.basis == Basis::Shop || limit.unit.symbol().is_empty() {
        "a basis and a unit of its own"
    } else {
        return None;
    };
    Some(format!("{owner}: limit {} lacks {lacks}", limit.name))
}

#[test]
fn every_limit_has_unit_basis_and_reason() {
    let rules = SETUP.book.rules.iter();
    let own = rules.flat_map(|rule| rule.limits.iter().map(|limit| (rule.id.as_str(), limit)));
    let shared = SETUP
        .book
        .limits
        .iter()
        .map(|limit| ("tables/limits", limit));
    none_of(
        own.chain(shared)
            .filter_map(|(owner, limit)| complaint(owner, limit)),
    );
}

/// What is wrong with a finding as people read it.
fn unfinished(finding: &Finding) -> Option<&'static str> {
    let rule = SETUP.book.rule(&finding.rule)?;
    let words = [
        &finding.title,
        &finding.message,
        &finding.why,
        &finding.advice,
    ];
    if words.iter().any(|text| text.trim().is_empty()) {
        return Some("says nothing of what, why, or what to do");
    }
    if words.iter().any(|text| text.contains(['{', '}'])) {
        return Some("shows a placeholder");
    }
    if words
        .iter()
        .any(|text| text.contains("NaN") || text.contains("inf "))
    {
        return Some("shows what is no number");
    }
    if finding.places.is_empty() {
        return Some("points nowhere");
    }
    let compares = rule.expect.as_ref().is_some_and(|expect| {
        let expect = parse(&expect.text).expect("it was parsed before");
        values_compared(&expect) > 0
    });
    let word = |fact: &FactShown| match &fact.value {
        Some(Scalar::Word(word)) => finding.message.contains(word.word),
        Some(Scalar::Text(word)) => finding.message.contains(word),
        _ => false,
    };
    // A rule that compares only words, such as hands, has no number to give, but its words.
    let numbers = finding.facts.iter().any(|fact| fact.unit.is_some());
    let digit = finding.message.contains(|c: char| c.is_ascii_digit());
    let silent = !digit && (numbers || !finding.facts.iter().any(word));
    (finding.outcome == Outcome::NotMet && compares && silent).then_some("gives no value")
}

#[test]
fn findings_are_written_out() {
    none_of(CASES.iter().flat_map(|case| {
        let report = case.judged(&SETUP, &options());
        let findings = report.findings.into_iter();
        findings.filter_map(move |finding| {
            let what = unfinished(&finding)?;
            Some(format!(
                "{case}: {} {what}: {}",
                finding.rule, finding.message
            ))
        })
    }));
}
