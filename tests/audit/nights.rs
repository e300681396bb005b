//! Two nights: each time one thing is changed in a plant of ten libraries.

use std::fs;

use super::{Night, Plant, rows, table};

const SHORT: &str = "grip/short-grip";

/// The plant as it was, and the night after something was changed in it.
fn after(change: impl FnOnce(&Plant)) -> (Plant, Night, Night) {
    let plant = Plant::new();
    let first = plant.night("first", &[]);
    change(&plant);
    let second = plant.night("second", &["--since", "first", "--only-new"]);
    (plant, first, second)
}

/// Everything is as it was.
fn nothing_is_new(first: &Night, second: &Night) {
    let states: Vec<String> = second.states().into_keys().collect();
    assert_eq!(states, ["same"], "{:?}", second.states());
    assert_eq!(second.rows.len(), first.rows.len());
    assert_eq!(second.results("unchanged").len(), first.rows.len());
    assert_eq!(second.status, 0, "{}", second.comment);
}

#[test]
fn the_plant_fails_and_every_library_is_judged() {
    let plant = Plant::new();
    let night = plant.night("first", &[]);
    assert_eq!(night.status, 1);
    let libraries = night.json["libraries"].as_array().unwrap();
    let keys: Vec<&str> = libraries
        .iter()
        .map(|one| one["key"].as_str().unwrap())
        .collect();
    let flat = |cell: usize| format!("cell-{cell}/tools.csv");
    let mut wanted: Vec<String> = (1..=7).chain([10]).map(flat).collect();
    wanted.extend(["cell-8".to_owned(), "cell-9/tools.xml".to_owned()]);
    wanted.sort();
    assert_eq!(keys, wanted);
    assert!(
        libraries
            .iter()
            .all(|one| one["status"] == "read" && one["fails"] == true)
    );
    let short = night
        .rows
        .iter()
        .filter(|row| row["rule"] == SHORT && row["level"] == "error");
    assert_eq!(short.count(), 10);
    assert!(night.states().into_keys().eq([String::new()]));
}

#[test]
fn the_same_plant_is_the_same() {
    let (_, first, second) = after(|_| {});
    nothing_is_new(&first, &second);
    assert_eq!(first.json["audit"]["id"], second.json["audit"]["id"]);
}

#[test]
fn the_order_of_rows_is_no_news() {
    let (_, first, second) = after(|plant| {
        let mut rows = rows(20);
        rows.reverse();
        plant.put("cell-2/tools.csv", table(&rows));
    });
    nothing_is_new(&first, &second);
    assert_ne!(first.json["audit"]["id"], second.json["audit"]["id"]);
}

#[test]
fn of_a_row_that_is_inserted_only_its_own_findings_are_new() {
    let (_, first, second) = after(|plant| {
        let mut rows = rows(30);
        rows.insert(0, "39,65,83,45,12,12,32,12,40,80".to_owned());
        plant.put("cell-3/tools.csv", table(&rows));
    });
    let new = second.of("new");
    assert!(
        new.contains(&format!("cell-3/tools.csv 39 {SHORT}")),
        "{new:?}"
    );
    assert!(
        new.iter()
            .all(|one| one.starts_with("cell-3/tools.csv 39 ")),
        "{new:?}"
    );
    assert_eq!(second.states()["same"], first.rows.len());
    assert_eq!(second.results("new"), new);
    assert_eq!(second.status, 1);
}

#[test]
fn a_folder_that_is_renamed_is_found_again_by_what_was_found_in_it() {
    let (_, first, second) = after(|plant| {
        fs::rename(plant.path("cell-4"), plant.path("hall-4")).unwrap();
        fs::rename(plant.path("cell-8"), plant.path("hall-8")).unwrap();
    });
    nothing_is_new(&first, &second);
    assert!(
        second
            .comment
            .contains("`hall-4/tools.csv`: was `cell-4/tools.csv` before")
    );
    assert!(second.comment.contains("`hall-8`: was `cell-8` before"));
}

#[test]
fn a_library_that_states_its_name_is_found_again_by_it() {
    let (_, _, second) = after(|plant| {
        fs::rename(plant.path("cell-10"), plant.path("annexe")).unwrap();
        // Nothing that was found in it is found any more.
        plant.put(
            "annexe/tools.csv",
            table(&["7,65,83,45,12,12,32,12,40,80".to_owned()]),
        );
    });
    assert!(
        second
            .comment
            .contains("`annexe/tools.csv`: was `cell-10/tools.csv` before")
    );
    let gone = second.of("gone");
    assert!(
        gone.contains(&format!("cell-10/tools.csv 102 {SHORT}")),
        "{gone:?}"
    );
    assert!(
        second
            .of("new")
            .contains(&format!("annexe/tools.csv 7 {SHORT}"))
    );
}

#[test]
fn worse_says_from_what_to_what() {
    let (_, _, second) = after(|plant| plant.edit("cell-1/tools.csv", "12,65,", "12,67,"));
    let worse = second.of("worse");
    assert!(
        worse.contains(&format!("cell-1/tools.csv 12 {SHORT}")),
        "{worse:?}"
    );
    let row = |row: &&std::collections::BTreeMap<String, String>| {
        row["state"] == "worse" && row["rule"] == SHORT
    };
    let row = second.rows.iter().find(row).unwrap();
    assert_eq!(
        (row["value_before"].as_str(), row["value"].as_str()),
        ("19.0", "17.0")
    );
    assert_eq!(row["needed"], "26.6666667");
    assert!(
        second
            .comment
            .contains("tool 12 19.0 mm -> 17.0 mm, wanted: at least 26.7 mm")
    );
    assert!(
        second
            .results("updated")
            .contains(&format!("cell-1/tools.csv 12 {SHORT}"))
    );
    assert_eq!(second.status, 1);
}

#[test]
fn better_is_no_reason_to_fail_again() {
    let (_, _, second) = after(|plant| plant.edit("cell-1/tools.csv", "12,65,", "12,63,"));
    assert!(
        second
            .of("better")
            .contains(&format!("cell-1/tools.csv 12 {SHORT}"))
    );
    assert_eq!((second.of("worse"), second.of("new")), (vec![], vec![]));
    assert_eq!(second.status, 0, "{}", second.comment);
    assert_eq!(second.json["totals"]["fails"], false);
}

#[test]
fn cured_is_absent_once_and_relapsed_is_new() {
    let (plant, _, second) = after(|plant| plant.edit("cell-1/tools.csv", "12,65,", "12,40,"));
    let gone = second.of("gone");
    assert!(
        gone.contains(&format!("cell-1/tools.csv 12 {SHORT}")),
        "{gone:?}"
    );
    assert_eq!(second.results("absent"), gone);
    assert_eq!(second.status, 0);
    let third = plant.night("third", &["--since", "second", "--only-new"]);
    assert!(third.of("gone").is_empty() && third.results("absent").is_empty());
    plant.edit("cell-1/tools.csv", "\n12,40,", "\n12,65,");
    let fourth = plant.night("fourth", &["--since", "third", "--only-new"]);
    assert!(
        fourth
            .of("new")
            .contains(&format!("cell-1/tools.csv 12 {SHORT}"))
    );
    assert_eq!(fourth.status, 1);
}

#[test]
fn a_rule_that_is_switched_off_is_not_compared_and_waits() {
    let (plant, first, second) = after(|plant| {
        let off = "[rule.\"grip/short-grip\"]\nlevel = \"off\"\nreason = \"a trial\"\n";
        plant.put("cell-4/shankwise.toml", off);
    });
    let waits = format!("cell-4/tools.csv 42 {SHORT}");
    assert!(
        second.of("not compared").contains(&waits),
        "{:?}",
        second.of("not compared")
    );
    assert!(second.results("unchanged").contains(&waits));
    assert!(!second.of("gone").contains(&waits));
    fs::remove_file(plant.path("cell-4/shankwise.toml")).unwrap();
    let third = plant.night("third", &["--since", "second", "--only-new"]);
    nothing_is_new(&first, &third);
}

#[test]
fn what_stood_in_a_library_that_is_gone_is_not_cured() {
    let (_, _, second) = after(|plant| fs::remove_dir_all(plant.path("cell-5")).unwrap());
    let gone = second.rows.iter().filter(|row| row["state"] == "gone");
    let gone: Vec<_> = gone.collect();
    assert!(gone.iter().all(|row| row["library"] == "cell-5/tools.csv"));
    assert!(
        gone.iter()
            .all(|row| row["reason"] == "its library is gone")
    );
    assert!(gone.iter().any(|row| row["rule"] == SHORT));
    assert!(
        second
            .comment
            .contains("its findings are gone with it, not corrected")
    );
}

#[test]
fn what_stood_in_a_library_that_is_unreadable_waits() {
    let (plant, first, second) = after(|plant| plant.edit("cell-9/tools.xml", "</assembly>", ""));
    assert_eq!(second.status, 2);
    let waits = second.of("not compared");
    assert!(
        waits.contains(&format!("cell-9/tools.xml 92 {SHORT}")),
        "{waits:?}"
    );
    assert!(
        waits.iter().all(|one| one.starts_with("cell-9/")),
        "{waits:?}"
    );
    assert!(second.of("gone").is_empty());
    let title = "# Audit of `plant`: not everything could be read, and what was not has not passed";
    assert!(second.comment.starts_with(title), "{}", second.comment);
    plant.edit(
        "cell-9/tools.xml",
        "</assemblies>",
        "</assembly></assemblies>",
    );
    let third = plant.night("third", &["--since", "second", "--only-new"]);
    nothing_is_new(&first, &third);
}

#[test]
fn a_file_that_was_a_library_and_is_none_today_is_trouble() {
    for broken in [&b"\0\0\0\0"[..], b"name,remark\nx,y\n"] {
        let (_, _, second) = after(|plant| plant.put("cell-6/tools.csv", broken));
        assert_eq!(second.status, 2, "{}", second.comment);
        assert!(second.of("gone").is_empty(), "{:?}", second.of("gone"));
        assert!(
            second
                .of("not compared")
                .contains(&format!("cell-6/tools.csv 62 {SHORT}"))
        );
        assert!(second.comment.contains("`cell-6/tools.csv`: unreadable"));
    }
}

#[test]
fn what_is_ignored_from_today_on_is_not_cured() {
    let (_, _, second) = after(|plant| plant.put(".shankwiseignore", "cell-7/\n"));
    assert_eq!(second.status, 0, "{}", second.comment);
    assert!(
        second
            .of("not compared")
            .contains(&format!("cell-7/tools.csv 72 {SHORT}"))
    );
    assert!(second.of("gone").is_empty());
}

#[test]
fn part_of_a_library_that_is_unreadable_hides_nothing() {
    let (_, _, second) = after(|plant| plant.put("cell-8/cutters.csv", b"\0\0"));
    assert_eq!(second.status, 2);
    assert!(second.of("gone").is_empty(), "{:?}", second.of("gone"));
    assert!(
        second
            .of("not compared")
            .contains(&format!("cell-8 82 {SHORT}"))
            || second.of("worse").contains(&format!("cell-8 82 {SHORT}"))
    );
}

#[test]
fn one_log_alone_is_compared_like_a_folder() {
    let plant = Plant::new();
    let first = plant.night("first", &[]);
    fs::create_dir(plant.0.path().join("kept")).unwrap();
    fs::copy(
        first.folder.join("audit.sarif"),
        plant.0.path().join("kept/night.sarif"),
    )
    .unwrap();
    plant.edit("cell-1/tools.csv", "12,65,", "12,67,");
    plant.edit("cell-2/tools.csv", "22,65,", "22,40,");
    let folder = plant.night("by-folder", &["--since", "first"]);
    let log = plant.night("by-log", &["--since", "kept/night.sarif"]);
    assert_eq!(folder.states(), log.states());
    assert_eq!(folder.comment, log.comment);
}

#[test]
fn each_night_may_go_into_one_folder() {
    let plant = Plant::new();
    let nightly = &["--since", "nightly", "--only-new"];
    assert_eq!(plant.night("nightly", nightly).status, 1);
    assert_eq!(plant.night("nightly", nightly).status, 0);
    plant.edit("cell-1/tools.csv", "12,65,", "12,67,");
    let third = plant.night("nightly", nightly);
    assert_eq!(third.status, 1);
    assert!(
        third
            .of("worse")
            .contains(&format!("cell-1/tools.csv 12 {SHORT}"))
    );
}

/// What was accepted last night and cannot be looked for today is no open result of the log.
#[test]
fn what_is_accepted_and_not_compared_stays_accepted() {
    let plant = Plant::new();
    plant.put(
        "cell-1/shankwise.toml",
        "[[accept]]\nrule = \"grip/short-grip\"\ntool_number = \"12\"\nreason = \"finishing\"\nby = \"A. Example\"\nuntil = 2027-03-01\n",
    );
    plant.night("first", &[]);
    plant.put("cell-1/tools.csv", b"\0");
    let second = plant.night("second", &["--since", "first"]);
    let results = second.log["runs"][0]["results"].as_array().unwrap();
    let own = |one: &&serde_json::Value| {
        one["ruleId"] == SHORT && one["properties"]["library"] == "cell-1/tools.csv"
    };
    let own = results
        .iter()
        .find(|one| own(one) && one["level"] == "error");
    let suppressed = &own.unwrap()["suppressions"];
    assert_eq!(
        suppressed[0]["properties"]["by"], "A. Example",
        "{suppressed}"
    );
    assert_eq!(suppressed[0]["properties"]["until"], "2027-03-01");
    assert_eq!(crate::sarif::broken(&second.log), [""; 0]);
}

/// A file beside a library that was meant for one of its tables, and a folder that is not there.
#[test]
fn what_was_not_read_beside_a_library_is_named() {
    let (_, _, second) = after(|plant| {
        fs::rename(
            plant.path("cell-8/collets.csv"),
            plant.path("cell-8/colets.csv"),
        )
        .unwrap();
    });
    let named = "`plant/cell-8/colets.csv`: is not a table of a library; did you mean";
    assert!(second.comment.contains(named), "{}", second.comment);
}
