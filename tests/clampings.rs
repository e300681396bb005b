//! Every clamping, right and wrong: what each tool is told stands in a table beside the library,
//! and the table was written before the rules.

use std::collections::BTreeMap;
use std::path::PathBuf;

use shankwise::advice::advise;
use shankwise::judge::{Finding, Outcome, Report, Setup, judge};
use shankwise::library::{Input, Library, load};
use shankwise::rulebook::Level;

use crate::support::{fixture, options, run};

/// Rules by which a grip counts as judged.
const GRIP: [&str; 3] = [
    "grip/below-holder-minimum",
    "grip/screw-misses-flat",
    "grip/short-grip",
];

/// Category and findings of a tool: rule and level.
type Wanted = (String, Vec<String>);

/// Where a list of cells has these names, in their order.
fn table(path: &PathBuf) -> Vec<BTreeMap<String, String>> {
    let mut reader = csv::Reader::from_path(path).expect("the table opens");
    let rows = reader.deserialize();
    rows.map(|row| row.expect("the table is well formed"))
        .collect()
}

fn wanted() -> BTreeMap<String, Wanted> {
    let rows = table(&fixture("expected/clampings.csv"));
    let each = rows.into_iter().map(|row| {
        let findings = row["findings"].split("; ").filter(|text| !text.is_empty());
        let mut findings: Vec<String> = findings.map(str::to_owned).collect();
        findings.sort();
        assert!(!row["why"].is_empty());
        (
            row["tool_number"].clone(),
            (row["category"].clone(), findings),
        )
    });
    each.collect()
}

fn judged() -> (Library, Report) {
    let path = fixture("clampings");
    let setup = Setup::load(Some(&path), None, &[], true).unwrap();
    let loaded = load(Input::Path(&path), &setup.read_settings());
    assert_eq!(loaded.errors, []);
    let library = loaded.library.unwrap();
    let mut report = judge(&library, &setup, &options());
    let _ = advise(&library, &setup, &options(), false, &mut report);
    (library, report)
}

fn level(finding: &Finding) -> &'static str {
    match (finding.outcome, finding.level) {
        (Outcome::NotJudged, _) | (_, None) => "not judged",
        (_, Some(Level::Error)) => "error",
        (_, Some(Level::Warning)) => "warning",
        (_, Some(Level::Note)) => "note",
    }
}

/// The first of the five that is true, worked out from what is found alone.
pub fn category(findings: &[&Finding]) -> &'static str {
    let any = |word: &str| findings.iter().any(|found| level(found) == word);
    let grip = |found: &&&Finding| GRIP.contains(&found.rule.as_str());
    let mut of_grip = findings.iter().filter(grip);
    if any("error") {
        "fails"
    } else if of_grip.any(|found| level(found) == "not judged") {
        "grip not judged"
    } else if any("warning") {
        "warned"
    } else if any("not judged") {
        "otherwise not judged"
    } else {
        "nothing found"
    }
}

#[test]
fn every_tool_is_told_what_the_table_says() {
    let (library, report) = judged();
    let mut differ = Vec::new();
    let wanted = wanted();
    assert_eq!(wanted.len(), library.assemblies.len());
    for (at, assembly) in library.assemblies.iter().enumerate() {
        let number = assembly.tool_number().unwrap();
        let own = report.findings.iter();
        let own: Vec<&Finding> = own
            .filter(|found| found.assembly_index == Some(at))
            .collect();
        let says = |found: &&Finding| format!("{} {}", found.rule, level(found));
        let mut says: Vec<String> = own.iter().map(says).collect();
        says.sort();
        let found = (category(&own).to_owned(), says);
        let expected = &wanted[number];
        if found != *expected {
            differ.push(format!(
                "tool {number}\n  wanted {expected:?}\n  found  {found:?}"
            ));
        }
    }
    assert!(
        differ.is_empty(),
        "{} differ\n{}",
        differ.len(),
        differ.join("\n")
    );
}

/// The program counts them alike, and each once.
#[test]
fn every_tool_is_in_one_place_of_the_sum() {
    let (library, report) = judged();
    let of = |word: &str| {
        wanted()
            .values()
            .filter(|(category, _)| category == word)
            .count()
    };
    let came = report.came();
    assert_eq!(came.sum(), library.assemblies.len());
    assert_eq!(came.fails, of("fails"));
    assert_eq!(came.grip_not_judged, of("grip not judged"));
    assert_eq!(came.warned, of("warned"));
    assert_eq!(came.not_judged, of("otherwise not judged"));
    assert_eq!(came.nothing_found, of("nothing found"));
}

/// Nothing is said of the library that belongs to no tool.
#[test]
fn nothing_else_is_said() {
    let (_, report) = judged();
    let of_none = report.findings.iter();
    let of_none: Vec<_> = of_none
        .filter(|found| found.assembly_index.is_none())
        .map(|found| (&found.rule, &found.message))
        .collect();
    assert!(of_none.is_empty(), "{of_none:#?}");
}

/// The library is what it claims to be: every way to clamp, about half of it wrong.
#[test]
fn the_library_holds_every_clamping() {
    let holders = table(&fixture("clampings/holders.csv"));
    let kinds: std::collections::BTreeSet<_> = holders
        .iter()
        .map(|row| row["clamping_kind"].as_str())
        .collect();
    assert_eq!(kinds.len(), 14, "13 kinds, and none stated: {kinds:?}");
    let wanted = wanted();
    let right = wanted
        .values()
        .filter(|(category, _)| category == "nothing found");
    let (right, all) = (right.count(), wanted.len());
    assert!(all >= 44, "{all}");
    assert!(right * 3 >= all && right * 3 <= 2 * all, "{right} of {all}");
}

/// A number to set by, beside something that must not run, would be followed.
#[test]
fn facts_propose_no_setting_for_what_no_stick_out_cures() {
    let output = run(&["facts", "fixtures/clampings"]);
    let text = String::from_utf8(output.stdout).expect("it is text");
    let words = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let of = |tool: &str| {
        let start = words.find(&format!("tool {tool} ")).expect("it is there");
        words[start..]
            .split(" held_in_collet ")
            .next()
            .expect("facts")
    };
    let plain_shank = of("39");
    assert!(
        plain_shank
            .contains("first correct suits/plain-shank-in-side-lock, which no stick-out corrects"),
        "{plain_shank}"
    );
    assert!(!plain_shank.contains("set it to"), "{plain_shank}");
    let pulled_out = of("38");
    assert!(pulled_out.contains("set it to 48.0 mm"), "{pulled_out}");
}
