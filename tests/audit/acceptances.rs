//! What the shop accepts, night after night: each time one thing is changed in a plant of ten
//! libraries.

use std::collections::BTreeMap;
use std::fs;

use super::{Night, Plant, rows, table};

const SHORT: &str = "grip/short-grip";
const OVER: &str = "record/accepted-expired";
const SOON: &str = "record/accepted-ends-soon";
const UNUSED: &str = "record/accepted-unused";
const UNMATCHED: &str = "record/accepted-unmatched";
const AGAIN: &str = "accepted no more";
/// What is said of an entry that was made when 19 of 26.7 mm were gripped.
const BY: &str = "accepted by J. Example until 2027-06-30 at 19.0 mm of 26.7 mm";

/// An entry for a short grip of 19 of 26.7 mm, with these lines more.
fn entry(tool: &str, more: &str) -> String {
    format!(
        "[[accept]]\nrule = \"{SHORT}\"\ntool_number = \"{tool}\"\nreason = \"light finishing\"\nby = \"J. Example\"\nuntil = 2027-06-30\nnot_worse_than = \"19.0 mm\"\npart_of_needed = 0.7125\n{more}\n"
    )
}

/// The plant with the short grip of tool 12 accepted in the file of its own cell.
fn accepting() -> Plant {
    let plant = Plant::new();
    plant.put("cell-1/shankwise.toml", entry("12", ""));
    plant
}

/// The row of a finding, which is there once.
fn row<'n>(
    night: &'n Night,
    library: &str,
    tool: &str,
    rule: &str,
) -> &'n BTreeMap<String, String> {
    let own = |row: &&BTreeMap<String, String>| {
        row["library"] == library && row["tool_number"] == tool && row["rule"] == rule
    };
    let found: Vec<_> = night.rows.iter().filter(own).collect();
    let [one] = found[..] else {
        panic!("{} of {library} {tool} {rule}", found.len());
    };
    one
}

fn is_accepted(night: &Night, library: &str, tool: &str) -> bool {
    row(night, library, tool, SHORT)["accepted_by"] == "J. Example"
}

/// How often a rule was found in all libraries.
fn count(night: &Night, rule: &str) -> usize {
    night.rows.iter().filter(|row| row["rule"] == rule).count()
}

/// The result of tool 12 of the first cell.
fn result(night: &Night) -> serde_json::Value {
    let results = night.log["runs"][0]["results"].as_array().unwrap();
    let own = |one: &&serde_json::Value| {
        one["ruleId"] == SHORT
            && one["properties"]["library"] == "cell-1/tools.csv"
            && one["properties"]["tool_number"] == "12"
    };
    results.iter().find(own).expect("a result").clone()
}

/// The lines of the comment below a heading.
fn below<'n>(night: &'n Night, title: &str) -> Vec<&'n str> {
    let heading = format!("**{title}: ");
    let lines = night.comment.lines();
    let behind = lines.skip_while(|line| !line.starts_with(&heading)).skip(1);
    behind.take_while(|line| line.starts_with("- ")).collect()
}

const ALONE: &[&str] = &["--only", SHORT];
const LATER: &[&str] = &["--since", "first", "--only-new"];

#[test]
fn accepted_is_suppressed_and_fails_nothing() {
    let plant = Plant::empty();
    plant.put("cell-1/tools.csv", table(&rows(10)[..2]));
    assert_eq!(plant.night("first", ALONE).status, 1);
    plant.put("cell-1/shankwise.toml", entry("12", ""));
    let night = plant.night("second", ALONE);
    assert_eq!(night.status, 0, "{}", night.comment);
    assert!(is_accepted(&night, "cell-1/tools.csv", "12"));
    assert_eq!(result(&night)["suppressions"][0]["status"], "accepted");
    assert_eq!(night.json["totals"]["accepted"], 1);
    assert!(!night.comment.contains(SHORT), "{}", night.comment);
}

#[test]
fn accepted_then_worse_counts_again_and_says_so_once() {
    let plant = accepting();
    let first = plant.night("first", &[]);
    assert!(is_accepted(&first, "cell-1/tools.csv", "12"));
    plant.edit("cell-1/tools.csv", "12,65,", "12,67,");
    let only = &[LATER, ALONE].concat();
    let second = plant.night("second", only);
    assert_eq!(second.status, 1, "{}", second.comment);
    assert_eq!(second.of(AGAIN), [format!("cell-1/tools.csv 12 {SHORT}")]);
    assert!(second.of("worse").is_empty());
    let why = format!("{BY}; it is 17.0 mm now");
    let own = row(&second, "cell-1/tools.csv", "12", SHORT);
    assert_eq!(own["accepted_no_more"], why);
    assert_eq!((&*own["value_before"], &*own["value"]), ("19.0", "17.0"));
    let told = format!("tool 12 19.0 mm -> 17.0 mm, wanted: at least 26.7 mm ({why})");
    let said = below(&second, "Accepted no more");
    assert!(said.len() == 1 && said[0].ends_with(&told), "{said:?}");
    assert_eq!(
        second.comment.matches(SHORT).count(),
        2,
        "{}",
        second.comment
    );
    let own = result(&second);
    assert_eq!(own["baselineState"], "updated");
    assert_eq!(own["suppressions"].as_array().unwrap().len(), 0);
    assert_eq!(own["properties"]["change"]["state"], AGAIN);
    assert_eq!(own["properties"]["lapsed"]["why"][0], "it is 17.0 mm now");
    assert_eq!(second.json["totals"]["accepted_no_more"][0], 1);
}

#[test]
fn what_counts_again_is_news_for_one_night() {
    let plant = accepting();
    plant.night("first", &[]);
    plant.edit("cell-1/tools.csv", "12,65,", "12,67,");
    plant.night("second", &["--since", "first"]);
    let third = plant.night("third", &["--since", "second", "--only-new"]);
    assert_eq!(third.status, 0, "{}", third.comment);
    assert_eq!(
        row(&third, "cell-1/tools.csv", "12", SHORT)["state"],
        "same"
    );
    let said = below(&third, "Accepted no more");
    assert_eq!(said, ["- counting again since an earlier audit: 1 finding"]);
}

#[test]
fn without_an_earlier_audit_it_is_said_too() {
    let plant = accepting();
    plant.edit("cell-1/tools.csv", "12,65,", "12,67,");
    let night = plant.night("first", &[]);
    let said = below(&night, "Accepted no more");
    let told = format!("tool 12 17.0 mm, wanted: at least 26.7 mm ({BY}; it is 17.0 mm now)");
    assert!(said.len() == 1 && said[0].ends_with(&told), "{said:?}");
    let own = row(&night, "cell-1/tools.csv", "12", SHORT);
    assert!(own["accepted_no_more"].ends_with("it is 17.0 mm now"));
}

#[test]
fn a_day_that_has_passed_is_named_once() {
    let plant = accepting();
    plant.night("first", &[]);
    let second = plant.night("second", &[LATER, &["--as-of", "2027-07-01"]].concat());
    assert_eq!(second.status, 1, "{}", second.comment);
    assert_eq!(second.of(AGAIN), [format!("cell-1/tools.csv 12 {SHORT}")]);
    assert_eq!(count(&second, OVER), 1);
    let passed = second.comment.matches("that day has passed").count();
    assert_eq!(passed, 1, "{}", second.comment);
    let said = below(&second, "Accepted no more");
    let told = format!("tool 12 19.0 mm, wanted: at least 26.7 mm ({BY}; that day has passed)");
    assert!(said.len() == 1 && said[0].ends_with(&told), "{said:?}");
    assert!(below(&second, "New").is_empty());
    assert!(below(&second, "About what is accepted").is_empty());
}

#[test]
fn one_that_ends_soon_is_named_and_still_counts() {
    let plant = accepting();
    plant.night("first", &[]);
    let soon = &["--as-of", "2027-06-15"];
    let second = plant.night("second", &[LATER, soon].concat());
    assert_eq!(second.status, 0, "{}", second.comment);
    assert!(is_accepted(&second, "cell-1/tools.csv", "12"));
    let said = below(&second, "About what is accepted");
    assert!(said.len() == 1 && said[0].contains(SOON), "{said:?}");
    assert!(
        said[0].contains("tool 12") && said[0].contains("in 15 days"),
        "{said:?}"
    );
    let third = plant.night("third", &[&["--since", "second"], &soon[..]].concat());
    assert_eq!(below(&third, "About what is accepted"), said);
    let after = &["--since", "second", "--as-of", "2027-07-01"];
    let fourth = plant.night("fourth", after);
    assert_eq!(fourth.of(AGAIN), [format!("cell-1/tools.csv 12 {SHORT}")]);
    assert!(!fourth.comment.contains(SOON), "{}", fourth.comment);
}

/// A folder that holds a library is none itself.
#[test]
fn an_entry_that_names_the_folder_around_a_library_is_told() {
    let plant = Plant::new();
    plant.put("shankwise.toml", entry("12", "library = \"cell-1\""));
    let night = plant.night("first", &[]);
    assert!(!is_accepted(&night, "cell-1/tools.csv", "12"));
    let said = below(&night, "About what is accepted");
    let told = said.iter().any(|line| line.contains("there is no library"));
    assert!(told, "{said:?}");
}

#[test]
fn a_part_that_is_exchanged_ends_it() {
    let plant = Plant::new();
    plant.put("cell-8/shankwise.toml", entry("82", "collet = \"c12\""));
    let first = plant.night("first", &[]);
    assert!(is_accepted(&first, "cell-8", "82"));
    plant.put(
        "cell-8/collets.csv",
        "collet,collet_size,bore_diameter,bore_length\nc12,32,12,40\nc12-b,32,12,40\n",
    );
    plant.edit("cell-8/assemblies.csv", "82,em12,c12,", "82,em12,c12-b,");
    let second = plant.night("second", LATER);
    assert_eq!(second.status, 1, "{}", second.comment);
    assert_eq!(second.of(AGAIN), [format!("cell-8 82 {SHORT}")]);
    let why = &row(&second, "cell-8", "82", SHORT)["accepted_no_more"];
    assert!(
        why.ends_with("; the collet is `c12-b` now, not `c12`"),
        "{why}"
    );
    let said = below(&second, "Accepted no more");
    assert!(
        said[0].contains("the collet is \\`c12-b\\` now, not \\`c12\\`"),
        "{said:?}"
    );
}

#[test]
fn an_entry_that_is_deleted_is_missed() {
    let plant = accepting();
    plant.night("first", &[]);
    fs::remove_file(plant.path("cell-1/shankwise.toml")).unwrap();
    let second = plant.night("second", LATER);
    assert_eq!(second.status, 1, "{}", second.comment);
    let said = below(&second, "Accepted no more");
    let told = "(accepted before; no entry accepts it any more)";
    assert!(said.len() == 1 && said[0].ends_with(told), "{said:?}");
}

#[test]
fn the_same_number_in_another_library_is_another_tool() {
    let plant = Plant::new();
    plant.put("cell-2/tools.csv", table(&rows(10)));
    plant.put(
        "shankwise.toml",
        entry("12", "library = \"cell-1/tools.csv\""),
    );
    let night = plant.night("first", &[]);
    assert!(is_accepted(&night, "cell-1/tools.csv", "12"));
    assert!(!is_accepted(&night, "cell-2/tools.csv", "12"));
    assert_eq!(night.json["totals"]["accepted"], 1);
}

#[test]
fn an_entry_without_its_finding_or_its_tool_is_named() {
    let plant = Plant::new();
    plant.put(
        "cell-1/shankwise.toml",
        format!("{}{}", entry("11", ""), entry("99", "")),
    );
    let night = plant.night("first", &[]);
    assert_eq!((count(&night, UNUSED), count(&night, UNMATCHED)), (1, 1));
    let said = below(&night, "About what is accepted");
    let of = |rule: &str| said.iter().find(|line| line.contains(rule)).unwrap();
    assert!(of(UNUSED).contains("tool 11"), "{said:?}");
    assert!(of(UNMATCHED).contains("there is no tool 99"), "{said:?}");
}

/// A file that lies elsewhere names libraries as the audit calls them.
#[test]
fn a_library_is_named_by_its_path_from_the_root() {
    let plant = Plant::new();
    let elsewhere = format!(
        "{}{}",
        entry("12", "library = \"cell-1/tools.csv\""),
        entry("12", "library = \"cell-77/tools.csv\"")
    );
    plant.put("../site/plant.toml", elsewhere);
    let night = plant.night("first", &["--config", "site/plant.toml"]);
    assert!(is_accepted(&night, "cell-1/tools.csv", "12"));
    assert_eq!(count(&night, UNMATCHED), 1, "{}", night.comment);
    let said = below(&night, "About what is accepted");
    assert!(
        said[0].contains("there is no library cell-77/tools.csv")
            || said[0].contains("`cell-77/tools.csv"),
        "{said:?}"
    );
    // Each part of an audit sees the whole of it: what is told once is told by one of them.
    for part in ["1/3", "2/3", "3/3"] {
        let out = format!("part-{}", &part[..1]);
        let arguments = [
            "plant",
            "--config",
            "site/plant.toml",
            "--shard",
            part,
            "--out",
            &out,
        ];
        plant.run(&[&arguments[..], &["--quiet", "--as-of", "2027-01-31"]].concat());
    }
    plant.run(&[
        "--merge", "part-1", "part-2", "part-3", "--out", "whole", "--quiet",
    ]);
    let whole = fs::read_to_string(plant.path("../whole/findings.csv")).unwrap();
    assert_eq!(
        whole,
        fs::read_to_string(night.folder.join("findings.csv")).unwrap()
    );
    // What lies beside the file comes first.
    plant.put("../site/cell-1/tools.csv", table(&rows(10)));
    let night = plant.night("second", &["--config", "site/plant.toml"]);
    assert!(!is_accepted(&night, "cell-1/tools.csv", "12"));
}

#[test]
fn of_several_roots_the_name_begins_with_its_own() {
    let plant = Plant::new();
    plant.put("../annexe/cell-1/tools.csv", table(&rows(10)));
    let config = |library: &str| {
        plant.put(
            "../site/plant.toml",
            entry("12", &format!("library = \"{library}\"")),
        );
    };
    let night = |out: &str| plant.night(out, &["annexe", "--config", "site/plant.toml"]);
    config("plant/cell-1/tools.csv");
    let first = night("first");
    assert!(is_accepted(&first, "plant/cell-1/tools.csv", "12"));
    assert!(!is_accepted(&first, "annexe/cell-1/tools.csv", "12"));
    // What either could be is neither.
    config("cell-1/tools.csv");
    let second = night("second");
    assert_eq!(second.json["totals"]["accepted"], 0);
    assert_eq!(count(&second, UNMATCHED), 1);
}

#[test]
fn the_comment_has_sixty_lines_at_most_with_all_of_it() {
    let plant = Plant::new();
    let many = 1..=120;
    let row = |at: usize, out: usize| format!("{at},{out},83,45,12,12,32,12,40,80");
    let put = |out: &dyn Fn(usize) -> usize| {
        let rows: Vec<String> = many.clone().map(|at| row(at, out(at))).collect();
        plant.put("cell-1/tools.csv", table(&rows));
    };
    put(&|_| 65);
    let entries: Vec<String> = (1..=150).map(|at| entry(&at.to_string(), "")).collect();
    plant.put("cell-1/shankwise.toml", entries.concat());
    plant.night("first", &[]);
    put(&|at| if at % 2 == 0 { 67 } else { 40 });
    let night = plant.night("second", &["--since", "first"]);
    let lines = night.comment.lines().count();
    assert!(lines <= 60, "{lines} lines:\n{}", night.comment);
    assert_eq!(night.of(AGAIN).len(), 60);
    assert!(night.comment.contains("**Accepted no more: 60**\n"));
}

/// It leaves the counts of the day: whoever looks for it reads who accepts it.
#[test]
fn what_is_accepted_since_is_told_once() {
    let plant = Plant::new();
    plant.night("first", &[]);
    plant.put("cell-1/shankwise.toml", entry("12", ""));
    let second = plant.night("second", &["--since", "first"]);
    let told = "**Accepted since: 1**\n- error, too little shank in the collet (grip/short-grip): \
                `cell-1/tools.csv` tool 12: only 19.0 mm of plain shank gripped; ";
    assert!(second.comment.contains(told), "{}", second.comment);
    let by = " (by J. Example until 2027-06-30)\n";
    assert!(second.comment.contains(by), "{}", second.comment);
    assert!(
        second
            .comment
            .contains("| accepted since | 1 | 0 | 0 | 0 |")
    );
    assert_eq!(second.json["totals"]["accepted_since"][0], 1);
    let third = plant.night("third", &["--since", "second"]);
    assert!(
        !third.comment.contains("ccepted since"),
        "{}",
        third.comment
    );
    // What is new and accepted at once is told too.
    plant.edit("cell-2/tools.csv", "21,40,", "21,65,");
    plant.put("cell-2/shankwise.toml", entry("21", ""));
    let fourth = plant.night("fourth", &["--since", "third"]);
    assert!(
        fourth.comment.contains("**Accepted since: 1**"),
        "{}",
        fourth.comment
    );
}
