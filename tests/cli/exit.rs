//! Exit statuses: 0 nothing found that fails, or incomplete without `--strict`; 1 fails, or
//! incomplete with it; 2 could not run, or an input was unreadable.

use serde_json::{Value, json};

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

/// An input that cannot be read: 2, on standard error the file and what is wrong with it. Text has
/// nothing to say; JSON has its object, which nobody takes for a library without findings.
#[test]
fn unreadable_inputs() {
    let bench = Bench::new();
    let cases = [
        (bench.text_path("absent.csv"), "cannot be read"),
        (bench.put("empty.csv", ""), "is empty"),
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
            assert_eq!(stdout(&output).is_empty(), form != "json", "{path}");
            let said = complaint(&output);
            assert!(said.contains(words), "{said}");
        }
        assert_eq!(status(&run(&["facts", path])), 2);
        assert_eq!(stdout(&run(&["facts", path])), "");
        for command in ["lint", "facts"] {
            let object = only(&run(&[command, "--as", "json", path]));
            assert_eq!(
                (&object["input"], &object["status"]),
                (&path.as_str().into(), &"unreadable".into())
            );
            assert_eq!(object["findings"], json!([]));
            for key in ["library", "summary", "assemblies", "fails"] {
                assert_eq!(object[key], Value::Null, "{key}");
            }
            let fault = &object["unreadable"][0];
            assert_eq!(fault["file"], path.as_str());
            assert!(
                fault["message"].as_str().unwrap().contains(words),
                "{fault}"
            );
        }
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

/// The objects of a run, one a line.
fn objects(output: &std::process::Output) -> Vec<Value> {
    let text = stdout(output);
    let lines = text.lines();
    lines
        .map(|line| serde_json::from_str(line).unwrap())
        .collect()
}

fn only(output: &std::process::Output) -> Value {
    let mut all = objects(output);
    assert_eq!(all.len(), 1);
    all.remove(0)
}

/// What a shop file or a document has wrong has its place.
#[test]
fn unreadable_places() {
    let bench = Bench::new();
    bench.library("shop/tools.csv", &[GOOD]);
    let shop = bench.put(
        "shop/shankwise.toml",
        "name = \"cell\"\n[limit]\nmin_grip_fractoin = 1\n",
    );
    let path = bench.text_path("shop/tools.csv");
    let object = only(&run(&["lint", "--as", "json", &path]));
    assert_eq!(object["input"], path.as_str());
    let fault = &object["unreadable"][0];
    assert_eq!(
        (&fault["file"], &fault["line"], &fault["column"]),
        (&shop.as_str().into(), &3.into(), &1.into())
    );
    assert!(fault["message"].as_str().unwrap().contains("did you mean"));
    let document = bench.put(
        "bad.xml",
        "<shankwise xmlns=\"urn:shankwise:library:1\">\n  <collets>\n",
    );
    let object = only(&run(&["lint", "--as", "json", &document]));
    assert_eq!(object["unreadable"][0]["line"], 3);
    let output = run_with_input(&["lint", "--as", "json", "-"], b"");
    assert_eq!(only(&output)["input"], "standard input");
    // A slip in an option is no fault of a file.
    let good = bench.library("good.csv", &[GOOD]);
    let fault = &only(&run(&["lint", "--as", "json", "--only", "grap", &good]))["unreadable"][0];
    assert_eq!(
        (&fault["file"], &fault["line"]),
        (&Value::Null, &Value::Null)
    );
    assert!(fault["message"].as_str().unwrap().contains("`grap`"));
}

/// 2 outranks 1, and all that could be judged is still written: which input fails, and which could
/// not be read, stand in the output.
#[test]
fn unreadable_outranks_fails() {
    let bench = Bench::new();
    let short = bench.library("short.csv", &[SHORT]);
    let absent = bench.text_path("absent.csv");
    for paths in [[&short, &absent], [&absent, &short]] {
        let output = run(&["lint", "--as", "json", paths[0], paths[1]]);
        assert_eq!(status(&output), 2);
        let states: Vec<(Value, Value)> = objects(&output)
            .into_iter()
            .map(|object| (object["status"].clone(), object["fails"].clone()))
            .collect();
        let mut expected = [
            ("read".into(), true.into()),
            ("unreadable".into(), Value::Null),
        ];
        if paths[0] == &absent {
            expected.reverse();
        }
        assert_eq!(states, expected);
        assert!(stdout(&output).contains("grip/short-grip"));
        assert!(complaint(&output).contains("absent.csv"));
        for form in ["text", "plain", "brief"] {
            let output = run(&["lint", "--as", form, paths[0], paths[1]]);
            assert_eq!(status(&output), 2);
            let text = stdout(&output);
            assert!(text.contains("grip/short-grip"), "{form}: {text}");
            let named = text
                .lines()
                .filter(|line| line.contains("absent.csv") && line.contains("not read"));
            assert_eq!(named.count(), 1, "{form}: {text}");
        }
    }
    // Within one library too: a table that is no text, beside assemblies that can be judged.
    bench.put("folder/assemblies.csv", super::table(&[SHORT]));
    bench.put("folder/cutters.csv", b"cutter\n\0");
    let output = run(&["lint", "--as", "json", &bench.text_path("folder")]);
    assert_eq!(status(&output), 2);
    assert!(stdout(&output).contains("grip/short-grip"));
    assert!(complaint(&output).contains("cutters.csv"));
    let object = only(&output);
    assert_eq!(
        (&object["status"], &object["fails"]),
        (&"read in part".into(), &true.into())
    );
    assert_eq!(object["summary"]["verdict"], "fails");
    let fault = &object["unreadable"][0];
    assert!(
        fault["file"].as_str().unwrap().ends_with("cutters.csv"),
        "{fault}"
    );
    let text = stdout(&run(&["lint", &bench.text_path("folder")]));
    assert!(
        text.lines()
            .last()
            .unwrap()
            .starts_with("fails; cutters.csv was not read"),
        "{text}"
    );
    let brief = stdout(&run(&["lint", "--as", "brief", &bench.text_path("folder")]));
    assert!(
        brief
            .lines()
            .next()
            .unwrap()
            .contains("cutters.csv: error: not read: byte 8"),
        "{brief}"
    );
}

/// What fails the run is said of each input, by what is asked for.
#[test]
fn json_says_what_fails() {
    let bench = Bench::new();
    let good = bench.library("good.csv", &[GOOD]);
    let gap = bench.library("gap.csv", &[GOOD, GAP]);
    let noted = bench.library("noted.csv", &[NOTED]);
    for (arguments, expected) in [
        (&["--strict"][..], [false, true, false]),
        (&[], [false, false, false]),
        (&["--fail-on", "note"], [false, false, true]),
        (&["--min-coverage", "90%"], [false, true, false]),
    ] {
        let all = [&["lint", "--as", "json", &good, &gap, &noted], arguments].concat();
        let output = run(&all);
        let fails: Vec<Value> = objects(&output)
            .iter()
            .map(|one| one["fails"].clone())
            .collect();
        assert_eq!(fails, expected.map(Value::from), "{arguments:?}");
        assert_eq!(status(&output), i32::from(expected.contains(&true)));
    }
}
