//! The order of a table's lines says nothing.

use shankwise::judge::{Finding, Report};

use super::report;
use super::tables::rewritten;
use crate::support::fixture;

/// A message names another line of the same table only as a place: `already defined in line 20`.
pub fn without_lines(message: &str) -> String {
    let words: Vec<&str> = message.split(' ').collect();
    let shown = words.iter().enumerate().map(|(at, word)| {
        let is_line = at > 0 && words[at - 1] == "line";
        if is_line { "…" } else { word }
    });
    shown.collect::<Vec<_>>().join(" ")
}

/// All of a finding but its places.
fn but_for_places(finding: &Finding) -> String {
    format!(
        "{} {} {:?} {:?} {:?} {} {} {:?} {:?} {}",
        finding.rule,
        finding.level_name(),
        finding.accepted,
        finding.tool_number,
        finding.operation,
        without_lines(&finding.message),
        finding.advice,
        finding.missing,
        finding.assumptions,
        finding.fingerprint,
    )
}

fn all(report: &Report) -> Vec<String> {
    let mut all: Vec<String> = report.findings.iter().map(but_for_places).collect();
    all.sort_unstable();
    all
}

#[test]
fn the_order_of_lines_changes_nothing_but_places() {
    let demo = report(&fixture("demo"));
    let reversed = rewritten(|_, table| table.rows.reverse(), "");
    let turned = rewritten(|_, table| table.rows.rotate_left(2), "");
    for folder in [reversed, turned] {
        let other = report(folder.path());
        assert_eq!(all(&other), all(&demo));
        assert_eq!(other.summary, demo.summary);
    }
}

/// The same library in another order must not be the same bytes, or nothing was tested.
#[test]
fn the_order_of_lines_does_change_places() {
    let demo = report(&fixture("demo"));
    let reversed = report(rewritten(|_, table| table.rows.reverse(), "").path());
    let lines = |report: &Report| {
        let places = report.findings.iter().flat_map(|finding| &finding.places);
        let mut lines: Vec<usize> = places.map(|place| place.line).collect();
        lines.sort_unstable();
        lines
    };
    assert_ne!(lines(&demo), lines(&reversed));
}

#[test]
fn the_order_of_columns_changes_nothing_but_places() {
    let demo = report(&fixture("demo"));
    let mirrored = rewritten(
        |_, table| {
            table.header.reverse();
            table.rows.iter_mut().for_each(|row| row.reverse());
        },
        "",
    );
    assert_eq!(all(&report(mirrored.path())), all(&demo));
}
