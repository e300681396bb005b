//! A fault that every row repeats: counted wholly, written out a thousand times, and no more.

use super::{HEADER, Plant};

const ROWS: usize = 1500;

fn plant() -> Plant {
    let plant = Plant::empty();
    let rows: Vec<String> = (1..=ROWS)
        .map(|at| format!("{at},65,83,45,12,12,32,12,40,80"))
        .collect();
    plant.put("many/tools.csv", format!("{HEADER}\n{}\n", rows.join("\n")));
    plant.put(
        "few/tools.csv",
        format!("{HEADER}\n1,65,83,45,12,12,32,12,40,80\n"),
    );
    plant
}

#[test]
fn the_table_has_all_and_the_others_say_how_many_there_are() {
    let plant = plant();
    let night = plant.night("out", &["--junit"]);
    let short = |row: &&std::collections::BTreeMap<String, String>| {
        row["rule"] == "grip/short-grip" && row["library"] == "many/tools.csv"
    };
    assert_eq!(night.rows.iter().filter(short).count(), ROWS);
    let run = &night.log["runs"][0];
    let results = run["results"].as_array().unwrap();
    let own = results.iter().filter(|one| {
        one["ruleId"] == "grip/short-grip" && one["properties"]["library"] == "many/tools.csv"
    });
    assert_eq!(own.count(), 1000);
    let notices = run["invocations"][0]["toolExecutionNotifications"]
        .as_array()
        .unwrap();
    let told = notices.iter().any(|notice| {
        let text = notice["message"]["text"].as_str().unwrap();
        text.contains("1500 results of grip/short-grip")
    });
    assert!(told, "{notices:?}");
    let libraries = night.json["libraries"].as_array().unwrap();
    let many = libraries
        .iter()
        .find(|one| one["key"] == "many/tools.csv")
        .unwrap();
    assert_eq!(many["left_out"]["grip/short-grip"], ROWS);
    assert_eq!(many["sheets"].as_array().unwrap().len(), 1000);
    assert_eq!(many["summary"]["assemblies"]["fails"], ROWS);
    let few = libraries
        .iter()
        .find(|one| one["key"] == "few/tools.csv")
        .unwrap();
    assert!(few["left_out"].as_object().unwrap().is_empty());
    assert_eq!(few["sheets"].as_array().unwrap().len(), 1);
    assert!(
        night.comment.contains(&format!("| {} |", ROWS + 1)),
        "{}",
        night.comment
    );
}

#[test]
fn what_is_beyond_is_compared_all_the_same() {
    let plant = plant();
    plant.night("first", &[]);
    let second = plant.night("second", &["--since", "first", "--only-new"]);
    assert_eq!(second.status, 0);
    assert!(second.states().into_keys().eq(["same"]));
    // With the log alone nobody knows, so that it is not called new.
    let log = plant.night("third", &["--since", "first/audit.sarif", "--only-new"]);
    assert_eq!(log.status, 0);
    std::fs::remove_file(first_table(&plant)).unwrap();
    let log = plant.night("fourth", &["--since", "first/audit.sarif", "--only-new"]);
    assert_eq!(log.status, 0, "{}", log.comment);
    assert!(log.of("new").is_empty());
}

fn first_table(plant: &Plant) -> std::path::PathBuf {
    plant.0.path().join("first/findings.csv")
}
