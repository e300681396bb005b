//! Findings that wait for the same missing values, or rest on the same assumed ones: said once.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

use super::super::html::escaped;
use super::model::Finding;
use super::rows::rank;
use super::said_once::Kind;
use super::teller::Teller;
use super::tool_section::{advise, finding, places, values};

/// All findings of a tool: those that wait for the same values as one, and those that rest on the
/// same assumed values together.
pub(super) fn all(findings: &[Finding], teller: &mut Teller<'_>, page: &mut String) {
    // What must be mended comes first.
    let mut findings: Vec<&Finding> = findings.iter().collect();
    findings.sort_by_key(|one| rank(one));
    let mut waiting: BTreeMap<&[String], Vec<&Finding>> = BTreeMap::new();
    for one in findings.iter().copied().filter(|one| waits(one)) {
        waiting.entry(&one.missing).or_default().push(one);
    }
    let alone = |one: &&Finding| {
        let group = waiting.get(one.missing.as_slice());
        !waits(one) || group.is_none_or(|group| group.len() < 2)
    };
    let alone: Vec<&Finding> = findings.iter().copied().filter(alone).collect();
    let shared = shared(&alone, teller);
    for one in alone {
        finding(one, &Kind::ALL, teller, page);
    }
    assumed(&shared, page);
    for (missing, group) in waiting.iter().filter(|(_, group)| group.len() > 1) {
        together(missing, group, teller, page);
    }
}

/// What several findings assume, each with those that rest on it.
fn shared<'f>(
    findings: &[&'f Finding],
    teller: &mut Teller<'_>,
) -> Vec<(&'f String, Vec<&'f Finding>)> {
    let mut all: BTreeMap<&String, Vec<&Finding>> = BTreeMap::new();
    for one in findings.iter().filter(|_| !teller.is_long()) {
        for assumption in &one.assumptions {
            all.entry(assumption).or_default().push(one);
        }
    }
    all.retain(|_, group| group.len() > 1);
    teller.lists(all.keys().map(|one| (*one).clone()));
    all.into_iter().collect()
}

fn assumed(shared: &[(&String, Vec<&Finding>)], page: &mut String) {
    if shared.is_empty() {
        return;
    }
    *page += "<div class=\"shared\"><p>Assumed for several findings of this tool:</p><ul>";
    for (assumption, group) in shared {
        let rules: Vec<&str> = group.iter().map(|one| one.rule.as_str()).collect();
        // Writing to a String cannot fail, here and below.
        let _ = write!(
            page,
            "<li>{} <span class=\"soft\">({} findings: {})</span></li>",
            escaped(assumption),
            group.len(),
            escaped(&rules.join(", "))
        );
    }
    *page += "</ul></div>";
}

/// Whether nothing but missing values is to be said of it.
fn waits(finding: &Finding) -> bool {
    let change = finding.change.as_ref();
    let is_same = change.is_none_or(|one| one.state == "same" && !one.accepted_no_more);
    let is_plain = finding.accepted.is_none() && is_same;
    finding.level == "none" && is_plain && !finding.missing.is_empty()
}

fn together(missing: &[String], group: &[&Finding], teller: &mut Teller<'_>, page: &mut String) {
    let _ = write!(
        page,
        "<div class=\"finding none\"><p><span class=\"level none\">not judged</span>: {} findings wait for <b>{}</b></p>",
        group.len(),
        escaped(&missing.join(", "))
    );
    let mut advised: BTreeSet<&String> = BTreeSet::new();
    for one in group {
        if advised.insert(&one.advice) {
            advise(one, teller, page);
        }
    }
    *page += "<ul class=\"waits\">";
    for one in group {
        let operation = one.operation.as_ref();
        let operation = operation.map_or(String::new(), |own| format!(", operation {own}"));
        let _ = write!(
            page,
            "<li>{} <span class=\"soft\">{} ({}{})</span>",
            escaped(&one.message),
            escaped(&one.title),
            escaped(&one.rule),
            escaped(&operation)
        );
        values(one, page);
        for kind in [Kind::Why, Kind::Limits] {
            if let Some(text) = teller.told(kind, &kind.of(one)) {
                let _ = write!(page, "<p{}>{text}</p>", kind.class());
            }
        }
        *page += "</li>";
    }
    *page += "</ul>";
    for kind in [Kind::Beware, Kind::Assumed] {
        let all: BTreeSet<String> = group.iter().map(|one| kind.of(one)).collect();
        for text in all.iter().filter_map(|text| teller.told(kind, text)) {
            let _ = write!(page, "<p{}>{text}</p>", kind.class());
        }
    }
    places(group, teller, page);
    *page += "</div>";
}
