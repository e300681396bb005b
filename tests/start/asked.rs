//! Questions at the terminal.

use std::fs;
use std::io::Write as _;
use std::process::{Command, Output, Stdio};

use tempfile::TempDir;

use super::said;

const EXPORT: &str = "Tool no,Stickout,Shade,Ø\n7,45,blue,12\n8,40,red,10\n9,41,red,8\n";

/// Drafts a library with these answers typed.
fn asked(typed: &str) -> (TempDir, Output) {
    asked_of(EXPORT, typed)
}

/// The same of another export.
fn asked_of(export: &str, typed: &str) -> (TempDir, Output) {
    let folder = TempDir::new().unwrap();
    fs::write(folder.path().join("export.csv"), export).unwrap();
    let mut child = Command::new(env!("CARGO_BIN_EXE_shankwise"))
        .args(["start", "export.csv", "--into", "library", "--ask"])
        .current_dir(folder.path())
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    // A program that has seen enough has closed its end.
    let _ = child.stdin.take().unwrap().write_all(typed.as_bytes());
    (folder, child.wait_with_output().unwrap())
}

#[test]
fn answers_are_numbers_names_or_nothing() {
    // A slip is asked again, 0 leaves a column out, an empty line leaves it open.
    let (folder, output) = asked("1\nstick_uot\nstick_out\n0\n\n");
    let told = said(&output);
    assert_eq!(output.status.code(), Some(0), "{told}");
    assert!(told.contains("did you mean stick_out?"), "{told}");
    let shop = fs::read_to_string(folder.path().join("library/shankwise.toml")).unwrap();
    for line in [
        "\"Tool no\" = \"tool_number\"\n",
        "Stickout = \"stick_out\"\n",
        "Shade = { ignored = true }\n",
        "# \"Ø\" = \"cutting_diameter\"",
    ] {
        assert!(
            shop.contains(line) || shop.contains(&format!("\"{}", line.replacen(" =", "\" =", 1))),
            "{line}: {shop}"
        );
    }
}

#[test]
fn answers_that_end_early_write_nothing() {
    let (folder, output) = asked("1\n");
    assert_eq!(output.status.code(), Some(2));
    assert!(
        said(&output).contains("nothing was written"),
        "{}",
        said(&output)
    );
    assert!(!folder.path().join("library").exists());
}

#[test]
fn words_are_asked_too_and_the_file_is_read() {
    let export = "Tool no,Type,Stickout\n7,Drl,45\n8,SF,40\n9,SF,41\n10,end mill,30\n";
    // Most of a column are words of a list that are not known: SF, then Drl with its proposal.
    let (folder, output) = asked_of(export, "1\n1\nend mil\nend mill\n1\n1\n");
    let told = said(&output);
    assert_eq!(output.status.code(), Some(0), "{told}");
    assert!(told.contains("That is not a word of the list."), "{told}");
    let shop = fs::read_to_string(folder.path().join("library/shankwise.toml")).unwrap();
    let parsed: toml::Table = toml::from_str(&shop).unwrap();
    let values = &parsed["columns"]["Type"]["values"];
    assert_eq!(values["SF"].as_str(), Some("end mill"), "{shop}");
    assert_eq!(values["Drl"].as_str(), Some("drill"), "{shop}");
    assert_eq!(
        parsed["columns"]["Type"]["property"].as_str(),
        Some("cutter_kind")
    );
}

#[test]
fn units_that_only_a_person_sees_and_inches_are_kept() {
    let export = "Tool no,Stickout,Tq ft-lb\n7,1-3/8,100\n8,1/4,90\n9,1/2,80\n";
    // In inches; then the three columns by their first guess.
    let (folder, output) = asked_of(export, "perhaps\ny\n1\n1\n1\n");
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
    let shop = fs::read_to_string(folder.path().join("library/shankwise.toml")).unwrap();
    let parsed: toml::Table = toml::from_str(&shop).unwrap();
    assert_eq!(parsed["units"]["length"].as_str(), Some("in"), "{shop}");
    let torque = &parsed["columns"]["Tq ft-lb"];
    assert_eq!(torque["property"].as_str(), Some("nut_torque"), "{shop}");
    assert_eq!(torque["unit"].as_str(), Some("lbf·ft"), "{shop}");
}
