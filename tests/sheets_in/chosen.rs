//! Which sheets of a workbook are the library.

use shankwise::judge::Setup;
use shankwise::library::{Form, Kind};

use super::made::{xlsx, xlsx_rows};
use super::{HEADER, ROW, library, read_with, refusal, told};
use crate::support::built_in;

fn flat(number: &str) -> String {
    xlsx_rows(&format!("{HEADER}\n{number}{}\n", &ROW[2..]))
}

const PRICES: &str = "article,price\nA1,12.5\n";

/// Tool numbers of what is read of sheets.
fn numbers(sheets: &[(&str, &str)]) -> Vec<String> {
    let library = library(&xlsx(sheets, &[]));
    let all = library.assemblies.iter();
    all.map(|one| one.tool_number().unwrap().to_owned())
        .collect()
}

#[test]
fn one_sheet_is_taken_whatever_its_name() {
    assert_eq!(
        numbers(&[("Sheet1", &flat("7")), ("Sheet2", "<sheetData/>")]),
        ["7"]
    );
}

#[test]
fn of_several_the_one_with_the_columns_is_taken_and_the_others_are_named() {
    let (tools, prices) = (flat("7"), xlsx_rows(PRICES));
    let sheets = [
        ("Prices", prices.as_str()),
        ("My tools", &tools),
        ("More prices", &prices),
    ];
    let library = library(&xlsx(&sheets, &[]));
    assert_eq!(library.form, Form::Sheet);
    assert_eq!(library.assemblies[0].tool_number(), Some("7"));
    assert_eq!(
        told(&library),
        ["sheet-not-read 'My tools'!A1 : `Prices`, `More prices`|several|"]
    );
}

#[test]
fn two_that_fit_or_none_are_refused_with_the_list() {
    let (tools, prices) = (flat("7"), xlsx_rows(PRICES));
    let two = refusal(&xlsx(&[("A", &tools), ("B", &tools), ("C", &prices)], &[]));
    assert_eq!(
        two,
        "has several sheets, and more than one has the columns of a tool library: `A`, `B`, `C`; call the one with a row for each tool `assemblies`, or name it in shankwise.toml: sheet = \"…\""
    );
    let none = refusal(&xlsx(&[("B", &prices), ("C", &prices)], &[]));
    assert!(
        none.starts_with(
            "has several sheets, and none has the columns of a tool library: `B`, `C`"
        )
    );
}

/// Setup of a shop that names a sheet.
fn naming(sheet: &str) -> Setup {
    let mut setup = built_in();
    setup.shop.sheet = Some(sheet.to_owned());
    setup
}

#[test]
fn the_shop_names_the_sheet() {
    let (one, other) = (flat("7"), flat("8"));
    let bytes = xlsx(&[("Mill 1", &one), ("Mill 2", &other)], &[]);
    let loaded = read_with(&bytes, &naming("mill 2"));
    assert_eq!(loaded.errors, []);
    let library = loaded.library.unwrap();
    assert_eq!(library.assemblies[0].tool_number(), Some("8"));
    assert_eq!(
        told(&library),
        ["sheet-not-read 'Mill 2'!A1 : `Mill 1`|one|"]
    );
    let loaded = read_with(&bytes, &naming("Mill 3"));
    assert_eq!(
        loaded.errors[0].reason,
        "has no sheet `Mill 3`, which the shop file names; its sheets: `Mill 1`, `Mill 2`"
    );
}

const CUTTERS: &str =
    "id,cutting_diameter,shank_diameter,shank_length,overall_length\nEM12,12,12,45,83\n";
const TOOLS: &str = "tool_number,cutter,clamping_kind,stick_out,collet_size,bore_diameter,bore_length\n7,EM12,taper collet,33,32,12,40\n";

#[test]
fn sheets_named_like_tables_are_a_folder() {
    let (cutters, tools) = (xlsx_rows(CUTTERS), xlsx_rows(TOOLS));
    for (first, second) in [
        ("assemblies", "cutters"),
        ("ASSEMBLIES.CSV", "Cutter"),
        ("assembly", "cutters.csv"),
        // The sheet of the tools is known by its columns.
        ("Mill 2", "Cutters"),
    ] {
        let library = library(&xlsx(&[(second, &cutters), (first, &tools)], &[]));
        assert_eq!(library.form, Form::Workbook);
        assert_eq!(library.records(Kind::Cutter).len(), 1);
        assert_eq!(told(&library), [] as [&str; 0], "{first} {second}");
        assert!(library.assemblies[0].part(Kind::Cutter).is_some());
    }
    let slip = library(&xlsx(
        &[
            ("assemblies", &tools),
            ("cutters", &cutters),
            ("colets", &cutters),
        ],
        &[],
    ));
    assert_eq!(
        told(&slip),
        ["sheet-not-read assemblies!A1 : `colets`|one|collets"]
    );
    let twice = refusal(&xlsx(
        &[
            ("cutters", &cutters),
            ("Cutter", &cutters),
            ("assemblies", &tools),
        ],
        &[],
    ));
    assert_eq!(
        twice,
        "has two sheets for one table, `cutters` and `Cutter`; rename the one that is not meant"
    );
}

/// What is said of a table as a whole names its sheet.
#[test]
fn a_sheet_that_cannot_be_read_is_named() {
    assert_eq!(
        refusal(&xlsx(&[("Tools", &xlsx_rows("a,b\n1,2\n"))], &[]))
            .split(';')
            .next(),
        Some("sheet `Tools`: no column of this table is known")
    );
    assert_eq!(
        refusal(&xlsx(&[("Tools", &xlsx_rows(HEADER))], &[])),
        "sheet `Tools`: has a header and no record; expected a line for each assembly"
    );
    let parts = refusal(&xlsx(&[("List", &xlsx_rows(CUTTERS))], &[]));
    assert!(
        parts.starts_with("sheet `List`: is a table of cutters, not a library"),
        "{parts}"
    );
}
