//! A finding as a result.

use std::borrow::Cow;

use serde::Serialize;

use crate::audit::Noted;
use crate::sheet::{Acceptance, Finding, Heading};

use super::super::json::{Facts, FieldName, Lacking, Lapsed, Limits, fields, name, text};
use super::message::Message;
use super::place::Location;

/// A result.
#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct Found<'a> {
    rule_id: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    rule_index: Option<usize>,
    kind: &'static str,
    level: &'static str,
    message: Message,
    locations: Vec<Location>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    related_locations: Vec<Location>,
    partial_fingerprints: Fingerprints<'a>,
    /// On every result, empty for most: so it is known of each whether it is accepted.
    suppressions: Vec<Suppression<'a>>,
    properties: Properties<'a>,
}

#[derive(Serialize)]
pub(super) struct Fingerprints<'a> {
    #[serde(rename = "shankwise/v1")]
    pub own: &'a str,
}

/// What the shop accepts.
#[derive(Serialize)]
pub(super) struct Suppression<'a> {
    kind: &'static str,
    status: &'static str,
    /// Unless the finding is one of an earlier audit, which keeps no reason.
    #[serde(skip_serializing_if = "Option::is_none")]
    justification: Option<Cow<'a, str>>,
    properties: Accepted<'a>,
}

#[derive(Serialize)]
struct Accepted<'a> {
    by: Cow<'a, str>,
    until: Option<&'a str>,
    at: Option<Cow<'a, str>>,
}

/// What else is known of it, under the keys that it has in JSON.
#[derive(Serialize)]
struct Properties<'a> {
    library: &'a str,
    outcome: &'static str,
    title: Cow<'a, str>,
    tool_number: Option<Cow<'a, str>>,
    assembly: Option<Cow<'a, str>>,
    operation: Option<Cow<'a, str>>,
    machine: Option<Cow<'a, str>>,
    pot: Option<Cow<'a, str>>,
    advice: Cow<'a, str>,
    caution: Cow<'a, str>,
    consequence: &'static str,
    basis: &'static str,
    missing: Vec<FieldName>,
    shortfall: Option<Lacking<'a>>,
    lapsed: Option<Lapsed<'a>>,
    facts: Facts<'a>,
    limits: Limits<'a>,
    assumptions: &'a [String],
}

impl<'a> Found<'a> {
    /// A finding of a library, with the number of its rule and the heading of its assembly.
    pub(super) fn of(
        finding: &'a Finding,
        rule_index: Option<usize>,
        heading: Option<&'a Heading>,
        library: &'a str,
    ) -> Found<'a> {
        let mut places = finding.places.iter().map(Location::of);
        Found {
            rule_id: &finding.rule,
            rule_index,
            // What nobody could judge has not passed.
            kind: if finding.level.is_some() {
                "fail"
            } else {
                "open"
            },
            level: finding.level_name(),
            message: message(finding),
            locations: places.by_ref().take(1).collect(),
            related_locations: places.collect(),
            partial_fingerprints: Fingerprints {
                own: &finding.fingerprint,
            },
            suppressions: finding.accepted.iter().map(Suppression::of).collect(),
            properties: Properties::of(finding, heading, library),
        }
    }
}

fn message(finding: &Finding) -> Message {
    match &finding.tool_number {
        Some(tool) => Message::of(&format!("tool {}: {}", name(tool), finding.message)),
        None => Message::of(&finding.message),
    }
}

impl<'a> Suppression<'a> {
    fn of(accepted: &'a Acceptance) -> Suppression<'a> {
        Suppression {
            kind: "external",
            status: "accepted",
            justification: Some(text(&accepted.reason)),
            properties: Accepted {
                by: name(&accepted.by),
                until: accepted.until.as_deref(),
                at: accepted.at.as_deref().map(text),
            },
        }
    }

    /// Of a finding of an earlier audit; none if it was not accepted.
    pub(super) fn noted(noted: &'a Noted) -> Option<Suppression<'a>> {
        let until = Some(noted.accepted_until.as_str());
        noted.is_accepted().then(|| Suppression {
            kind: "external",
            status: "accepted",
            justification: None,
            properties: Accepted {
                by: name(&noted.accepted_by),
                until: until.filter(|until| !until.is_empty()),
                at: None,
            },
        })
    }
}

impl<'a> Properties<'a> {
    fn of(finding: &'a Finding, heading: Option<&'a Heading>, library: &'a str) -> Properties<'a> {
        let own = |text: Option<&'a String>| text.map(|text| name(text));
        Properties {
            library,
            outcome: finding.outcome.name(),
            title: text(&finding.title),
            tool_number: own(finding.tool_number.as_ref()),
            assembly: own(finding.assembly.as_ref()),
            operation: own(finding.operation.as_ref()),
            machine: own(heading.and_then(|heading| heading.machine.as_ref())),
            pot: own(heading.and_then(|heading| heading.pot.as_ref())),
            advice: text(&finding.advice),
            caution: text(&finding.caution),
            consequence: finding.consequence.name(),
            basis: finding.basis.name(),
            missing: fields(&finding.missing),
            shortfall: finding.shortfall.as_ref().map(Lacking::of),
            lapsed: finding.lapsed.as_ref().map(Lapsed::of),
            facts: Facts(&finding.facts),
            limits: Limits(&finding.limits),
            assumptions: &finding.assumptions,
        }
    }
}
