//! A finding of an earlier audit that is not among today's results.

use serde::Serialize;

use crate::audit::Noted;
use crate::text::Position;

use super::super::json::{name, text};
use super::message::Message;
use super::place::Location;
use super::put;
use super::result::{Fingerprints, Suppression};

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Earlier<'a> {
    rule_id: &'a str,
    kind: &'static str,
    level: &'a str,
    message: Message,
    locations: Vec<Location>,
    partial_fingerprints: Fingerprints<'a>,
    suppressions: Vec<Suppression<'a>>,
    baseline_state: &'static str,
    properties: Properties<'a>,
}

#[derive(Serialize)]
struct Properties<'a> {
    library: &'a str,
    outcome: &'a str,
    title: &'a str,
    tool_number: Option<&'a str>,
    assembly: Option<&'a str>,
    operation: Option<&'a str>,
    machine: Option<&'a str>,
    advice: &'a str,
    shortfall: Option<Shortfall<'a>>,
    change: &'a str,
    reason: &'a str,
}

#[derive(Serialize)]
struct Shortfall<'a> {
    what: &'a str,
    value: f64,
    needed: f64,
    unit: &'a str,
    wanted: &'a str,
}

/// An object: `absent` if it is gone, else `unchanged` as nobody looked for it.
pub(crate) fn earlier(noted: &Noted, is_gone: bool, (change, reason): (&str, &str)) -> Vec<u8> {
    let position = (noted.line > 0).then_some(Position {
        line: noted.line,
        column: noted.column.max(1),
    });
    let numbers = noted.value.zip(noted.needed);
    let words = match noted.tool_number.as_str() {
        "" => Message::of(&noted.message),
        tool => Message::of(&format!("tool {}: {}", name(tool), text(&noted.message))),
    };
    let result = Earlier {
        rule_id: &noted.rule,
        kind: if noted.level == "none" {
            "open"
        } else {
            "fail"
        },
        level: &noted.level,
        message: words,
        locations: vec![Location::of_file(&noted.file, position)],
        partial_fingerprints: Fingerprints {
            own: &noted.fingerprint,
        },
        suppressions: Suppression::noted(noted).into_iter().collect(),
        baseline_state: if is_gone { "absent" } else { "unchanged" },
        properties: Properties {
            library: &noted.library,
            outcome: &noted.outcome,
            title: &noted.title,
            tool_number: unless_empty(&noted.tool_number),
            assembly: unless_empty(&noted.assembly),
            operation: unless_empty(&noted.operation),
            machine: unless_empty(&noted.machine),
            advice: &noted.advice,
            shortfall: numbers.map(|(value, needed)| Shortfall {
                what: &noted.what,
                value,
                needed,
                unit: &noted.unit,
                wanted: &noted.wanted,
            }),
            change,
            reason,
        },
    };
    let mut line = Vec::new();
    put(&result, &mut line);
    line
}

fn unless_empty(text: &str) -> Option<&str> {
    (!text.is_empty()).then_some(text)
}
