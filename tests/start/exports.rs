//! Every export becomes a library of which the grip is judged, and the tools that are badly set are
//! found: those that who made the export says are.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

use serde_json::Value;
use tempfile::TempDir;

use super::{export, export_of, started, text};
use crate::support::run;

/// The drafted tables are filled in: every id of the draft is there, and no other.
fn fill_in(shop: &str, library: &Path) {
    for table in ["collets.csv", "holders.csv"] {
        let ids = |text: &str| -> BTreeSet<String> {
            let mut reader = csv::Reader::from_reader(text.as_bytes());
            reader
                .records()
                .map(|row| row.unwrap()[0].to_owned())
                .collect()
        };
        let filled = fs::read_to_string(export(shop, table)).unwrap();
        let drafted = fs::read_to_string(library.join(table)).unwrap();
        assert_eq!(ids(&drafted), ids(&filled), "{shop} {table}");
        fs::write(library.join(table), filled).unwrap();
    }
}

/// What `lint` finds, as JSON.
fn linted(library: &Path) -> Value {
    let output = run(&["lint", &library.display().to_string(), "--as", "json"]);
    serde_json::from_slice(&output.stdout).unwrap()
}

/// The rules about grip, and about records that cannot be, that a tool breaks as errors.
fn broken(linted: &Value) -> BTreeMap<String, BTreeSet<String>> {
    let mut broken: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for finding in linted["findings"].as_array().unwrap() {
        let rule = finding["rule"].as_str().unwrap();
        let is_asked = rule.starts_with("grip/") || rule == "record/stick-out-beyond-tool";
        if finding["level"] == "error" && is_asked {
            let tool = finding["tool_number"].as_str().unwrap_or("-").to_owned();
            broken.entry(tool).or_default().insert(rule.to_owned());
        }
    }
    broken
}

/// Judges a shop's library. `open` are the tools of which its list lacks a length, or that a clamp
/// screw holds on a flat of which the list does not speak.
fn judged(shop: &str, open: &[&str], bad: &[(&str, &str)]) {
    let folder = TempDir::new().unwrap();
    let (library, output) = started(shop, folder.path());
    assert_eq!(output.status.code(), Some(0), "{}", text(&output));
    let original = export_of(shop);
    let ending = original.rsplit('.').next().unwrap();
    let copy = fs::read(library.join(format!("assemblies.{ending}"))).unwrap();
    assert_eq!(copy, fs::read(original).unwrap());
    fill_in(shop, &library);
    let linted = linted(&library);
    let coverage = &linted["summary"]["coverage"];
    let not_judged: Vec<&str> = coverage["grip_not_judged"]
        .as_array()
        .unwrap()
        .iter()
        .map(|tool| tool.as_str().unwrap())
        .collect();
    assert_eq!(not_judged, open, "{shop}");
    let broken = broken(&linted);
    for (tool, rule) in bad {
        let rules = broken.get(*tool);
        assert!(
            rules.is_some_and(|rules| rules.contains(*rule)),
            "{shop} {tool}: {rules:?}"
        );
    }
    let named: BTreeSet<&str> = bad.iter().map(|(tool, _)| *tool).collect();
    let found: BTreeSet<&str> = broken.keys().map(String::as_str).collect();
    assert_eq!(found, named, "{shop}");
}

#[test]
fn a_german_job_shop() {
    // 106 and 217 sit on flats, 203 names a holder that is spelled otherwise elsewhere, of 205 and
    // 105 the shank is not stated, and of 302 and 305 nobody is sure how far they stick out.
    judged(
        "jobshop",
        &["106", "203", "205", "217", "302", "305", "105"],
        &[
            ("118", "grip/short-grip"),
            ("208", "record/stick-out-beyond-tool"),
            ("209", "grip/below-holder-minimum"),
            ("303", "grip/short-grip"),
            ("404", "grip/collet-closed-too-far"),
            ("407", "grip/tail-on-stop"),
        ],
    );
}

#[test]
fn an_inch_shop() {
    // T07 and 8 sit on flats, and of 24 the shank is to be decided.
    judged(
        "inch",
        &["T07", "8", "24"],
        &[
            ("10", "grip/short-grip"),
            ("26", "grip/short-grip"),
            ("30", "grip/collet-closed-too-far"),
            ("31", "record/stick-out-beyond-tool"),
        ],
    );
}

#[test]
fn a_dump_of_a_database() {
    // T0006, T0018 and T0053 sit on flats, T0046 names no holder; of the others a length is a stand-in
    // of the old program, or cannot be.
    judged(
        "dump",
        &[
            "T0006", "T0009", "T0018", "T0021", "T0022", "T0035", "T0046", "T0048", "T0053",
            "T0999", "T0060",
        ],
        &[
            ("T0007", "grip/short-grip"),
            ("T0012", "grip/collet-closed-too-far"),
            ("T0015", "grip/short-grip"),
            ("T0022", "record/stick-out-beyond-tool"),
            ("T0031", "grip/below-holder-minimum"),
            ("T0052", "grip/flutes-in-bore"),
            ("T0999", "record/stick-out-beyond-tool"),
        ],
    );
}

#[test]
fn a_setup_sheet_in_a_workbook() {
    // 2 sits on a flat; 9 stands in a hidden row too.
    judged(
        "setup",
        &["2"],
        &[
            ("5", "grip/short-grip"),
            ("12", "grip/below-holder-minimum"),
            ("15", "grip/tail-on-stop"),
        ],
    );
}

#[test]
fn a_list_of_what_lies_in_drawers() {
    let folder = TempDir::new().unwrap();
    let (library, output) = started("crib", folder.path());
    let said = text(&output);
    assert!(said.contains("read as what lies in stock"), "{said}");
    assert!(said.contains("add a line to"), "{said}");
    let tool = "1,1007,12,83,12,45,32,12,40,62,40\n";
    let columns = "tool_number,cutter,cutting_diameter,overall_length,shank_diameter,shank_length,collet_size,bore_diameter,bore_length,stick_out,reach\n";
    fs::write(library.join("assemblies.csv"), format!("{columns}{tool}")).unwrap();
    let linted = linted(&library);
    assert_eq!(linted["summary"]["coverage"]["grip_judged"], 1);
    assert_eq!(broken(&linted).keys().collect::<Vec<_>>(), ["1"]);
}
