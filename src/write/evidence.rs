//! The evidence as text and JSON.

use std::fmt::Write as _;

use serde_json::{Value, json};

use crate::facts::Evidence;

use super::wrap::wrapped;

/// One block a row.
#[must_use]
pub fn evidence_text(rows: &[Evidence]) -> String {
    let mut text = String::new();
    for row in rows {
        let verdict = if row.agrees() { "ok" } else { "OUTSIDE" };
        // Writing to a String cannot fail, here and below.
        let _ = writeln!(
            text,
            "{verdict:<8}{}: expected {}, obtained {:.6}; off by {:.1e}, may be {:.1e}",
            row.fact, row.expected, row.obtained, row.deviation, row.tolerance
        );
        let inputs: Vec<String> = row
            .inputs
            .iter()
            .map(|(name, value)| format!("{name} {value}"))
            .collect();
        let words = format!("{}; {}: {}", known(row), row.formula, inputs.join(", "));
        text.push_str(&wrapped(&words, 8, 8));
    }
    text.push_str(&wrapped(&standings(rows), 0, 0));
    let agreeing = rows.iter().filter(|row| row.agrees()).count();
    let _ = writeln!(text, "{agreeing} of {} checks agree", rows.len());
    text
}

/// How the expected value is known: whether from outside the project, or by its own script.
fn known(row: &Evidence) -> String {
    let (source, place) = (&row.source, &row.place);
    match row.standing.as_str() {
        "printed" => format!("printed in {source}, {place}"),
        "second-hand" => format!("second-hand, not seen in print: {source}, {place}"),
        _ => format!("recomputed by this project's reference script with {source}: {place}"),
    }
}

/// How many rows are known in which way.
fn standings(rows: &[Evidence]) -> String {
    let count = |standing: &str| rows.iter().filter(|row| row.standing == standing).count();
    format!(
        "{} rows are printed in a source outside this project, {} are second-hand, and {} were \
         recomputed by this project's own reference script. The script checks the arithmetic and \
         not the model. No measurement of a real holder is among them.",
        count("printed"),
        count("second-hand"),
        count("computed"),
    )
}

/// Format 1 of the evidence.
#[must_use]
pub fn evidence_json(rows: &[Evidence]) -> Value {
    let rows = rows.iter().map(|row| {
        json!({
            "fact": row.fact,
            "source": row.source,
            "place": row.place,
            "expected": row.expected,
            "obtained": finite(row.obtained),
            "deviation": finite(row.deviation),
            "tolerance": row.tolerance,
            "standing": row.standing,
        })
    });
    json!({ "format": 1, "evidence": rows.collect::<Vec<_>>() })
}

fn finite(value: f64) -> Value {
    if value.is_finite() {
        json!(value)
    } else {
        Value::Null
    }
}
