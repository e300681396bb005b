//! `--min-coverage`, and when the last line says that the grip was not checked.

use crate::support::run;

const HEADER: &str = "tool_number,stick_out,overall_length,shank_length,shank_diameter,cutting_diameter,collet_size,bore_diameter,bore_length,nut_torque,clamping_kind\n";
const GOOD: &str = "1,40,83,45,12,12,32,12,40,80,taper collet\n";
const GAP: &str = "3,40,83,45,12,12,32,12,,80,taper collet\n";
const UNKNOWN: &str = "4,40,83,45,12,12,,,,,\n";
const ARBOR: &str = "5,40,83,,16,63,,,,,arbor\n";

/// Exit status and last line.
fn lint(rows: &[&str], options: &[&str]) -> (i32, String) {
    let folder = tempfile::TempDir::new().unwrap();
    let path = folder.path().join("tools.csv");
    std::fs::write(&path, format!("{HEADER}{}", rows.concat())).unwrap();
    let path = path.display().to_string();
    let output = run(&[&["lint"], options, &[path.as_str()]].concat());
    let text = String::from_utf8(output.stdout).unwrap();
    let last = text.lines().last().unwrap_or_default().to_owned();
    (output.status.code().unwrap(), last)
}

#[test]
fn a_run_in_which_no_grip_was_judged_fails() {
    for rows in [&[GAP][..], &[UNKNOWN], &[GAP, ARBOR]] {
        let (status, last) = lint(rows, &[]);
        assert_eq!(status, 1, "{last}");
        assert!(
            last.starts_with("grip NOT checked: it was judged on no tool"),
            "{last}"
        );
    }
    // One that was judged is enough, unless more is asked for.
    let (status, last) = lint(&[GOOD, GAP, UNKNOWN], &[]);
    assert_eq!(status, 0, "{last}");
    assert!(last.starts_with("incomplete"), "{last}");
    // An arbor holds no shank: there is no grip to judge.
    let (status, last) = lint(&[ARBOR], &[]);
    assert_eq!(status, 0, "{last}");
    assert!(
        last.starts_with("grip NOT checked: no tool is held"),
        "{last}"
    );
}

/// Whoever leaves the grip out is told so, and does not fail by it.
#[test]
fn a_grip_that_nobody_asked_for() {
    for options in [
        &["--except", "grip"][..],
        &["--only", "torque"],
        &["--except", "grip/short-grip"],
        &["--no-built-in"],
    ] {
        let (status, last) = lint(&[GOOD, GAP], options);
        assert_eq!(status, 0, "{options:?}: {last}");
        assert!(
            last.starts_with("grip NOT checked: "),
            "{options:?}: {last}"
        );
        assert!(last.contains("grip judged on 0 of 2 tools"), "{last}");
    }
    // Another topic left out changes nothing.
    let (_, last) = lint(&[GOOD, GAP], &["--except", "torque"]);
    assert!(last.contains("grip judged on 1 of 2 tools"), "{last}");
}

#[test]
fn a_share_may_be_asked_for() {
    for (share, expected) in [
        ("50%", 0),
        ("0.5", 0),
        ("1/2", 0),
        ("51%", 1),
        ("0.51", 1),
        ("100%", 1),
        ("0", 0),
    ] {
        let (status, last) = lint(&[GOOD, GAP, ARBOR], &["--min-coverage", share]);
        assert_eq!(status, expected, "{share}: {last}");
        assert_eq!(last.contains("asked for"), expected == 1, "{last}");
    }
    // A share is asked for whatever rules are left out; of no tool there is none.
    let left_out = ["--min-coverage", "10%", "--except", "grip"];
    assert_eq!(lint(&[GOOD], &left_out).0, 1);
    assert_eq!(lint(&[ARBOR], &["--min-coverage", "100%"]).0, 0);
    for share in ["90", "101%", "-1%", "x", "1/0", "nan", ""] {
        let (status, _) = lint(&[GOOD], &[&format!("--min-coverage={share}")]);
        assert_eq!(status, 2, "{share}");
    }
}

/// A library that states no reach says so in its last line.
#[test]
fn without_any_reach() {
    let (_, last) = lint(&[GOOD, GAP], &[]);
    assert!(
        last.ends_with("no reach is stated: reach judged on 0 of 2"),
        "{last}"
    );
    let output = run(&["lint", "fixtures/demo"]);
    let text = String::from_utf8(output.stdout).unwrap();
    let last = text.lines().last().unwrap();
    assert!(last.contains("; reach judged on "), "{last}");
    assert!(!last.contains("no reach"), "{last}");
}

/// Of many tools the first are named, and the others counted.
#[test]
fn many_are_counted() {
    let row = |number: u32| format!("{number},40,83,45,12,12,32,12,,80,taper collet\n");
    let rows: Vec<String> = (1..=30).map(row).collect();
    let rows = rows.concat();
    let folder = tempfile::TempDir::new().unwrap();
    let path = folder.path().join("tools.csv");
    std::fs::write(&path, format!("{HEADER}{rows}")).unwrap();
    let output = run(&["lint", "--full", path.to_str().unwrap()]);
    let text = String::from_utf8(output.stdout).unwrap();
    let flat = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(flat.contains("Grip not judged: tools 1, 2, 3,"), "{text}");
    assert!(flat.contains(" 19, 20 and 10 more"), "{text}");
}
