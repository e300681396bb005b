//! The rows of the evidence: each holds, says where it comes from, and supports a fact.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;

use serde_json::Value;
use shankwise::facts::{Evidence, Fact, FactInfo, FactValue, WIDEST, evidence, formula_names};

use crate::support::{root, run};

fn rows() -> Vec<Evidence> {
    evidence().expect("every file of the evidence can be read")
}

#[test]
fn every_row_holds() {
    let outside: Vec<String> = rows()
        .iter()
        .filter(|row| !row.agrees())
        .map(|row| {
            format!(
                "{}, {}: {} by {}, not {}",
                row.fact, row.place, row.obtained, row.formula, row.expected
            )
        })
        .collect();
    assert!(outside.is_empty(), "{}", outside.join("\n"));
}

#[test]
fn every_row_is_a_number_with_a_source() {
    let names: BTreeSet<&str> = Fact::all().map(|info| info.name).collect();
    for row in rows() {
        let what = format!("{}, {}", row.fact, row.place);
        assert!(names.contains(row.fact.as_str()), "{what}: no such fact");
        assert!(row.obtained.is_finite(), "{what}: {}", row.formula);
        assert!(row.expected.is_finite(), "{what}");
        assert!(row.inputs.values().all(|input| input.is_finite()), "{what}");
        assert!(!row.source.is_empty() && !row.place.is_empty(), "{what}");
        assert!(
            ["printed", "second-hand", "computed"].contains(&row.standing.as_str()),
            "{what}: {}",
            row.standing
        );
    }
}

/// As tight as the kind of value permits: 6 % only for the socket's stress against finite
/// elements, 4 % for its ratio, 1 % for a frequency, 1 % for printed digits, else less.
#[test]
fn tolerances_are_tight() {
    for row in rows() {
        let widest = match row.formula.as_str() {
            "mouth.stress" | "mouth.stress_upper" | "mouth.stress_at" | "mouth.opening" => WIDEST,
            "mouth.ratio" | "mouth.ratio_upper" => 0.04,
            "mouth.beam_stress" | "mouth.beam_stress_upper" => 0.005,
            "bending.tip_deflection" if row.standing == "computed" => 1e-6,
            _ => 0.01,
        };
        let what = format!("{}, {}", row.fact, row.place);
        assert!(row.tolerance > 0.0 && row.tolerance <= widest, "{what}");
        assert!(row.tolerance <= 0.06, "{what}");
    }
}

/// Which formula with which inputs, written out.
fn check(row: &Evidence) -> String {
    format!("{} {:?}", row.formula, row.inputs)
}

/// In any one file no check is made twice, and there are many different ones.
#[test]
fn the_checks_are_distinct() {
    let all = rows();
    let pairs: BTreeSet<(&str, String)> = all
        .iter()
        .map(|row| (row.fact.as_str(), check(row)))
        .collect();
    assert_eq!(pairs.len(), all.len(), "a check is made twice for one fact");
    let distinct: BTreeSet<String> = all.iter().map(check).collect();
    assert!(distinct.len() >= 240, "only {} checks", distinct.len());
    // Those that are not limit cases stand on numbers from outside alone.
    let outside = all.iter().filter(|row| !is_limit(row)).map(check);
    let outside: BTreeSet<String> = outside.collect();
    assert!(outside.len() >= 180, "only {} of them", outside.len());
}

fn is_limit(row: &Evidence) -> bool {
    row.place.starts_with("limit case: ")
}

/// A fact that is worked out by a formula. The others are looked up in the library, or never
/// known.
fn is_reckoned(info: &FactInfo) -> bool {
    let looked_up = ["the library", "none:"];
    matches!(info.value, FactValue::Number(..))
        && !looked_up.iter().any(|word| info.source.starts_with(word))
}

#[test]
fn every_reckoned_fact_has_an_example_and_a_limit_case() {
    let mut examples: BTreeMap<String, (u32, u32)> = BTreeMap::new();
    for row in rows() {
        let counts = examples.entry(row.fact.clone()).or_default();
        if is_limit(&row) {
            counts.1 += 1;
        } else {
            counts.0 += 1;
        }
    }
    let mut reckoned = 0;
    for info in Fact::all().filter(|info| is_reckoned(info)) {
        reckoned += 1;
        let (outside, limits) = examples.get(info.name).copied().unwrap_or_default();
        assert!(outside > 0, "{} has no worked example", info.name);
        assert!(limits > 0, "{} has no limit case", info.name);
    }
    assert!(reckoned >= 45, "{reckoned}");
}

/// Every formula by name is used; one that no row names could be wrong unseen.
#[test]
fn every_named_formula_is_held() {
    let used: BTreeSet<String> = rows().into_iter().map(|row| row.formula).collect();
    let mut seen = 0;
    for name in formula_names() {
        seen += 1;
        assert!(used.contains(name), "no row uses {name}");
    }
    assert!(seen >= 50, "{seen}");
}

/// What this project found for itself stands in files of its own.
#[test]
fn what_goes_beyond_is_marked() {
    let mut beyond = 0;
    for entry in fs::read_dir(root().join("tests/evidence")).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        if name.starts_with("beyond-") && name != "beyond-limits.toml" {
            let text = fs::read_to_string(&path).unwrap();
            beyond += text.matches("[[row]]").count();
        }
    }
    assert!(beyond >= 80, "{beyond}");
}

/// Format 1: exactly these keys, all of them scalars.
#[test]
fn the_evidence_as_json() {
    let output = run(&["facts", "--evidence", "--as", "json"]);
    assert_eq!(output.status.code(), Some(0));
    let json: Value = serde_json::from_slice(&output.stdout).unwrap();
    let top: Vec<&String> = json.as_object().unwrap().keys().collect();
    assert_eq!(top, ["format", "evidence"]);
    assert_eq!(json["format"], 1);
    let listed = json["evidence"].as_array().unwrap();
    let known = rows();
    assert_eq!(listed.len(), known.len());
    for (shown, row) in listed.iter().zip(&known) {
        let keys: Vec<&String> = shown.as_object().unwrap().keys().collect();
        let expected = [
            "fact",
            "source",
            "place",
            "expected",
            "obtained",
            "deviation",
            "tolerance",
            "standing",
        ];
        assert_eq!(keys, expected);
        assert_eq!(shown["fact"], row.fact.as_str());
        for number in ["expected", "obtained", "deviation", "tolerance"] {
            assert!(shown[number].is_number(), "{}: {number}", row.place);
        }
        assert!(shown["deviation"].as_f64() <= shown["tolerance"].as_f64());
    }
}

#[test]
fn the_evidence_as_text() {
    let output = run(&["facts", "--evidence"]);
    let text = String::from_utf8(output.stdout).unwrap();
    let count = rows().len();
    assert!(text.ends_with(&format!("{count} of {count} checks agree\n")));
    assert!(!text.contains("OUTSIDE"));
}
