//! What the shop accepts: a rule on a tool, until a day.

use crate::rulebook::{Accept, Date};

use super::finding::Acceptance;

/// Whether, why and by whom a rule's finding on a tool is accepted.
pub(super) fn accept(
    accepted: &[Accept],
    today: Date,
    rule: &str,
    tool: Option<&str>,
    operation: Option<&str>,
) -> Option<Acceptance> {
    let fits = |accept: &&Accept| {
        accept.rule == rule
            && tool == Some(accept.tool_number.as_str())
            && (accept.operation.is_none() || accept.operation.as_deref() == operation)
            && accept.until.is_none_or(|until| today <= until)
    };
    accepted.iter().find(fits).map(|accept| Acceptance {
        reason: accept.reason.clone(),
        by: accept.by.clone(),
        until: accept.until.map(|date| date.to_string()),
    })
}
