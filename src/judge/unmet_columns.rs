//! Headers that a library's own shop file names and none of its tables has: what it says of them
//! counts for nothing, and a slip in one is easily made.

use std::collections::HashSet;

use crate::input::{Fault, fault_kind};
use crate::library::normal;
use crate::rulebook::ShopColumn;
use crate::text::closest;
use crate::units::split_unit;

use super::fault_finding::of_fault;
use super::finding::{Finding, fingerprint};
use super::run::Session;

/// Those headers, written up at their places in the shop file.
pub(super) fn told(session: &Session<'_>) -> Vec<Finding> {
    let kind = fault_kind::COLUMN_NOT_THERE;
    let rule = session.setup.book.rule(kind).filter(|rule| !rule.off);
    let (Some(rule), Some(headers)) = (rule, &session.library.headers) else {
        return Vec::new();
    };
    if !session.options.selection.takes(kind) {
        return Vec::new();
    }
    let known = headers.iter().flat_map(|header| {
        let (bare, _) = split_unit(header);
        [normal(header), normal(without_number(header)), normal(bare)]
    });
    let known: HashSet<String> = known.collect();
    let columns = session.setup.shop.columns.iter();
    // What is the same for all rows needs no column.
    let unmet = columns
        .filter(|column| column.constant.is_none() && !known.contains(&normal(&column.header)));
    let sources = &session.setup.shop.sources;
    let written = unmet.filter_map(|column| {
        let fault = fault(column, headers)?;
        let of = (session.library, sources);
        let finding = of_fault(of, &session.judge, rule, &fault, |_| None);
        Some(Finding {
            fingerprint: fingerprint(&[kind, &column.header]),
            ..finding
        })
    });
    written.collect()
}

fn fault(column: &ShopColumn, headers: &[String]) -> Option<Fault> {
    let near = closest(&column.header, headers.iter().map(String::as_str));
    let hint = near.map_or_else(String::new, |near| {
        format!("did you mean `{}`?", crate::text::quoted(near))
    });
    let fault = Fault::new(fault_kind::COLUMN_NOT_THERE, column.spot?, "columns")
        .quoting("column", &column.header)
        .with("hint", hint);
    Some(fault)
}

/// A header without the number that tells it from others alike: `Ø (2)`.
fn without_number(header: &str) -> &str {
    let bare = header
        .strip_suffix(')')
        .and_then(|rest| rest.rsplit_once(" ("));
    match bare {
        Some((bare, number)) if number.bytes().all(|byte| byte.is_ascii_digit()) => bare,
        _ => header,
    }
}
