//! SARIF: valid by the schema of the standard, and the same findings as in JSON.

mod names;
mod run_ends;

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use std::process::{Command, Output};
use std::sync::LazyLock;

use jsonschema::Validator;
use serde_json::{Value, json};
use sha2::{Digest as _, Sha256};
use tempfile::TempDir;

use crate::json_schema::every_library;
use crate::support::{root, run};

/// SHA-256 of the schema as the crate serde-sarif 0.8.0 ships it.
const SCHEMA_SHA256: &str = "af47e7b67f24efe74076621fd3a5fbe7398add9e84fe820c971219a385895cea";

static SCHEMA: LazyLock<Value> = LazyLock::new(|| {
    let path = root().join("tests/schema/sarif-schema-2.1.0.json");
    let bytes = fs::read(path).expect("the schema is there");
    let hash = Sha256::digest(&bytes);
    let hash: Vec<String> = hash.iter().map(|byte| format!("{byte:02x}")).collect();
    assert_eq!(hash.concat(), SCHEMA_SHA256);
    serde_json::from_slice(&bytes).expect("the schema is JSON")
});

static VALIDATOR: LazyLock<Validator> = LazyLock::new(|| {
    let mut schema = SCHEMA.clone();
    for own in ["run", "toolComponent"] {
        // A closing bracket by itself: the same to ECMA, and refused by this crate unless escaped.
        let place = format!("/definitions/{own}/properties/language/pattern");
        let pattern = schema.pointer_mut(&place).expect("it is there");
        *pattern = json!(pattern.as_str().unwrap().replace("]?$", "\\]?$"));
    }
    let options = jsonschema::options().should_validate_formats(true);
    options.build(&schema).expect("the schema is one")
});

/// The program in a folder, as sets of threads may be given to it.
fn run_in(folder: &Path, arguments: &[&str], threads: &str) -> Output {
    Command::new(env!("CARGO_BIN_EXE_shankwise"))
        .args(arguments)
        .current_dir(folder)
        .env("RAYON_NUM_THREADS", threads)
        .env_remove("SHANKWISE_CONFIG")
        .output()
        .expect("the program starts")
}

/// The log of these libraries, checked by the schema and for what it cannot say.
fn log_of(paths: &[&str]) -> Value {
    checked(&run(&[&["lint", "--as", "sarif"], paths].concat()))
}

/// What the schema finds wrong with a log.
pub fn broken(log: &Value) -> Vec<String> {
    VALIDATOR
        .iter_errors(log)
        .map(|error| format!("{}: {error}", error.instance_path()))
        .collect()
}

pub fn checked(output: &Output) -> Value {
    let log: Value = serde_json::from_slice(&output.stdout).expect("a log is JSON");
    assert_eq!(broken(&log), [""; 0]);
    assert_eq!(log["$schema"], SCHEMA["$id"]);
    let run = &log["runs"][0];
    let invocation = &run["invocations"][0];
    let status = output.status.code().expect("it ended by itself");
    assert_eq!(invocation["exitCode"], status);
    assert_eq!(invocation["executionSuccessful"], status != 2);
    let rules = run["tool"]["driver"]["rules"].as_array().unwrap();
    let kinds = run["tool"]["driver"]["notifications"].as_array().unwrap();
    for result in results(&log) {
        let index = usize::try_from(result["ruleIndex"].as_u64().unwrap()).unwrap();
        assert_eq!(result["ruleId"], rules[index]["id"]);
        let kind = if result["level"] == "none" {
            "open"
        } else {
            "fail"
        };
        assert_eq!(result["kind"], kind, "{result}");
        assert!(result["suppressions"].is_array(), "{result}");
        assert_eq!(result["locations"].as_array().unwrap().len(), 1);
    }
    for notice in notices(&log) {
        let index = usize::try_from(notice["descriptor"]["index"].as_u64().unwrap()).unwrap();
        assert_eq!(notice["descriptor"]["id"], kinds[index]["id"]);
    }
    log
}

fn results(log: &Value) -> &Vec<Value> {
    log["runs"][0]["results"].as_array().unwrap()
}

fn notices(log: &Value) -> &Vec<Value> {
    let invocation = &log["runs"][0]["invocations"][0];
    invocation["toolExecutionNotifications"].as_array().unwrap()
}

/// A result and a finding by what both say.
fn essence_of_result(result: &Value) -> Value {
    let place = |location: &Value| {
        let region = &location["physicalLocation"]["region"];
        json!([region["startLine"], region["startColumn"]])
    };
    let related = result["relatedLocations"].as_array();
    let places = result["locations"].as_array().unwrap().iter();
    let places: Vec<Value> = places
        .chain(related.into_iter().flatten())
        .map(place)
        .collect();
    let own = &result["properties"];
    json!([
        result["ruleId"],
        result["level"],
        result["partialFingerprints"]["shankwise/v1"],
        places,
        result["suppressions"] != json!([]),
        own["library"],
        own["tool_number"],
        own["operation"],
        own["machine"],
        own["facts"],
        own["limits"],
        own["basis"],
        own["missing"],
    ])
}

fn essence_of_finding(finding: &Value, library: &Value) -> Value {
    let places = finding["places"].as_array().unwrap().iter();
    let places: Vec<Value> = places
        .map(|place| json!([place["line"], place["column"]]))
        .collect();
    json!([
        finding["rule"],
        finding["level"],
        finding["fingerprint"],
        places,
        !finding["accepted"].is_null(),
        library,
        finding["tool_number"],
        finding["operation"],
        finding["machine"],
        finding["facts"],
        finding["limits"],
        finding["basis"],
        finding["missing"],
    ])
}

/// One log of some libraries and their JSON say the same, in the same order.
fn agree(paths: &[&str]) {
    let log = log_of(paths);
    let output = run(&[&["lint", "--as", "json"], paths].concat());
    let text = String::from_utf8(output.stdout).unwrap();
    let objects = text.lines().map(|line| serde_json::from_str(line).unwrap());
    let objects: Vec<Value> = objects.collect();
    let found = objects.iter().flat_map(|object| {
        let findings = object["findings"].as_array().unwrap().iter();
        findings.map(|finding| essence_of_finding(finding, &object["input"]))
    });
    let found: Vec<Value> = found.collect();
    let told: Vec<Value> = results(&log).iter().map(essence_of_result).collect();
    assert_eq!(told.len(), found.len());
    for (told, found) in told.iter().zip(&found) {
        assert_eq!(told, found);
    }
    let libraries = log["runs"][0]["properties"]["libraries"]
        .as_array()
        .unwrap();
    assert_eq!(libraries.len(), objects.len());
    for (library, object) in libraries.iter().zip(&objects) {
        assert_eq!(library["input"], object["input"]);
        assert_eq!(library["status"], object["status"]);
        assert_eq!(library["fails"], object["fails"]);
        // A count means the same in both.
        let counts = library["summary"].as_object();
        for (count, value) in counts.into_iter().flatten() {
            assert_eq!(value, &object["summary"][count], "{count}");
        }
        assert_eq!(counts.is_none(), object["summary"].is_null());
    }
    let unread: usize = objects.iter().map(unread).sum();
    assert_eq!(notices(&log).len(), unread);
}

/// How many notices an object should have in a log.
fn unread(object: &Value) -> usize {
    let count = |list: &Value| list.as_array().map_or(0, Vec::len);
    count(&object["unreadable"]) + count(&object["library"]["unread"])
}

#[test]
fn every_fixture_says_the_same_as_its_json() {
    let folder = TempDir::new().unwrap();
    let paths = every_library(folder.path());
    let paths: Vec<&str> = paths.iter().map(String::as_str).collect();
    for some in paths.chunks(300) {
        agree(some);
    }
}

#[test]
fn the_usual_libraries_are_valid_each_by_itself() {
    for path in [
        "fixtures/demo",
        "fixtures/clampings",
        "fixtures/clean",
        "fixtures/formats/invalid/header-only.csv",
        "fixtures/formats/invalid/empty.csv",
        "fixtures/formats/invalid/one-table-not-text",
        "fixtures/formats/invalid/cut-short.xml",
        "no/such/library",
    ] {
        agree(&[path]);
    }
}

/// Takes one thing away or puts a wrong one in: the schema notices.
#[test]
fn the_schema_would_notice() {
    let whole = log_of(&["fixtures/demo"]);
    for (place, key) in [
        ("", "version"),
        ("", "runs"),
        ("/runs/0", "tool"),
        ("/runs/0/results/0", "message"),
        ("/runs/0/results/0/message", "text"),
        ("/runs/0/tool/driver", "name"),
        ("/runs/0/tool/driver/rules/0", "id"),
        ("/runs/0/invocations/0", "executionSuccessful"),
    ] {
        let mut less = whole.clone();
        let object = less.pointer_mut(place).unwrap().as_object_mut().unwrap();
        object.shift_remove(key).expect("it is there");
        assert!(!VALIDATOR.is_valid(&less), "{place} without {key}");
    }
    for (place, value) in [
        ("/version", json!("2.0.0")),
        ("/runs/0/columnKind", json!("characters")),
        ("/runs/0/results/0/kind", json!("not judged")),
        ("/runs/0/results/0/level", json!("fatal")),
        (
            "/runs/0/results/0/locations/0/physicalLocation/region/startLine",
            json!(0),
        ),
        (
            "/runs/0/results/0/locations/0/physicalLocation/artifactLocation/uri",
            json!("a b"),
        ),
        (
            "/runs/0/results/0/suppressions",
            json!([{"status": "accepted"}]),
        ),
    ] {
        let mut other = whole.clone();
        *other.pointer_mut(place).expect("it is there") = value;
        assert!(!VALIDATOR.is_valid(&other), "{place}");
    }
}

/// What is missing has no cell: the line of its record is shown to its end.
#[test]
fn what_is_missing_points_at_its_line() {
    let log = log_of(&["fixtures/demo"]);
    let json = run(&["lint", "--as", "json", "fixtures/demo"]);
    let json: Value = serde_json::from_slice(&json.stdout).unwrap();
    let findings = json["findings"].as_array().unwrap();
    let mut absent = 0;
    for (result, finding) in results(&log).iter().zip(findings) {
        let region = &result["locations"][0]["physicalLocation"]["region"];
        let place = &finding["places"][0];
        assert_eq!(region["startLine"], place["line"]);
        let is_missing = place["text"] == "";
        assert_eq!(region.get("endColumn").is_none(), is_missing, "{result}");
        if is_missing {
            assert!(region.get("endLine").is_none(), "{result}");
            absent += 1;
        } else {
            assert_eq!(region["endLine"], place["end_line"], "{result}");
            assert_eq!(region["endColumn"], place["end_column"], "{result}");
        }
    }
    assert!(absent > 0);
}

/// Each rule stands once, with what a reader needs to know of it.
#[test]
fn rules_are_described() {
    let log = log_of(&["fixtures/demo", "fixtures/clampings"]);
    let rules = log["runs"][0]["tool"]["driver"]["rules"]
        .as_array()
        .unwrap();
    let mut seen = BTreeSet::new();
    for rule in rules {
        assert!(seen.insert(rule["id"].as_str().unwrap()), "{rule}");
        for text in ["shortDescription", "fullDescription", "help"] {
            assert!(
                rule[text]["text"]
                    .as_str()
                    .is_some_and(|text| !text.is_empty()),
                "{rule}"
            );
        }
        assert!(rule["defaultConfiguration"]["level"].is_string());
        assert!(rule["properties"]["basis"].is_string());
        assert!(rule["properties"]["consequence"].is_string());
    }
    let short = rules.iter().find(|rule| rule["id"] == "grip/short-grip");
    assert_eq!(short.unwrap()["name"], "GripShortGrip");
}

#[test]
fn the_bytes_do_not_depend_on_the_threads() {
    let arguments = [
        "lint",
        "--as",
        "sarif",
        "fixtures/demo",
        "fixtures/clampings",
    ];
    let one = run_in(root(), &arguments, "1");
    assert!(!one.stdout.is_empty());
    for threads in ["2", "8"] {
        let more = run_in(root(), &arguments, threads);
        assert!(more.stdout == one.stdout, "{threads} threads");
    }
}
