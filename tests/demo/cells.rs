//! The demo's broken cells: which they are, and that no right tool rests on one.

use std::path::Path;

use super::expected::{BROKEN_CELLS, RIGHT};
use super::tables::Table;
use super::{level, report, tool};
use crate::support::fixture;

/// Tool numbers that a record of one of the demo's tables has a part in.
fn users(name: &str, line: usize) -> Vec<String> {
    let record = &Table::read(&fixture("demo"), name).rows[line - 2];
    match name {
        "assemblies" => vec![record[0].clone()],
        "operations" => vec![record[1].clone()],
        _ => {
            let assemblies = Table::read(&fixture("demo"), "assemblies");
            let parts = |row: &Vec<String>| row[4..8].contains(&record[0]);
            let rows = assemblies.rows.into_iter().filter(parts);
            rows.map(|row| row[0].clone()).collect()
        }
    }
}

/// A right tool with a broken cell in one of its parts would be right by chance only.
#[test]
fn no_right_tool_has_a_part_in_a_broken_cell() {
    let report = report(&fixture("demo"));
    for finding in report.findings.iter().filter(|f| tool(f) == "-") {
        let place = finding.places.first().expect("a fault has a place");
        let users = users(table_of(&place.file), place.line);
        let is_right = |user: &String| RIGHT.contains(&user.as_str());
        let harmless = level(finding) == "note" || !users.iter().any(is_right);
        assert!(harmless, "{users:?} {finding:#?}");
    }
}

/// `cutters` of `…/cutters.csv`.
fn table_of(file: &str) -> &str {
    let path = Path::new(file);
    path.file_stem().and_then(|stem| stem.to_str()).unwrap()
}

#[test]
fn the_broken_cells_are_the_ones_meant() {
    let report = report(&fixture("demo"));
    let of_cells = [
        "record/cell-unreadable",
        "record/negative-length",
        "record/part-twice",
        "record/part-unused",
    ];
    let of_form = report
        .findings
        .iter()
        .filter(|f| of_cells.contains(&f.rule.as_str()));
    let mut found: Vec<_> = of_form
        .map(|finding| {
            let place = finding.places.first().expect("a fault has a place");
            let (rule, table) = (finding.rule.as_str(), table_of(&place.file));
            (rule, table, place.field.as_str(), place.text.as_str())
        })
        .collect();
    found.sort_unstable();
    assert_eq!(found, BROKEN_CELLS);
}
