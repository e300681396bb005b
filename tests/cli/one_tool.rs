//! `--tool`: what is shown of one tool, and how the run ends.

use super::{Bench, GAP, GOOD, NOTED, SHORT, complaint, run, status, stdout};

/// Which records are a tool's is no question of lines: a document may be one.
#[test]
fn a_document_of_one_line_shows_each_tool_its_own() {
    let cutter = |id: &str, length: &str| {
        format!(
            "<cutter id=\"{id}\"><kind>end mill</kind><overall-length>{length}</overall-length></cutter>"
        )
    };
    let assembly = |number: &str, cutter: &str| {
        format!(
            "<assembly tool-number=\"{number}\" cutter=\"{cutter}\"><stick-out>40</stick-out></assembly>"
        )
    };
    let cutters = cutter("A", "83x") + &cutter("B", "92y") + &cutter("C", "100");
    let assemblies = assembly("1", "A") + &assembly("2", "B") + &assembly("3", "C");
    let bench = Bench::new();
    let path = bench.put(
        "tools.xml",
        format!("<shankwise xmlns=\"urn:shankwise:library:1\" units=\"mm\"><cutters>{cutters}</cutters><spares/><assemblies>{assemblies}</assemblies></shankwise>"),
    );
    for (number, own) in [("1", "83x"), ("2", "92y"), ("3", "")] {
        let text = stdout(&run(&["lint", &path, "--tool", number]));
        assert!(!text.contains("spares"), "a section is no tool's: {text}");
        for cell in ["83x", "92y"] {
            assert_eq!(text.contains(cell), cell == own, "tool {number}: {text}");
        }
    }
    let both = stdout(&run(&["lint", &path, "--tool", "1,2"]));
    assert!(both.contains("83x") && both.contains("92y"), "{both}");
}

/// Whoever asks for one tool is told of that tool, by the exit status too.
#[test]
fn the_exit_status_is_that_of_the_tools_that_are_shown() {
    let bench = Bench::new();
    let path = bench.library("tools.csv", &[GOOD, SHORT, GAP, NOTED]);
    for (arguments, expected) in [
        (&["--tool", "1"][..], 0),
        (&["--tool", "2"], 1),
        (&["--tool", "4"], 0),
        (&["--tool", "4,2"], 1),
        (&["--tool", "4", "--fail-on", "note"], 1),
        (&["--tool", "3", "--min-coverage", "0"], 0),
        (&["--tool", "3", "--min-coverage", "0", "--strict"], 1),
        (&["--tool", "1", "--strict"], 0),
        // Of the one tool that is held by a shank the grip could not be judged.
        (&["--tool", "3"], 1),
        (&["--tool", "1,3", "--min-coverage", "100%"], 1),
        (&["--tool", "1,4", "--min-coverage", "100%"], 0),
        (&[], 1),
    ] {
        let mut all = vec!["lint", &path];
        all.extend(arguments);
        let output = run(&all);
        assert_eq!(
            status(&output),
            expected,
            "{arguments:?}: {}",
            stdout(&output)
        );
        let json = run(&[&all[..], &["--as", "json"]].concat());
        assert_eq!(status(&json), expected, "{arguments:?}");
    }
    let text = stdout(&run(&["lint", &path, "--tool", "4"]));
    let words = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        words.contains("Only tool 4 is shown; counts and verdict are those of the whole library, the exit status is that of tool 4."),
        "{text}"
    );
}

/// A number that no tool has is an error which names those that were meant.
#[test]
fn a_tool_that_there_is_not() {
    let bench = Bench::new();
    let row = |number: &str| SHORT.replacen('2', number, 1);
    let numbers = ["7", "12", "44", "45", "0060", "T8", "T90", "ROUGH-1"];
    let rows = numbers.map(row);
    let rows: Vec<&str> = rows.iter().map(String::as_str).collect();
    let path = bench.library("tools.csv", &rows);
    for (asked, hint) in [
        ("999", "the nearest are `T90`, `0060` and `45`"),
        ("46", "the nearest are `45`, `44` and `0060`"),
        ("60", "did you mean `0060`?"),
        ("8", "did you mean `T8`?"),
        ("rough1", "did you mean `ROUGH-1`?"),
        (
            "boring head",
            "there are `0060`, `12`, `44`, `45`, `7`, `ROUGH-1`, `T8` and `T90`",
        ),
    ] {
        let output = run(&["lint", &path, "--tool", asked]);
        let told = complaint(&output);
        assert_eq!(status(&output), 2);
        assert!(
            told.contains(&format!(
                "no assembly has the tool number `{asked}` hint: {hint}"
            )),
            "{told}"
        );
        assert_eq!(stdout(&output), "", "there is nothing to show");
    }
    // Each library shows what it has.
    let other = bench.library("other.csv", &[GOOD]);
    let output = run(&["lint", &path, &other, "--tool", "1,44"]);
    assert_eq!(status(&output), 1);
    let output = run(&["lint", &path, &other, "--tool", "1"]);
    assert_eq!((status(&output), complaint(&output)), (0, String::new()));
    assert!(
        !stdout(&output).contains("Only tool  is"),
        "{}",
        stdout(&output)
    );
    assert_eq!(stdout(&output).matches("Only tool").count(), 1);
}

/// A cell is shown as a spreadsheet shows it: a quotation mark once, though the file has it twice.
#[test]
fn an_inch_mark_in_quotes_stands_once() {
    let bench = Bench::new();
    let path = bench.put(
        "tools.csv",
        "tool_number,stick_out,overall_length,shank_length,shank_diameter,bore_diameter,bore_length\n2,\"2 1/2\"\"\",\"3 1/4\"\" \",\"1 3/4\"\"\",\"1/2\"\"\",\"1/2\"\"\",\"1 5/8\"\"\"\n",
    );
    for form in ["text", "plain", "json"] {
        let text = stdout(&run(&["lint", &path, "--as", form]));
        let marked = if form == "json" {
            "2 1/2\\\"\""
        } else {
            "2 1/2\""
        };
        assert!(text.contains(marked), "{text}");
        assert!(!text.contains("2\"\""), "{text}");
        assert!(!text.contains("\\\"\\\""), "{text}");
    }
}
