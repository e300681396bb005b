//! Values lost with their row or with their part, not with their cell.

use shankwise::judge::{Verdict, judge};
use shankwise::library::Kind;

use super::subjects::plain_tools;
use super::{blanked, needs, only};
use crate::support::{built_in, options, read_text};
use crate::wide::lint_path;
use crate::wide::tool::{Tool, Units, flat, tables, write_folder};

/// A row cut short before the field leaves it unknown; a row with a cell too many is not judged.
#[test]
fn ragged_rows_hold_nothing_that_they_lack() {
    let (tools, setup) = (plain_tools(), built_in());
    for ((field, rule), which) in needs(&tools, &setup) {
        let some: Vec<Tool> = which.iter().map(|at| tools[*at].clone()).collect();
        let text = last_column(&flat(&some, Units::Metric), field.short());
        let mut lines = text.lines();
        let header = lines.next().unwrap();
        let cut: Vec<&str> = lines
            .clone()
            .map(|row| row.rsplit_once(',').unwrap().0)
            .collect();
        let more: Vec<String> = lines.map(|row| format!("{row},1")).collect();
        for rows in [cut.join("\n"), more.join("\n")] {
            let loaded = read_text(&format!("{header}\n{rows}\n")).library.unwrap();
            let report = judge(&loaded, &setup, &only(&rule));
            assert_eq!(
                report.summary.met,
                0,
                "{rule} without {}\n{rows}",
                field.qualified()
            );
            let whole = judge(&loaded, &setup, &options());
            assert_ne!(whole.summary.verdict, Verdict::NothingFound);
        }
    }
}

/// The table with one of its columns moved to the end.
fn last_column(text: &str, name: &str) -> String {
    let header: Vec<&str> = text.lines().next().unwrap().split(',').collect();
    let at = header.iter().position(|column| *column == name).unwrap();
    let moved = text.lines().map(|line| {
        let mut cells: Vec<&str> = line.split(',').collect();
        let cell = cells.remove(at);
        cells.push(cell);
        cells.join(",")
    });
    moved.collect::<Vec<_>>().join("\n")
}

/// In a folder: the cell of the part's record is empty, or the assembly names a part that the
/// library does not have.
#[test]
fn folders_hold_nothing_that_they_lack() {
    let (tools, setup) = (plain_tools(), built_in());
    for ((field, rule), which) in needs(&tools, &setup) {
        let some: Vec<Tool> = which.iter().map(|at| tools[*at].clone()).collect();
        let blank = blanked(&tools, &which, field, "");
        let lost = match field.kind() {
            Kind::Assembly => None,
            kind => Some(without_part(&some, kind)),
        };
        for files in [Some(tables(&blank, Units::Metric)), lost]
            .into_iter()
            .flatten()
        {
            let folder = tempfile::tempdir().unwrap();
            write_folder(folder.path(), &files, Units::Metric);
            let input = shankwise::library::Input::Path(folder.path());
            let loaded = shankwise::library::load(input, &setup.read_settings());
            let read = loaded.library.unwrap();
            let report = judge(&read, &setup, &only(&rule));
            assert_eq!(
                report.summary.met,
                0,
                "{rule} {} {files:?}",
                field.qualified()
            );
            assert_ne!(
                lint_path(folder.path()).summary.verdict,
                Verdict::NothingFound
            );
        }
    }
}

/// A folder whose assemblies name parts of a kind by ids that stand in no table.
fn without_part(tools: &[Tool], kind: Kind) -> Vec<(&'static str, String)> {
    let mut files = tables(tools, Units::Metric);
    for (name, text) in &mut files {
        if *name == Kind::Assembly.table() {
            *text = text.replace(&format!("{}-", kind.name()), &format!("{}_", kind.name()));
        }
    }
    files
}
