//! Findings that wait for the same missing values, or rest on the same assumed ones: said once.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

use super::super::html::escaped;
use super::model::Finding;
use super::said_once::Kind;
use super::teller::Teller;
use super::tool_section::{finding, places, values};

/// All findings of a tool: those that wait for the same values as one, and those that rest on the
/// same assumed values together.
pub(super) fn all(findings: &[Finding], teller: &mut Teller<'_>, page: &mut String) {
    let mut waiting: BTreeMap<&[String], Vec<&Finding>> = BTreeMap::new();
    for one in findings.iter().filter(|one| waits(one)) {
        waiting.entry(&one.missing).or_default().push(one);
    }
    let alone = |one: &&Finding| {
        let group = waiting.get(one.missing.as_slice());
        !waits(one) || group.is_none_or(|group| group.len() < 2)
    };
    let mut said: BTreeSet<&[String]> = BTreeSet::new();
    for one in findings.iter().filter(alone) {
        let own = one.assumptions.as_slice();
        let others = findings.iter().filter(alone);
        let sharing: Vec<&Finding> = others.filter(|other| other.assumptions == own).collect();
        if own.is_empty() || sharing.len() < 2 {
            finding(one, &Kind::ALL, teller, page);
        } else if said.insert(own) {
            assumed(&sharing, teller, page);
        }
    }
    for (missing, group) in waiting.iter().filter(|(_, group)| group.len() > 1) {
        together(missing, group, teller, page);
    }
}

/// Findings that rest on the same assumed values, which are said once above them.
fn assumed(group: &[&Finding], teller: &mut Teller<'_>, page: &mut String) {
    let Some(first) = group.first() else {
        return;
    };
    let said = teller.told(Kind::Assumed, &Kind::Assumed.of(first));
    // Writing to a String cannot fail, here and below.
    let _ = write!(
        page,
        "<div class=\"shared\"><p>{} findings rest on the same assumed values.</p><p class=\"soft\">{}</p>",
        group.len(),
        said.unwrap_or_default()
    );
    for one in group {
        finding(one, &[Kind::Why, Kind::Beware, Kind::Limits], teller, page);
    }
    *page += "</div>";
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
    let advised: BTreeSet<&String> = group.iter().map(|one| &one.advice).collect();
    for advice in advised.into_iter().filter(|advice| !advice.is_empty()) {
        let _ = write!(page, "<p>Do: {}</p>", teller.advice(advice));
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
