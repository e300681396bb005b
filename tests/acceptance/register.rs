//! `shankwise accepted`: every entry, and what became of it.

use serde_json::Value;

use super::{Cell, GRIP, REACH, TODAY, UNTIL, entry, printed, said};

fn listed(cell: &Cell, day: &str, paths: &[&str]) -> Vec<Value> {
    let fixed = ["accepted", "--as", "json", "--as-of", day];
    let output = cell.run(&[&fixed[..], paths].concat());
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
    let object: Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(
        (&object["format"], &object["as_of"]),
        (&1.into(), &day.into())
    );
    object["entries"].as_array().unwrap().clone()
}

fn states(cell: &Cell, day: &str) -> Vec<String> {
    let entries = listed(cell, day, &["cell"]);
    let states = entries
        .iter()
        .map(|entry| entry["state"].as_str().unwrap().to_owned());
    states.collect()
}

#[test]
fn nothing_is_accepted() {
    let cell = Cell::new();
    assert_eq!(
        printed(&cell.run(&["accepted", "cell"])),
        "nothing is accepted\n"
    );
    assert_eq!(listed(&cell, TODAY, &["cell"]).len(), 0);
}

#[test]
fn every_state_has_its_word() {
    let cell = Cell::new().accepted(GRIP);
    assert_eq!(states(&cell, TODAY), ["counts"]);
    assert_eq!(states(&cell, "2027-02-01"), ["expired"]);
    cell.change("assemblies", ",65,", ",66,");
    assert_eq!(states(&cell, TODAY), ["changed"]);
    cell.change("assemblies", ",66,", ",40,");
    assert_eq!(states(&cell, TODAY), ["unused"]);
    cell.change("assemblies", "7,mill 2", "8,mill 2");
    assert_eq!(states(&cell, TODAY), ["unmatched"]);
    cell.put("shankwise.toml", "[acceptance]\nlongest = \"10 d\"\n");
    cell.change("assemblies", "8,mill 2", "7,mill 2");
    assert_eq!(states(&cell, TODAY), ["too-far-off"]);
}

#[test]
fn it_says_all_of_an_entry() {
    let cell = Cell::new().accepted(REACH);
    let [entry] = &listed(&cell, TODAY, &["cell"])[..] else {
        panic!("one entry");
    };
    for (key, value) in [
        ("library", "cell".into()),
        ("tool_number", "7".into()),
        ("machine", "mill 2".into()),
        ("operation", "pocket".into()),
        ("rule", REACH.into()),
        ("at", "65.0 mm of 72.0 mm".into()),
        ("reason", "light finishing".into()),
        ("by", "J. Example".into()),
        ("until", "2027-01-31".into()),
        ("days_left", 67.into()),
        ("state", "counts".into()),
        ("why", Value::Array(Vec::new())),
        ("says_what", true.into()),
        ("file", "cell/shankwise.toml".into()),
        ("line", 2.into()),
    ] {
        assert_eq!(entry[key], value, "{key}");
    }
    let text = printed(&cell.run(&["accepted", "cell", "--as-of", TODAY]));
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for words in [
        "tool 7, machine mill 2, operation pocket: reach/too-short-for-the-job at 65.0 mm of 72.0 mm, until 2027-01-31: counts, 67 days left",
        "light finishing (J. Example) cell/shankwise.toml:2",
        "1 entry: 1 counts",
    ] {
        assert!(text.contains(words), "{words}: {text}");
    }
}

/// What has changed is said, and what an entry does not say.
#[test]
fn why_one_does_not_count() {
    let cell = Cell::new().accepted(GRIP);
    cell.change("assemblies", ",65,", ",67,");
    let text = printed(&cell.run(&["accepted", "cell", "--as-of", TODAY]));
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(text.contains("CHANGED: it is 16.0 mm now"), "{text}");
    let cell = Cell::accepting(UNTIL);
    let text = printed(&cell.run(&["accepted", "cell", "--as-of", TODAY]));
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(text.contains("does not say what was accepted"), "{text}");
    assert_eq!(listed(&cell, TODAY, &["cell"])[0]["says_what"], false);
}

/// An entry of the plant's file about no library is seen from each below it, and listed once.
#[test]
fn entries_of_the_plants_file() {
    let cell = Cell::new();
    for name in ["cell 2", "cell 3"] {
        for (table, text) in [
            ("assemblies", super::ASSEMBLIES),
            ("cutters", super::CUTTERS),
        ] {
            cell.put(&format!("{name}/{table}.csv"), text);
        }
    }
    let of = |library: &str| entry(GRIP, &format!("{UNTIL}library = \"{library}\"\n"));
    cell.put(
        "shankwise.toml",
        &format!("{}\n{}", of("cell"), of("no cell")),
    );
    let entries = listed(&cell, TODAY, &["cell", "cell 2", "cell 3"]);
    assert_eq!(
        entries,
        listed(&cell, TODAY, &["."]),
        "found below the folder"
    );
    let states: Vec<_> = entries
        .iter()
        .map(|one| (&one["library"], &one["state"]))
        .collect();
    assert_eq!(states.len(), 2, "{states:?}");
    let wanted: [Value; 2] = ["counts".into(), "unmatched".into()];
    assert_eq!(
        states.iter().map(|(_, state)| *state).collect::<Vec<_>>(),
        wanted.iter().collect::<Vec<_>>()
    );
}

/// What cannot be read is told, and the others are listed.
#[test]
fn a_library_that_cannot_be_read() {
    let cell = Cell::new().accepted(GRIP);
    let output = cell.run(&["accepted", "no-cell", "cell", "--as-of", TODAY]);
    assert_eq!(output.status.code(), Some(2));
    assert!(
        printed(&output).contains("1 entry: 1 counts"),
        "{}",
        printed(&output)
    );
    assert!(said(&output).contains("no-cell"));
}

#[test]
fn a_folder_without_a_library() {
    let cell = Cell::new();
    cell.put("notes/readme.txt", "nothing");
    let output = cell.run(&["accepted", "notes"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(
        said(&output).contains("there is no library here"),
        "{}",
        said(&output)
    );
}
