//! The record of a run in JSON: by what it was judged, when, and how much there was.

use serde_json::{Value, json};

use super::{Bench, GAP, GOOD, SHORT, complaint, run, stdout};

const RULE: &str = "title = \"t\"\nlevel = \"note\"\nbasis = \"shop\"\nconsequence = \"tidiness\"\nwhen = \"known(reach)\"\nexpect = \"stick_out > least\"\nmessage = \"only {stick_out}\"\nwhy = \"w\"\nadvice = \"a\"\n\n[limit.least]\nvalue = 1\nunit = \"mm\"\nmin = 0\nmax = 9\nbasis = \"shop\"\nreason = \"r\"\nsource = \"\"\nstricter = \"higher\"\n";

fn record(arguments: &[&str], path: &str) -> Value {
    let output = run(&[&["lint", "--as", "json"], arguments, &[path]].concat());
    let object: Value = serde_json::from_str(&stdout(&output)).expect("one object");
    assert!(object["run"].is_object(), "{}", complaint(&output));
    object["run"].clone()
}

#[test]
fn it_says_day_version_options_and_totals() {
    let bench = Bench::new();
    let path = bench.library("tools.csv", &[GOOD, SHORT, GAP]);
    let arguments = [
        "--as-of",
        "2027-01-31",
        "--strict",
        "--only",
        "grip",
        "--min-coverage",
        "1/2",
    ];
    let found = record(&arguments, &path);
    assert_eq!(found["day"], "2027-01-31");
    assert_eq!(found["version"], env!("CARGO_PKG_VERSION"));
    assert_eq!(found["config_sha256"], Value::Null);
    let options = json!({
        "strict": true, "fail_on": "error", "only": ["grip"], "except": [], "min_coverage": 0.5,
    });
    assert_eq!(found["options"], options);
    assert_eq!(found["totals"]["assemblies"], 3);
    let all = record(&[], &path);
    let judgements = |record: &Value| record["totals"]["judgements"].as_u64().unwrap();
    assert!(judgements(&found) < judgements(&all));
    assert_eq!(
        found["rules_sha256"], all["rules_sha256"],
        "asking for few changes no rule"
    );
}

/// The same inputs give the same bytes, from whatever folder the rules are read.
#[test]
fn one_library_by_one_set_of_rules_gives_the_same_bytes() {
    let bench = Bench::new();
    let path = bench.library("tools.csv", &[GOOD, SHORT, GAP]);
    bench.put("a/reach/mine.toml", RULE);
    bench.put("b/reach/mine.toml", RULE);
    let out = |rules: &str| {
        let rules = bench.text_path(rules);
        run(&[
            "lint",
            "--as",
            "json",
            "--as-of",
            "2027-01-31",
            "--rules",
            &rules,
            &path,
        ])
        .stdout
    };
    assert_eq!(out("a"), out("a"));
    assert_eq!(out("a"), out("b"));
}

/// The hash is of what the rules say, not of how they are laid out.
#[test]
fn the_hash_of_rules_is_of_their_meaning() {
    let bench = Bench::new();
    let path = bench.library("tools.csv", &[GOOD]);
    let mut number = 0;
    let mut hash = |files: &[(&str, &str)]| {
        number += 1;
        for (name, text) in files {
            bench.put(&format!("{number}/{name}"), text);
        }
        let rules = bench.text_path(&number.to_string());
        let found = record(&["--rules", &rules], &path);
        found["rules_sha256"].as_str().expect("a hash").to_owned()
    };
    let one = hash(&[("reach/mine.toml", RULE)]);
    assert_ne!(one, record(&[], &path)["rules_sha256"].as_str().unwrap());
    let loose = RULE
        .replace(" = ", "=")
        .replace("stick_out > least", " stick_out>least  ")
        .replace("{stick_out}", "{ stick_out }");
    let turned: Vec<&str> = RULE.lines().take(8).collect();
    let turned: Vec<&str> = turned.into_iter().rev().collect();
    let limit = RULE.split("\n\n").nth(1).unwrap();
    let turned = turned.join("\n") + "\nadvice = \"a\"\n\n" + limit;
    for same in [
        format!("# a remark\n\n{RULE}"),
        RULE.replace('\n', "\r\n"),
        RULE.replace("why = \"w\"", "\n  why   = 'w'   # because"),
        loose,
        turned,
    ] {
        assert_eq!(hash(&[("reach/mine.toml", &same)]), one, "{same}");
    }
    for (from, to) in [
        ("value = 1", "value = 2"),
        ("max = 9", "max = 8"),
        ("> least", ">= least"),
        ("known(reach)", "known(clearance)"),
        ("\"note\"", "\"warning\""),
        ("\"w\"", "\"x\""),
        ("only {", "just {"),
        ("{stick_out}", "{stick_out + least}"),
        ("\"tidiness\"", "\"scrap\""),
        ("when =", "caution = \"c\"\nwhen ="),
        ("when =", "bounds = [\"stick_out_min\"]\nwhen ="),
    ] {
        assert!(RULE.contains(from));
        let other = RULE.replace(from, to);
        assert_ne!(hash(&[("reach/mine.toml", &other)]), one, "{to}");
    }
    assert_ne!(hash(&[("reach/other.toml", RULE)]), one, "another id");
    // Files are read in the order of their names; rules are hashed in that of their ids.
    let limits = |text: &str| text.replace("least", "other_least");
    let two = [
        ("reach/mine.toml", RULE),
        ("reach/yours.toml", &*limits(RULE)),
    ];
    let both = hash(&two);
    assert_ne!(both, one);
    assert_eq!(hash(&[two[1], two[0]]), both);
}

/// The same of the shop's file.
#[test]
fn the_hash_of_the_shops_file_is_of_what_it_says() {
    let bench = Bench::new();
    let path = bench.library("tools.csv", &[GOOD]);
    let hash = |text: &str| {
        bench.put("shankwise.toml", text);
        let found = record(&[], &path);
        (
            found["config_sha256"].clone(),
            found["rules_sha256"].clone(),
        )
    };
    let (one, rules) = hash("name = \"cell\"\n[limit]\nmin_grip_fraction = 0.7\n");
    assert!(one.as_str().is_some_and(|hash| hash.len() == 64));
    let (same, _) = hash("# cell 3\nname='cell'\n\n[limit]\nmin_grip_fraction   = 0.70\n");
    assert_eq!(same, one);
    let (other, same_rules) = hash("name = \"cell\"\n[limit]\nmin_grip_fraction = 0.75\n");
    assert_ne!(other, one);
    assert_eq!(rules, same_rules, "the rules before the shop changes them");
    // A plant's file is another one, even where the shop has none.
    std::fs::remove_file(bench.path("shankwise.toml")).unwrap();
    let plant = bench.put(
        "plant/shankwise.toml",
        "name = \"cell\"\n[limit]\nmin_grip_fraction = 0.7\n",
    );
    assert_eq!(record(&["--config", &plant], &path)["config_sha256"], one);
}
