//! A workbook is the same library as its tables in CSV: the same records, and the same findings
//! but for where they are.

use std::fs;
use std::path::Path;

use shankwise::judge::{Setup, judge};
use shankwise::library::{Form, Input, Kind, Library, load};

use super::made::{ods, ods_rows, xlsx, xlsx_rows};
use crate::support::{fixture, options};

/// All records, as they are stated.
fn model(library: &Library) -> Vec<String> {
    let assemblies = library.assemblies.iter();
    let mut all: Vec<String> = assemblies
        .map(|one| format!("{:?} {:?}", one.record, one.operations))
        .collect();
    for kind in Kind::ALL {
        let records = library.records(kind).iter();
        all.extend(records.map(|record| format!("{record:?}")));
    }
    all
}

/// What is found, without places.
fn findings(library: &Library, setup: &Setup) -> Vec<String> {
    let report = judge(library, setup, &options());
    let each = report.findings.iter().map(|one| {
        let own = one.tool_number.as_deref().unwrap_or("-");
        let places = one.places.iter();
        let places: Vec<(&str, bool)> = places.map(|at| (at.field.as_str(), at.absent)).collect();
        format!(
            "{own} {} {} {} {places:?}",
            one.rule,
            one.level_name(),
            one.message
        )
    });
    let mut all: Vec<String> = each.collect();
    all.sort();
    all
}

fn setup_of(path: &Path) -> Setup {
    Setup::load(Some(path), None, &[], true).expect("the setup loads")
}

fn same(workbook: &[u8], form: Form, tables: &Path) {
    let setup = setup_of(tables);
    let settings = setup.read_settings();
    let read = |input| {
        let loaded = load(input, &settings);
        assert_eq!(loaded.errors, [], "{}", tables.display());
        loaded.library.expect("there is a library")
    };
    let (own, expected) = (read(Input::Bytes("w", workbook)), read(Input::Path(tables)));
    assert_eq!(own.form, form);
    assert_eq!(model(&own), model(&expected), "{}", tables.display());
    assert_eq!(findings(&own, &setup), findings(&expected, &setup));
    assert!(!model(&own).is_empty());
}

#[test]
fn a_committed_workbook_is_what_its_tables_are() {
    for (workbook, form, tables) in [
        ("one-sheet.xlsx", Form::Sheet, "comma.csv"),
        ("one-sheet.ods", Form::Sheet, "comma.csv"),
        ("tables.xlsx", Form::Workbook, "tables"),
        ("tables.ods", Form::Workbook, "tables"),
    ] {
        let bytes = fs::read(fixture("formats/valid").join(workbook)).unwrap();
        same(&bytes, form, &fixture("formats/valid").join(tables));
    }
}

/// Flat tables with commas, a byte-order mark, no quoted lines and the like.
#[test]
fn every_flat_fixture_with_commas_is_the_same_as_a_sheet() {
    let names = [
        "comma.csv",
        "cr.csv",
        "crlf.csv",
        "no-last-line-end.csv",
        "quoted-newlines-and-inch-marks.csv",
    ];
    for name in names {
        let path = fixture("formats/valid").join(name);
        let text = fs::read_to_string(&path).unwrap();
        same(
            &xlsx(&[("Tools", &xlsx_rows(&text))], &[]),
            Form::Sheet,
            &path,
        );
        same(&ods(&[("Tools", &ods_rows(&text))]), Form::Sheet, &path);
    }
}

/// The demo has words, ranges, stand-ins and faults of every kind. Two of its cells have a decimal
/// comma among points, which is a fault in CSV; as texts of a sheet they have one reading.
#[test]
fn the_demo_as_one_workbook_has_the_same_findings() {
    let folder = tempfile::tempdir().unwrap();
    let demo = fixture("demo");
    let shop = "shankwise.toml";
    fs::copy(demo.join(shop), folder.path().join(shop)).unwrap();
    let tables = Kind::ALL.map(|kind| {
        let text = fs::read_to_string(demo.join(kind.table())).unwrap();
        let points = text.replace("\"14,5\"", "14.5").replace("\"28,5\"", "28.5");
        fs::write(folder.path().join(kind.table()), points).unwrap();
        (kind.section(), text)
    });
    let commas = |comma: &str| {
        tables
            .iter()
            .filter(|(_, text)| text.contains(comma))
            .count()
    };
    assert_eq!((commas("\"14,5\""), commas("\"28,5\"")), (1, 1));
    let rows = tables
        .each_ref()
        .map(|(name, text)| (*name, xlsx_rows(text)));
    let sheets = rows.each_ref().map(|(name, rows)| (*name, rows.as_str()));
    same(&xlsx(&sheets, &[]), Form::Workbook, folder.path());
    let rows = tables
        .each_ref()
        .map(|(name, text)| (*name, ods_rows(text)));
    let sheets = rows.each_ref().map(|(name, rows)| (*name, rows.as_str()));
    same(&ods(&sheets), Form::Workbook, folder.path());
}
