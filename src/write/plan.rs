//! Where to begin in a whole library: what to measure, what to take from the crib.

use serde_json::{Value, json};

use crate::advice::Plan;
use crate::text::visible;

use super::wrap::wrapped;

/// The plan in a few lines; empty if there is nothing to begin with.
#[must_use]
pub fn plan_text(plan: &Plan) -> String {
    let mut lines: Vec<String> = Vec::new();
    for (at, value) in plan.values.iter().enumerate() {
        let id = value.id.as_deref().unwrap_or("the library");
        let decided = if at == 0 {
            format!("{} decided", are(value.together))
        } else {
            format!("with those above, {} decided", are(value.together))
        };
        lines.push(format!(
            "enter {} of {} {}: {decided}",
            value.field,
            value.record.name(),
            visible(id)
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
        "chosen one after the other; cutters so chosen cure at least 63 % of what the best three would, for values no such bound is known"
    };
    let mut text = wrapped(&format!("Where to begin ({best}):"), 0, 4);
    for line in lines {
        text.push_str(&wrapped(&line, 2, 6));
    }
    text.push('\n');
    text
}

fn are(judgements: usize) -> String {
    match judgements {
        1 => "1 judgement is".to_owned(),
        many => format!("{many} judgements are"),
    }
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
