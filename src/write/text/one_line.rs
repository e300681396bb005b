//! One line a finding, in the form that editors and terminals make clickable:
//! `file:line:column: level: rule: tool 27: message`. No editor opens a workbook, so that a cell of
//! one is named as people name it: `file: sheet!F12: level: …`.

use crate::sheet::{Finding, Item};
use crate::text::visible;

use super::super::wrap::{name, spot};

/// The lines of an assembly, or of a fault of none. What the shop accepts, and what is not judged,
/// says so in place of its level.
#[must_use]
pub fn brief(item: &Item) -> String {
    item.findings().iter().map(line).collect()
}

fn line(finding: &Finding) -> String {
    let place = finding
        .places
        .first()
        .map_or_else(String::new, |place| format!("{}: ", spot(place)));
    let level = match (&finding.accepted, finding.level) {
        (Some(_), _) => "accepted",
        (None, Some(level)) => level.name(),
        (None, None) => "not judged",
    };
    let tool = finding.tool_number.as_deref();
    let tool = tool.map_or_else(String::new, |tool| format!("tool {}: ", name(tool)));
    let message = visible(&finding.message);
    format!("{place}{level}: {}: {tool}{message}\n", finding.rule)
}
