//! The schema itself: it is strict, or it would prove nothing.

use serde_json::{Value, json};

use super::{SCHEMA, check};
use crate::support::{lint_text, root};

fn report() -> Value {
    let report = lint_text(
        "tool_number,stick_out,overall_length,shank_length,shank_diameter,cutting_diameter,\
         collet_size,bore_diameter,bore_length,face_setback\n1,65,83,45,12,12,32,12,40,0\n",
    );
    let line = shankwise::write::to_json_line(&shankwise::write::json(&report));
    check(&line)
}

/// Everything of the schema that describes an object forbids other keys, or is a map; conditions
/// only narrow what is described elsewhere.
fn is_strict(schema: &Value, path: &str) {
    if let Some(fields) = schema.as_object() {
        if fields.get("type") == Some(&json!("object")) && !fields.contains_key("oneOf") {
            assert!(fields.contains_key("additionalProperties"), "{path}");
        }
        if let (Some(required), Some(properties)) =
            (fields.get("required"), fields.get("properties"))
            && fields.get("additionalProperties") == Some(&json!(false))
            && fields.contains_key("type")
        {
            let required = required.as_array().unwrap().len();
            assert_eq!(required, properties.as_object().unwrap().len(), "{path}");
        }
        for (key, inner) in fields {
            if ["if", "then", "else"].contains(&key.as_str()) {
                continue;
            }
            is_strict(inner, &format!("{path}/{key}"));
        }
    } else if let Some(items) = schema.as_array() {
        for item in items {
            is_strict(item, path);
        }
    }
}

#[test]
fn it_is_strict() {
    let path = root().join("tests/schema/format-1.schema.json");
    let schema: Value = serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
    is_strict(&schema, "");
}

/// Takes one thing away, or adds one, anywhere: the schema notices.
#[test]
fn it_notices_every_change() {
    let whole = report();
    assert!(SCHEMA.is_valid(&whole));
    let places = [
        "",
        "/library",
        "/summary",
        "/findings/0",
        "/findings/0/facts/gripped_length",
        "/findings/0/limits/min_grip_fraction",
        "/findings/0/places/0",
    ];
    for place in places {
        let keys: Vec<String> = whole
            .pointer(place)
            .unwrap()
            .as_object()
            .unwrap()
            .keys()
            .cloned()
            .collect();
        for key in keys {
            let mut less = whole.clone();
            less.pointer_mut(place)
                .unwrap()
                .as_object_mut()
                .unwrap()
                .shift_remove(&key);
            assert!(!SCHEMA.is_valid(&less), "{place} without {key}");
        }
        let mut more = whole.clone();
        more.pointer_mut(place).unwrap()["surplus"] = json!(null);
        assert!(!SCHEMA.is_valid(&more), "{place} with something more");
    }
    let wrong = [
        ("/format", json!(2)),
        ("/library/form", json!("json")),
        ("/library/units", json!("cm")),
        ("/summary/verdict", json!("passes")),
        ("/summary/error", json!(-1)),
        ("/findings/0/level", json!("none")),
        ("/findings/0/outcome", json!("not judged")),
        ("/findings/0/rule", json!("short grip")),
        ("/findings/0/missing", json!(["shank_length"])),
        ("/findings/0/facts/gripped_length/unit", json!("cm")),
        ("/findings/0/facts/gripped_length/unit", json!(null)),
        ("/findings/0/facts/gripped_length/value", json!(null)),
        ("/findings/0/facts/gripped_length/value", json!("18")),
        ("/findings/0/places/0/line", json!(0)),
        ("/findings/0/places/0/column", json!(0)),
        ("/findings/0/places", json!([])),
        ("/findings/0/fingerprint", json!("x")),
        ("/assemblies", json!({})),
    ];
    for (place, value) in wrong {
        let mut object = whole.clone();
        *object.pointer_mut(place).unwrap() = value;
        assert!(!SCHEMA.is_valid(&object), "{place}");
    }
}

/// The units of the schema are the closed list, no more and no less.
#[test]
fn units_are_the_closed_list() {
    let path = root().join("tests/schema/format-1.schema.json");
    let schema: Value = serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
    let units: Vec<&str> = schema["$defs"]["unit"]["enum"]
        .as_array()
        .unwrap()
        .iter()
        .map(|unit| unit.as_str().unwrap())
        .collect();
    let symbols: Vec<&str> = shankwise::units::Unit::ALL
        .iter()
        .map(|unit| unit.symbol())
        .collect();
    assert_eq!(units, symbols);
}
