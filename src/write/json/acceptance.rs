//! What the shop accepts of a finding, or accepted once.

use std::borrow::Cow;

use schemars::JsonSchema;
use serde::Serialize;

use crate::sheet::{self, Acceptance};

use super::notation::{name, text};

/// What the shop accepts.
#[derive(Serialize, JsonSchema)]
pub(super) struct Accepted<'a> {
    /// Why.
    reason: Cow<'a, str>,
    /// Who.
    by: Cow<'a, str>,
    /// The last day, such as `2027-01-31`.
    until: Option<&'a str>,
    /// What was accepted: the value, and of how much; null where the entry does not say.
    at: Option<Cow<'a, str>>,
}

/// What the shop accepted once.
#[derive(Serialize, JsonSchema)]
pub(in crate::write) struct Lapsed<'a> {
    /// Why.
    reason: Cow<'a, str>,
    /// Who.
    by: Cow<'a, str>,
    /// The last day, such as `2027-01-31`.
    until: Option<&'a str>,
    /// What was accepted: the value, and of how much; null where the entry does not say.
    at: Option<Cow<'a, str>>,
    /// What has changed since.
    why: &'a [String],
}

impl<'a> Accepted<'a> {
    pub(super) fn of(accepted: &'a Acceptance) -> Accepted<'a> {
        Accepted {
            reason: text(&accepted.reason),
            by: name(&accepted.by),
            until: accepted.until.as_deref(),
            at: accepted.at.as_deref().map(name),
        }
    }
}

impl<'a> Lapsed<'a> {
    pub(in crate::write) fn of(lapsed: &'a sheet::Lapsed) -> Lapsed<'a> {
        Lapsed {
            reason: text(&lapsed.reason),
            by: name(&lapsed.by),
            until: lapsed.until.as_deref(),
            at: lapsed.at.as_deref().map(name),
            why: &lapsed.why,
        }
    }
}
