//! Standard output that takes nothing: no command may end as if it had been read.

use std::fs::OpenOptions;

use super::{Bench, GOOD, complaint, program, status};

/// Every command, with what makes it print.
const PRINTING: [&[&str]; 14] = [
    &["--help"],
    &["--version"],
    &["lint", "--help"],
    &["help", "window"],
    &["rules"],
    &["rules", "grip"],
    &["rules", "--as", "json"],
    &["columns"],
    &["columns", "--xsd"],
    &["schema", "shop"],
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
