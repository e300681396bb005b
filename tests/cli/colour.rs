//! Who decides on colour, and who is asked first.

use super::{Bench, SHORT, program, status, stdout};

const ESCAPE: char = '\u{1b}';

/// Whether the output of a run into a pipe has colour, with these variables.
fn coloured(arguments: &[&str], variables: &[(&str, &str)]) -> bool {
    let mut command = program(arguments);
    command.env_remove("TERM").envs(variables.iter().copied());
    let output = command.output().unwrap();
    assert!(status(&output) < 2, "{arguments:?}");
    stdout(&output).contains(ESCAPE)
}

/// `--color`, the variables that are set, and whether there is colour.
type Case<'a> = (&'a str, &'a [(&'a str, &'a str)], bool);

#[test]
fn the_first_that_says_something_decides() {
    let bench = Bench::new();
    let library = bench.library("tools.csv", &[SHORT]);
    let cases: &[Case<'_>] = &[
        ("auto", &[], false),
        ("auto", &[("CLICOLOR_FORCE", "1")], true),
        ("auto", &[("FORCE_COLOR", "1")], true),
        ("auto", &[("FORCE_COLOR", "3")], true),
        ("auto", &[("CLICOLOR_FORCE", "0")], false),
        ("auto", &[("FORCE_COLOR", "0")], false),
        ("auto", &[("FORCE_COLOR", "")], false),
        ("auto", &[("FORCE_COLOR", "1"), ("NO_COLOR", "")], true),
        ("auto", &[("FORCE_COLOR", "1"), ("NO_COLOR", "1")], false),
        ("auto", &[("CLICOLOR_FORCE", "1"), ("NO_COLOR", "1")], false),
        ("auto", &[("FORCE_COLOR", "1"), ("TERM", "dumb")], true),
        ("always", &[("NO_COLOR", "1"), ("TERM", "dumb")], true),
        (
            "never",
            &[("FORCE_COLOR", "1"), ("CLICOLOR_FORCE", "1")],
            false,
        ),
    ];
    for (when, variables, expected) in cases {
        for command in [&["lint", &library][..], &["rules"], &["columns"]] {
            let arguments = [command, &["--color", when]].concat();
            let found = coloured(&arguments, variables);
            assert_eq!(found, *expected, "{arguments:?} {variables:?}");
        }
    }
    // Help takes no `--color`, but the variables.
    assert!(coloured(&["--help"], &[("FORCE_COLOR", "1")]));
    assert!(!coloured(&["--help"], &[]));
    assert!(!coloured(
        &["--help"],
        &[("FORCE_COLOR", "1"), ("NO_COLOR", "1")]
    ));
}

/// What is forced for a log is not meant for a report; what the command line says is.
#[test]
fn a_file_has_colour_only_where_it_is_asked_for() {
    let bench = Bench::new();
    let library = bench.library("tools.csv", &[SHORT]);
    let out = bench.text_path("report");
    for (when, expected) in [("auto", false), ("always", true)] {
        let arguments = ["lint", &library, "--out", &out, "--color", when];
        assert!(!coloured(&arguments, &[("FORCE_COLOR", "1")]));
        let report = std::fs::read_to_string(&out).unwrap();
        assert_eq!(report.contains(ESCAPE), expected, "{when}");
    }
}

/// What other programs read has none, whoever forces it.
#[test]
fn data_has_no_colour() {
    for arguments in [
        &["rules", "--as", "json"][..],
        &["rules", "--as", "markdown"],
        &["columns", "--as", "json"],
        &["columns", "cutter", "--template"],
        &["columns", "--xsd"],
        &["completions", "bash"],
        &["man"],
        &["facts", "--list", "--as", "json"],
    ] {
        let arguments = [arguments, &["--color", "always"]].concat();
        assert!(
            !coloured(&arguments, &[("FORCE_COLOR", "1")]),
            "{arguments:?}"
        );
    }
}

/// A terminal gets colour, a dumb one does not.
#[cfg(target_os = "linux")]
#[test]
fn a_terminal_is_asked_last() {
    let on_terminal = |term: &str, variable: &str| {
        let rules = format!("{} rules grip", env!("CARGO_BIN_EXE_shankwise"));
        let mut command = std::process::Command::new("script");
        command.args(["-qec", &rules, "/dev/null"]);
        for name in ["NO_COLOR", "FORCE_COLOR", "CLICOLOR_FORCE"] {
            command.env_remove(name);
        }
        command.env("TERM", term).env(variable, "1");
        let output = command.stdin(std::process::Stdio::null()).output();
        output.map(|output| stdout(&output).contains(ESCAPE))
    };
    let Ok(plain) = on_terminal("xterm", "UNUSED") else {
        super::skipped("no program `script` that makes a terminal");
        return;
    };
    assert!(plain);
    assert!(!on_terminal("dumb", "UNUSED").unwrap());
    assert!(!on_terminal("xterm", "NO_COLOR").unwrap());
    assert!(on_terminal("dumb", "FORCE_COLOR").unwrap());
}

/// Bold yellow, green and cyan vanish on a white ground in many terminals.
#[test]
fn only_colours_are_used_that_are_read_on_any_ground() {
    let mut seen = std::collections::BTreeSet::new();
    for library in ["fixtures/demo", "fixtures/clampings"] {
        let mut command = program(&["lint", library, "--color", "always"]);
        let text = stdout(&command.output().unwrap());
        for piece in text.split("\u{1b}[").skip(1) {
            let (code, _) = piece.split_once('m').expect("nothing but colours");
            seen.extend(code.split(';').map(str::to_owned));
        }
    }
    // Back to plain, bold, underlined; red, magenta.
    let known = ["0", "1", "4", "22", "24", "31", "35", "39"];
    assert!(
        seen.iter().all(|code| known.contains(&code.as_str())),
        "{seen:?}"
    );
    for used in ["1", "4", "31", "35"] {
        assert!(seen.contains(used), "{used} of {seen:?}");
    }
}
