//! Where to begin in a whole library: what to measure, what to take from the crib.

use serde_json::{Value, json};

use crate::advice::Plan;
use crate::text::visible;

use super::wrap::wrapped;

/// The plan in a few lines; empty if there is nothing to begin with.
#[must_use]
pub fn plan_text(plan: &Plan) -> String {
    let mut lines: Vec<String> = Vec::new();
    for value in &plan.values {
        let id = value.id.as_deref().unwrap_or("the library");
        let alone = match value.decides {
            0 => "no judgement alone".to_owned(),
            1 => "1 judgement alone".to_owned(),
            many => format!("{many} judgements alone"),
        };
        lines.push(format!(
            "enter {} of {} {}: it decides {alone}, {} with those above",
            value.field,
            value.record.name(),
            visible(id),
            value.together
        ));
    }
    for cutter in &plan.cutters {
        lines.push(format!(
            "take cutter {}: it cures tool {}",
            visible(&cutter.id),
            visible(&cutter.cures.join(", "))
        ));
    }
    if lines.is_empty() {
        return String::new();
    }
    let best = if plan.exact {
        "no other three do better"
    } else {
        "chosen one after the other: at least 63 % of what the best three would do"
    };
    let mut text = format!("Where to begin ({best}):\n");
    for line in lines {
        text.push_str(&wrapped(&line, 2, 6));
    }
    text.push('\n');
    text
}

/// The plan as JSON.
#[must_use]
pub fn plan_json(plan: &Plan) -> Value {
    let values = plan.values.iter().map(|value| {
        json!({
            "record": value.record.name(),
            "id": value.id,
            "field": value.field,
            "decides": value.decides,
            "together": value.together,
        })
    });
    let cutters = plan.cutters.iter();
    let cutters = cutters.map(|cutter| json!({ "id": cutter.id, "cures": cutter.cures }));
    json!({
        "values": values.collect::<Vec<_>>(),
        "cutters": cutters.collect::<Vec<_>>(),
        "exact": plan.exact,
    })
}
