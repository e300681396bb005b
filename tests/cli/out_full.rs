//! Standard output that takes nothing: no command may end as if it had been read.

use std::fs::OpenOptions;
use std::process::Command;

use super::{Bench, GOOD, complaint, program, status};

/// Every command, with what makes it print.
const PRINTING: [&[&str]; 13] = [
    &["--help"],
    &["--version"],
    &["lint", "--help"],
    &["help", "window"],
    &["rules"],
    &["rules", "grip"],
    &["rules", "--as", "json"],
    &["columns"],
    &["columns", "--xsd"],
    &["facts", "--list"],
    &["completions", "zsh"],
    &["man"],
    &["window", "--bore-length", "40", "--overall-length", "83"],
];

#[test]
fn a_full_device_is_an_error_of_every_command() {
    let bench = Bench::new();
    let library = bench.library("tools.csv", &[GOOD]);
    let lint: &[&str] = &["lint", &library];
    for arguments in PRINTING.into_iter().chain([lint]) {
        let full = OpenOptions::new().write(true).open("/dev/full").unwrap();
        let output = program(arguments).stdout(full).output().unwrap();
        let said = complaint(&output);
        assert_eq!(status(&output), 2, "{arguments:?}: {said}");
        assert!(
            said.contains("cannot write standard output"),
            "{arguments:?}: {said}"
        );
    }
}

/// `>&-`: what was printed went nowhere, and whoever called must learn it.
#[test]
fn a_closed_output_is_an_error_of_every_command() {
    let bench = Bench::new();
    let library = bench.library("tools.csv", &[GOOD]);
    let lint: &[&str] = &["lint", &library];
    let through: &[&str] = &["lint", &library, "--out", "/dev/stdout"];
    for arguments in PRINTING.into_iter().chain([lint, through]) {
        let output = Command::new("sh")
            .args(["-c", "exec \"$0\" \"$@\" >&-"])
            .arg(env!("CARGO_BIN_EXE_shankwise"))
            .args(arguments)
            .output()
            .unwrap();
        let said = complaint(&output);
        assert_eq!(status(&output), 2, "{arguments:?}: {said}");
        assert!(said.contains("cannot write"), "{arguments:?}: {said}");
    }
    // Where nothing goes there, nothing is lost.
    let out = bench.text_path("report");
    let output = Command::new("sh")
        .args(["-c", "exec \"$0\" \"$@\" >&-"])
        .arg(env!("CARGO_BIN_EXE_shankwise"))
        .args(["lint", &library, "--out", &out])
        .output()
        .unwrap();
    assert_eq!((status(&output), complaint(&output)), (0, String::new()));
}

/// A caller who wants only the status opens the null device, often for reading too.
#[test]
fn the_null_device_takes_everything() {
    for reads in [false, true] {
        let mut null = OpenOptions::new();
        let null = null.read(reads).write(true).open("/dev/null").unwrap();
        let output = program(&["rules"]).stdout(null).output().unwrap();
        assert_eq!((status(&output), complaint(&output)), (0, String::new()));
    }
}
