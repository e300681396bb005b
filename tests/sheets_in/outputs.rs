//! A place in a sheet is the file, the sheet and the cell, in every output.

use std::fs;
use std::process::{Command, Output};

use serde_json::Value;
use tempfile::TempDir;

use super::made::{xlsx, xlsx_rows};
use super::{HEADER, ROW};

/// A workbook with two tools: one cell is no number, one tool is pulled out.
fn workbook() -> TempDir {
    let text = format!(
        "{HEADER}\n{ROW}\n13,taper collet,65,12,12,long,83,32,12,40\n14,taper collet,65,12,12,45,83,32,12,40\n"
    );
    let bytes = xlsx(&[("Mill 2", &xlsx_rows(&text))], &[]);
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("tools.xlsx"), bytes).unwrap();
    folder
}

fn run(folder: &TempDir, arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_shankwise"))
        .args(arguments)
        .current_dir(folder.path())
        .env_remove("SHANKWISE_CONFIG")
        .output()
        .unwrap()
}

fn told(folder: &TempDir, arguments: &[&str]) -> String {
    let output = run(folder, arguments);
    assert!(
        output.status.code() < Some(2),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    String::from_utf8(output.stdout).unwrap()
}

#[test]
fn text_names_the_cell_and_shows_the_row() {
    let folder = workbook();
    let short = told(&folder, &["lint", "tools.xlsx", "--color", "never"]);
    assert!(
        short.contains("╭─[tools.xlsx: 'Mill 2'!C4]\n 4 │ tool 14   stick_out: 65"),
        "{short}"
    );
    assert!(!short.contains("xlsx:4"), "{short}");
    let full = told(
        &folder,
        &["lint", "tools.xlsx", "--full", "--color", "never"],
    );
    assert!(full.contains("[tools.xlsx: 'Mill 2'!F3]"), "{full}");
    let plain = told(&folder, &["lint", "tools.xlsx", "--as", "plain"]);
    assert!(
        plain.contains("in tools.xlsx, sheet Mill 2, row 4: stick_out is 65"),
        "{plain}"
    );
    let open = told(&folder, &["lint", "tools.xlsx", "--show", "not-judged"]);
    assert!(open.contains("tools.xlsx: 'Mill 2'!A3 tool 13"), "{open}");
    let brief = told(&folder, &["lint", "tools.xlsx", "--as", "brief"]);
    assert!(
        brief.contains("tools.xlsx: 'Mill 2'!F3: error: record/cell-unreadable: tool 13: "),
        "{brief}"
    );
    for line in brief.lines() {
        assert!(line.starts_with("tools.xlsx: 'Mill 2'!"), "{line}");
    }
}

/// Keys of scripts go on: the line is the row, and the column its number.
#[test]
fn json_has_row_column_sheet_and_cell() {
    let folder = workbook();
    let json: Value =
        serde_json::from_str(&told(&folder, &["lint", "tools.xlsx", "--as", "json"])).unwrap();
    assert_eq!(json["library"]["form"], "sheet");
    let all = json["findings"].as_array().unwrap();
    let broken = all
        .iter()
        .find(|one| one["rule"] == "record/cell-unreadable")
        .unwrap();
    let place = &broken["places"][0];
    for (key, expected) in [
        ("line", 3),
        ("column", 6),
        ("end_line", 3),
        ("end_column", 7),
    ] {
        assert_eq!(place[key], expected, "{key}");
    }
    assert_eq!(place["file"], "tools.xlsx");
    assert_eq!(place["sheet"], "Mill 2");
    assert_eq!(place["cell"], "F3");
    for finding in all {
        for place in finding["places"].as_array().unwrap() {
            assert_eq!(place["sheet"], "Mill 2");
        }
    }
}

#[test]
fn a_log_names_the_cell_as_a_logical_place() {
    let folder = workbook();
    let output = run(&folder, &["lint", "tools.xlsx", "--as", "sarif"]);
    let log = crate::sarif::checked(&output);
    let results = log["runs"][0]["results"].as_array().unwrap();
    let broken = results
        .iter()
        .find(|one| one["ruleId"] == "record/cell-unreadable")
        .unwrap();
    let place = &broken["locations"][0];
    assert_eq!(
        place["logicalLocations"][0]["fullyQualifiedName"],
        "Mill 2!F3"
    );
    assert_eq!(place["logicalLocations"][0]["name"], "F3");
    assert_eq!(place["physicalLocation"]["region"]["startLine"], 3);
    assert_eq!(place["physicalLocation"]["region"]["startColumn"], 6);
}

#[test]
fn audit_report_and_cards_name_sheet_and_cell() {
    let folder = workbook();
    let _ = told(
        &folder,
        &["audit", "tools.xlsx", "--out", "night", "--junit"],
    );
    let read = |name: &str| fs::read_to_string(folder.path().join("night").join(name)).unwrap();
    let mut table = csv::Reader::from_path(folder.path().join("night/findings.csv")).unwrap();
    let headers = table.headers().unwrap().clone();
    let rows: Vec<csv::StringRecord> = table.records().map(Result::unwrap).collect();
    let cell = |row: &csv::StringRecord, name: &str| {
        let at = headers.iter().position(|own| own == name).unwrap();
        row[at].to_owned()
    };
    let broken = rows
        .iter()
        .find(|row| cell(row, "rule") == "record/cell-unreadable")
        .unwrap();
    assert_eq!(cell(broken, "sheet"), "Mill 2");
    assert_eq!(
        (
            cell(broken, "cell"),
            cell(broken, "line"),
            cell(broken, "column")
        ),
        ("F3".into(), "3".into(), "6".into())
    );
    assert!(read("junit.xml").contains("tools.xlsx: &apos;Mill 2&apos;!"));
    // A second night compares with the log of the first, cells included.
    let again = told(
        &folder,
        &[
            "audit",
            "tools.xlsx",
            "--out",
            "night",
            "--since",
            "night",
            "--only-new",
        ],
    );
    assert!(!again.contains("new 1"), "{again}");
    let _ = told(
        &folder,
        &["report", "night/audit.json", "--out", "report.html"],
    );
    let page = fs::read_to_string(folder.path().join("report.html")).unwrap();
    assert!(page.contains("Mill 2!C4 stick_out"), "no cell on the page");
    let _ = run(&folder, &["cards", "tools.xlsx", "--out", "cards.html"]);
    let cards = fs::read_to_string(folder.path().join("cards.html")).unwrap();
    assert!(cards.contains("tools.xlsx"));
}
