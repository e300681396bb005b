//! What is proposed is put into a copy of the demo, and the program is run on that: the errors
//! that a remedy claims to remove are gone, and no other has come.

use std::path::Path;

use serde_json::Value;
use shankwise::library::Kind;

use crate::support::{fixture, run};

use super::tables::{Table, rewritten};

/// Runs the program on a library, as JSON.
fn linted(folder: &Path, more: &[&str]) -> Value {
    let path = folder.to_str().expect("the path is text");
    let output = run(&[&["lint", "--as", "json", path], more].concat());
    serde_json::from_slice(&output.stdout).expect("one JSON object")
}

/// Topics whose errors a remedy removes.
fn concerns(rule: &str) -> bool {
    let topic = rule.split('/').next();
    matches!(topic, Some("grip" | "reach" | "torque" | "holding"))
}

/// Ids of the rules that an assembly fails at error level, from topics that a remedy concerns.
fn errors(report: &Value, tool: &str, assembly: &str) -> Vec<String> {
    let findings = report["findings"].as_array().expect("findings");
    let own = findings.iter().filter(|finding| {
        finding["level"] == "error"
            && finding["accepted"].is_null()
            && finding["tool_number"] == tool
            && finding["assembly"] == assembly
            && concerns(finding["rule"].as_str().unwrap_or(""))
    });
    own.map(|finding| finding["rule"].as_str().unwrap_or("").to_owned())
        .collect()
}

/// All errors of all other tools, as rule and fingerprint.
fn others(report: &Value, tool: &str) -> Vec<String> {
    let findings = report["findings"].as_array().expect("findings");
    let foreign = findings
        .iter()
        .filter(|finding| finding["level"] == "error" && finding["tool_number"] != tool);
    let mut all: Vec<String> = foreign
        .map(|finding| format!("{} {}", finding["rule"], finding["fingerprint"]))
        .collect();
    all.sort();
    all
}

/// Writes a value into a table's cell, in a column of its own if there is none.
fn set(table: &mut Table, row: usize, column: &str, value: &str) {
    let at = table.header.iter().position(|name| name == column);
    let at = at.unwrap_or_else(|| {
        table.header.push(column.to_owned());
        for row in &mut table.rows {
            row.push(String::new());
        }
        table.header.len() - 1
    });
    value.clone_into(&mut table.rows[row][at]);
}

fn cell<'t>(table: &'t Table, row: usize, column: &str) -> &'t str {
    let at = table.header.iter().position(|name| name == column);
    at.map_or("", |at| &table.rows[row][at])
}

/// Puts a remedy into the row of the assemblies with this index, and into the operations.
fn put(kind: Kind, table: &mut Table, row: usize, changes: &Value) {
    let changes = changes.as_object().expect("changes");
    if kind == Kind::Assembly {
        for (name, value) in changes {
            match name.as_str() {
                "stick_out" => {
                    let length = value["value"].as_f64().expect("a length");
                    set(table, row, "stick_out", &format!("{length} mm"));
                    // It was taken from the old tool.
                    set(table, row, "protruding_length", "");
                }
                "nut_torque" => {
                    let torque = value["value"].as_f64().expect("a torque");
                    set(table, row, "nut_torque", &format!("{torque} N·m"));
                }
                "operations" => {}
                part => set(table, row, part, value.as_str().expect("an id")),
            }
        }
    }
    if kind == Kind::Operation {
        for split in changes
            .get("operations")
            .and_then(Value::as_array)
            .into_iter()
            .flatten()
        {
            let rows = 0..table.rows.len();
            let own = |row: &usize| cell(table, *row, "operation") == split["operation"];
            let row = rows.into_iter().find(own).expect("the operation is there");
            let reach = split["reach"]["value"].as_f64().expect("a length");
            set(table, row, "reach", &format!("{reach} mm"));
        }
    }
    // A part of the stock is entered among the parts of the shop.
    if kind == Kind::Cutter
        && let Some(id) = changes.get("cutter").and_then(Value::as_str)
        && !(0..table.rows.len()).any(|row| cell(table, row, "cutter") == id)
    {
        let stock = Table::read(&fixture("demo"), "stock");
        let of = (0..stock.rows.len()).find(|row| cell(&stock, *row, "cutter") == id);
        let of = of.expect("it is in the stock");
        table.rows.push(vec![String::new(); table.header.len()]);
        let last = table.rows.len() - 1;
        for (at, name) in stock.header.iter().enumerate() {
            if !["quantity", "location"].contains(&name.as_str()) {
                set(table, last, name, &stock.rows[of][at]);
            }
        }
    }
}

#[test]
fn every_failing_tool_of_the_demo_has_a_remedy_or_a_nearest_miss() {
    let report = linted(&fixture("demo"), &["--remedies"]);
    let wrench = [
        "torque/nose-yields",
        "torque/over-torqued",
        "torque/under-torqued",
    ];
    for assembly in report["assemblies"].as_array().expect("assemblies") {
        let (Some(tool), Some(id)) = (
            assembly["tool_number"].as_str(),
            assembly["assembly"].as_str(),
        ) else {
            continue;
        };
        let failing = errors(&report, tool, id);
        // Nothing is advised on a record that is wrong, and nothing sought for a number in doubt.
        let findings = report["findings"].as_array().expect("findings");
        let wrong = findings.iter().any(|finding| {
            let rule = finding["rule"].as_str().unwrap_or("");
            finding["tool_number"] == tool
                && (rule == "record/stick-out-beyond-tool" || rule.starts_with("record/looks-like"))
        });
        if wrong || failing.iter().all(|rule| wrench.contains(&rule.as_str())) {
            continue;
        }
        let remedies = assembly["remedies"].as_array().expect("remedies");
        assert!(
            !remedies.is_empty() || assembly["nearest"].is_object(),
            "tool {tool} fails {failing:?} and nothing is said"
        );
    }
}

#[test]
fn every_remedy_of_the_demo_removes_what_it_claims_to_remove() {
    let demo = fixture("demo");
    let before = linted(&demo, &["--remedies"]);
    let mut applied = 0;
    let assemblies = before["assemblies"].as_array().expect("assemblies");
    for (row, assembly) in assemblies.iter().enumerate() {
        let tool = assembly["tool_number"].as_str().unwrap_or("");
        let id = assembly["assembly"].as_str().unwrap_or("");
        for remedy in assembly["remedies"].as_array().expect("remedies") {
            assert_eq!(remedy["rechecked"], true);
            let copy = rewritten(|kind, table| put(kind, table, row, &remedy["changes"]), "");
            let after = linted(copy.path(), &[]);
            let leaves = remedy["leaves"].as_array().expect("leaves");
            let left = errors(&after, tool, id);
            // Two tools share a number here; the other one's errors are not this one's.
            let of_twin = assemblies.iter().enumerate().any(|(at, other)| {
                at != row && other["tool_number"] == tool && other["assembly"] == id
            });
            let had = errors(&before, tool, id);
            let wrong = left
                .iter()
                .filter(|rule| !leaves.contains(&Value::from(rule.as_str())));
            let wrong: Vec<&String> = wrong.collect();
            if of_twin {
                assert!(wrong.len() < had.len(), "tool {tool}: {remedy}");
            } else {
                assert_eq!(wrong, [""; 0], "tool {tool}: {}", remedy["changes"]);
            }
            assert_eq!(others(&after, tool), others(&before, tool), "tool {tool}");
            applied += 1;
        }
    }
    assert!(applied >= 8, "only {applied} remedies were put to the test");
}
