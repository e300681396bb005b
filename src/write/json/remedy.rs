//! Remedies as JSON. Lengths are in mm, whatever the library's units.

use serde_json::{Map, Value, json};

use crate::sheet::{Near, Nearest, Remedies, Remedy};

use super::window::window_json;
use super::{facts, number};

/// Puts remedies and the nearest miss into the object of an assembly.
pub(super) fn remedies(assembly: &mut Map<String, Value>, found: Option<&Remedies>) {
    let list = found.iter().flat_map(|found| &found.list);
    let list: Vec<Value> = list.map(remedy).collect();
    let near = found.and_then(|found| found.nearest.as_ref());
    assembly.insert("remedies".to_owned(), json!(list));
    assembly.insert("nearest".to_owned(), json!(near.map(nearest)));
}

fn length(value: f64) -> Value {
    json!({ "value": number(value), "unit": "mm" })
}

fn remedy(remedy: &Remedy) -> Value {
    let mut changes = Map::new();
    for change in &remedy.changes {
        changes.insert(change.part.name().to_owned(), json!(change.id));
    }
    if let Some(stick_out) = remedy.stick_out {
        changes.insert("stick_out".to_owned(), length(stick_out));
    }
    if let Some(most) = remedy.torque_at_most {
        let torque = json!({ "value": number(most), "unit": "N·m" });
        changes.insert("nut_torque".to_owned(), torque);
    }
    if !remedy.split.is_empty() {
        let each = remedy.split.iter();
        let each =
            each.map(|split| json!({ "operation": split.operation, "reach": length(split.reach) }));
        changes.insert("operations".to_owned(), each.collect());
    }
    json!({
        "kind": remedy.kind.name(),
        "changes": changes,
        "window": window_json(&remedy.window),
        "before": facts(&remedy.before),
        "after": facts(&remedy.after),
        "leaves": remedy.leaves,
        "warnings": remedy.warnings,
        "unstated": remedy.unstated,
        "rechecked": remedy.rechecked,
    })
}

fn near(near: &Near) -> Value {
    json!({
        "id": near.cutter.id,
        "location": near.cutter.location,
        "differs": near.differs,
        "stick_out": number(near.stick_out),
    })
}

fn nearest(nearest: &Nearest) -> Value {
    json!({
        "overall_length_min": nearest.overall_length_min.map(number),
        "shank_length_min": nearest.shank_length_min.map(number),
        "flute_length_min": nearest.flute_length_min.map(number),
        "cutting_edge_min": nearest.cutting_edge_min.map(number),
        "bore_length": nearest.land.map(number),
        "bore_diameter": nearest.bore.map(number),
        "drive_square": nearest.drive_square.map(number),
        "nut_outer_diameter_max": nearest.nut_diameter_max.map(number),
        "cutter": nearest.cutter.as_ref().map(near),
        "rules": nearest.rules,
        "missing": nearest.missing,
        "why": nearest.why,
    })
}
