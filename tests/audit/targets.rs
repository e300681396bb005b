//! Where outputs go: each is whole or as it was, whatever ends the run.

use std::fs;
use std::path::Path;
use std::process::Stdio;
use std::time::Duration;

use super::{HEADER, Plant};

const NAMES: [&str; 4] = ["audit.json", "audit.md", "audit.sarif", "findings.csv"];

fn names(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).unwrap();
    let names = entries.map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned());
    let mut names: Vec<String> = names.collect();
    names.sort();
    names
}

/// All outputs are there, and each is whole.
fn whole(folder: &Path) {
    for name in NAMES {
        let text = fs::read_to_string(folder.join(name)).unwrap();
        match name {
            "audit.md" => assert!(text.contains("a qualified person decides"), "{text}"),
            "findings.csv" => {
                let mut table = csv::Reader::from_reader(text.as_bytes());
                assert!(table.records().all(|row| row.is_ok()), "{name}");
                assert!(text.ends_with('\n'));
            }
            _ => drop(serde_json::from_str::<serde_json::Value>(&text).unwrap()),
        }
    }
}

#[cfg(unix)]
#[test]
fn a_run_that_is_killed_leaves_what_was_there_and_no_litter() {
    let plant = Plant::new();
    let rows: Vec<String> = (1..=400)
        .map(|at| format!("{at},65,83,45,12,12,32,12,40,80"))
        .collect();
    plant.put(
        "cell-1/tools.csv",
        format!("{HEADER}\n{}\n", rows.join("\n")),
    );
    let night = plant.night("out", &[]);
    let arguments = ["plant", "--out", "out", "-q"];
    let begun = std::time::Instant::now();
    plant.run(&arguments);
    let whole_run = begun.elapsed();
    for at in 0..40_u32 {
        let mut child = plant
            .program(&arguments)
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        std::thread::sleep(
            whole_run * (at * 7 % 40) / 36 + Duration::from_micros(u64::from(at) * 97),
        );
        child.kill().unwrap();
        child.wait().unwrap();
        whole(&night.folder);
    }
    plant.run(&arguments);
    assert_eq!(names(&night.folder), NAMES);
}

#[test]
fn a_second_run_at_the_same_time_is_refused() {
    let plant = Plant::new();
    let night = plant.night("out", &[]);
    let folder = fs::File::open(&night.folder).unwrap();
    folder.lock().unwrap();
    let output = plant.run(&["plant", "--out", "out"]);
    assert_eq!(output.status.code(), Some(2));
    let said = String::from_utf8(output.stderr).unwrap();
    assert!(said.contains("another run writes into it"), "{said}");
    drop(folder);
    assert_eq!(plant.run(&["plant", "--out", "out"]).status.code(), Some(1));
    assert_eq!(names(&night.folder), NAMES);
}

#[test]
fn a_target_that_is_no_folder_is_refused() {
    let plant = Plant::new();
    fs::write(plant.0.path().join("file"), "text").unwrap();
    for target in ["file", "file/below", "plant/cell-8"] {
        let output = plant.run(&["plant", "--out", target]);
        assert_eq!(output.status.code(), Some(2), "{target}");
        let said = String::from_utf8(output.stderr).unwrap();
        assert!(said.contains("cannot write"), "{said}");
    }
    assert_eq!(
        fs::read_to_string(plant.0.path().join("file")).unwrap(),
        "text"
    );
    assert!(!plant.path("cell-8/audit.sarif").exists());
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_leaves_what_was_there() {
    let plant = Plant::new();
    let night = plant.night("out", &[]);
    let before: Vec<Vec<u8>> = NAMES
        .iter()
        .map(|name| fs::read(night.folder.join(name)).unwrap())
        .collect();
    plant.edit("cell-1/tools.csv", "12,65,", "12,67,");
    let program = env!("CARGO_BIN_EXE_shankwise");
    // Blocks of 512 or 1,024 bytes: less than the log has.
    let script = format!("trap '' XFSZ; ulimit -f 20; exec {program} audit plant --out out -q");
    let output = std::process::Command::new("sh")
        .args(["-c", &script])
        .current_dir(plant.0.path())
        .output()
        .unwrap();
    assert_eq!(
        output.status.code(),
        Some(2),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    let after: Vec<Vec<u8>> = NAMES
        .iter()
        .map(|name| fs::read(night.folder.join(name)).unwrap())
        .collect();
    assert!(before == after);
    assert_eq!(names(&night.folder), NAMES);
}

#[test]
fn what_cannot_be_compared_with_is_refused_before_anything_is_written() {
    let plant = Plant::new();
    fs::write(plant.0.path().join("other.sarif"), "{\"runs\":[]}").unwrap();
    fs::write(plant.0.path().join("broken.sarif"), "{").unwrap();
    for since in ["nowhere", "other.sarif", "broken.sarif", "plant"] {
        let output = plant.run(&["plant", "--since", since, "--out", "out"]);
        assert_eq!(output.status.code(), Some(2), "{since}");
        let said = String::from_utf8(output.stderr).unwrap();
        assert!(said.contains("cannot compare with"), "{said}");
        assert!(!plant.0.path().join("out/audit.sarif").exists());
    }
}
