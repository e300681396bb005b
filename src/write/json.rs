//! JSON, format 1: one object a library.

use std::borrow::Cow;
use std::fmt::Write as _;

use serde_json::{Map, Value, json};

use crate::judge::{
    AssemblyFacts, FactShown, Finding, FindingPlace, LimitShown, RangeShown, Report, ShownValue,
};
use crate::text::{Unread, cut};
use crate::units::Unit;

use super::NOTICE;
use super::coverage::{came_json, coverage_json};

/// Digits of a number in JSON.
const SIGNIFICANT: usize = 9;
/// Longest name or cell from input, in characters: each stands in many findings.
const LONGEST_NAME: usize = 200;
/// Longest text of any other kind, in characters.
const LONGEST_TEXT: usize = 2000;

/// A report as a JSON object, without windows.
#[must_use]
pub fn json(report: &Report) -> Value {
    json_with(report, &[])
}

/// A report as a JSON object; `windows` are those of its assemblies in their order, as
/// [`window_json`](super::window_json()) gives them, and null where there is none.
#[must_use]
pub fn json_with(report: &Report, windows: &[Option<Value>]) -> Value {
    let library = &report.library;
    json!({
        "format": 1,
        "program": concat!("shankwise ", env!("CARGO_PKG_VERSION")),
        "notice": NOTICE,
        "library": {
            "name": name(&library.name),
            "path": library.path,
            "form": library.form,
            "units": library.units,
            "config": library.config,
            "ranges": library.ranges.iter().map(range).collect::<Vec<_>>(),
            "weakened": library.weakened,
            "defaults": library.defaults,
            "unread": library.unread.iter().map(unread).collect::<Vec<_>>(),
            "passed_over": library.passed_over.iter().map(unread).collect::<Vec<_>>(),
        },
        "summary": summary(report),
        "findings": report.findings.iter().map(finding).collect::<Vec<_>>(),
        "assemblies": report
            .assemblies
            .as_ref()
            .map(|all| {
                let windows = windows.iter().chain(std::iter::repeat(&None));
                let all = all.iter().zip(windows);
                all.map(|(one, window)| assembly(one, window.as_ref())).collect::<Vec<_>>()
            }),
    })
}

/// The object in one line. Characters that a terminal acts on are escaped: inside JSON they
/// can only stand in texts.
#[must_use]
pub fn to_json_line(value: &Value) -> String {
    let raw = bounded(value).to_string();
    let mut line = String::with_capacity(raw.len() + 1);
    for c in raw.chars() {
        if matches!(c, '\u{61c}' | '\u{7f}'..='\u{9f}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}')
        {
            // Writing to a String cannot fail.
            let _ = write!(line, "\\u{:04x}", u32::from(c));
        } else {
            line.push(c);
        }
    }
    line.push('\n');
    line
}

fn unread(input: &Unread) -> Value {
    json!({ "file": input.file, "reason": input.reason })
}

/// The value with no text in it longer than any message.
fn bounded(value: &Value) -> Cow<'_, Value> {
    fn is_long(value: &Value) -> bool {
        match value {
            Value::String(text) => text.len() > LONGEST_TEXT,
            Value::Array(items) => items.iter().any(is_long),
            Value::Object(fields) => fields.values().any(is_long),
            _ => false,
        }
    }
    fn shorten(value: &mut Value) {
        match value {
            Value::String(text) if text.len() > LONGEST_TEXT => {
                *text = cut(text, LONGEST_TEXT).into_owned();
            }
            Value::Array(items) => items.iter_mut().for_each(shorten),
            Value::Object(fields) => fields.values_mut().for_each(shorten),
            _ => {}
        }
    }
    if !is_long(value) {
        return Cow::Borrowed(value);
    }
    let mut value = value.clone();
    shorten(&mut value);
    Cow::Owned(value)
}

/// A name or a cell from input.
fn name(text: &str) -> Cow<'_, str> {
    cut(text, LONGEST_NAME)
}

fn summary(report: &Report) -> Value {
    let summary = &report.summary;
    json!({
        "verdict": summary.verdict.name(),
        "error": summary.error,
        "warning": summary.warning,
        "note": summary.note,
        "not_judged": summary.not_judged,
        "not_applicable": summary.not_applicable,
        "met": summary.met,
        "accepted": summary.accepted,
        "grip_judged": summary.grip_judged,
        "held_in_collets": summary.held_in_collets,
        "held_by_shank": summary.held_by_shank,
        "coverage": coverage_json(&report.coverage),
        "assemblies": came_json(&report.came()),
    })
}

fn finding(finding: &Finding) -> Value {
    let limits: Map<String, Value> = finding
        .limits
        .iter()
        .map(|limit| (limit.name.clone(), limit_shown(limit)))
        .collect();
    json!({
        "rule": finding.rule,
        "level": finding.level_name(),
        "outcome": finding.outcome.name(),
        "tool_number": finding.tool_number.as_deref().map(name),
        "assembly": finding.assembly.as_deref().map(name),
        "operation": finding.operation.as_deref().map(name),
        "message": finding.message,
        "missing": finding.missing,
        "facts": facts(&finding.facts),
        "limits": limits,
        "assumptions": finding.assumptions,
        "accepted": finding.accepted.as_ref().map(|accepted| json!({
            "reason": accepted.reason,
            "by": accepted.by,
            "until": accepted.until,
        })),
        "places": finding.places.iter().map(place).collect::<Vec<_>>(),
        "fingerprint": finding.fingerprint,
    })
}

fn range(range: &RangeShown) -> Value {
    json!({
        "field": range.field,
        "range": [number(range.range.0), number(range.range.1)],
        "unit": Unit::Mm.symbol(),
        "assemblies": range.tools,
    })
}

fn limit_shown(limit: &LimitShown) -> Value {
    json!({
        "value": number(limit.value),
        "unit": limit.unit.symbol(),
        "basis": limit.basis,
        "source": limit.source,
    })
}

fn place(place: &FindingPlace) -> Value {
    json!({
        "file": place.file,
        "line": place.line,
        "column": place.column,
        "field": place.field,
        "text": name(&place.text),
    })
}

pub(super) fn facts(facts: &[FactShown]) -> Map<String, Value> {
    facts
        .iter()
        .map(|fact| (fact.name.clone(), fact_shown(fact)))
        .collect()
}

fn fact_shown(fact: &FactShown) -> Value {
    let value = match &fact.value {
        None => Value::Null,
        Some(ShownValue::Number(value)) => number(*value),
        Some(ShownValue::Text(text)) => json!(name(text)),
        Some(ShownValue::Truth(truth)) => json!(truth),
    };
    let mut shown = json!({
        "value": value,
        "unit": fact.unit.map(crate::units::Unit::symbol),
        "assumed": fact.assumed,
        "from": fact.from,
    });
    if let (None, Some(object)) = (&fact.value, shown.as_object_mut()) {
        object.insert("missing".to_owned(), json!(fact.missing));
        if let Some((low, high)) = fact.range {
            object.insert("range".to_owned(), json!([number(low), number(high)]));
        }
    }
    shown
}

fn assembly(assembly: &AssemblyFacts, window: Option<&Value>) -> Value {
    let operations = assembly.operations.iter().map(
        |operation| json!({ "operation": name(&operation.operation), "facts": facts(&operation.facts) }),
    );
    json!({
        "tool_number": assembly.tool_number.as_deref().map(name),
        "assembly": assembly.assembly.as_deref().map(name),
        "facts": facts(&assembly.facts),
        "operations": operations.collect::<Vec<_>>(),
        "window": window,
    })
}

/// A number with nine significant digits; never NaN.
pub(super) fn number(value: f64) -> Value {
    let rounded = format!("{value:.*e}", SIGNIFICANT - 1).parse::<f64>();
    match rounded {
        Ok(rounded) if rounded.is_finite() => json!(rounded),
        _ => Value::Null,
    }
}
