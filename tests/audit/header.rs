//! What a later audit asks of an earlier log stands at its end: it is found there, or wherever else
//! another program has put it.

use std::fs;
use std::path::Path;

use serde_json::Value;
use shankwise::audit::Earlier;

use super::Plant;

/// The id and the libraries of a log alone.
fn known(log: &Path) -> (String, Vec<String>) {
    let earlier = Earlier::open(log).expect("the log of an audit");
    let baseline = earlier.baseline().expect("it can be read");
    let keys = baseline.libraries.into_iter().map(|was| was.key);
    (baseline.id, keys.collect())
}

#[test]
fn it_is_found_wherever_it_stands() {
    let plant = Plant::new();
    let night = plant.night("first", &[]);
    let id = night.log["runs"][0]["properties"]["audit"]["id"].as_str();
    let keys = night.json["libraries"].as_array().unwrap().iter();
    let keys = keys.map(|one| one["key"].as_str().unwrap().to_owned());
    let wanted = (id.unwrap().to_owned(), keys.collect::<Vec<_>>());
    let text = fs::read_to_string(night.folder.join("audit.sarif")).unwrap();
    let log = night.folder.join("alone.sarif");
    let check = |text: &str, how: &str| {
        fs::write(&log, text).unwrap();
        assert_eq!(known(&log), wanted, "{how}");
    };
    check(&text, "as it is");
    let tree: Value = serde_json::from_str(&text).unwrap();
    check(&format!("{tree:#}"), "in lines of another program");
    check(&tree.to_string(), "in one line");
    // The log is looked at in steps: its mark may stand on both sides of a seam. With a damaged
    // result it is found there or nowhere.
    let damaged = text.replacen("\"results\":[", "\"results\":[}", 1);
    let mark = "\n\"properties\":{\"audit\":";
    let behind = damaged.len() - damaged.rfind(mark).expect("a line of its own");
    for seam in 0..=mark.len() {
        let spaces = (1 << 16) - behind + seam;
        check(&(damaged.clone() + &" ".repeat(spaces)), &format!("{seam}"));
    }
}

/// What is not needed is not read: neither time nor a damaged result may cost the comparison.
#[test]
fn results_are_passed_over_where_the_table_has_them() {
    let plant = Plant::new();
    let night = plant.night("first", &[]);
    let path = night.folder.join("audit.sarif");
    let text = fs::read_to_string(&path).unwrap();
    fs::write(&path, text.replacen("\"results\":[", "\"results\":[}", 1)).unwrap();
    let second = plant.night("second", &["--since", "first"]);
    assert!(second.states().into_keys().eq(["same"]));
    fs::remove_file(night.folder.join("findings.csv")).unwrap();
    let third = plant.run(&["plant", "--out", "third", "--since", "first"]);
    assert_eq!(third.status.code(), Some(2));
    let said = String::from_utf8_lossy(&third.stderr);
    assert!(said.contains("cannot compare with first"), "{said}");
    // What is cut off is no log.
    fs::write(&path, text.trim_end().trim_end_matches(['}', ']'])).unwrap();
    let fourth = plant.run(&["plant", "--out", "third", "--since", "first"]);
    assert_eq!(fourth.status.code(), Some(2));
}
