//! A stick-out window as JSON. Lengths are in mm, whatever the library's units.

use serde_json::{Value, json};

use crate::sheet::{End, Unjudged, Window};

use super::number;

/// The window of one assembly, lengths in mm; null where no rule bounds an end.
#[must_use]
pub fn window_json(window: &Window) -> Value {
    let (min, max) = (window.min.as_ref(), window.max.as_ref());
    let (next_min, next_max) = (window.next_min.as_ref(), window.next_max.as_ref());
    let others = window.others.iter();
    let others = others.map(|(min, max)| json!({ "min": number(*min), "max": number(*max) }));
    json!({
        "min": value(min),
        "max": value(max),
        "min_rule": rule(min),
        "max_rule": rule(max),
        "min_operation": operation(min),
        "max_operation": operation(max),
        "short_by": window.short_by.map(number),
        "unjudged": window.unjudged.iter().map(unjudged).collect::<Vec<_>>(),
        "recommended": window.recommended.map(number),
        "advised": window
            .advised
            .as_ref()
            .map(|advised| ends(advised.min.as_ref(), advised.max.as_ref())),
        "others": others.collect::<Vec<_>>(),
        "next": ends(next_min, next_max),
        "assumed": { "min": assumed(min), "max": assumed(max) },
        "model_ends": {
            "min": min.and_then(|end| end.model_ends),
            "max": max.and_then(|end| end.model_ends),
        },
    })
}

fn ends(min: Option<&End>, max: Option<&End>) -> Value {
    json!({
        "min": value(min),
        "max": value(max),
        "min_rule": rule(min),
        "max_rule": rule(max),
    })
}

fn value(end: Option<&End>) -> Option<Value> {
    end.map(|end| number(end.value))
}

fn rule(end: Option<&End>) -> Option<&str> {
    end.map(|end| end.rule.as_str())
}

fn operation(end: Option<&End>) -> Option<&str> {
    end?.operation.as_deref()
}

fn assumed(end: Option<&End>) -> &[&'static str] {
    end.map_or(&[], |end| &end.assumed)
}

fn unjudged(unjudged: &Unjudged) -> Value {
    json!({
        "rule": unjudged.rule,
        "end": unjudged.bound.name(),
        "missing": unjudged.missing,
    })
}
