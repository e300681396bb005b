//! `window --as json`: the object of one assembly, with its window.

use serde_json::{Value, json};

use super::checked;
use crate::support::{QUESTION, run};

fn asked(more: &[&str]) -> Value {
    let tool = &QUESTION[..10];
    let objects = checked(&run(&[&["window", "--as", "json"], tool, more].concat()));
    assert_eq!(objects.len(), 1);
    objects.into_iter().next().unwrap()
}

#[test]
fn it_is_the_object_of_a_library_with_one_assembly() {
    let object = asked(&["--reach", "35", "--clearance", "0"]);
    let assemblies = object["assemblies"].as_array().unwrap();
    assert_eq!(assemblies.len(), 1);
    let assembly = &assemblies[0];
    assert_eq!(assembly["facts"]["needed_grip"]["value"], 26.666_666_7);
    let reach = &assembly["operations"][0]["facts"]["reach_needed"];
    assert_eq!(reach["value"], 35.0);
    let window = &assembly["window"];
    assert_eq!(window["min"], 38.0);
    assert_eq!(window["max"], 56.333_333_3);
    assert_eq!(window["min_rule"], "grip/flutes-in-bore");
    assert_eq!(window["max_rule"], "grip/short-grip");
    assert_eq!(window["short_by"], Value::Null);
    assert_eq!(window["recommended"], 38.5);
    assert_eq!(window["advised"]["max"], 43.0);
    assert_eq!(window["others"], json!([]));
    let next = json!({
        "min": 35.0, "min_rule": "reach/too-short-for-the-job", "max": null, "max_rule": null,
    });
    assert_eq!(window["next"], next);
    assert_eq!(window["assumed"], json!({ "min": [], "max": [] }));
    let stop = json!({
        "rule": "grip/tail-on-stop",
        "end": "stick_out_min",
        "missing": ["holder.insertion_depth_max"],
    });
    assert!(window["unjudged"].as_array().unwrap().contains(&stop));
}

/// What is left out is no finding; what is stated and wrong is one.
#[test]
fn findings_are_only_what_fails() {
    assert_eq!(asked(&[])["findings"], json!([]));
    assert_eq!(asked(&[])["summary"]["not_judged"], 0);
    let long = asked(&["--stick-out", "65", "--bore-form", "through"]);
    let findings = long["findings"].as_array().unwrap();
    assert!(findings.iter().any(|one| one["rule"] == "grip/short-grip"));
    assert!(findings.iter().all(|one| one["outcome"] == "not met"));
    assert_eq!(long["summary"]["verdict"], "fails");
}

/// Millimetres, whatever the question's units; an empty window says by how much.
#[test]
fn windows_of_all_kinds_keep_the_format() {
    let far = asked(&[
        "--reach",
        "60",
        "--clearance",
        "0",
        "--operation",
        "far wall",
    ]);
    let window = &far["assemblies"][0]["window"];
    assert_eq!(
        (&window["min"], &window["min_operation"]),
        (&json!(60.0), &json!("far wall"))
    );
    assert_eq!(window["short_by"], 3.666_666_67);
    assert_eq!(window["recommended"], Value::Null);
    let inch = run(&[
        "window",
        "--OAL",
        "3 1/4 in",
        "--LS",
        "1.75 in",
        "--bore-length",
        "1.5in",
        "--face-setback",
        "0 in",
        "--as",
        "json",
    ]);
    let inch = checked(&inch);
    assert_eq!(inch[0]["library"]["units"], "in");
    assert_eq!(inch[0]["assemblies"][0]["window"]["min"], 38.1);
    let assumed = checked(&run(&[
        "window",
        "--OAL",
        "83",
        "--LS",
        "48",
        "--collet-size",
        "32",
        "--bore-form",
        "through",
        "--bore-diameter",
        "16",
        "--DMM",
        "16",
        "--as",
        "json",
    ]));
    assert_eq!(
        assumed[0]["assemblies"][0]["window"]["assumed"]["max"],
        json!(["collet.bore_length", "collet.collet_length"])
    );
}

#[test]
fn an_empty_window_is_a_finding_too() {
    let object = asked(&["--reach", "60"]);
    let findings = object["findings"].as_array().expect("findings");
    let rules: Vec<&Value> = findings.iter().map(|finding| &finding["rule"]).collect();
    assert_eq!(rules, ["reach/no-window"]);
    assert_eq!(object["summary"]["error"], 1);
    assert_eq!(object["summary"]["verdict"], "fails");
}
