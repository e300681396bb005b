//! The JSON format is fixed: a strict schema, and what a schema cannot say.

mod inline;
mod schema;
mod window;

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Output;
use std::sync::LazyLock;

use jsonschema::Validator;
use serde_json::Value;
use tempfile::TempDir;

use crate::rule_fixtures::cases::CASES;
use crate::support::{root, run};

static SCHEMA: LazyLock<Validator> = LazyLock::new(|| {
    let path = root().join("tests/schema/format-1.schema.json");
    let text = fs::read_to_string(path).expect("the schema is there");
    let schema: Value = serde_json::from_str(&text).expect("the schema is JSON");
    jsonschema::validator_for(&schema).expect("the schema is one")
});

/// Folders and files below a folder that look like libraries, in order.
fn libraries(folder: &Path) -> Vec<PathBuf> {
    let Ok(entries) = fs::read_dir(folder) else {
        return Vec::new();
    };
    let mut paths: Vec<PathBuf> = entries.map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    if paths.iter().any(|path| path.ends_with("assemblies.csv")) {
        return vec![folder.to_owned()];
    }
    let mut found = Vec::new();
    for path in paths {
        let extension = path.extension().and_then(|extension| extension.to_str());
        if path.is_dir() {
            found.extend(libraries(&path));
        } else if matches!(extension, Some("csv" | "xml")) {
            found.push(path);
        }
    }
    found
}

/// The objects that a run wrote, one a line, each checked.
fn checked(output: &Output) -> Vec<Value> {
    let text = String::from_utf8(output.stdout.clone()).expect("JSON is UTF-8");
    assert!(text.is_empty() || text.ends_with('\n'));
    text.lines().map(check).collect()
}

/// Everything that holds of one object of format 1.
fn check(line: &str) -> Value {
    let object: Value = serde_json::from_str(line).expect("one object a line");
    let path = object["library"]["path"].to_string();
    let broken: Vec<String> = SCHEMA
        .iter_errors(&object)
        .map(|error| format!("{}: {error}", error.instance_path()))
        .collect();
    assert_eq!(broken, [""; 0], "{path}");
    numbers_are_short(&object);
    if object["status"] == "unreadable" {
        return object;
    }
    counts_agree(&object);
    places_are_sensible(&object);
    fingerprints_differ(&object);
    object
}

/// At most nine significant digits.
fn numbers_are_short(value: &Value) {
    match value {
        Value::Number(number) => {
            let shortest = format!("{:e}", number.as_f64().expect("a finite number"));
            let digits = shortest.split('e').next().unwrap();
            let count = digits.bytes().filter(u8::is_ascii_digit).count();
            assert!(count <= 9, "{number} has {count} digits");
        }
        Value::Array(items) => items.iter().for_each(numbers_are_short),
        Value::Object(fields) => fields.values().for_each(numbers_are_short),
        _ => {}
    }
}

fn findings(object: &Value) -> &Vec<Value> {
    object["findings"].as_array().unwrap()
}

/// The summary counts what is listed, and the verdict follows from it.
fn counts_agree(object: &Value) {
    let summary = &object["summary"];
    let open = |level: &str| {
        let of_level = findings(object)
            .iter()
            .filter(|finding| finding["accepted"].is_null() && finding["level"] == level);
        of_level.count()
    };
    assert_eq!(summary["error"], open("error"));
    assert_eq!(summary["warning"], open("warning"));
    assert_eq!(summary["note"], open("note"));
    assert_eq!(summary["not_judged"], open("none"));
    let accepted = findings(object).iter().filter(|f| !f["accepted"].is_null());
    assert_eq!(summary["accepted"], accepted.count());
    assert!(summary["grip_judged"].as_u64() <= summary["held_in_collets"].as_u64());
    let coverage = &summary["coverage"];
    assert_eq!(coverage["held_by_shank"], summary["held_by_shank"]);
    let judged = coverage["grip_judged"].as_u64().unwrap();
    let not_judged = coverage["grip_not_judged"].as_array().unwrap().len() as u64;
    assert_eq!(
        judged + not_judged,
        summary["held_by_shank"].as_u64().unwrap()
    );
    let has_errors = open("error") > 0;
    assert_eq!(has_errors, summary["verdict"] == "fails");
    let is_open = |finding: &Value| finding["accepted"].is_null();
    let gap = |finding: &&Value| finding["rule"] == "record/field-missing" && is_open(finding);
    if !has_errors && findings(object).iter().any(|finding| gap(&finding)) {
        assert_eq!(summary["verdict"], "incomplete");
    }
}

/// A field that is missing is shown by its record's place, with no text.
fn places_are_sensible(object: &Value) {
    for finding in findings(object) {
        let places = finding["places"].as_array().unwrap();
        for missing in finding["missing"].as_array().unwrap() {
            let missing = missing.as_str().unwrap();
            let bare = missing.split('.').nth(1).unwrap();
            let place = places
                .iter()
                .find(|place| place["field"] == bare || place["field"] == missing);
            let place = place.unwrap_or_else(|| panic!("no place for {missing}: {finding}"));
            assert_eq!(place["text"], "", "{finding}");
        }
    }
}

/// A part of the schema as a schema of its own.
fn part(name: &str) -> Validator {
    let path = root().join("tests/schema/format-1.schema.json");
    let text = fs::read_to_string(path).expect("the schema is there");
    let schema: Value = serde_json::from_str(&text).expect("the schema is JSON");
    let part = serde_json::json!({
        "$schema": schema["$schema"], "$ref": format!("#/$defs/{name}"), "$defs": schema["$defs"],
    });
    jsonschema::validator_for(&part).expect("the part is one")
}

/// The objects of a run with remedies, less what remedies add, which is checked on its own. The
/// rest is for the caller to compare with objects that are checked.
fn without_remedies(output: &Output) -> Vec<Value> {
    let (plan, remedies) = (part("plan"), part("assembly_remedies"));
    let text = String::from_utf8(output.stdout.clone()).expect("JSON is UTF-8");
    let mut objects = Vec::new();
    for line in text.lines() {
        let mut object: Value = serde_json::from_str(line).expect("one object a line");
        if object["status"] == "unreadable" {
            objects.push(object);
            continue;
        }
        let own = object.as_object_mut().expect("an object");
        let planned = own.remove("plan").expect("a plan");
        assert!(plan.is_valid(&planned), "{planned}");
        for assembly in own["assemblies"].as_array_mut().expect("assemblies") {
            let assembly = assembly.as_object_mut().expect("an object");
            let added = ["remedies", "nearest"].map(|key| (key.to_owned(), assembly.remove(key)));
            let added: Value = added
                .into_iter()
                .map(|(key, value)| (key, value.expect("always there")))
                .collect();
            assert!(remedies.is_valid(&added), "{added}");
        }
        objects.push(object);
    }
    objects
}

/// Whoever keeps a list of known findings tells them apart by their fingerprints.
fn fingerprints_differ(object: &Value) {
    let mut seen: Vec<&str> = Vec::new();
    for finding in findings(object) {
        let fingerprint = finding["fingerprint"].as_str().unwrap();
        assert!(!seen.contains(&fingerprint), "twice: {finding}");
        seen.push(fingerprint);
    }
}

/// The three commands that write format 1, each over all the paths.
fn all_forms(paths: &[&str]) -> Vec<Value> {
    let lint = [&["lint", "--as", "json"], paths].concat();
    let with_facts = [&["lint", "--with-facts", "--as", "json"], paths].concat();
    let mut objects = checked(&run(&lint));
    for object in &objects {
        assert!(object["assemblies"].is_null());
    }
    let full = checked(&run(&with_facts));
    assert_eq!(full.len(), objects.len());
    for (object, full) in objects.iter().zip(&full) {
        assert_eq!(
            full["assemblies"].is_array(),
            full["status"] != "unreadable"
        );
        assert_eq!(
            object["findings"], full["findings"],
            "facts change no finding"
        );
    }
    let remedies = [&["lint", "--remedies", "--as", "json"], paths].concat();
    let with_remedies = without_remedies(&run(&remedies));
    assert_eq!(with_remedies, full, "remedies change nothing else");
    objects.extend(full);
    objects
}

#[test]
fn every_fixture_keeps_the_format() {
    let folder = TempDir::new().unwrap();
    let cases = CASES.iter().map(|case| case.on_disk(folder.path()));
    let found = libraries(&root().join("fixtures"));
    let rules = root().join("fixtures/rules");
    let others = found.into_iter().filter(|path| !path.starts_with(&rules));
    let paths: Vec<String> = others
        .chain(cases)
        .map(|path| path.display().to_string())
        .collect();
    assert!(paths.len() > CASES.len());
    let paths: Vec<&str> = paths.iter().map(String::as_str).collect();
    for some in paths.chunks(100) {
        all_forms(some);
    }
    if let Some(first) = paths.first() {
        checked(&run(&["facts", "--as", "json", first]));
    }
}
