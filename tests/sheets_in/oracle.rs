//! The cells of workbooks as calamine reads them, a general reader of spreadsheets: each is there, at
//! its address, with its value, and no other.

use std::collections::BTreeMap;
use std::fs;
use std::io::Cursor;

use calamine::{Data, Reader as _, open_workbook_auto_from_rs};
use shankwise::input::sheet::{self, Wanted};

use crate::support::fixture;

/// Row and column from 1, and what stands there.
type Cells = BTreeMap<(usize, usize), String>;

/// The sheets as the program reads them.
fn ours(bytes: &[u8]) -> BTreeMap<String, Cells> {
    let sheets = sheet::read(bytes, Wanted::ALL).unwrap();
    let filled = sheets.into_iter().filter(|sheet| !sheet.grid.is_empty());
    filled
        .map(|mut sheet| {
            let source = sheet.source("workbook").unwrap();
            let places = source.sheet().unwrap();
            let mut reader = csv::ReaderBuilder::new()
                .has_headers(false)
                .flexible(true)
                .from_reader(source.text().as_bytes());
            let mut cells = Cells::new();
            for record in reader.records() {
                let record = record.unwrap();
                let at = u32::try_from(record.position().unwrap().byte()).unwrap();
                for (field, text) in record
                    .iter()
                    .enumerate()
                    .filter(|(_, text)| !text.is_empty())
                {
                    let row = places.row_of(at).unwrap() as usize;
                    let column = places.column_of_field(field).unwrap() as usize;
                    cells.insert((row + 1, column + 1), text.to_owned());
                }
            }
            (sheet.name, cells)
        })
        .collect()
}

#[test]
fn every_cell_is_read_as_another_reader_reads_it() {
    let formats = fixture("formats").join("valid");
    let mut compared = 0;
    for path in [
        formats.join("one-sheet.xlsx"),
        formats.join("one-sheet.ods"),
        formats.join("tables.xlsx"),
        formats.join("tables.ods"),
        fixture("exports").join("setup/export.xlsx"),
    ] {
        let shown = path.display().to_string();
        let bytes = fs::read(&path).unwrap();
        let ours = ours(&bytes);
        let mut theirs = open_workbook_auto_from_rs(Cursor::new(&bytes)).unwrap();
        for name in theirs.sheet_names() {
            let range = theirs.worksheet_range(&name).unwrap();
            let Some((top, left)) = range.start() else {
                assert!(!ours.contains_key(&name), "{shown} {name}");
                continue;
            };
            let (top, left) = (
                usize::try_from(top).unwrap(),
                usize::try_from(left).unwrap(),
            );
            let own = &ours[&name];
            let mut met = 0;
            for (row, column, data) in range.used_cells() {
                let at = (top + row + 1, left + column + 1);
                let text = own.get(&at).map_or("", String::as_str);
                let same = match data {
                    Data::Float(number) => {
                        let read: f64 = text.parse().unwrap_or(f64::NAN);
                        (read - number).abs() <= number.abs() * 1e-14
                    }
                    Data::Int(number) => text == number.to_string(),
                    Data::String(written) => text.trim() == written.trim(),
                    // What these are is told beside the text.
                    Data::Bool(_)
                    | Data::DateTime(_)
                    | Data::DateTimeIso(_)
                    | Data::DurationIso(_)
                    | Data::Error(_) => !text.is_empty(),
                    Data::Empty => true,
                };
                assert!(same, "{shown} {name} {at:?}: `{text}`, not {data:?}");
                met += usize::from(!text.is_empty());
            }
            // A formula that was never worked out has no value there, and is told here.
            let formulas = own.values().filter(|text| text.starts_with('=')).count();
            assert_eq!(met + formulas, own.len(), "{shown} {name}");
            compared += met;
        }
    }
    assert!(compared > 500, "{compared}");
}
