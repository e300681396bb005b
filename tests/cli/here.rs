//! `lint` without a path: the library in the current folder.

use std::process::Output;

use super::{Bench, GOOD, SHORT, complaint, program, status, stdout, table};

fn lint_in(bench: &Bench, folder: &str, more: &[&str]) -> Output {
    let arguments = [&["lint"], more].concat();
    let mut command = program(&arguments);
    command.current_dir(bench.path(folder)).output().unwrap()
}

/// The table of assemblies makes the folder the library, whatever else is there.
#[test]
fn a_folder_of_tables() {
    let bench = Bench::new();
    bench.put("here/assemblies.csv", table(&[SHORT]));
    bench.put("here/cutters.csv", "cutter,overall_length\nA,100\n");
    bench.put("here/other.xml", "<other/>");
    let output = lint_in(&bench, "here", &[]);
    assert_eq!((status(&output), complaint(&output)), (1, String::new()));
    let text = stdout(&output);
    assert!(text.contains("grip/short-grip"), "{text}");
    let named = program(&["lint", "."])
        .current_dir(bench.path("here"))
        .output();
    assert_eq!(text, stdout(&named.unwrap()));
}

/// One file alone is read with its shop file, and gets remedies as if it were named.
#[test]
fn the_only_file() {
    let bench = Bench::new();
    bench.library("here/Tools.CSV", &[SHORT]);
    bench.put("here/notes.txt", "nothing");
    bench.put("here/.hidden.csv", "nothing");
    bench.put("here/deeper/other.csv", "nothing");
    bench.put(
        "here/shankwise.toml",
        "[rule.\"grip/short-grip\"]\nlevel = \"warning\"\n",
    );
    let output = lint_in(
        &bench,
        "here",
        &["--as", "json", "--only", "grip/short-grip"],
    );
    assert_eq!((status(&output), complaint(&output)), (0, String::new()));
    let found = stdout(&output);
    assert!(found.contains("\"path\":\"Tools.CSV\""), "{found}");
    assert!(found.contains("\"level\":\"warning\""), "{found}");
    let text = stdout(&lint_in(&bench, "here", &[]));
    let named = program(&["lint", "Tools.CSV"])
        .current_dir(bench.path("here"))
        .output();
    assert_eq!(text, stdout(&named.unwrap()));
}

/// Nothing is guessed: what was seen is named.
#[test]
fn several_files_or_none() {
    let bench = Bench::new();
    bench.library("several/left.csv", &[GOOD]);
    bench.library("several/right.csv", &[GOOD]);
    bench.put("none/notes.txt", "nothing");
    for number in 0..13 {
        bench.library(&format!("many/t{number:02}.csv"), &[GOOD]);
    }
    bench.library("odd/\u{1b}[31m.csv", &[GOOD]);
    bench.library("odd/plain.csv", &[GOOD]);
    let cases = [
        (
            "several",
            "2 files that may be a library hint: name one: left.csv, right.csv",
        ),
        (
            "none",
            "neither assemblies.csv nor a CSV file, a workbook or an XML document hint: name a library",
        ),
        ("many", "t08.csv, t09.csv and 3 more"),
        ("odd", "plain.csv"),
    ];
    for (folder, words) in cases {
        let output = lint_in(&bench, folder, &[]);
        assert_eq!(
            (status(&output), stdout(&output)),
            (2, String::new()),
            "{folder}"
        );
        let said = complaint(&output);
        assert!(said.contains(words) && !said.contains('\u{1b}'), "{said}");
    }
}

/// What would be read is not written over.
#[test]
fn the_library_here_is_no_place_for_output() {
    let bench = Bench::new();
    bench.library("here/tools.csv", &[SHORT]);
    let output = lint_in(&bench, "here", &["--out", "tools.csv"]);
    assert_eq!(status(&output), 2);
    let left = std::fs::read_to_string(bench.path("here/tools.csv")).unwrap();
    assert_eq!(left, table(&[SHORT]));
}
