//! Where output goes: standard output, a file, a closed pipe; and that nothing else is written.

use std::fs;
use std::path::PathBuf;
use std::process::Stdio;
use std::time::SystemTime;

use super::{
    Bench, GAP, GOOD, SHORT, complaint, program, run, run_with_input, status, stdout, table,
};

#[test]
fn one_json_object_a_line_in_argument_order() {
    let bench = Bench::new();
    let names = ["c.csv", "a.csv", "b.csv"];
    let paths: Vec<String> = names
        .iter()
        .map(|name| bench.library(name, &[GOOD]))
        .collect();
    let mut arguments = vec!["lint", "--as", "json"];
    arguments.extend(paths.iter().map(String::as_str));
    arguments.push(&paths[0]);
    let text = stdout(&run(&arguments));
    let found: Vec<String> = text
        .lines()
        .map(|line| {
            let object: serde_json::Value = serde_json::from_str(line).expect("one object a line");
            object["library"]["path"].as_str().unwrap().to_owned()
        })
        .collect();
    assert_eq!(found[..3], paths[..]);
    assert_eq!(found[3..], paths[..1]);
    assert!(text.ends_with('\n'));
}

#[test]
fn standard_input() {
    let bench = Bench::new();
    let text = table(&[GOOD, SHORT]);
    let from_file = run(&["lint", "--as", "json", &bench.put("tools.csv", &text)]);
    let from_input = run_with_input(&["lint", "--as", "json", "-"], text.as_bytes());
    assert_eq!(status(&from_input), 1);
    let object = |output| -> serde_json::Value { serde_json::from_str(&stdout(output)).unwrap() };
    let (file, input) = (object(&from_file), object(&from_input));
    assert_eq!(file["summary"], input["summary"]);
    assert_eq!(input["findings"][0]["places"][0]["file"], "standard input");
    assert_eq!(
        file["findings"][0]["fingerprint"],
        input["findings"][0]["fingerprint"]
    );
    let facts = run_with_input(&["facts", "-"], text.as_bytes());
    assert_eq!(status(&facts), 0);
    assert!(stdout(&facts).contains("gripped_length"));
}

/// What `--out` writes is what standard output would have been; nothing else is left behind.
#[test]
fn out_writes_the_whole() {
    let bench = Bench::new();
    let short = bench.library("short.csv", &[SHORT]);
    let out = bench.text_path("report");
    for form in ["text", "plain", "json"] {
        bench.put(
            "report",
            "what was there before, and is longer than nothing",
        );
        let shown = run(&["lint", "--as", form, &short]);
        let output = run(&["lint", "--as", form, "--out", &out, &short]);
        assert_eq!(status(&output), 1, "the verdict's status stays");
        assert_eq!(
            (stdout(&output), complaint(&output)),
            (String::new(), String::new())
        );
        assert_eq!(fs::read_to_string(&out).unwrap(), stdout(&shown));
        assert_eq!(bench.names(), ["report", "short.csv"], "no temporary file");
    }
    let output = run(&["facts", "--out", &out, &short]);
    assert_eq!(status(&output), 0);
    assert!(fs::read_to_string(&out).unwrap().contains("gripped_length"));
}

/// A file that cannot be written: 2, no file, no temporary file.
#[test]
fn out_that_cannot_be_written() {
    let bench = Bench::new();
    let good = bench.library("good.csv", &[GOOD]);
    bench.put("a-file", "x");
    fs::create_dir(bench.path("a-folder")).unwrap();
    for out in ["no-such-folder/report", "a-file/report", "a-folder"] {
        let out = bench.text_path(out);
        for arguments in [
            ["lint", "--out", &out, &good],
            ["facts", "--out", &out, &good],
        ] {
            let output = run(&arguments);
            assert_eq!(status(&output), 2, "{out}");
            assert!(
                complaint(&output).contains("cannot write"),
                "{}",
                complaint(&output)
            );
        }
        assert_eq!(bench.names(), ["a-file", "a-folder", "good.csv"]);
        assert_eq!(fs::read_dir(bench.path("a-folder")).unwrap().count(), 0);
    }
}

/// Where nothing could be judged there is nothing to write: an empty report would look like a
/// clean one, and the last good one stays.
#[test]
fn out_of_a_run_without_library() {
    let bench = Bench::new();
    let absent = bench.text_path("absent.csv");
    let out = bench.text_path("report");
    for command in ["lint", "facts"] {
        let output = run(&[command, "--out", &out, &absent]);
        assert_eq!(status(&output), 2);
        assert_eq!(bench.names(), [""; 0], "{command}");
    }
    bench.put("report", "yesterday's");
    assert_eq!(status(&run(&["lint", "--out", &out, &absent])), 2);
    assert_eq!(fs::read_to_string(&out).unwrap(), "yesterday's");
}

/// Whoever may read the folder may read the report: it is no private file.
#[cfg(unix)]
#[test]
fn out_has_the_permissions_of_any_new_file() {
    use std::os::unix::fs::PermissionsExt as _;
    let bench = Bench::new();
    let good = bench.library("good.csv", &[GOOD]);
    let out = bench.text_path("report");
    assert_eq!(status(&run(&["lint", "--out", &out, &good])), 0);
    let mode = |path: &str| fs::metadata(path).unwrap().permissions().mode() & 0o777;
    assert_eq!(mode(&out), mode(&good), "{:o}", mode(&out));
}

/// Every file of a folder: name, bytes, time of change.
pub(super) fn snapshot(folder: PathBuf) -> Vec<(PathBuf, Vec<u8>, SystemTime)> {
    let mut found = Vec::new();
    let mut folders = vec![folder];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            let node = fs::symlink_metadata(&path).unwrap();
            if node.is_dir() {
                folders.push(path);
                continue;
            }
            let bytes = if node.is_symlink() {
                let target = fs::read_link(&path).unwrap();
                target.as_os_str().as_encoded_bytes().to_vec()
            } else {
                fs::read(&path).unwrap()
            };
            found.push((path, bytes, node.modified().unwrap()));
        }
    }
    found.sort();
    found
}

#[test]
fn the_users_files_are_left_alone() {
    let bench = Bench::new();
    let flat = bench.library("flat.csv", &[GOOD, SHORT, GAP]);
    bench.put("shankwise.toml", "name = \"cell 3\"\n");
    bench.put(
        "folder/assemblies.csv",
        "tool_number,cutter,stick_out\n1,A,40\n",
    );
    bench.put("folder/cutters.csv", "cutter,overall_length\nA,83\n");
    bench.put("folder/shankwise.toml", "rules = [\"rules\"]\n");
    let rule = "title = \"t\"\nlevel = \"note\"\nbasis = \"shop\"\nconsequence = \"scrap\"\nexpect = \"stick_out > 1 mm\"\nmessage = \"m\"\nwhy = \"w\"\nadvice = \"a\"\n";
    bench.put("folder/rules/reach/mine.toml", rule);
    let folder = bench.text_path("folder");
    let before = snapshot(bench.path(""));
    assert_eq!(before.len(), 6);
    for path in [&flat, &folder] {
        for arguments in [
            &["lint", path][..],
            &["lint", "--strict", "--as", "json", "--with-facts", path],
            &["lint", "--as", "plain", "--show", "all", path],
            &["facts", path],
        ] {
            assert!(status(&run(arguments)) < 2, "{arguments:?}");
        }
    }
    assert_eq!(snapshot(bench.path("")), before);
}

/// A reader that has seen enough closes the pipe: the program ends quietly, with its status.
#[test]
fn a_closed_pipe_is_quiet() {
    let bench = Bench::new();
    // Several times what a pipe holds, in each form.
    let rows: Vec<String> = (0..300)
        .map(|tool| SHORT.replacen('2', &format!("T{tool}"), 1))
        .collect();
    let rows: Vec<&str> = rows.iter().map(String::as_str).collect();
    let many = bench.library("many.csv", &rows);
    for (arguments, expected) in [
        (&["lint", &many][..], 1),
        (&["lint", "--as", "json", &many], 1),
        (&["facts", &many], 0),
        (&["rules"], 0),
        (&["columns"], 0),
        (&["--help"], 0),
    ] {
        let mut child = program(arguments)
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        drop(child.stdout.take());
        let output = child.wait_with_output().unwrap();
        assert_eq!(complaint(&output), "", "{arguments:?}");
        assert_eq!(status(&output), expected, "{arguments:?}");
    }
}
