//! Findings that wait for the same missing values, said once under them.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

use super::super::html::escaped;
use super::model::Finding;
use super::tool_section::{finding, places, values};

/// All findings of a tool: those that wait for the same values as one.
pub(super) fn all(findings: &[Finding], page: &mut String) {
    let mut waiting: BTreeMap<&[String], Vec<&Finding>> = BTreeMap::new();
    for one in findings.iter().filter(|one| waits(one)) {
        waiting.entry(&one.missing).or_default().push(one);
    }
    for one in findings {
        let group = waiting.get(one.missing.as_slice());
        if !waits(one) || group.is_none_or(|group| group.len() < 2) {
            finding(one, page);
        }
    }
    for (missing, group) in waiting.iter().filter(|(_, group)| group.len() > 1) {
        together(missing, group, page);
    }
}

/// Whether nothing but missing values is to be said of it.
fn waits(finding: &Finding) -> bool {
    let change = finding.change.as_ref();
    let is_same = change.is_none_or(|one| one.state == "same" && !one.accepted_no_more);
    let is_plain = finding.accepted.is_none() && is_same;
    finding.level == "none" && is_plain && !finding.missing.is_empty()
}

fn together(missing: &[String], group: &[&Finding], page: &mut String) {
    // Writing to a String cannot fail, here and below.
    let _ = write!(
        page,
        "<div class=\"finding none\"><p><span class=\"level none\">not judged</span>: {} findings wait for <b>{}</b></p>",
        group.len(),
        escaped(&missing.join(", "))
    );
    once("Do", "do", group, |one| vec![&one.advice], page);
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
        if !one.why.is_empty() {
            let _ = write!(page, "<p>Why: {}</p>", escaped(&one.why));
        }
        values(one, page);
        *page += "</li>";
    }
    *page += "</ul>";
    once("Beware", "", group, |one| vec![&one.caution], page);
    once(
        "Assumed",
        "soft",
        group,
        |one| one.assumptions.iter().collect(),
        page,
    );
    places(group, page);
    *page += "</div>";
}

/// What several of them say, each text once.
fn once<'a>(
    name: &str,
    class: &str,
    group: &[&'a Finding],
    texts: impl Fn(&'a Finding) -> Vec<&'a String>,
    page: &mut String,
) {
    let all: BTreeSet<&String> = group.iter().flat_map(|one| texts(one)).collect();
    for text in all.into_iter().filter(|text| !text.is_empty()) {
        let _ = write!(page, "<p class=\"{class}\">{name}: {}</p>", escaped(text));
    }
}
