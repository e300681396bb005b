//! The short text: what must not be used stands first, then one block a tool.

use super::{HEADER, SHORT, run, run_with_input, status, stdout};

fn demo(options: &[&str]) -> String {
    stdout(&run(&[&["lint", "fixtures/demo"], options].concat()))
}

fn lint(rows: &str, options: &[&str]) -> String {
    let arguments: Vec<&str> = [&["lint", "-"], options].concat();
    stdout(&run_with_input(
        &arguments,
        format!("{HEADER}\n{rows}").as_bytes(),
    ))
}

/// Blocks, each with its lines.
fn blocks(text: &str) -> Vec<Vec<&str>> {
    let mut blocks: Vec<Vec<&str>> = Vec::new();
    let mut is_open = false;
    for line in text.lines() {
        if line.starts_with("  × ") || line.starts_with("  ⚠ ") {
            blocks.push(Vec::new());
            is_open = true;
        }
        if let (true, Some(block)) = (is_open, blocks.last_mut()) {
            block.push(line);
        }
        is_open &= !line.is_empty() && line.trim() != "╰────";
    }
    blocks
}

#[test]
fn what_must_not_be_used_stands_in_the_first_lines() {
    let text = demo(&[]);
    let first: Vec<&str> = text.lines().take(10).collect();
    let first = first.join(" ");
    let start = first.find("do not use as recorded (17): ").expect("a list");
    let end = first.find(" check before use (2): 17, 34").expect("a list");
    let words = first[start..end]
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ");
    let listed = "27, 28, 29 (tp-m6 in line 30), 29 (em20-104 in line 31), 30, 31, 32, 33, 35, 36, 37, 38, 39, 40, 41, 42, 43";
    assert!(words.ends_with(listed), "{words}");
    // Tools that fail are named among those too.
    assert!(first.contains("grip not judged (2): 36, 37"), "{first}");
    // A reach that cannot be read belongs to no tool, and the tool is named all the same.
    assert!(
        first.contains("reach not judged (3): 23, 33, 37"),
        "{first}"
    );
    assert!(
        first.contains("something else not judged (2): 35, 44"),
        "{first}"
    );
}

/// Every tool of the lists has a block, in the order of the numbers; none is long.
#[test]
fn each_has_one_block_that_can_be_read() {
    let text = demo(&[]);
    let blocks = blocks(&text);
    // Faults of no one tool come last, all in one block.
    let (records, tools) = blocks.split_last().expect("blocks");
    assert!(
        records[0].contains("3 faults in records of parts and jobs"),
        "{records:?}"
    );
    let numbers = tools
        .iter()
        .filter_map(|block| block[0].split_once("tool "));
    let numbers = numbers.map(|(_, rest)| {
        let digits = rest.split(|c: char| !c.is_ascii_digit()).next();
        digits.expect("a number").parse::<u32>().expect("a number")
    });
    let numbers: Vec<u32> = numbers.collect();
    let wanted = [
        17, 27, 28, 29, 29, 30, 31, 32, 33, 34, 35, 36, 37, 38, 39, 40, 41, 42, 43,
    ];
    assert_eq!(numbers, wanted);
    for block in tools {
        assert!(block.len() <= 20, "{block:#?}");
        let does = block
            .iter()
            .filter(|line| line.starts_with("  │ do: "))
            .count();
        assert_eq!(does, 1, "{block:#?}");
        let snippets = block.iter().filter(|line| line.contains("╭─[")).count();
        assert_eq!(snippets, 1, "{block:#?}");
    }
    assert!(text.lines().count() <= 220, "{}", text.lines().count());
    for line in text.lines() {
        assert!(line.chars().count() <= 100, "{line}");
    }
}

/// The block of a tool of the demo in one line.
fn block_of(tool: &str) -> String {
    let text = demo(&[]);
    let start = format!("error: tool {tool},");
    let blocks = blocks(&text);
    let block = blocks.iter().find(|block| block[0].contains(&start));
    let words = block.expect("a block").iter();
    let words = words.flat_map(|line| line.split_whitespace());
    words
        .filter(|word| *word != "│")
        .collect::<Vec<_>>()
        .join(" ")
}

/// Whoever follows the steps knows what goes with them, and what is left.
#[test]
fn the_steps_say_what_they_end_and_what_they_leave() {
    for (tool, wanted) in [
        (
            "27",
            "(67.0 to 97.3) (also corrects: too little shank in the collet, 2 more; 2 warnings: --tool 27)",
        ),
        (
            "30",
            "2) nut torque well below the recommended one: tighten to",
        ),
        ("33", "(also corrects: the shank end meets the stop)"),
        ("37", "3) check again"),
        ("41", "the same for k9-41"),
    ] {
        let block = block_of(tool);
        assert!(block.contains(wanted), "{block}");
    }
    // What is judged with another part has nothing to be asked again.
    assert!(!block_of("28").contains("check again"));
}

/// Where the unit of a number is in doubt no part is sought for it.
#[test]
fn no_part_is_sought_for_a_number_in_doubt() {
    let block = block_of("43");
    assert!(
        block.contains("do: measure the shank, and correct shank_diameter or its unit"),
        "{block}"
    );
    assert!(block.contains(", then check again"), "{block}");
    assert!(!block.contains("take a holder"), "{block}");
    let full = demo(&["--tool", "43"]);
    let full = full.split_whitespace().collect::<Vec<_>>().join(" ");
    let wanted =
        "do: correct shank_diameter first (record/looks-like-millimetres), then rerun the check";
    assert!(full.contains(wanted), "{full}");
}

/// A snippet shows first what is to be changed; what an assumption makes a warning is told like
/// an error.
#[test]
fn cells_and_errors_stand_where_they_are_looked_for() {
    assert!(block_of("30").contains("operation d4-35 feed_per_revolution: 1.5"));
    let block = block_of("35");
    let wanted = "warning, as a value is assumed: only 21.2 mm of plain shank gripped";
    assert!(block.contains(wanted), "{block}");
}

/// Cautions stand once, and why, limits and alternatives only in the full text.
#[test]
fn the_rest_is_shown_on_request() {
    let (short, full) = (demo(&[]), demo(&["--full"]));
    for label in ["why: ", "limits: ", "or: "] {
        assert!(!short.contains(&format!("\n  {label}")), "{label}");
        assert!(full.contains(&format!("\n  {label}")), "{label}");
    }
    let cautions = short.split("\ncaution (").skip(1);
    let cautions = cautions.filter_map(|one| one.split_once("): "));
    let mut cautions: Vec<&str> = cautions.map(|(_, words)| words).collect();
    let all = cautions.len();
    assert!(all > 2, "{short}");
    cautions.sort_unstable();
    cautions.dedup();
    assert_eq!(cautions.len(), all);
    assert!(short.contains("(--show note)"));
    assert!(short.contains("(--show not-judged)"));
    assert!(short.contains(
        "\naccepted: tool 34 reach/too-short-for-the-job at 36.0 mm of 42.0 mm, until 2099-12-31"
    ));
}

#[test]
fn the_worst_comes_first_if_asked_for() {
    let blocks_of = |options: &[&str]| {
        let text = demo(options);
        let blocks = blocks(&text);
        blocks
            .iter()
            .map(|block| block[0].contains('×'))
            .collect::<Vec<bool>>()
    };
    let by_number = blocks_of(&[]);
    assert!(!by_number[0], "tool 17 has a warning only");
    let by_severity = blocks_of(&["--sort", "severity"]);
    let errors = by_severity.iter().take_while(|error| **error).count();
    assert!(errors > 10 && by_severity[errors..].iter().all(|error| !error));
}

/// More than five tools that say the same are one block; five are five.
#[test]
fn many_that_say_the_same_share_a_block() {
    let row = SHORT.split_once(',').expect("a number").1;
    let rows = |count: u32| -> String {
        let rows: Vec<String> = (1..=count).map(|at| format!("{at},{row}\n")).collect();
        rows.concat()
    };
    let few = lint(&rows(5), &[]);
    assert_eq!(blocks(&few).len(), 5, "{few}");
    let many = lint(&rows(6), &[]);
    let blocks = blocks(&many);
    assert_eq!(blocks.len(), 1, "{many}");
    assert!(blocks[0][0].contains("6 tools: 1, 2, 3, 4, 5, 6"), "{many}");
}

#[test]
fn lines_are_as_wide_as_the_terminal_within_reason() {
    let widest = |columns: &str| {
        let output = super::program(&["lint", "fixtures/demo"])
            .env("COLUMNS", columns)
            .output()
            .expect("it runs");
        let text = stdout(&output);
        text.lines()
            .map(|line| line.chars().count())
            .max()
            .expect("lines")
    };
    assert!(widest("100") > 90 && widest("100") <= 100);
    assert!(widest("300") <= 100);
    assert!(widest("70") <= 80, "cells are not broken");
}

/// `file:line:column: level: rule: tool 27: message`.
#[test]
fn brief_is_one_clickable_line_a_finding() {
    let output = run(&["lint", "fixtures/demo", "--as", "brief"]);
    assert_eq!(status(&output), 1);
    let text = stdout(&output);
    for line in text.lines() {
        let mut parts = line.splitn(4, ':');
        let file = parts.next().expect("a file");
        assert!(file.starts_with("fixtures/demo/"), "{line}");
        for _ in 0..2 {
            let number = parts.next().expect("a number");
            assert!(number.parse::<u32>().is_ok(), "{line}");
        }
        let rest = parts.next().expect("a level");
        let level = rest.trim_start().split(':').next().expect("a level");
        let levels = ["error", "warning", "note", "not judged", "accepted"];
        assert!(levels.contains(&level), "{line}");
    }
    let wanted = "fixtures/demo/assemblies.csv:28:83: error: grip/short-grip: tool 27: only 21.0 mm of plain shank gripped";
    assert!(text.lines().any(|line| line.starts_with(wanted)), "{text}");
}

/// Read aloud it is sentences: no frames, no words of the renderer.
#[test]
fn plain_reads_well_aloud() {
    let text = demo(&["--as", "plain"]);
    for odd in ["╭", "│", "×", "snippet", "label", "Diagnostic"] {
        assert!(!text.contains(odd), "{odd}");
    }
    let flat = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        flat.contains("in fixtures/demo/assemblies.csv line 28: stick_out is 68"),
        "{flat}"
    );
}
