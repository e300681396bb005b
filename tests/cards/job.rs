//! The tools that a job names.

use super::{Cell, HEADER, SOUND, printed, told, with};

fn cell(job: &str) -> Cell {
    let rows: Vec<String> = ["7", "8", "T12", "a#3"]
        .iter()
        .map(|number| with(SOUND, &[("tool_number", number)]))
        .collect();
    let library = format!("{HEADER}\n{}\n", rows.join("\n"));
    Cell::new(&[("lib.csv", &library), ("job.txt", job)])
}

/// The tools of a job's sheet, and the exit status.
fn tools(job: &str) -> (Vec<String>, Option<i32>) {
    let cell = cell(job);
    let output = cell.run(&["cards", "lib.csv", "--job", "job.txt", "--as", "text"]);
    let text = printed(&output);
    let lines = text.lines().filter(|line| line.contains("40.0 mm"));
    let tools = lines.map(|line| line.split(' ').next().unwrap().to_owned());
    (tools.collect(), output.status.code())
}

fn names(job: &str) -> Vec<String> {
    let (tools, status) = tools(job);
    assert_eq!(status, Some(0), "{job}");
    tools
}

#[test]
fn a_list_has_one_number_a_line() {
    assert_eq!(names("8\n7\n"), ["7", "8"]);
    assert_eq!(
        names("# job 4711\n\n  8  \r\nT12 # the roughing cutter\n8\n"),
        ["8", "T12"]
    );
    // A sign within a number begins no remark.
    assert_eq!(names("a#3\n"), ["a#3"]);
    assert_eq!(names("\u{feff}7"), ["7"]);
}

#[test]
fn a_table_has_a_column_of_numbers() {
    assert_eq!(names("tool_number,reach\n8,20\n7,10\n"), ["7", "8"]);
    assert_eq!(names("reach;Tool Number\n20;\"8\"\n;\n"), ["8"]);
    assert_eq!(names("tool_number\n8\n"), ["8"]);
    // Titles, a second header and totals name no tool, as in a library.
    let sheet = "Job 4711; cell 3\ntool_number;reach;clearance\n8;20;2\ntool_number;reach;clearance\n7;10;2\nTotal;;\n";
    assert_eq!(names(sheet), ["7", "8"]);
}

#[test]
fn a_number_that_is_not_there_is_named() {
    let (tools, status) = tools("7\n99\n");
    assert_eq!((tools, status), (vec!["7".to_owned()], Some(1)));
    let cell = cell("99");
    let output = cell.run(&[
        "cards", "lib.csv", "--job", "job.txt", "--tool", "7", "--as", "text",
    ]);
    assert!(printed(&output).contains("Not in the library: 99\n"));
    assert!(printed(&output).contains("1 tool: 1 without a stamp"));
}

#[test]
fn what_names_no_tool_is_refused() {
    for (job, said) in [
        ("", "names no tool"),
        ("# nothing\n\n", "names no tool"),
        ("tool_number,reach\n,20\n", "names no tool"),
        ("T,depth\n7,10\n", "none of them is tool_number"),
    ] {
        let cell = cell(job);
        let output = cell.run(&["cards", "lib.csv", "--job", "job.txt", "--as", "text"]);
        assert_eq!(output.status.code(), Some(2), "{job}");
        assert!(told(&output).contains(said), "{job}: {}", told(&output));
        assert_eq!(printed(&output), "");
    }
    let output = cell("7").run(&["cards", "lib.csv", "--job", "none.txt", "--out", "c.html"]);
    assert_eq!(output.status.code(), Some(2));
    // The job itself is never written over.
    let cell = cell("7\n");
    let over = [
        "cards", "lib.csv", "--job", "job.txt", "--as", "text", "--out", "job.txt",
    ];
    assert_eq!(cell.run(&over).status.code(), Some(2));
    assert_eq!(
        std::fs::read_to_string(cell.0.path().join("job.txt")).unwrap(),
        "7\n"
    );
}
