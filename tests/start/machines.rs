//! Lines that name a machine.

use std::fs;

use tempfile::TempDir;

use super::{said, text};
use crate::support::run;

const HEADER: &str = "tool_number,stick_out,shank_length,overall_length,cutting_diameter";

fn start(folder: &TempDir, export: &str, more: &[&str]) -> String {
    let file = folder.path().join("export.csv");
    fs::write(&file, export).unwrap();
    let file = file.display().to_string();
    let output = run(&[&["start", &file], more].concat());
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
    let shown = text(&output);
    shown.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn one_is_offered_and_nothing_rests_on_it() {
    for line in [
        "Machine: VMC-2",
        "Maschine;VMC-2",
        "Shop;;machine name: VMC-2",
    ] {
        let folder = TempDir::new().unwrap();
        let line = line.replace(';', ",");
        let export = format!("{line},,\n{HEADER}\n1,40,45,83,12\n2,41,45,83,12\n");
        let library = folder.path().join("library");
        let into = library.display().to_string();
        let shown = start(&folder, &export, &["--into", &into]);
        assert!(
            shown.contains("names the machine VMC-2:"),
            "{line}: {shown}"
        );
        let shop = fs::read_to_string(library.join("shankwise.toml")).unwrap();
        let drafted = "# [columns.\"machine\"]\n# constant = \"VMC-2\"\n";
        assert!(shop.contains(drafted), "{line}: {shop}");
        let facts = text(&run(&["facts", &into, "--as", "json"]));
        assert!(!facts.contains("\"machine\":\"VMC-2\""), "{facts}");
        // With the # removed it is the machine of every tool.
        let confirmed = shop
            .replace("# [columns.", "[columns.")
            .replace("# constant", "constant");
        fs::write(library.join("shankwise.toml"), confirmed).unwrap();
        let output = run(&["lint", &into]);
        assert!(output.status.code() < Some(2), "{}", said(&output));
    }
}

#[test]
fn several_are_said_and_not_offered() {
    let folder = TempDir::new().unwrap();
    let export =
        format!("{HEADER}\nMachine: VMC-2,,,,\n1,40,45,83,12\nMachine: VMC-3,,,,\n1,41,45,83,12\n");
    let library = folder.path().join("library");
    let into = library.display().to_string();
    let shown = start(&folder, &export, &["--into", &into]);
    assert!(shown.contains("name machines: VMC-2, VMC-3"), "{shown}");
    let shop = fs::read_to_string(library.join("shankwise.toml")).unwrap();
    assert!(!shop.contains("VMC"), "{shop}");
}

#[test]
fn a_column_of_machines_or_another_heading_is_enough() {
    let folder = TempDir::new().unwrap();
    let export = format!(
        "{HEADER},machine\nMachine: VMC-2,,,,,\n1,40,45,83,12,VMC-2\nFacing tools:,,,,,\n2,41,45,83,12,VMC-2\n"
    );
    let shown = start(&folder, &export, &[]);
    assert!(!shown.contains("names the machine"), "{shown}");
    let export = format!("{HEADER}\nMachining: roughing,,,,\n1,40,45,83,12\n");
    let shown = start(&folder, &export, &[]);
    assert!(!shown.contains("names the machine"), "{shown}");
}
