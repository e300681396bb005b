//! How a run ends: what is too much, what is accepted, what could not be read.

use std::fmt::Write as _;
use std::fs;

use serde_json::{Value, json};
use tempfile::TempDir;

use super::{checked, notices, results, run_in};
use crate::support::run;

const HEADER: &str = "tool_number,stick_out,overall_length,shank_length,shank_diameter,\
                      cutting_diameter,collet_size,bore_diameter,bore_length,nut_torque";

fn of_rule<'l>(log: &'l Value, rule: &str) -> Vec<&'l Value> {
    let all = results(log).iter();
    all.filter(|result| result["ruleId"] == rule).collect()
}

/// Beyond a thousand of one rule in a library the first are kept, the others counted, and a
/// second library starts anew. The last tool cannot be judged by that rule: it counts too.
#[test]
fn a_fault_of_every_row_does_not_drown_the_rest() {
    let folder = TempDir::new().unwrap();
    let mut rows = format!("{HEADER}\n");
    for number in 1..=1003 {
        writeln!(rows, "{number},65,83,45,12,12,32,12,40,80").unwrap();
    }
    rows.push_str("2000,40,83,45,12,12,32,12,,80\n");
    for name in ["a.csv", "b.csv"] {
        fs::write(folder.path().join(name), &rows).unwrap();
    }
    let arguments = [
        "lint",
        "--only",
        "grip,record",
        "--as",
        "sarif",
        "a.csv",
        "b.csv",
    ];
    let output = run_in(folder.path(), &arguments, "2");
    let log = checked(&output);
    let kept = of_rule(&log, "grip/short-grip");
    for library in ["a.csv", "b.csv"] {
        let own = kept
            .iter()
            .filter(|result| result["properties"]["library"] == library);
        let lines = own.map(|result| &result["locations"][0]["physicalLocation"]["region"]);
        let lines: Vec<u64> = lines
            .map(|region| region["startLine"].as_u64().unwrap())
            .collect();
        assert_eq!(lines, (2..=1001).collect::<Vec<u64>>());
    }
    let missing = of_rule(&log, "record/field-missing");
    assert!(
        missing
            .iter()
            .any(|result| result["properties"]["tool_number"] == "2000")
    );
    let left: Vec<&Value> = notices(&log)
        .iter()
        .filter(|notice| notice["associatedRule"]["id"] == "grip/short-grip")
        .collect();
    assert_eq!(left.len(), 2);
    for (notice, library) in left.iter().zip(["a.csv", "b.csv"]) {
        assert_eq!(notice["level"], "note");
        assert_eq!(
            notice["properties"],
            json!({"library": library, "rule": "grip/short-grip", "results": 1004, "written": 1000})
        );
    }
    let other = run_in(folder.path(), &arguments, "8");
    assert!(other.stdout == output.stdout);
}

/// What the shop accepts is there, suppressed; all others say that they are not.
#[test]
fn what_is_accepted_is_suppressed() {
    let folder = TempDir::new().unwrap();
    let rows = "1,65,83,45,12,12,32,12,40,80\n2,65,83,45,12,12,32,12,40,80\n";
    fs::write(folder.path().join("tools.csv"), format!("{HEADER}\n{rows}")).unwrap();
    let accept = "[[accept]]\nrule = \"grip/short-grip\"\ntool_number = \"1\"\n\
                  reason = \"tried with {care}\"\nby = \"the cell's lead\"\nuntil = 2027-01-31\n";
    fs::write(folder.path().join("shankwise.toml"), accept).unwrap();
    let day = [
        "lint",
        "--as",
        "sarif",
        "tools.csv",
        "--as-of",
        "2026-11-25",
    ];
    let log = checked(&run_in(folder.path(), &day, "2"));
    for result in of_rule(&log, "grip/short-grip") {
        assert_eq!(result["level"], "error");
        let own = if result["properties"]["tool_number"] == "1" {
            json!([{
                "kind": "external", "status": "accepted", "justification": "tried with {care}",
                "properties": {"by": "the cell's lead", "until": "2027-01-31", "at": null},
            }])
        } else {
            json!([])
        };
        assert_eq!(result["suppressions"], own);
    }
    assert_eq!(of_rule(&log, "grip/short-grip").len(), 2);
}

/// The exit status is in the log, and what could not be read beside what could.
#[test]
fn the_log_says_how_the_run_ended() {
    let cases: [(&[&str], i32, usize); 7] = [
        (&["fixtures/clean"], 0, 0),
        (&["fixtures/demo"], 1, 0),
        (&["fixtures/demo", "no/such/library"], 2, 1),
        (&["no/such/library"], 2, 1),
        (
            &["fixtures/formats/invalid/not-text.csv", "fixtures/clean"],
            2,
            1,
        ),
        (&["fixtures/clean", "--tool", "no such tool"], 2, 1),
        (&["fixtures/clean", "--only", "no/such-rule"], 2, 1),
    ];
    for (arguments, status, told) in cases {
        let output = run(&[&["lint", "--as", "sarif"], arguments].concat());
        assert_eq!(output.status.code(), Some(status), "{arguments:?}");
        let log = checked(&output);
        let errors = notices(&log)
            .iter()
            .filter(|notice| notice["level"] == "error");
        assert_eq!(errors.count(), told, "{arguments:?}");
    }
}

/// Facts and answers are no results.
#[test]
fn only_lint_writes_it() {
    let question = [&["window", "--as", "sarif"], crate::support::QUESTION].concat();
    for arguments in [&["facts", "--as", "sarif", "fixtures/demo"][..], &question] {
        let output = run(arguments);
        assert_eq!(output.status.code(), Some(2));
        assert!(output.stdout.is_empty());
        let told = String::from_utf8(output.stderr).unwrap();
        assert!(told.contains("only `lint` writes sarif"), "{told}");
    }
}
