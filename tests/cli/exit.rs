//! Exit statuses: 0 nothing found that fails, or incomplete without `--strict`; 1 fails, or
//! incomplete with it; 2 could not run, or an input was unreadable.

use super::{Bench, GAP, GOOD, NOTED, SHORT, complaint, run, run_with_input, status, stdout};

#[test]
fn by_verdict() {
    let bench = Bench::new();
    let good = bench.library("good.csv", &[GOOD]);
    let short = bench.library("short.csv", &[GOOD, SHORT]);
    let gap = bench.library("gap.csv", &[GOOD, GAP]);
    let both = bench.library("both.csv", &[GAP, SHORT]);
    let cases = [
        (&good, 0, 0, "nothing found"),
        (&short, 1, 1, "fails"),
        (&gap, 0, 1, "incomplete"),
        (&both, 1, 1, "fails"),
    ];
    for (path, plain, strict, verdict) in cases {
        let output = run(&["lint", path]);
        assert_eq!(status(&output), plain, "{path}");
        assert_eq!(complaint(&output), "");
        let text = stdout(&output);
        let last = text.lines().last().unwrap();
        assert!(last.starts_with(verdict), "{last}");
        assert_eq!(status(&run(&["lint", "--strict", path])), strict, "{path}");
    }
    // Of several libraries the worst counts.
    assert_eq!(status(&run(&["lint", &good, &gap])), 0);
    assert_eq!(status(&run(&["lint", &short, &good])), 1);
    assert_eq!(status(&run(&["lint", "--strict", &good, &gap])), 1);
}

/// `--fail-on` names the least level that fails.
#[test]
fn by_level() {
    let bench = Bench::new();
    let noted = bench.library("noted.csv", &[NOTED]);
    let header = super::HEADER.replace("nut_torque", "nut_torqe");
    let warned = bench.put("warned.csv", format!("{header}\n{GOOD}\n"));
    let short = bench.library("short.csv", &[SHORT]);
    let good = bench.library("good.csv", &[GOOD]);
    for (path, error, warning, note) in [
        (&good, 0, 0, 0),
        (&noted, 0, 0, 1),
        (&warned, 0, 1, 1),
        (&short, 1, 1, 1),
    ] {
        assert_eq!(status(&run(&["lint", path])), error, "{path}");
        for (level, expected) in [("error", error), ("warning", warning), ("note", note)] {
            let output = run(&["lint", "--fail-on", level, path]);
            assert_eq!(status(&output), expected, "{path} --fail-on {level}");
        }
    }
}

/// An input that cannot be read: 2, nothing on standard output, and on standard error the file
/// and what is wrong with it.
#[test]
fn unreadable_inputs() {
    let bench = Bench::new();
    let cases = [
        (bench.text_path("absent.csv"), "cannot be read"),
        (
            bench.put("empty.csv", ""),
            "is empty; expected a header line",
        ),
        (bench.put("blank.csv", "\n\n  \n"), "is empty"),
        (
            bench.put("header.csv", format!("{}\n", super::HEADER)),
            "has a header and no record",
        ),
        (
            bench.put("other.csv", "colour,shade\nred,dark\n"),
            "no column of this table is known",
        ),
        (
            bench.put("binary.csv", b"tool_number\n\0\x01\x02"),
            "byte 13 does not occur in a text file",
        ),
    ];
    for (path, words) in &cases {
        for form in ["text", "plain", "json"] {
            let output = run(&["lint", "--as", form, path]);
            assert_eq!(status(&output), 2, "{path}");
            assert_eq!(stdout(&output), "", "{path}");
            let said = complaint(&output);
            assert!(said.contains(words), "{said}");
        }
        assert_eq!(status(&run(&["facts", path])), 2);
        assert_eq!(stdout(&run(&["facts", "--as", "json", path])), "");
    }
    let output = run_with_input(&["lint", "-"], b"");
    assert_eq!((status(&output), stdout(&output)), (2, String::new()));
    assert!(complaint(&output).contains("standard input"));
}

/// One library is one folder with `assemblies.csv`; without it the user is told what to name.
#[test]
fn a_folder_that_is_no_library() {
    let bench = Bench::new();
    bench.library("shop/tools.csv", &[GOOD]);
    let folder = bench.text_path("shop");
    let output = run(&["lint", &folder]);
    assert_eq!((status(&output), stdout(&output)), (2, String::new()));
    let said = complaint(&output);
    assert!(said.contains("has no assemblies.csv"), "{said}");
    assert!(
        said.contains("name the folder of one library, or a file"),
        "{said}"
    );
}

/// 2 outranks 1, and all that could be judged is still written.
#[test]
fn unreadable_outranks_fails() {
    let bench = Bench::new();
    let short = bench.library("short.csv", &[SHORT]);
    let absent = bench.text_path("absent.csv");
    for paths in [[&short, &absent], [&absent, &short]] {
        let output = run(&["lint", "--as", "json", paths[0], paths[1]]);
        assert_eq!(status(&output), 2);
        let text = stdout(&output);
        assert_eq!(text.lines().count(), 1);
        assert!(text.contains("grip/short-grip"));
        assert!(complaint(&output).contains("absent.csv"));
    }
    // Within one library too: a table that is no text, beside assemblies that can be judged.
    bench.put("folder/assemblies.csv", super::table(&[SHORT]));
    bench.put("folder/cutters.csv", b"cutter\n\0");
    let output = run(&["lint", "--as", "json", &bench.text_path("folder")]);
    assert_eq!(status(&output), 2);
    assert!(stdout(&output).contains("grip/short-grip"));
    assert!(complaint(&output).contains("cutters.csv"));
}
