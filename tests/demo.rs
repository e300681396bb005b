//! The demo and its two small neighbours: what each shows, tool by tool, whatever the order of
//! its lines and whatever its units.

mod cells;
mod expected;
mod forms;
mod inch;
mod remedies;
mod same;
mod shuffled;
mod tables;

use std::collections::BTreeMap;
use std::path::Path;

use shankwise::advice::advise;
use shankwise::judge::{Finding, Options, Outcome, Report, Setup, Verdict, judge};
use shankwise::library::{Input, load};

use crate::support::{adds_up, built_in, fixture, options, run};
use expected::{EXPECTED, RIGHT, SHOWN_ELSEWHERE};

/// Judges a folder as the program does, with all facts.
fn report(folder: &Path) -> Report {
    let setup = Setup::load(Some(folder), None, &[], true).expect("the setup loads");
    let loaded = load(Input::Path(folder), &setup.read_settings());
    assert_eq!(loaded.errors, [], "{}", folder.display());
    let library = loaded.library.expect("there is a library");
    let options = Options {
        with_facts: true,
        ..options()
    };
    let mut report = judge(&library, &setup, &options);
    let _ = advise(&library, &setup, &options, false, &mut report);
    report
}

/// The tool that a finding speaks of; `-` for a record that belongs to no one tool.
fn tool(finding: &Finding) -> &str {
    finding.tool_number.as_deref().unwrap_or("-")
}

/// The level as the table of expectations writes it.
fn level(finding: &Finding) -> &'static str {
    match finding.accepted {
        Some(_) => "accepted",
        None => finding.level_name(),
    }
}

/// Rule and level of every finding, tool by tool, in a fixed order.
fn by_tool(report: &Report) -> BTreeMap<&str, Vec<(&str, &'static str)>> {
    let mut all: BTreeMap<&str, Vec<(&str, &str)>> = BTreeMap::new();
    for finding in &report.findings {
        let own = all.entry(tool(finding)).or_default();
        own.push((&finding.rule, level(finding)));
    }
    for own in all.values_mut() {
        own.sort_unstable();
    }
    all
}

#[test]
fn the_demo_shows_exactly_what_it_is_made_to_show() {
    let report = report(&fixture("demo"));
    let found = by_tool(&report);
    let tools: Vec<&str> = EXPECTED.iter().map(|(tool, _)| *tool).collect();
    for (tool, wanted) in EXPECTED {
        let mut wanted = wanted.to_vec();
        wanted.sort_unstable();
        let own = found.get(tool).cloned().unwrap_or_default();
        assert_eq!(own, wanted, "tool {tool}");
    }
    let others: Vec<_> = found
        .iter()
        .filter(|(tool, _)| !tools.contains(tool))
        .collect();
    assert!(others.is_empty(), "nobody expects {others:?}");
}

#[test]
fn the_demo_fails_and_every_outcome_occurs_in_it() {
    let report = report(&fixture("demo"));
    let summary = &report.summary;
    assert_eq!(summary.verdict, Verdict::Fails);
    assert!(summary.met > 0 && summary.not_applicable > 0);
    let of = |outcome| report.findings.iter().filter(move |f| f.outcome == outcome);
    assert!(of(Outcome::NotMet).any(|finding| finding.level.is_some()));
    assert!(of(Outcome::NotJudged).any(|finding| finding.rule.starts_with("grip/")));
    assert_eq!(
        of(Outcome::NotJudged).count(),
        summary.not_judged,
        "what is not judged is counted as such"
    );
    adds_up(summary);
    assert_eq!(run(&["lint", "fixtures/demo"]).status.code(), Some(1));
}

/// Every rule that a folder and a document can break alike is broken, and no other.
#[test]
fn every_rule_of_the_catalogue_shows() {
    let report = report(&fixture("demo"));
    let setup = built_in();
    for rule in &setup.book.rules {
        let shown = report.findings.iter().filter(|f| f.rule == rule.id).count();
        let elsewhere = SHOWN_ELSEWHERE.contains(&rule.id.as_str());
        assert_eq!(shown == 0, elsewhere, "{} shows {shown} times", rule.id);
    }
}

#[test]
fn three_tools_in_five_are_simply_right() {
    let report = report(&fixture("demo"));
    for finding in &report.findings {
        let blamed = level(finding) != "note";
        let is_right = RIGHT.contains(&tool(finding));
        assert!(!(blamed && is_right), "{finding:#?}");
    }
    let all = report.summary.assemblies;
    assert!((38..=48).contains(&all));
    let share = RIGHT.len() * 100 / all;
    assert!((55..=65).contains(&share), "{share} % are right");
}

#[test]
fn the_clean_cell_holds_and_says_nothing() {
    let report = report(&fixture("clean"));
    assert_eq!(by_tool(&report), BTreeMap::new());
    assert_eq!(report.summary.verdict, Verdict::NothingFound);
    assert_eq!(report.summary.held_in_collets, 3);
    assert_eq!(report.summary.grip_judged, 3);
    let output = run(&["lint", "fixtures/clean", "--strict", "--fail-on", "note"]);
    assert_eq!(output.status.code(), Some(0));
}

#[test]
fn the_cell_with_blanks_is_incomplete_and_blames_nobody() {
    let report = report(&fixture("blanks"));
    assert_eq!(report.summary.verdict, Verdict::Incomplete);
    let blank = |finding: &Finding| finding.outcome == Outcome::NotJudged;
    assert!(report.findings.iter().all(blank), "{:#?}", report.findings);
    let mut missing: Vec<(&str, &str)> = report
        .findings
        .iter()
        .flat_map(|finding| {
            finding
                .missing
                .iter()
                .map(move |field| (tool(finding), *field))
        })
        .collect();
    missing.sort_unstable();
    missing.dedup();
    let wanted = [
        ("2", "assembly.stick_out"),
        ("3", "collet.bore_length"),
        ("4", "holder.clamping_kind"),
    ];
    assert!(
        wanted.iter().all(|gap| missing.contains(gap)),
        "{missing:?}"
    );
    assert!(missing.iter().all(|(tool, _)| *tool != "1"), "{missing:?}");
    assert_eq!(run(&["lint", "fixtures/blanks"]).status.code(), Some(0));
    let strict = run(&["lint", "fixtures/blanks", "--strict"]);
    assert_eq!(strict.status.code(), Some(1));
}
