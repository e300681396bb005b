//! Parts of an audit, put together: byte for byte what one run writes.

use std::fs;
use std::path::Path;

use super::Plant;

fn same(a: &Path, b: &Path) {
    for name in [
        "audit.sarif",
        "audit.json",
        "audit.md",
        "findings.csv",
        "junit.xml",
    ] {
        let read = |folder: &Path| fs::read(folder.join(name)).unwrap();
        assert!(read(a) == read(b), "{name} differs");
    }
}

#[test]
fn eight_parts_are_one_audit() {
    let plant = Plant::new();
    plant.night("first", &[]);
    plant.edit("cell-1/tools.csv", "12,65,", "12,67,");
    plant.edit("cell-9/tools.xml", "</assembly>", "");
    fs::rename(plant.path("cell-4"), plant.path("hall-4")).unwrap();
    let whole = plant.night("whole", &["--since", "first", "--junit", "--only-new"]);
    let mut folders = Vec::new();
    for part in 1..=8 {
        let (shard, out) = (format!("{part}/8"), format!("parts/{part}"));
        let output = plant.run(&[
            "plant",
            "--shard",
            &shard,
            "--out",
            &out,
            "--as-of",
            "2027-01-31",
            "-q",
        ]);
        let status = output.status.code().unwrap();
        assert!(
            status == 1 || status == 2,
            "{}",
            String::from_utf8_lossy(&output.stderr)
        );
        folders.push(out);
    }
    let folders: Vec<&str> = folders.iter().map(String::as_str).collect();
    let more = [
        "--merge",
        "--since",
        "first",
        "--out",
        "merged",
        "--junit",
        "--only-new",
        "-q",
    ];
    let output = plant.run(&[&folders, &more[..]].concat());
    assert_eq!(output.status.code(), Some(whole.status));
    same(&whole.folder, &plant.0.path().join("merged"));
    // Parts in one folder are put together as well.
    fs::create_dir(plant.0.path().join("all")).unwrap();
    for (at, folder) in folders.iter().enumerate() {
        let name = format!("audit-{}-of-8.part", at + 1);
        let from = plant.0.path().join(folder).join(&name);
        fs::copy(from, plant.0.path().join("all").join(name)).unwrap();
    }
    plant.run(&[&["all"], &more[..]].concat());
    same(&whole.folder, &plant.0.path().join("merged"));
}

#[test]
fn parts_that_do_not_belong_together_are_refused() {
    let plant = Plant::new();
    let part = |shard: &str, out: &str, day: &str| {
        plant.run(&[
            "plant", "--shard", shard, "--out", out, "--as-of", day, "-q",
        ]);
    };
    let merge = |folders: &[&str]| {
        let output = plant.run(&[folders, &["--merge", "--out", "merged"]].concat());
        assert_eq!(output.status.code(), Some(2));
        assert!(!plant.0.path().join("merged/audit.sarif").exists());
        String::from_utf8(output.stderr).unwrap()
    };
    part("1/2", "a", "2027-01-31");
    part("2/2", "b", "2027-02-01");
    assert!(merge(&["a"]).contains("part 2 of 2 is missing"));
    assert!(merge(&["a", "b"]).contains("are not of one audit"));
    assert!(merge(&["a", "a"]).contains("is there twice"));
    assert!(merge(&["plant"]).contains("there is no part of an audit in plant"));
    fs::write(plant.0.path().join("b/audit-2-of-2.part"), b"x").unwrap();
    assert!(merge(&["a", "b"]).contains("cannot be read"));
    for wrong in ["0/2", "3/2", "1", "a/b", "-1/2"] {
        let output = plant.run(&["plant", &format!("--shard={wrong}"), "--out", "c"]);
        assert_eq!(output.status.code(), Some(2), "{wrong}");
    }
}
