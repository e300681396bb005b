//! Questions at the terminal.

use std::fs;
use std::io::Write as _;
use std::process::{Command, Output, Stdio};

use tempfile::TempDir;

use super::said;

const EXPORT: &str = "Tool no,Stickout,Shade,Ø\n7,45,blue,12\n8,40,red,10\n9,41,red,8\n";

/// Drafts a library with these answers typed.
fn asked(typed: &str) -> (TempDir, Output) {
    let folder = TempDir::new().unwrap();
    fs::write(folder.path().join("export.csv"), EXPORT).unwrap();
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
