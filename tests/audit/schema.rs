//! The schema of `audit.json`. Every night of these tests is held against it; here it is seen to be
//! strict, or that would prove nothing.

use std::fs;

use serde_json::{Value, json};

use super::Plant;
use crate::json_schema::broken_audit;

/// The demo after a change, judged with remedies.
fn demo() -> Value {
    let plant = Plant::empty();
    for entry in fs::read_dir(crate::support::fixture("demo")).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        plant.put(&format!("demo/{name}"), fs::read(&path).unwrap());
    }
    plant.put("other/tools.csv", "no such table\n1\n");
    plant.night("first", &[]);
    fs::remove_file(plant.path("demo/operations.csv")).unwrap();
    plant
        .night("second", &["--since", "first", "--remedies"])
        .json
}

/// Takes one key away, or adds one, anywhere: the schema notices.
#[test]
fn it_notices_every_key() {
    let whole = demo();
    assert_eq!(broken_audit(&whole), [""; 0]);
    let places = [
        "",
        "/audit",
        "/audit/options",
        "/audit/seen",
        "/audit/since",
        "/passed_over/0",
        "/libraries/0",
        "/libraries/0/summary",
        "/libraries/0/run",
        "/libraries/0/points/0",
        "/libraries/0/sheets/0",
        "/libraries/0/sheets/0/findings/0",
        "/libraries/0/sheets/0/findings/0/change",
        "/libraries/0/sheets/0/clampings/0",
        "/libraries/0/sheets/0/clampings/0/parts/0",
        "/libraries/0/sheets/0/clampings/0/values/0",
        "/libraries/0/sheets/0/clampings/0/torques",
        "/libraries/0/sheets/0/clampings/0/drawing",
        "/libraries/0/sheets/0/clampings/0/drawing/grip",
        "/earlier/0",
        "/earlier/0/finding",
        "/totals",
    ];
    // There only at times.
    let at_times = ["change", "needed", "because", "range", "sheet", "flats"];
    for place in places {
        let object = whole.pointer(place).and_then(Value::as_object);
        let object = object.unwrap_or_else(|| panic!("no object at {place}"));
        for key in object
            .keys()
            .filter(|key| !at_times.contains(&key.as_str()))
        {
            let mut less = whole.clone();
            let object = less.pointer_mut(place).unwrap().as_object_mut().unwrap();
            object.shift_remove(key);
            assert!(!broken_audit(&less).is_empty(), "{place} without {key}");
        }
        let mut more = whole.clone();
        more.pointer_mut(place).unwrap()["surplus"] = json!(null);
        assert!(!broken_audit(&more).is_empty(), "{place} with more");
    }
}

#[test]
fn it_notices_wrong_values() {
    let whole = demo();
    let wrong = [
        ("/format", json!(2)),
        ("/audit/day", json!("31.1.2027")),
        ("/audit/rules_sha256", json!("12ab")),
        ("/libraries/0/status", json!("fine")),
        ("/libraries/0/sheets/0/findings/0/level", json!("mild")),
        (
            "/libraries/0/sheets/0/findings/0/change/state",
            json!("odd"),
        ),
        (
            "/libraries/0/sheets/0/clampings/0/values/0/origin",
            json!("guess"),
        ),
        ("/earlier/0/change", json!("cured")),
        ("/totals/new", json!([1, 2, 3])),
    ];
    for (place, value) in wrong {
        let mut audit = whole.clone();
        *audit.pointer_mut(place).expect(place) = value;
        assert!(!broken_audit(&audit).is_empty(), "{place}");
    }
}
