//! What columns are guessed to mean, and that a guess is never applied.

use tempfile::TempDir;

use super::{export, export_of, text};
use crate::support::run;

/// What is said of a column: the lines below its header.
fn guessed(shop: &str, header: &str) -> Vec<String> {
    let said = text(&run(&["start", &export_of(shop)]));
    let start = format!("  \"{header}\"");
    let mut lines = said.lines().skip_while(|line| {
        let rest = line.strip_prefix(&start);
        !rest
            .is_some_and(|rest| rest.is_empty() || rest.starts_with("  ") || rest.starts_with(" ["))
    });
    assert!(lines.next().is_some(), "{header} in {said}");
    let own = lines.take_while(|line| line.starts_with("      "));
    let own = own.filter_map(|line| {
        let line = line.trim_start().trim_start_matches("or ");
        let (name, _) = line.split_once('?').or_else(|| line.split_once(':'))?;
        let is_name = name
            .bytes()
            .all(|byte| byte.is_ascii_lowercase() || byte == b'_');
        is_name.then(|| name.to_owned())
    });
    own.collect()
}

#[test]
fn the_likeliest_meaning_comes_first() {
    for (shop, header, first) in [
        ("jobshop", "WZ", "tool_number"),
        ("jobshop", "Pl.", "pot"),
        ("jobshop", "Ø", "cutting_diameter"),
        ("jobshop", "L (mm)", "overall_length"),
        ("jobshop", "Ø S", "shank_diameter"),
        ("jobshop", "Sch.L", "shank_length"),
        ("jobshop", "AL", "stick_out"),
        ("jobshop", "Zange", "collet"),
        ("jobshop", "Aufn.", "holder"),
        ("jobshop", "Md Nm", "nut_torque"),
        ("jobshop", "T", "reach"),
        ("inch", "T#", "tool_number"),
        ("inch", "Tool", "description"),
        ("inch", "Dia", "cutting_diameter"),
        ("inch", "Shank", "shank_diameter"),
        ("inch", "Shk Lg", "shank_length"),
        ("inch", "OHL", "stick_out"),
        ("inch", "OAL", "overall_length"),
        ("inch", "Depth", "reach"),
        ("dump", "szTlNr", "tool_number"),
        ("dump", "fDs", "shank_diameter"),
        ("dump", "szZg", "collet"),
        ("setup", "T", "tool_number"),
        ("setup", "Ø (1)", "cutting_diameter"),
        ("setup", "Ø (2)", "shank_diameter"),
        ("setup", "OH", "stick_out"),
        ("crib", "LOC", "location"),
        ("crib", "Qty", "quantity"),
        ("crib", "Flutes", "chip_flute_length"),
    ] {
        let guesses = guessed(shop, header);
        assert_eq!(
            guesses.first().map(String::as_str),
            Some(first),
            "{shop} {header}: {guesses:?}"
        );
    }
}

#[test]
fn blank_rows_are_counted() {
    let said = text(&run(&["start", &export_of("jobshop")]));
    assert!(said.contains("5 blank rows"), "{said}");
    let said = text(&run(&["start", &export_of("dump")]));
    assert!(!said.contains("blank row"), "{said}");
}

#[test]
fn what_nobody_can_know_is_open() {
    for (shop, header) in [
        ("jobshop", "Bemerkung"),
        ("jobshop", "vf"),
        ("inch", "IPM"),
        ("inch", "Notes"),
        ("dump", "fGLen"),
        ("dump", "nTlId"),
        ("dump", "fKorrL"),
        ("dump", "created_at"),
        ("setup", "Set on"),
        ("crib", "Price"),
        ("crib", "Min"),
    ] {
        assert_eq!(guessed(shop, header), [""; 0], "{shop} {header}");
    }
}

#[test]
fn a_guess_is_never_applied() {
    let folder = TempDir::new().unwrap();
    let library = folder.path().join("library").display().to_string();
    let export = export("inch", "export.csv");
    let output = run(&["start", &export, "--into", &library]);
    assert_eq!(output.status.code(), Some(0));
    let facts = text(&run(&["lint", &library, "--as", "json"]));
    let linted: serde_json::Value = serde_json::from_str(&facts).unwrap();
    // The number is under `T#`, which is only guessed.
    assert_eq!(linted["summary"]["coverage"]["grip_judged"], 0);
    assert_eq!(linted["summary"]["coverage"]["reach_stated"], 0);
}

/// What a column is to the diameter beside it is a reason, and where nothing else is known a guess.
#[test]
fn radii_and_shanks_are_told_by_the_diameter() {
    let folder = TempDir::new().unwrap();
    let file = folder.path().join("export.csv");
    let export = "tool_number,cutting_diameter,qq,xx,vv,ww\n\
        1,12,6,1,12,3\n2,10,5,0.5,10,3\n3,8 R4,4,,8,4\n4,16,8,1,16,4\n5,6,3,0.2,6,2\n";
    std::fs::write(&file, export).unwrap();
    let said = text(&run(&["start", &file.display().to_string()]));
    let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
    for part in [
        "\"qq\" 6, 5, 4, 8 corner_radius? a radius; half of the cutting diameter in 5 of 5 rows",
        "\"vv\" 12, 10, 8, 16 shank_diameter? diameters; the cutting diameter itself in 5 of 5 rows",
    ] {
        assert!(said.contains(part), "{part}: {said}");
    }
    assert!(!said.contains("\"ww\" 3, 4, 2 corner"), "{said}");
    let export = export
        .replace("cutting_diameter", "Ø")
        .replace(",xx,", ",corner rad,");
    std::fs::write(&file, export).unwrap();
    let said = text(&run(&["start", &file.display().to_string()]));
    let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
    for part in [
        "with a corner radius, as `8 R4`, in 1 row",
        "at most half of the cutting diameter in 4 of 4 rows",
    ] {
        assert!(said.contains(part), "{part}: {said}");
    }
}
