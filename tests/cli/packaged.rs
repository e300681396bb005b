//! What a package of the program carries.

use std::process::Command;

use super::{complaint, stdout};
use crate::support::root;

/// All that is compiled in, and nothing to test it with.
#[test]
fn it_has_what_the_build_needs_and_no_fixtures() {
    let output = Command::new(env!("CARGO"))
        .args(["package", "--list", "--allow-dirty", "--offline"])
        .current_dir(root())
        .output()
        .unwrap();
    let listed = stdout(&output);
    assert!(output.status.success(), "{}", complaint(&output));
    let files: Vec<&str> = listed.lines().collect();
    for file in [
        "Cargo.toml",
        "README.md",
        "LICENSE-MIT",
        "src/main.rs",
        "src/build.rs",
    ] {
        assert!(files.contains(&file), "{file}");
    }
    for (folder, ending) in [
        ("rules", ".toml"),
        ("rules/tables", ".toml"),
        ("tests/evidence", ".toml"),
    ] {
        for entry in std::fs::read_dir(root().join(folder)).unwrap() {
            let name = entry.unwrap().file_name().into_string().unwrap();
            let path = format!("{folder}/{name}");
            assert!(
                !name.ends_with(ending) || files.contains(&path.as_str()),
                "{path}"
            );
        }
    }
    let tests = |file: &&&str| file.starts_with("fixtures/") || file.starts_with("tests/");
    let beside: Vec<&&str> = files.iter().filter(tests).collect();
    let evidence = |file: &&str| {
        let inside = file.strip_prefix("tests/evidence/");
        inside.is_some_and(|name| name.split('.').next_back() == Some("toml"))
    };
    assert!(!beside.is_empty());
    assert!(beside.iter().all(|file| evidence(file)), "{beside:?}");
}
