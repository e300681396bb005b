//! No silent pass: what is blank never reads as met.

use std::collections::BTreeMap;

use shankwise::judge::{Options, Outcome, Report, Selection, Verdict, judge};
use shankwise::library::{Field, Kind, PROPERTIES};

use crate::support::{built_in, library, lint_text, options};

/// A sound tool with every starred property stated.
const SOUND: [(&str, &str); 12] = [
    ("tool_number", "7"),
    ("clamping_kind", "taper collet"),
    ("stick_out", "45"),
    ("cutting_diameter", "12"),
    ("shank_diameter", "12"),
    ("shank_length", "45"),
    ("overall_length", "83"),
    ("collet_size", "32"),
    ("bore_diameter", "12"),
    ("bore_length", "40"),
    ("reach", "35"),
    ("insertion_depth_max", "60"),
];

fn csv(with: impl Fn(&str, &str) -> String) -> String {
    let columns: Vec<&str> = SOUND.iter().map(|(column, _)| *column).collect();
    let cells: Vec<String> = SOUND
        .iter()
        .map(|(column, cell)| with(column, cell))
        .collect();
    format!("{}\n{}\n", columns.join(","), cells.join(","))
}

/// Outcome of every rule on the one tool, judged alone.
fn outcomes(text: &str) -> BTreeMap<String, &'static str> {
    let setup = built_in();
    let library = library(text);
    let rules = setup.book.rules.iter().filter(|rule| !rule.is_fault());
    rules
        .map(|rule| {
            let only = Options {
                selection: Selection {
                    only: vec![rule.id.clone()],
                    except: Vec::new(),
                },
                ..options()
            };
            let report = judge(&library, &setup, &only);
            (rule.id.clone(), outcome(&report))
        })
        .collect()
}

fn outcome(report: &Report) -> &'static str {
    let summary = &report.summary;
    if summary.met > 0 {
        "met"
    } else if summary.not_judged > 0 {
        "not judged"
    } else if summary.not_applicable > 0 {
        "not applicable"
    } else {
        "not met"
    }
}

/// Starred numbers of the sound tool, by column.
fn starred() -> Vec<(&'static str, Field)> {
    let starred = PROPERTIES
        .iter()
        .filter(|p| p.starred && p.kind != Kind::Assembly || p.field == Field::StickOut);
    starred
        .map(|property| (property.name, property.field))
        .collect()
}

/// Rules whose outcome hangs on a field: some other value of it changes what they say. This asks
/// nothing of what the program itself says that it needs.
fn rules_that_need(column: &str, sound: &BTreeMap<String, &'static str>) -> Vec<String> {
    let mut found = Vec::new();
    for value in [
        "0.6", "5", "11", "16", "25", "40", "55", "64", "81", "140", "400",
    ] {
        let changed = outcomes(&csv(|name, cell| {
            if name == column { value } else { cell }.to_owned()
        }));
        for (rule, outcome) in changed {
            if sound[&rule] != outcome && !found.contains(&rule) {
                found.push(rule);
            }
        }
    }
    found
}

#[test]
fn a_blank_never_meets_a_rule() {
    let sound = outcomes(&csv(|_, cell| cell.to_owned()));
    assert_eq!(sound["grip/short-grip"], "met");
    for (column, field) in starred() {
        let needing = rules_that_need(column, &sound);
        // Blank, unreadable, a stand-in, nothing.
        for blank in ["", "abc", "n/a", "0"] {
            let text = csv(|name, cell| if name == column { blank } else { cell }.to_owned());
            let found = outcomes(&text);
            for rule in &needing {
                assert_ne!(found[rule], "met", "{rule} with {column} = `{blank}`");
            }
            let report = lint_text(&text);
            assert_ne!(
                report.summary.verdict,
                Verdict::NothingFound,
                "{column} = `{blank}`"
            );
            let named = report
                .findings
                .iter()
                .any(|f| f.outcome == Outcome::NotJudged && f.missing == [field.qualified()]);
            assert!(named, "{column} = `{blank}` is named");
        }
    }
}

#[test]
fn the_question_is_asked() {
    let sound = outcomes(&csv(|_, cell| cell.to_owned()));
    for (column, least) in [
        ("stick_out", 3),
        ("overall_length", 2),
        ("shank_length", 2),
        ("bore_length", 2),
        ("shank_diameter", 1),
        ("bore_diameter", 1),
    ] {
        let needing = rules_that_need(column, &sound);
        assert!(needing.len() >= least, "{column}: {needing:?}");
    }
}

#[test]
fn an_assumption_alone_never_meets_a_rule() {
    let assumed = csv(|name, cell| if name == "shank_length" { "" } else { cell }.to_owned())
        .replace("clamping_kind", "cutter_material,clamping_kind")
        .replace("taper collet", "carbide,taper collet");
    let report = lint_text(&assumed);
    assert_eq!(report.summary.verdict, Verdict::Incomplete);
    assert!(
        report
            .findings
            .iter()
            .any(|f| f.rule == "record/value-assumed")
    );
    assert!(
        report
            .findings
            .iter()
            .any(|f| f.rule == "grip/short-grip" && f.missing == ["cutter.shank_length"])
    );
}

#[test]
fn a_ragged_row_never_meets_a_rule() {
    let ragged = csv(|name, cell| if name == "stick_out" { "45,0" } else { cell }.to_owned());
    let report = lint_text(&ragged);
    assert_eq!(report.summary.met, 0, "{:?}", report.summary);
    assert_ne!(report.summary.verdict, Verdict::NothingFound);
}
