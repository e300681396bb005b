//! The same inputs make the same bytes, whatever the machine does.

use std::fs;
use std::path::Path;

use super::{HEADER, Plant};

/// All files of a folder, by name.
fn files(folder: &Path) -> Vec<(String, Vec<u8>)> {
    let mut files: Vec<(String, Vec<u8>)> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap())
        .map(|entry| {
            let name = entry.file_name().to_string_lossy().into_owned();
            (name, fs::read(entry.path()).unwrap())
        })
        .collect();
    files.sort();
    files
}

#[test]
fn threads_leave_no_mark() {
    let plant = Plant::new();
    plant.night("first", &[]);
    plant.edit("cell-1/tools.csv", "12,65,", "12,67,");
    fs::rename(plant.path("cell-4"), plant.path("hall-4")).unwrap();
    let out = |threads: &str| {
        let name = format!("out-{threads}");
        let output = plant
            .program(&["plant", "--since", "first", "--out", &name, "--junit", "-q"])
            .args(["--as-of", "2027-01-31"])
            .env("RAYON_NUM_THREADS", threads)
            .output()
            .unwrap();
        assert_eq!(output.status.code(), Some(1));
        files(&plant.0.path().join(name))
    };
    let one = out("1");
    let names: Vec<&str> = one.iter().map(|(name, _)| name.as_str()).collect();
    assert_eq!(
        names,
        [
            "audit.json",
            "audit.md",
            "audit.sarif",
            "findings.csv",
            "junit.xml"
        ]
    );
    assert!(out("2") == one && out("8") == one);
}

#[test]
fn the_order_in_which_a_folder_lists_its_files_leaves_no_mark() {
    let plant = Plant::new();
    let first = plant.night("first", &[]);
    // The same tree, made in another order.
    let other = Plant::empty();
    let mut paths: Vec<_> = walk(&plant.path(""));
    paths.reverse();
    for path in paths {
        let name = path.strip_prefix(plant.path("")).unwrap();
        other.put(&name.to_string_lossy(), fs::read(&path).unwrap());
    }
    let second = other.night("first", &[]);
    assert!(files(&first.folder) == files(&second.folder));
}

fn walk(folder: &Path) -> Vec<std::path::PathBuf> {
    let entries = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path());
    entries
        .flat_map(|path| {
            if path.is_dir() {
                walk(&path)
            } else {
                vec![path]
            }
        })
        .collect()
}

#[test]
fn no_path_is_written_that_nobody_typed() {
    let plant = Plant::new();
    plant.put("cell-1/cutters.csv", "cutter\n");
    let night = plant.night("first", &[]);
    let typed = plant.0.path().to_string_lossy().into_owned();
    for (name, bytes) in files(&night.folder) {
        let text = String::from_utf8(bytes).unwrap();
        assert!(!text.contains(&typed), "{name}");
    }
}

#[test]
fn the_id_tells_what_decides() {
    let plant = Plant::new();
    let id = |out: &str, more: &[&str]| plant.night(out, more).json["audit"]["id"].clone();
    let own = id("a", &[]);
    assert_eq!(id("b", &[]), own);
    for (at, more) in [
        &["--as-of", "2027-02-01"][..],
        &["--only", "grip"],
        &["--no-strict"],
        &["--fail-on", "warning"],
    ]
    .iter()
    .enumerate()
    {
        assert_ne!(id(&format!("c{at}"), more), own, "{more:?}");
    }
    plant.put(
        "cell-2/shankwise.toml",
        "[limit]\nmin_grip_fraction = \"3/4\"\n",
    );
    let with_limit = id("d", &[]);
    assert_ne!(with_limit, own);
    // What the file says is the same.
    plant.put(
        "cell-2/shankwise.toml",
        "# three quarters\n[limit]\nmin_grip_fraction = \"3/4\"\n",
    );
    assert_eq!(id("e", &[]), with_limit);
    plant.put(
        "cell-2/tools.csv",
        format!("{HEADER}\n1,40,83,45,12,12,32,12,40,80\n"),
    );
    assert_ne!(id("f", &[]), with_limit);
}
