//! The log by the schema of the standard, the table in a spreadsheet, the report of a build server.

use std::fs;

use quick_xml::Reader;
use quick_xml::events::Event;
use serde_json::Value;

use super::{HEADER, Night, Plant};

/// The log is valid, and counts as JSON and the table do.
fn agree(night: &Night) {
    let broken = crate::sarif::broken(&night.log);
    assert_eq!(broken, [""; 0]);
    let run = &night.log["runs"][0];
    let results = run["results"].as_array().unwrap();
    let compared = results
        .iter()
        .filter(|one| one["baselineState"].is_string())
        .count();
    assert!(
        compared == 0 || compared == results.len(),
        "{compared} of {}",
        results.len()
    );
    assert!(results.iter().all(|one| one["suppressions"].is_array()));
    assert_eq!(results.len(), night.rows.len());
    let rules: Vec<&Value> = run["tool"]["driver"]["rules"]
        .as_array()
        .unwrap()
        .iter()
        .collect();
    for result in results {
        let known = rules.iter().any(|rule| rule["id"] == result["ruleId"]);
        assert!(known, "{}", result["ruleId"]);
        let kind = if result["level"] == "none" {
            "open"
        } else {
            "fail"
        };
        assert_eq!(result["kind"], kind);
    }
    let absent = results
        .iter()
        .filter(|one| one["baselineState"] == "absent");
    assert_eq!(
        absent.count(),
        night
            .rows
            .iter()
            .filter(|row| row["state"] == "gone")
            .count()
    );
    let id = &night.json["audit"]["id"];
    assert_eq!(&run["properties"]["audit"]["id"], id);
    assert!(night.rows.iter().all(|row| id == row["run"].as_str()));
    assert!(night.comment.contains(&id.as_str().unwrap()[..12]));
    assert!(run.get("originalUriBaseIds").is_none());
    let in_json = night.json["libraries"]
        .as_array()
        .unwrap()
        .iter()
        .flat_map(|library| {
            let loose = library["findings"].as_array().unwrap().iter();
            let sheets = library["sheets"].as_array().unwrap().iter();
            loose.chain(sheets.flat_map(|sheet| sheet["findings"].as_array().unwrap()))
        });
    let errors = in_json.filter(|one| one["level"] == "error").count();
    let wanted = night.rows.iter();
    let today = wanted.filter(|row| !["gone", "not compared"].contains(&row["state"].as_str()));
    assert_eq!(errors, today.filter(|row| row["level"] == "error").count());
}

#[test]
fn the_log_is_valid_and_all_outputs_agree() {
    let plant = Plant::new();
    plant.put("demo/assemblies.csv", "");
    for entry in fs::read_dir(crate::support::fixture("demo")).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        plant.put(&format!("demo/{name}"), fs::read(&path).unwrap());
    }
    let first = plant.night("first", &["--junit"]);
    agree(&first);
    fs::remove_dir_all(plant.path("cell-5")).unwrap();
    plant.edit("cell-1/tools.csv", "12,65,", "12,67,");
    plant.edit("cell-2/tools.csv", "22,65,", "22,40,");
    plant.edit("cell-9/tools.xml", "</assembly>", "");
    let second = plant.night("second", &["--since", "first", "--junit"]);
    agree(&second);
    for state in ["same", "worse", "gone", "not compared"] {
        assert!(second.states().contains_key(state), "{state}");
    }
}

#[test]
fn an_empty_tree_and_one_of_broken_libraries_make_a_valid_log() {
    let plant = Plant::empty();
    let empty = plant.night("empty", &[]);
    agree(&empty);
    assert_eq!(empty.status, 0);
    assert!(empty.comment.contains("0 libraries"), "{}", empty.comment);
    plant.put(
        "a/tools.xml",
        "<shankwise xmlns=\"urn:shankwise:library:1\">",
    );
    plant.put("b/assemblies.csv", "");
    plant.put("c/shankwise.toml", "no = such\n");
    plant.put(
        "c/tools.csv",
        format!("{HEADER}\n1,65,83,45,12,12,32,12,40,80\n"),
    );
    let broken = plant.night("broken", &["--junit"]);
    agree(&broken);
    assert_eq!(broken.status, 2);
    assert_eq!(
        broken.log["runs"][0]["invocations"][0]["executionSuccessful"],
        false
    );
    let libraries = broken.json["libraries"].as_array().unwrap();
    assert!(
        libraries
            .iter()
            .all(|one| one["status"] == "unreadable" && one["summary"].is_null())
    );
    assert_eq!(libraries.len(), 3);
}

#[test]
fn no_cell_of_the_table_is_a_formula() {
    let plant = Plant::empty();
    let names = ["=1+1", "+2", "-3", "@sum", "\u{1b}[31mred"];
    let rows: Vec<String> = names
        .iter()
        .map(|name| format!("{name},65,83,45,12,12,32,12,40,80"))
        .collect();
    plant.put("cell/tools.csv", format!("{HEADER}\n{}\n", rows.join("\n")));
    let night = plant.night("first", &[]);
    let texts = night.rows.iter().flatten();
    for (column, text) in
        texts.filter(|(column, _)| !["value", "needed"].contains(&column.as_str()))
    {
        assert!(
            !text.starts_with(['=', '+', '-', '@', '\t', '\r']),
            "{column}: {text}"
        );
        assert!(!text.contains(char::is_control), "{column}: {text:?}");
    }
    assert!(night.rows.iter().any(|row| row["tool_number"] == "'=1+1"));
    // The guard is none of the name's.
    let second = plant.night("second", &["--since", "first"]);
    assert!(second.states().into_keys().eq(["same"]));
    plant.put(
        "cell/tools.csv",
        format!("{HEADER}\n8,40,83,45,12,12,32,12,40,80\n"),
    );
    let third = plant.night("third", &["--since", "second"]);
    let results = third.results("absent");
    assert!(
        results.contains(&"cell/tools.csv =1+1 grip/short-grip".to_owned()),
        "{results:?}"
    );
}

#[test]
fn a_build_server_sees_a_case_a_finding() {
    let plant = Plant::new();
    plant.edit("cell-9/tools.xml", "</assembly>", "");
    let night = plant.night("out", &["--junit"]);
    let text = fs::read_to_string(night.folder.join("junit.xml")).unwrap();
    let mut reader = Reader::from_str(&text);
    let mut seen = std::collections::BTreeMap::new();
    loop {
        match reader.read_event().expect("it is well-formed") {
            Event::Start(tag) | Event::Empty(tag) => {
                let name = tag.name().as_ref().to_owned();
                *seen.entry(name).or_insert(0_usize) += 1;
            }
            Event::Eof => break,
            _ => {}
        }
    }
    let count = |name: &str| seen.get(name).copied().unwrap_or(0);
    let errors = night
        .rows
        .iter()
        .filter(|row| row["level"] == "error")
        .count();
    assert_eq!(count("failure"), errors);
    assert_eq!(count("testsuite"), 10);
    assert_eq!(count("error"), 1);
    assert_eq!(count("testcase"), 10 + errors + count("skipped"));
    assert!(count("skipped") > 0);
}
