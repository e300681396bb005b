//! Faults of records that belong to no one tool: several share a block, a line each.

use std::collections::BTreeMap;

use crate::sheet::{Finding, FindingPlace, Level};
use crate::text::visible;

use super::super::super::wrap::spot;
use super::super::Look;
use super::Alike;
use super::block_text::{BlockText, stressed};
use super::key::{Key, Sort};
use super::tool::Tool;

/// Most faults that have a line.
const LINES: usize = 8;
/// Most tools that a line names.
pub(super) const TOOLS: usize = 5;

/// Tools by their number in the library.
type Concerned = BTreeMap<usize, String>;

/// Takes such faults out of the blocks, if there are several.
pub(super) fn taken(blocks: &mut Vec<(Key, Alike)>) -> Vec<Finding> {
    let lone = |alike: &Alike| {
        let tool = alike.tools.first();
        alike.count == 1 && tool.is_some_and(Tool::is_record)
    };
    if blocks.iter().filter(|(_, alike)| lone(alike)).count() < 2 {
        return Vec::new();
    }
    let (records, tools) = std::mem::take(blocks)
        .into_iter()
        .partition(|(_, alike)| lone(alike));
    *blocks = tools;
    let records: Vec<(Key, Alike)> = records;
    let tools = records.into_iter().flat_map(|(_, alike)| alike.tools);
    tools.flat_map(Tool::into_findings).collect()
}

/// In front of which block theirs stands: behind all; where the worst come first, in front of
/// those that are only warned of.
pub(super) fn place(blocks: &[(Key, Alike)], sort: Sort) -> usize {
    let warned = |(_, alike): &(Key, Alike)| {
        let tool = alike.tools.first();
        tool.is_some_and(|tool| tool.level() < Some(Level::Error))
    };
    let first = blocks.iter().position(warned);
    first
        .filter(|_| sort == Sort::Severity)
        .unwrap_or(blocks.len())
}

/// The block; empty without faults.
pub(super) fn text(faults: &[Finding], concerned: &Concerned, look: Look, width: usize) -> String {
    if faults.is_empty() {
        return String::new();
    }
    let mut lines: Vec<String> = faults
        .iter()
        .take(LINES)
        .map(|fault| line(fault, concerned, look))
        .collect();
    let more = faults.len().saturating_sub(LINES);
    if more > 0 {
        lines.push(format!("and {more} more; --full shows them"));
    }
    let block = BlockText {
        who: format!("{} faults in records of parts and jobs", faults.len()),
        about: String::new(),
        lines,
        level: faults.iter().filter_map(|fault| fault.level).max(),
    };
    block.text(&[], look, width)
}

/// Where, what, whose, what to do.
fn line(fault: &Finding, concerned: &Concerned, look: Look) -> String {
    let place = fault.places.first().map_or_else(String::new, at);
    let tools = fault.part_of.iter().take(TOOLS);
    let tools: Vec<&str> = tools
        .filter_map(|at| concerned.get(at).map(String::as_str))
        .collect();
    let whose = match (tools.len(), fault.part_of.len().saturating_sub(TOOLS)) {
        (0, _) => String::new(),
        (1, _) => format!(" (tool {})", tools.join(", ")),
        (_, 0) => format!(" (tools {})", tools.join(", ")),
        (_, more) => format!(" (tools {} and {more} more)", tools.join(", ")),
    };
    format!(
        "{place}{}  {}{whose}; do: {}",
        visible(&fault.message),
        fault.rule,
        stressed(&fault.brief, look)
    )
}

/// `stock.csv:3:7: `.
fn at(place: &FindingPlace) -> String {
    format!("{}: ", spot(place))
}
