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
#[cfg(unix)]
fn a_closed_standard_output_is_an_error_of_every_command() {
    let bench = Bench::new();
    let library = bench.library("tools.csv", &[GOOD]);
    let lint: &[&str] = &["lint", &library];
    for arguments in PRINTING.into_iter().chain([lint]) {
        // Only a shell can close it: whoever starts a program from Rust gives it something.
        let closed = |then: &str| {
            let mut shell = std::process::Command::new("sh");
            shell.args(["-c", &format!("\"$@\" {then}"), "sh"]);
            let own = program(arguments);
            shell.arg(own.get_program()).args(own.get_args());
            for (name, value) in own.get_envs() {
                value.map(|value| shell.env(name, value));
            }
            shell.output().unwrap()
        };
        let output = closed(">&-");
        let said = complaint(&output);
        assert_eq!(status(&output), 2, "{arguments:?}: {said}");
        assert!(
            said.contains("cannot write standard output: it is closed"),
            "{arguments:?}: {said}"
        );
        // What goes to the null device is written.
        for null in [">/dev/null", "1<>/dev/null"] {
            assert_eq!(status(&closed(null)), 0, "{arguments:?} {null}");
        }
    }
}

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
