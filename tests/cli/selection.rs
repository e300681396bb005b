//! Which rules are judged, and which findings text shows.

use super::{Bench, GAP, GOOD, NOTED, SHORT, complaint, run, status, stdout};

/// The rules of the findings in a JSON report, each once, in order of name.
fn rules(arguments: &[&str]) -> Vec<String> {
    let text = stdout(&run(arguments));
    let object: serde_json::Value = serde_json::from_str(&text).expect("JSON");
    let findings = object["findings"].as_array().unwrap().iter();
    let mut rules: Vec<String> = findings
        .map(|finding| finding["rule"].as_str().unwrap().to_owned())
        .collect();
    rules.sort();
    rules.dedup();
    rules
}

#[test]
fn only_and_except() {
    let bench = Bench::new();
    let path = bench.library("tools.csv", &["2,65,83,20,12,12,32,12,40,", GAP]);
    let all = rules(&["lint", "--as", "json", &path]);
    let expected = [
        "grip/flutes-in-bore",
        "grip/shank-too-short",
        "grip/short-grip",
        "reach/no-window",
        "record/field-missing",
        "torque/not-stated",
    ];
    let expected: Vec<&str> = expected
        .iter()
        .copied()
        .filter(|rule| all.iter().any(|r| r == rule))
        .collect();
    assert_eq!(all, expected);
    assert!(all.len() >= 4, "{all:?}");
    let with = |more: &[&str]| rules(&[&["lint", "--as", "json"], more, &[path.as_str()]].concat());
    let keep = |wanted: &dyn Fn(&str) -> bool| -> Vec<String> {
        all.iter().filter(|rule| wanted(rule)).cloned().collect()
    };
    assert_eq!(
        with(&["--only", "grip"]),
        keep(&|rule| rule.starts_with("grip/"))
    );
    assert_eq!(
        with(&["--only", "grip/"]),
        keep(&|rule| rule.starts_with("grip/"))
    );
    assert_eq!(with(&["--only", "grip/short-grip"]), ["grip/short-grip"]);
    assert_eq!(
        with(&["--only", "torque,grip/short-grip"]),
        ["grip/short-grip", "torque/not-stated"]
    );
    assert_eq!(
        with(&["--only", "torque", "--only", "grip/short-grip"]),
        ["grip/short-grip", "torque/not-stated"]
    );
    assert_eq!(
        with(&["--except", "grip"]),
        // That nothing is left of the window is said where a rule that was asked for fails by it.
        keep(&|rule| !rule.starts_with("grip/") && rule != "reach/no-window")
    );
    assert_eq!(
        with(&["--only", "grip", "--except", "grip/short-grip"]),
        keep(&|rule| rule.starts_with("grip/") && rule != "grip/short-grip")
    );
    // A rule that was not asked for fails nothing.
    let short = bench.library("short.csv", &[SHORT]);
    assert_eq!(status(&run(&["lint", &short])), 1);
    assert_eq!(
        status(&run(&["lint", "--except", "grip/short-grip", &short])),
        0
    );
}

/// A slip in a rule's name must not judge nothing and say that all is well.
#[test]
fn an_unknown_rule_is_refused() {
    let bench = Bench::new();
    let path = bench.library("short.csv", &[SHORT]);
    for option in ["--only", "--except"] {
        for (wanted, words) in [
            (
                "grip/short-gripp",
                "there is no rule or topic `grip/short-gripp` hint: did you mean `grip/short-grip`?",
            ),
            (
                "gripp",
                "there is no rule or topic `gripp` hint: did you mean `grip`?",
            ),
            ("colour", "`shankwise rules` lists them"),
            ("", "there is no rule or topic ``"),
        ] {
            let output = run(&["lint", option, wanted, &path]);
            assert_eq!(
                (status(&output), stdout(&output)),
                (2, String::new()),
                "{wanted}"
            );
            assert!(complaint(&output).contains(words), "{}", complaint(&output));
        }
    }
}

/// The built-in rules can be left out; what is wrong with the table is said all the same.
#[test]
fn without_built_in_rules() {
    let bench = Bench::new();
    let path = bench.library("short.csv", &[SHORT, GAP]);
    let found = rules(&["lint", "--no-built-in", "--as", "json", &path]);
    assert_eq!(found, ["record/field-missing"]);
    let output = run(&["lint", "--no-built-in", &path]);
    let text = stdout(&output);
    let last = text.lines().last().unwrap();
    assert!(
        last.starts_with("grip NOT checked: there is no rule that judges it; "),
        "{last}"
    );
    assert!(
        last.contains("grip judged on 0 of 2 tools held by a shank"),
        "{last}"
    );
    assert_eq!(status(&output), 0, "nobody asked for the grip");
}

const ERROR: &str = "only 19.0 mm of plain shank";
const NOTE: &str = "no tightening torque is stated";
const GAPS: &str = "Not judged, because a value is missing";

#[test]
fn show_chooses_what_text_shows() {
    let bench = Bench::new();
    let path = bench.library("tools.csv", &[SHORT, GAP, NOTED]);
    let shown = |arguments: &[&str]| {
        let text = stdout(&run(&[&["lint"], arguments, &[path.as_str()]].concat()));
        let words = text.split_whitespace().collect::<Vec<_>>().join(" ");
        [ERROR, NOTE, GAPS].map(|part| words.contains(part))
    };
    // Notes are hidden while there are errors, and the counts say so.
    assert_eq!(shown(&["--full"]), [true, false, true]);
    // The short text counts what is not judged, and names what is missing.
    assert_eq!(shown(&[]), [true, false, false]);
    assert_eq!(shown(&["--show", "error"]), [true, false, false]);
    assert_eq!(shown(&["--show", "note"]), [false, true, false]);
    assert_eq!(shown(&["--show", "not-judged"]), [false, false, true]);
    assert_eq!(shown(&["--show", "error,note"]), [true, true, false]);
    assert_eq!(shown(&["--show", "warning"]), [false, false, false]);
    assert_eq!(shown(&["--show", "all"]), [true, true, true]);
    let text = stdout(&run(&["lint", "--full", &path]));
    assert!(text.contains("(hidden; --show note)"), "{text}");
    let text = stdout(&run(&["lint", "--show", "note", &path]));
    assert!(text.contains("1 error (hidden; --show error)"), "{text}");
    // Once there are no errors, notes are shown.
    let noted = bench.library("noted.csv", &[GOOD, NOTED]);
    assert!(stdout(&run(&["lint", "--full", &noted])).contains(NOTE));
}

/// Hiding changes neither the counts, nor the verdict, nor JSON.
#[test]
fn show_changes_nothing_but_text() {
    let bench = Bench::new();
    let path = bench.library("tools.csv", &[SHORT, GAP, NOTED]);
    let whole = run(&["lint", "--as", "json", &path]);
    let less = run(&["lint", "--as", "json", "--show", "note", &path]);
    assert_eq!(whole.stdout, less.stdout);
    assert_eq!(status(&run(&["lint", "--show", "note", &path])), 1);
}
