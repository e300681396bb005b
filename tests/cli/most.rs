//! Text stays short, and nothing of a large library is held in memory: what is left out is counted.

use super::{HEADER, run_with_input, stdout};

/// A library of so many tools, each like `row`, whose number comes first.
fn of(count: usize, row: &str) -> String {
    let rows: Vec<String> = (1..=count)
        .map(|number| format!("{number},{row}\n"))
        .collect();
    format!("{HEADER}\n{}", rows.concat())
}

const SHORT: &str = "65,83,45,12,12,32,12,40,80";
const GAP: &str = "40,83,45,12,12,32,12,,80";

fn lint(library: &str, options: &[&str]) -> String {
    let arguments: Vec<&str> = [&["lint", "-"], options].concat();
    stdout(&run_with_input(&arguments, library.as_bytes()))
}

/// On one line, without the folds.
fn joined(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn blocks(text: &str) -> usize {
    text.matches("error grip/short-grip").count()
}

#[test]
fn text_stops_at_two_hundred_blocks_and_counts_the_rest() {
    let library = of(230, SHORT);
    let text = lint(&library, &["--full"]);
    assert_eq!(blocks(&text), 200);
    let text = joined(&text);
    assert!(text.contains("30 more blocks are not shown (grip/short-grip 30); --most 0 shows all"));
    assert!(text.contains(": 230 errors,"));
    let all = lint(&library, &["--full", "--most", "0"]);
    assert_eq!(blocks(&all), 230);
    assert!(!all.contains("more blocks"));
    let few = lint(&library, &["--full", "--most", "3"]);
    assert_eq!(blocks(&few), 3);
    assert!(joined(&few).contains("227 more blocks are not shown"));
}

/// The worst stay, wherever in the library they stand.
#[test]
fn what_is_left_out_is_never_worse_than_what_is_shown() {
    // Tools with a note or a warning first; the one error is the last of the library.
    let sound = "40,83,45,12,12,32,12,40,300";
    let library = of(20, sound) + "21," + SHORT + "\n";
    for form in [&["--full", "--most", "1"][..], &["--most", "1"]] {
        let few = lint(&library, form);
        assert!(few.contains("tool 21"), "{few}");
        assert_eq!(few.matches("× ").count(), 1, "{few}");
    }
}

#[test]
fn records_that_lack_values_are_counted_too() {
    let library = of(250, GAP);
    let text = joined(&lint(&library, &["--full"]));
    let shown = text.matches(": collet.bore_length not stated").count();
    assert_eq!(shown, 200);
    assert!(text.contains("50 more records are not shown ("));
    assert!(text.contains("grip/short-grip 50"));
    let all = joined(&lint(&library, &["--full", "--most", "0"]));
    assert_eq!(all.matches(": collet.bore_length not stated").count(), 250);
}

/// Notes that say the same are one line, which lists no more tools than that either.
#[test]
fn a_list_of_tools_ends_with_how_many_there_are_besides() {
    let noted = "40,83,45,12,12,32,12,40,";
    let library = of(230, noted);
    let text = joined(&lint(&library, &["--show", "note"]));
    assert!(text.contains("199, 200 and 30 more: "));
    let all = joined(&lint(&library, &["--show", "note", "--most", "0"]));
    assert!(all.contains("229, 230: "));
}

/// JSON leaves nothing out: findings in the order of the assemblies, and of one assembly by rule.
#[test]
fn json_has_all_findings_in_the_order_of_the_library() {
    let library = of(600, SHORT) + "601," + GAP + "\n";
    let json = lint(&library, &["--as", "json", "--with-facts"]);
    let json: serde_json::Value = serde_json::from_str(&json).expect("it is JSON");
    let findings = json["findings"].as_array().expect("a list");
    let keys: Vec<(usize, &str)> = findings
        .iter()
        .filter_map(|finding| {
            let tool = finding["tool_number"].as_str()?.parse().ok()?;
            Some((tool, finding["rule"].as_str()?))
        })
        .collect();
    assert!(keys.len() > 600 && keys.is_sorted(), "{}", keys.len());
    assert_eq!(json["summary"]["error"], 600);
    let facts = json["assemblies"].as_array().expect("a list");
    let tools: Vec<String> = (1..=601_u32).map(|number| number.to_string()).collect();
    let shown: Vec<&str> = facts
        .iter()
        .filter_map(|one| one["tool_number"].as_str())
        .collect();
    assert_eq!(shown, tools);
    let keys: Vec<&String> = json.as_object().expect("an object").keys().collect();
    let order = [
        "format",
        "program",
        "notice",
        "input",
        "status",
        "unreadable",
        "findings",
        "assemblies",
        "library",
        "summary",
        "fails",
        "run",
    ];
    assert_eq!(keys, order);
}
