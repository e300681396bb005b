//! The JSON format is fixed: a strict schema, and what a schema cannot say.

mod files;
mod inline;
mod keys;
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

/// What `schema output` prints.
static PUBLISHED: LazyLock<Value> = LazyLock::new(|| printed("output"));

/// The same without its tolerance: what it does not know is wrong here.
static SCHEMA: LazyLock<Validator> = LazyLock::new(|| strict(&PUBLISHED));

/// What `schema audit` prints.
static OF_AUDIT: LazyLock<Value> = LazyLock::new(|| printed("audit"));

/// The same without its tolerance.
static AUDIT: LazyLock<Validator> = LazyLock::new(|| strict(&OF_AUDIT));

fn strict(schema: &Value) -> Validator {
    let mut schema = schema.clone();
    close(&mut schema);
    jsonschema::validator_for(&schema).expect("the schema is one")
}

/// Where the JSON of an audit breaks its schema, and how.
pub fn broken_audit(audit: &Value) -> Vec<String> {
    let broken = AUDIT.iter_errors(audit);
    broken
        .map(|error| format!("{}: {error}", error.instance_path()))
        .collect()
}

/// A schema of the program.
fn printed(name: &str) -> Value {
    let output = run(&["schema", name]);
    serde_json::from_slice(&output.stdout).expect("the schema is JSON")
}

/// Forbids all keys that a schema does not name.
fn close(schema: &mut Value) {
    match schema {
        Value::Array(items) => items.iter_mut().for_each(close),
        Value::Object(fields) => {
            if fields.contains_key("properties") && !fields.contains_key("additionalProperties") {
                fields.insert("additionalProperties".to_owned(), false.into());
            }
            fields.values_mut().for_each(close);
        }
        _ => {}
    }
}

/// Folders and files below a folder that look like libraries, in order.
pub fn libraries(folder: &Path) -> Vec<PathBuf> {
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

/// The path of every library of the fixtures; the cases of rules are written below `folder`.
pub fn every_library(folder: &Path) -> Vec<String> {
    let cases = CASES.iter().map(|case| case.on_disk(folder));
    let found = libraries(&root().join("fixtures"));
    let rules = root().join("fixtures/rules");
    let others = found.into_iter().filter(|path| !path.starts_with(&rules));
    let paths: Vec<String> = others
        .chain(cases)
        .map(|path| path.display().to_string())
        .collect();
    assert!(paths.len() > CASES.len());
    paths
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
    levels_agree(&object);
    object["findings"]
        .as_array()
        .unwrap()
        .iter()
        .for_each(facts_agree);
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
    let counted = [
        "error",
        "warning",
        "note",
        "not_judged",
        "not_applicable",
        "met",
        "accepted",
    ];
    let counted: u64 = counted.iter().filter_map(|key| summary[key].as_u64()).sum();
    let totals = &object["run"]["totals"];
    // `window` leaves out what is not judged of what nobody stated.
    let made = totals["judgements"].as_u64().unwrap() + totals["faults"].as_u64().unwrap();
    assert_eq!(counted, made, "{totals}");
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

/// What is not judged has no level, and only that waits for something.
fn levels_agree(object: &Value) {
    for finding in findings(object) {
        let waits = finding["outcome"] == "not judged";
        assert_eq!(waits, finding["level"] == "none", "{finding}");
        assert!(
            waits || finding["missing"] == serde_json::json!([]),
            "{finding}"
        );
    }
}

/// A number has a unit and nothing else has one; only what is not known says what is missing.
fn facts_agree(holder: &Value) {
    for (name, fact) in holder["facts"].as_object().unwrap() {
        let (value, unit) = (&fact["value"], &fact["unit"]);
        assert!(
            value.is_null() || value.is_number() == unit.is_string(),
            "{name}: {fact}"
        );
        assert_eq!(
            fact.get("missing").is_some(),
            value.is_null(),
            "{name}: {fact}"
        );
        assert!(
            value.is_null() || fact.get("range").is_none(),
            "{name}: {fact}"
        );
    }
}

/// The objects of a run with remedies, each checked, less what remedies add. The rest is for the
/// caller to compare with objects that are checked.
fn without_remedies(output: &Output) -> Vec<Value> {
    let text = String::from_utf8(output.stdout.clone()).expect("JSON is UTF-8");
    let mut objects = Vec::new();
    for line in text.lines() {
        let mut object: Value = serde_json::from_str(line).expect("one object a line");
        assert!(SCHEMA.is_valid(&object), "{object}");
        if object["status"] == "unreadable" {
            objects.push(object);
            continue;
        }
        let own = object.as_object_mut().expect("an object");
        own.shift_remove("plan").expect("a plan");
        for assembly in own["assemblies"].as_array_mut().expect("assemblies") {
            let assembly = assembly.as_object_mut().expect("an object");
            let remedies = assembly.shift_remove("remedies").expect("always there");
            for remedy in remedies.as_array().expect("a list") {
                assert_eq!(remedy["rechecked"], true);
            }
            assembly.shift_remove("nearest").expect("always there");
        }
        objects.push(object);
    }
    objects
}

/// The objects without what findings advise.
fn without_advice(mut objects: Vec<Value>) -> Vec<Value> {
    for object in &mut objects {
        for finding in object["findings"].as_array_mut().expect("a list") {
            finding["advice"] = Value::Null;
            // Another stick-out or part brings its caution along.
            finding["caution"] = Value::Null;
        }
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
    for full in &full {
        assert_eq!(
            full["assemblies"].is_array(),
            full["status"] != "unreadable"
        );
    }
    // With facts the limits of the stick-out are worked out for tools with no more than a note, and
    // their advice names them.
    for (object, full) in without_advice(objects.clone())
        .iter()
        .zip(without_advice(full.clone()))
    {
        let same = object["findings"] == full["findings"];
        assert!(same, "facts change a finding of {}", object["input"]);
    }
    let remedies = [&["lint", "--remedies", "--as", "json"], paths].concat();
    let with_remedies = without_remedies(&run(&remedies));
    // Advice is what remedies are for: where one is found, it names it.
    for (with, full) in without_advice(with_remedies)
        .iter()
        .zip(without_advice(full.clone()))
    {
        assert!(
            *with == full,
            "remedies change something else of {}",
            full["input"]
        );
    }
    objects.extend(full);
    objects
}

#[test]
fn every_fixture_keeps_the_format() {
    let folder = TempDir::new().unwrap();
    let paths = every_library(folder.path());
    let paths: Vec<&str> = paths.iter().map(String::as_str).collect();
    for some in paths.chunks(100) {
        all_forms(some);
    }
    if let Some(first) = paths.first() {
        checked(&run(&["facts", "--as", "json", first]));
    }
}
