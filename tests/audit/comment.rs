//! The comment: read in a minute, whatever has happened, and nothing in it from a library means
//! anything.

use std::fs;

use super::{HEADER, Plant};

#[test]
fn it_has_sixty_lines_at_most_and_names_forty_tools() {
    let plant = Plant::empty();
    let row = |at: usize, out: usize| format!("{at},{out},83,45,12,12,32,12,40,80");
    let put = |cell: usize, out: &dyn Fn(usize) -> usize| {
        let rows: Vec<String> = (1..=12).map(|at| row(cell * 100 + at, out(at))).collect();
        plant.put(
            &format!("cell-{cell:02}/tools.csv"),
            format!("{HEADER}\n{}\n", rows.join("\n")),
        );
    };
    for cell in 1..=20 {
        put(cell, &|at| if at <= 3 { 65 } else { 40 });
    }
    plant.night("first", &[]);
    for cell in 1..=20 {
        // Of each cell one tool is worse and one is cured.
        put(cell, &|at| match at {
            1 => 67,
            3 => 65,
            _ => 40,
        });
    }
    fs::remove_dir_all(plant.path("cell-20")).unwrap();
    let night = plant.night("second", &["--since", "first"]);
    let lines = night.comment.lines().count();
    assert!(lines <= 60, "{lines} lines:\n{}", night.comment);
    for cell in 1..=19 {
        let tool = format!("tool {} 19.0 mm -> 17.0 mm", cell * 100 + 1);
        assert!(night.comment.contains(&tool), "{tool}:\n{}", night.comment);
    }
    for cell in 1..=19 {
        let tool = format!(
            "`cell-{cell:02}/tools.csv` tool {}: too little shank in the collet",
            cell * 100 + 2
        );
        assert!(
            night.comment.contains(&tool),
            "{tool}:
{}",
            night.comment
        );
    }
    assert!(
        night.comment.contains("its library is gone"),
        "{}",
        night.comment
    );
}

#[test]
fn no_text_of_a_library_is_taken_for_a_sign() {
    let plant = Plant::empty();
    plant.put(
        "cell/tools.csv",
        format!("{HEADER},machine\n<b>1|</b>,65,83,45,12,12,32,12,40,80,*a* [b](http://c) `d` \u{1b}[31m\u{202e}\n"),
    );
    plant.night("first", &[]);
    plant.edit("cell/tools.csv", ",65,", ",67,");
    let night = plant.night("second", &["--since", "first"]);
    let line = night
        .comment
        .lines()
        .find(|line| line.contains("19.0 mm -> 17.0 mm"))
        .unwrap();
    assert!(line.contains("\\<b\\>1\\|\\</b\\>"), "{line}");
    assert!(line.contains("\\*a\\* \\[b\\](http://c) \\`d\\`"), "{line}");
    let raw = |c: char| c.is_control() && c != '\n' || c == '\u{202e}';
    assert!(!night.comment.contains(raw), "{:?}", night.comment);
}

#[test]
fn it_is_printed_and_quiet_prints_nothing() {
    let plant = Plant::new();
    let night = plant.night("out", &[]);
    let printed = plant.run(&["plant", "--as-of", "2027-01-31"]);
    assert_eq!(String::from_utf8(printed.stdout).unwrap(), night.comment);
    assert_eq!(printed.status.code(), Some(1));
    let told = String::from_utf8(printed.stderr).unwrap();
    assert!(
        told.starts_with("1 of 10: cell-1/tools.csv: read, 4 tools, "),
        "{told}"
    );
    assert!(told.contains("10 libraries, 35 tools, in "), "{told}");
    let quiet = plant.run(&["plant", "--quiet"]);
    assert_eq!((quiet.stdout.len(), quiet.stderr.len()), (0, 0));
}

/// A tool that left its library was not corrected, and who reads the comment must not think so.
#[test]
fn what_is_gone_with_its_tool_is_told_apart() {
    let plant = Plant::new();
    plant.night("first", &[]);
    plant.edit("cell-1/tools.csv", "12,65,83,45,12,12,32,12,40,80\n", "");
    plant.edit("cell-2/tools.csv", "22,65,", "22,40,");
    // What is known of a library holds under its new name too.
    plant.edit("cell-3/tools.csv", "32,65,83,45,12,12,32,12,40,80\n", "");
    fs::rename(plant.path("cell-3"), plant.path("cell-33")).unwrap();
    let night = plant.night("second", &["--since", "first"]);
    let gone: Vec<&str> = night
        .comment
        .lines()
        .skip_while(|line| !line.starts_with("**Gone: "))
        .take_while(|line| !line.is_empty())
        .collect();
    let gone = gone.join("\n");
    for (library, tool) in [("cell-1/tools.csv", 12), ("cell-3/tools.csv", 32)] {
        let line = format!("`{library}` tool {tool} is not in the library any more");
        assert!(gone.contains(&line), "{line}:\n{gone}");
    }
    assert!(
        gone.contains("`cell-2/tools.csv` tool 22: too little shank in the collet"),
        "{gone}"
    );
    let rows = night.rows.iter().filter(|row| row["state"] == "gone");
    let reasons: std::collections::BTreeSet<(&str, &str)> = rows
        .map(|row| (row["tool_number"].as_str(), row["reason"].as_str()))
        .collect();
    let left = "its tool is not in the library any more";
    let wanted = [("12", left), ("22", "not found any more"), ("32", left)];
    assert!(reasons.into_iter().eq(wanted));
}
