//! `--quiet`, and progress: on a terminal's standard error, and nowhere else.

use std::process::{Command, Stdio};

use super::{Bench, SHORT, complaint, run, status, stdout, table};

#[test]
fn quiet_leaves_the_exit_status_and_the_file() {
    let bench = Bench::new();
    let short = bench.library("short.csv", &[SHORT]);
    let absent = bench.text_path("absent.csv");
    let question = ["window", "--overall-length", "83", "--reach", "35"];
    for arguments in [
        &["lint", &short][..],
        &["lint", "--as", "json", &short],
        &["lint", "--full", &short],
        &["lint", "--as", "brief", &short],
        &["facts", &short],
        &["facts", "--list"],
        &question,
    ] {
        let loud = run(arguments);
        assert!(!stdout(&loud).is_empty(), "{arguments:?}");
        for quiet in ["--quiet", "-q"] {
            let output = run(&[arguments, &[quiet]].concat());
            assert_eq!(status(&output), status(&loud), "{arguments:?}");
            assert_eq!((stdout(&output), complaint(&output)), Default::default());
        }
        let out = bench.text_path("report");
        let output = run(&[arguments, &["--quiet", "--out", &out]].concat());
        assert_eq!((stdout(&output), complaint(&output)), Default::default());
        let report = std::fs::read_to_string(&out).unwrap();
        assert_eq!(report, stdout(&loud), "{arguments:?}");
    }
    // What keeps it from running is still told.
    for wrong in [&["lint", &absent][..], &["lint", "--only", "grp", &short]] {
        let output = run(&[wrong, &["--quiet"]].concat());
        assert_eq!((status(&output), stdout(&output)), (2, String::new()));
        assert!(complaint(&output).starts_with("error: "), "{wrong:?}");
    }
}

/// So many tools that judging them takes a while, in any build.
const TOOLS: usize = 6000;

/// What a terminal shows of a run, whose standard output goes to it or elsewhere.
fn on_terminal(bench: &Bench, arguments: &str, term: &str) -> Option<String> {
    let run = format!("{} {arguments}", env!("CARGO_BIN_EXE_shankwise"));
    let mut command = Command::new("script");
    command.args(["-qec", &run, "/dev/null"]);
    command.current_dir(bench.path("")).env("TERM", term);
    let output = command.stdin(Stdio::null()).output().ok()?;
    Some(String::from_utf8_lossy(&output.stdout).into_owned())
}

#[cfg(target_os = "linux")]
#[test]
fn a_terminal_shows_how_far_long_work_is() {
    let bench = Bench::new();
    let row = |number: usize| SHORT.replacen('2', &number.to_string(), 1);
    let rows: Vec<String> = (1..=TOOLS).map(row).collect();
    let rows: Vec<&str> = rows.iter().map(String::as_str).collect();
    bench.put("tools.csv", table(&rows));
    bench.library("one.csv", &[SHORT]);
    let words = format!("of {} tools", indicated(TOOLS));
    let lint = "lint --only grip --as json tools.csv";
    let Some(shown) = on_terminal(&bench, &format!("{lint} > json"), "xterm") else {
        super::skipped("no program `script` that makes a terminal");
        return;
    };
    assert!(
        shown.contains("judging tools") && shown.contains(&words),
        "{shown}"
    );
    // It is gone at the end.
    let (_, rest) = shown.rsplit_once(" tools").unwrap();
    assert!(rest.contains("\u{1b}[2K"), "{rest:?}");
    for (arguments, term) in [
        (format!("{lint} --quiet"), "xterm"),
        (format!("{lint} > json"), "dumb"),
        (format!("{lint} 2> errors"), "xterm"),
        ("lint one.csv > text".to_owned(), "xterm"),
    ] {
        let shown = on_terminal(&bench, &arguments, term).unwrap();
        assert!(!shown.contains("judging"), "{arguments}: {shown}");
    }
    // What is written to the terminal meanwhile would be torn apart.
    let shown = on_terminal(&bench, lint, "xterm").unwrap();
    assert!(!shown.contains("judging tools ["), "JSON on the terminal");
    let errors = std::fs::read_to_string(bench.path("errors")).unwrap();
    assert_eq!(errors, "");
}

/// A number with a comma between its thousands.
fn indicated(number: usize) -> String {
    format!("{},{:03}", number / 1000, number % 1000)
}
