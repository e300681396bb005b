//! Where output shows what is accepted: until when, and at what.

use serde_json::{Value, json};

use super::{Cell, GRIP, TODAY, printed};

fn lint(cell: &Cell, more: &[&str]) -> String {
    let fixed = ["lint", "cell", "--as-of", TODAY];
    let text = printed(&cell.run(&[&fixed[..], more].concat()));
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn text_says_until_when_and_at_what() {
    let cell = Cell::new().accepted(GRIP);
    cell.change("operations", ",70,2", ",30,2");
    let short =
        "accepted: tool 7 grip/short-grip at 18.0 mm of 26.7 mm, until 2027-01-31 (J. Example)";
    let text = lint(&cell, &[]);
    assert!(text.contains(short), "{text}");
    let full = "tool 7 grip/short-grip at 18.0 mm of 26.7 mm: light finishing (J. Example, until 2027-01-31)";
    for more in [&["--full"][..], &["--as", "plain", "--full"]] {
        let text = lint(&cell, more);
        assert!(text.contains(full), "{text}");
    }
    let brief = lint(&cell, &["--as", "brief"]);
    assert!(
        brief.contains("accepted: grip/short-grip: tool 7:"),
        "{brief}"
    );
}

/// What counts again says so in every form.
#[test]
fn every_form_says_what_has_changed() {
    let cell = Cell::new().accepted(GRIP);
    cell.change("assemblies", ",65,", ",67,");
    // With a job that no stick-out suits, the short text has a block of another rule.
    let line = "no longer accepted: tool 7 grip/short-grip, it is 16.0 mm now (J. Example, until 2027-01-31)";
    assert!(lint(&cell, &[]).contains(line), "{}", lint(&cell, &[]));
    cell.change("operations", ",70,2", ",30,2");
    assert!(lint(&cell, &[]).contains(line), "{}", lint(&cell, &[]));
    let told = "accepted by J. Example until 2027-01-31 at 18.0 mm of 26.7 mm; it is 16.0 mm now";
    for more in [
        &["--as", "plain"][..],
        &["--as", "brief"],
        &["--as", "json"],
        &["--as", "sarif"],
    ] {
        let text = lint(&cell, more);
        assert!(text.contains(told), "{more:?}: {text}");
    }
    let text = lint(&cell, &[]).replace("│ ", "");
    assert!(text.contains(told), "{text}");
}

#[test]
fn sarif_says_it_in_the_suppression() {
    let cell = Cell::new().accepted(GRIP);
    let output = cell.run(&["lint", "cell", "--as-of", TODAY, "--as", "sarif"]);
    let log: Value = serde_json::from_slice(&output.stdout).unwrap();
    let results = log["runs"][0]["results"].as_array().unwrap();
    let of = |rule: &str| results.iter().find(|one| one["ruleId"] == rule).unwrap();
    let suppression = &of(GRIP)["suppressions"][0];
    assert_eq!(
        suppression["properties"],
        json!({ "by": "J. Example", "until": "2027-01-31", "at": "18.0 mm of 26.7 mm" })
    );
    cell.change("assemblies", ",65,", ",67,");
    let output = cell.run(&["lint", "cell", "--as-of", TODAY, "--as", "sarif"]);
    let log: Value = serde_json::from_slice(&output.stdout).unwrap();
    let results = log["runs"][0]["results"].as_array().unwrap();
    let grip = results.iter().find(|one| one["ruleId"] == GRIP).unwrap();
    assert_eq!(grip["suppressions"], json!([]));
    assert_eq!(
        grip["properties"]["lapsed"]["why"],
        json!(["it is 16.0 mm now"])
    );
}

#[test]
fn json_says_what_lapsed() {
    let cell = Cell::new().accepted(GRIP);
    cell.change("assemblies", ",65,", ",67,");
    assert_eq!(
        cell.finding(GRIP)["lapsed"],
        json!({
            "reason": "light finishing",
            "by": "J. Example",
            "until": "2027-01-31",
            "at": "18.0 mm of 26.7 mm",
            "why": ["it is 16.0 mm now"],
        })
    );
}
