//! The schema itself: it is strict, or it would prove nothing.

use serde_json::{Value, json};

use super::{PUBLISHED, SCHEMA, check, printed};
use crate::support::lint_text;

fn report() -> Value {
    let report = lint_text(
        "tool_number,stick_out,overall_length,shank_length,shank_diameter,cutting_diameter,\
         collet_size,bore_diameter,bore_length,face_setback\n1,65,83,45,12,12,32,12,40,0\n",
    );
    let line = shankwise::write::to_json_line(&shankwise::write::json(&report));
    check(&line)
}

/// Later versions may add keys: whoever validates by the schema takes them.
#[test]
fn it_takes_what_it_does_not_know() {
    let tolerant = jsonschema::validator_for(&PUBLISHED).expect("the schema is one");
    let mut object = report();
    for place in [
        "",
        "/summary",
        "/run",
        "/findings/0",
        "/findings/0/places/0",
    ] {
        object.pointer_mut(place).unwrap()["surplus"] = json!(1);
    }
    assert!(tolerant.is_valid(&object));
    assert!(!SCHEMA.is_valid(&object));
    object["findings"][0]["level"] = json!("catastrophe");
    assert!(!tolerant.is_valid(&object));
}

/// Every key has a description or is of a described type, and the schema says what it is called.
#[test]
fn it_describes_itself() {
    for name in ["output", "audit", "shop", "rule"] {
        let schema = printed(name);
        assert_eq!(schema["$id"], format!("urn:shankwise:schema:{name}:1"));
        assert_eq!(
            schema["$schema"],
            "https://json-schema.org/draft/2020-12/schema"
        );
        assert!(schema["title"].as_str().unwrap().contains("Shankwise"));
        let definitions = schema["$defs"].as_object().unwrap().values();
        for own in definitions.chain([&schema]) {
            let is_described = own["description"].is_string();
            let Some(keys) = own.get("properties") else {
                continue;
            };
            for (key, value) in keys.as_object().unwrap() {
                let described = value["description"].is_string() || value["$ref"].is_string();
                assert!(described || is_described, "{name}: {key} of {own}");
            }
        }
    }
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
        "/run",
        "/run/options",
        "/run/totals",
        "/summary/coverage",
        "/findings/0",
        "/findings/0/parts",
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
        ("/findings/0/rule", json!("short grip")),
        ("/findings/0/missing", json!(["shank_length"])),
        ("/findings/0/facts/gripped_length/unit", json!("cm")),
        ("/findings/0/places/0/line", json!(0)),
        ("/findings/0/places/0/column", json!(0)),
        ("/findings/0/places", json!([])),
        ("/findings/0/fingerprint", json!("x")),
        ("/findings/0/consequence", json!("none")),
        ("/findings/0/basis", json!("hearsay")),
        ("/findings/0/places/0/end_column", json!(0)),
        ("/status", json!("fine")),
        ("/run/day", json!("31.1.2027")),
        ("/run/rules_sha256", json!("12ab")),
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
    let units: Vec<&str> = PUBLISHED["$defs"]["Unit"]["enum"]
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
