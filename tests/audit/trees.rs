//! What a tree of folders holds: libraries are found, everything else is named with the reason.

use std::fs;

use super::{Plant, rows, table};

/// The files that are no library, with the reason.
fn passed_over(night: &super::Night) -> Vec<String> {
    let list = night.json["passed_over"].as_array().unwrap();
    list.iter()
        .map(|one| {
            format!(
                "{}: {}",
                one["file"].as_str().unwrap(),
                one["reason"].as_str().unwrap()
            )
        })
        .collect()
}

#[test]
fn what_is_no_library_is_named_with_the_reason() {
    let plant = Plant::new();
    plant.put("lists/prices.csv", "name,price\nend mill,1\n");
    plant.put("lists/page.xml", "<page/>");
    plant.put("lists/empty.csv", "");
    plant.put(
        "parts/cutters.csv",
        "cutter,overall_length,shank_diameter\na,83,12\n",
    );
    plant.put("notes.txt", "nothing");
    plant.put(
        "last/findings.csv",
        "run,state,reason,value_before,needed_before,library,tool_number,stick_out,reach\n",
    );
    let night = plant.night("out", &[]);
    assert_eq!(
        passed_over(&night),
        [
            "plant/last/findings.csv: is the table of findings of an audit",
            "plant/lists/empty.csv: is empty",
            "plant/lists/page.xml: is an XML document, and its root element is `page`, not `shankwise`",
            "plant/lists/prices.csv: 0 of its 2 columns are known; a library needs 3, with a tool number or a stick-out among them",
            "plant/parts/cutters.csv: is a table of cutters, and its folder has no assemblies.csv",
        ]
    );
    let seen = &night.json["audit"]["seen"];
    assert_eq!(seen["libraries"], 10);
    assert_eq!(seen["unrecognised"], 5);
    assert_eq!(seen["files"], 20);
}

#[test]
fn the_shops_own_headers_count() {
    let plant = Plant::empty();
    plant.put("cell/export.csv", "T,Projection,Len,Shank\n1,40,83,12\n");
    assert_eq!(
        plant.night("first", &[]).json["audit"]["seen"]["libraries"],
        0
    );
    plant.put(
        "cell/shankwise.toml",
        "[columns]\nT = \"tool_number\"\nProjection = \"stick_out\"\nLen = \"overall_length\"\n",
    );
    assert_eq!(
        plant.night("second", &[]).json["audit"]["seen"]["libraries"],
        1
    );
}

#[test]
fn a_file_names_what_is_not_looked_at() {
    let plant = Plant::new();
    plant.put(
        ".shankwiseignore",
        "cell-1/\n*.bak.csv\n/cell-2/**\n!cell-2/tools.csv\n",
    );
    plant.put("cell-3/old.bak.csv", table(&rows(500)));
    plant.put("cell-4/.shankwiseignore", "tools.csv\n");
    plant.put("cell-5/.hidden/tools.csv", table(&rows(500)));
    let night = plant.night("out", &[]);
    let keys: Vec<&str> = night.json["libraries"]
        .as_array()
        .unwrap()
        .iter()
        .map(|one| one["key"].as_str().unwrap())
        .collect();
    assert!(
        !keys
            .iter()
            .any(|key| key.starts_with("cell-1/") || key.starts_with("cell-4/"))
    );
    assert!(keys.contains(&"cell-2/tools.csv") && keys.contains(&"cell-3/tools.csv"));
    assert_eq!(keys.len(), 8);
    // Two files of patterns, the hidden folder, cell-1, the copy, and the table of cell-4.
    assert_eq!(night.json["audit"]["seen"]["ignored"], 6);
}

#[cfg(unix)]
#[test]
fn links_are_followed_once() {
    use std::os::unix::fs::symlink;
    let plant = Plant::new();
    symlink(plant.path(""), plant.path("cell-1/loop")).unwrap();
    symlink(plant.path("cell-2"), plant.path("again")).unwrap();
    symlink(plant.path("nowhere"), plant.path("broken.csv")).unwrap();
    let outside = plant.0.path().join("outside");
    fs::create_dir(&outside).unwrap();
    fs::write(outside.join("tools.csv"), table(&rows(700))).unwrap();
    symlink(&outside, plant.path("zone")).unwrap();
    let night = plant.night("out", &[]);
    let libraries = night.json["libraries"].as_array().unwrap();
    let keys: Vec<&str> = libraries
        .iter()
        .map(|one| one["key"].as_str().unwrap())
        .collect();
    assert_eq!(keys.len(), 11, "{keys:?}");
    assert!(keys.contains(&"zone/tools.csv"));
    let told = passed_over(&night);
    assert_eq!(told.len(), 2, "{told:?}");
    assert!(
        told.iter()
            .all(|one| one.contains("is a link to what was looked at"))
    );
    let unreadable = night.json["unreadable"].as_array().unwrap();
    assert!(
        unreadable[0]["reason"]
            .as_str()
            .unwrap()
            .contains("leads nowhere")
    );
    assert_eq!(night.status, 2);
}

#[test]
fn many_foreign_files_are_passed_by() {
    let plant = Plant::new();
    for at in 0..3000 {
        plant.put(&format!("drawings/{}/part-{at}.dxf", at % 30), "0\n");
    }
    let night = plant.night("out", &[]);
    assert_eq!(night.json["audit"]["seen"]["files"], 3000 + 14);
    assert_eq!(night.json["audit"]["seen"]["libraries"], 10);
}

#[test]
fn a_root_may_be_a_library_and_there_may_be_several() {
    let plant = Plant::new();
    let night = |out: &str, roots: &[&str]| {
        let more = ["--out", out, "-q", "--as-of", "2027-01-31"];
        let output = plant.run(&[roots, &more].concat());
        super::Night::read(&plant.0.path().join(out), &output)
    };
    let keys = |night: &super::Night| -> Vec<String> {
        let libraries = night.json["libraries"].as_array().unwrap().iter();
        libraries
            .map(|one| one["key"].as_str().unwrap().to_owned())
            .collect()
    };
    assert_eq!(keys(&night("a", &["plant/cell-8"])), ["plant/cell-8"]);
    assert_eq!(
        keys(&night("b", &["plant/cell-1/tools.csv"])),
        ["plant/cell-1/tools.csv"]
    );
    assert_eq!(
        keys(&night("c", &["plant/cell-1", "plant/cell-2"])),
        ["plant/cell-1/tools.csv", "plant/cell-2/tools.csv"]
    );
    let missing = night("d", &["plant/cell-1", "nowhere"]);
    assert_eq!(missing.status, 2);
    assert_eq!(keys(&missing), ["plant/cell-1/tools.csv"]);
}
