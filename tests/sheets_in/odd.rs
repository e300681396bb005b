//! Cells that are not what they look like, each with what is made of it.

use shankwise::library::{Field, Library};
use shankwise::units::Scalar;

use super::made::{Made, ods, xlsx, xlsx_rows};
use super::{HEADER, ROW, library, read, told};

/// The rows of [`HEADER`] and [`ROW`], and of a further column.
fn with_cell(header: &str, cell: &str) -> String {
    let rows = xlsx_rows(&format!("{HEADER},{header}\n{ROW},@\n"));
    rows.replace("<c t=\"inlineStr\"><is><t>@</t></is></c>", cell)
}

fn in_column(header: &str, cell: &str) -> Library {
    library(&xlsx(&[("Tools", &with_cell(header, cell))], &[]))
}

/// The number that a cell states as the neck's length.
fn neck(cell: &str) -> Option<f64> {
    let library = in_column("neck_length", cell);
    assert_eq!(told(&library), [] as [&str; 0], "{cell}");
    match library.assemblies[0].record.value(Field::NeckLength) {
        Some(Scalar::Number(number)) => Some(number),
        _ => None,
    }
}

#[test]
fn numbers_are_read_as_they_are_stored() {
    for (cell, expected) in [
        ("<c><v>12.5</v></c>", Some(12.5)),
        ("<c t=\"n\"><v>12.5</v></c>", Some(12.5)),
        ("<c><v>39.999999999999996</v></c>", Some(40.0)),
        ("<c><v>0.30000000000000004</v></c>", Some(0.3)),
        (
            "<c><v>1.2345678901234567E1</v></c>",
            Some(12.345_678_901_234_6),
        ),
        ("<c><v>1E-10</v></c>", Some(1e-10)),
        // A stored number has one reading, whatever another cell looks like.
        ("<c><v>1.234</v></c>", Some(1.234)),
        ("<c s=\"6\"><v>12.5</v></c>", Some(12.5)),
        ("<c s=\"7\"><v>12.5</v></c>", Some(12.5)),
        ("<c><f>6*2</f><v>12</v></c>", Some(12.0)),
        (
            "<c><f t=\"shared\" si=\"4294967295\"/><v>12</v></c>",
            Some(12.0),
        ),
        // Numbers that are stored as text.
        ("<c t=\"inlineStr\"><is><t>12,5</t></is></c>", Some(12.5)),
        ("<c t=\"str\"><v>12.5 mm</v></c>", Some(12.5)),
        ("<c t=\"str\"><f>B1</f><v></v></c>", None),
        ("<c t=\"inlineStr\"><is><t>  </t></is></c>", None),
        ("<c/>", None),
    ] {
        assert_eq!(neck(cell), expected, "{cell}");
    }
}

#[test]
fn ids_are_what_is_shown() {
    for (cell, expected) in [
        ("<c><v>7</v></c>", "7"),
        ("<c><v>7.0</v></c>", "7"),
        ("<c><v>1E2</v></c>", "100"),
        ("<c t=\"inlineStr\"><is><t>0012</t></is></c>", "0012"),
        (
            "<c t=\"inlineStr\"><is><r><t>T</t></r><r><t xml:space=\"preserve\"> 12</t></r><rPh sb=\"0\" eb=\"1\"><t>x</t></rPh></is></c>",
            "T 12",
        ),
        (
            "<c t=\"inlineStr\"><is><t>a_x000D_&#10;b_x005F_x&amp;</t></is></c>",
            "a\r\nb_x&",
        ),
    ] {
        let rows = xlsx_rows(&format!("{HEADER}\n{ROW}\n"));
        let rows = rows.replacen("<c><v>12</v></c>", cell, 1);
        let library = library(&xlsx(&[("Tools", &rows)], &[]));
        assert_eq!(
            library.assemblies[0].tool_number(),
            Some(expected),
            "{cell}"
        );
    }
}

#[test]
fn what_is_no_number_is_said_of_its_cell() {
    let date = "a date or time; spreadsheets make one of numbers such as 5-1: write the value again, as a number or text";
    for (cell, text, problem) in [
        ("<c s=\"1\"><v>46154</v></c>", "2026-05-12", date),
        ("<c s=\"1\"><v>59</v></c>", "1900-02-28", date),
        ("<c s=\"1\"><v>61</v></c>", "1900-03-01", date),
        ("<c s=\"4\"><v>46154.5</v></c>", "2026-05-12 12:00:00", date),
        ("<c s=\"5\"><v>1.0625</v></c>", "25:30:00", date),
        ("<c s=\"1\"><v>-3</v></c>", "-3", date),
        (
            "<c t=\"d\"><v>2026-05-12T12:00:00</v></c>",
            "2026-05-12 12:00:00",
            date,
        ),
        (
            "<c s=\"2\"><v>0.5</v></c>",
            "50 %",
            "`%` does not measure this; expected mm, in, cm, m or µm",
        ),
        (
            "<c t=\"e\"><v>#N/A</v></c>",
            "#N/A",
            "an error value; mend its formula",
        ),
        (
            "<c t=\"e\"><f>1/0</f><v>#DIV/0!</v></c>",
            "#DIV/0!",
            "an error value; mend its formula",
        ),
        (
            "<c><v>nan</v></c>",
            "nan",
            "an error value; mend its formula",
        ),
        (
            "<c><f>A1*2</f></c>",
            "=A1*2",
            "a formula whose value is not stored; open the workbook in a spreadsheet and save it",
        ),
        (
            "<c><f>A1*2</f><v></v></c>",
            "=A1*2",
            "a formula whose value is not stored; open the workbook in a spreadsheet and save it",
        ),
        ("<c t=\"b\"><v>1</v></c>", "TRUE", "expected a number"),
        (
            "<c t=\"inlineStr\"><is><t>1,234</t></is></c>",
            "1,234",
            "two readings, 1.234 and 1234, and nothing in this table tells which is meant; write it without a thousands mark, and not with three decimals",
        ),
    ] {
        let library = in_column("neck_length", cell);
        let told = told(&library);
        let start = format!("cell-unreadable Tools!K2 neck_length: neck_length|{text}|{problem}");
        assert!(
            told.len() == 1 && told[0].starts_with(&start),
            "{cell}: {told:?}"
        );
    }
}

/// A text `1.234` beside a text `5,5` may be a number of thousands; a stored 1.234 may not.
#[test]
fn only_a_text_has_two_readings() {
    let rows = |cell: &str| {
        let rows = with_cell("neck_length", cell);
        let comma = "<c t=\"inlineStr\"><is><t>40,5</t></is></c>";
        rows.replacen("<c><v>45</v></c>", comma, 1)
    };
    let text = rows("<c t=\"inlineStr\"><is><t>1.234</t></is></c>");
    let found = told(&library(&xlsx(&[("Tools", &text)], &[])));
    assert_eq!(found.len(), 1, "{found:?}");
    assert!(
        found[0].contains("two readings, 1.234 and 1234"),
        "{found:?}"
    );
    let stored = rows("<c><v>1.234</v></c>");
    assert_eq!(
        told(&library(&xlsx(&[("Tools", &stored)], &[]))),
        [] as [&str; 0]
    );
}

/// Of a remark a date is a text like any other; of a tool number it is a slip of the spreadsheet.
#[test]
fn a_date_is_a_text_only_in_a_remark() {
    let remark = in_column("description", "<c s=\"1\"><v>46154</v></c>");
    assert_eq!(told(&remark), [] as [&str; 0]);
    let error = in_column("description", "<c t=\"e\"><v>#REF!</v></c>");
    assert!(told(&error)[0].starts_with("cell-unreadable Tools!K2 description"));
    let rows = xlsx_rows(&format!("{HEADER}\n{ROW}\n"));
    let rows = rows.replacen("<c><v>12</v></c>", "<c s=\"1\"><v>46154</v></c>", 1);
    let dated = library(&xlsx(&[("Tools", &rows)], &[]));
    assert!(told(&dated)[0].starts_with("cell-unreadable Tools!A2 tool_number"));
}

#[test]
fn yes_and_no_may_be_truths() {
    for (value, expected) in [("1", true), ("0", false)] {
        let library = in_column("collet sealed", &format!("<c t=\"b\"><v>{value}</v></c>"));
        assert_eq!(told(&library), [] as [&str; 0]);
        let stated = library.assemblies[0].record.value(Field::ColletSealed);
        assert_eq!(stated, Some(Scalar::Truth(expected)));
    }
}

/// A filter hides tools that are in the magazine all the same.
#[test]
fn hidden_rows_and_columns_are_read_and_said() {
    let rows = xlsx_rows(&format!(
        "{HEADER}\n{ROW}\n13{}\n14{}\n",
        &ROW[2..],
        &ROW[2..]
    ));
    let rows = rows.replacen("</row><row>", "</row><row r=\"2\" hidden=\"1\">", 1);
    let inner = format!(
        "<cols><col min=\"3\" max=\"4\" hidden=\"true\"/><col min=\"30\" max=\"16384\" hidden=\"1\"/></cols>{rows}"
    );
    let all = library(&xlsx(&[("Tools", &inner)], &[]));
    assert_eq!(all.assemblies.len(), 3);
    assert_eq!(
        told(&all),
        ["hidden-cells Tools!A1 : hidden row 2 and hidden columns C, D|are"]
    );
    let sheet = library(&xlsx(
        &[("Tools (hidden)", &xlsx_rows(&format!("{HEADER}\n{ROW}\n")))],
        &[],
    ));
    assert_eq!(
        told(&sheet),
        ["hidden-cells Tools!A1 : this hidden sheet|is"]
    );
    let row = "<table:table-row table:visibility=\"filter\">";
    let own = super::made::ods_rows(&format!("{HEADER}\n{ROW}\n"));
    let (header, rest) = own
        .split_once("</table:table-row><table:table-row>")
        .unwrap();
    let inner = format!(
        "<table:table-column table:visibility=\"collapse\"/>{header}</table:table-row>{row}{rest}"
    );
    let filtered = library(&ods(&[("Tools", &inner)]));
    assert_eq!(
        told(&filtered),
        ["hidden-cells Tools!A1 : hidden row 2 and hidden column A|are"]
    );
}

#[test]
fn merged_cells_count_for_the_first_and_are_said_where_they_are_read() {
    let rows = xlsx_rows(&format!("{HEADER},note\n{ROW},x\n13{},\n", &ROW[2..]));
    let merged = |area: &str| {
        let inner = format!("{rows}<mergeCells><mergeCell ref=\"{area}\"/></mergeCells>");
        told(&library(&xlsx(&[("Tools", &inner)], &[])))
            .into_iter()
            .filter(|one| one.starts_with("merged"))
            .collect::<Vec<_>>()
    };
    assert_eq!(merged("J2:J3"), ["merged-cells Tools!J2 : J2:J3|J2"]);
    assert_eq!(merged("B2:C2"), ["merged-cells Tools!B2 : B2:C2|B2"]);
    // A column that is not read, cells beside all columns, and nonsense.
    for area in ["K2:K3", "M1:N9", "J2", "J0:J3", "XFE1:XFF2", "J3:J2"] {
        assert_eq!(merged(area), [] as [&str; 0], "{area}");
    }
    let own = super::made::ods_rows(&format!("{HEADER}\n{ROW}\n13{}\n", &ROW[2..]));
    let own = own.replacen("<table:table-cell office:value-type=\"float\" office:value=\"83\">", "<table:table-cell table:number-rows-spanned=\"2\" office:value-type=\"float\" office:value=\"83\">", 1);
    assert_eq!(
        told(&library(&ods(&[("Tools", &own)]))),
        ["merged-cells Tools!G2 : G2:G3|G2"]
    );
}

/// A title that is merged over the table is none of its cells.
#[test]
fn cells_keep_their_column_wherever_a_row_begins_and_ends() {
    let cells = |row: u32, csv: &str| -> String {
        let cells = csv.split(',').zip('C'..);
        cells
            .map(|(text, letter)| match text.parse::<f64>() {
                Ok(number) => format!("<c r=\"{letter}{row}\"><v>{number}</v></c>"),
                Err(_) => {
                    format!("<c r=\"{letter}{row}\" t=\"inlineStr\"><is><t>{text}</t></is></c>")
                }
            })
            .collect()
    };
    let note = "<c r=\"Q9\" t=\"inlineStr\"><is><t>see drawing</t></is></c>";
    let inner = format!(
        "<sheetData><row r=\"4\">{}</row><row r=\"9\">{}{note}</row><row r=\"12\"><c r=\"C12\"><v>13</v></c></row></sheetData>",
        cells(4, HEADER),
        cells(9, ROW)
    );
    let library = library(&xlsx(&[("Tools", &inner)], &[]));
    assert_eq!(library.assemblies.len(), 2);
    let place = library.assemblies[0]
        .record
        .get(Field::StickOut)
        .unwrap()
        .place();
    let at = library.sources.position(place);
    assert_eq!(
        (at.line, at.column, library.sources.text(place)),
        (9, 5, "33")
    );
    let end = library.sources.end(place);
    assert_eq!((end.line, end.column), (9, 6));
    let unnamed: Vec<String> = told(&library)
        .into_iter()
        .filter(|one| one.contains("Q4"))
        .collect();
    assert_eq!(unnamed.len(), 1, "{:?}", told(&library));
}

/// Cells in any order, and two for one place: the first counts.
#[test]
fn cells_may_come_in_any_order() {
    let rows = xlsx_rows(&format!("{HEADER}\n{ROW}\n"));
    let moved = rows.replacen(
        "<row>",
        "<row r=\"1\"><c r=\"K2\"><v>3</v></c><c r=\"K1\" t=\"s\"><v>0</v></c></row><row r=\"1\">",
        1,
    );
    let moved = moved.replacen(
        "</sheetData>",
        "<row><c r=\"K2\"><v>4</v></c></row></sheetData>",
        1,
    );
    let library = library(&xlsx(&[("Tools", &moved)], &["<t>neck_length</t>"]));
    assert_eq!(told(&library), [] as [&str; 0]);
    let stated = library.assemblies[0].record.value(Field::NeckLength);
    assert_eq!(stated, Some(Scalar::Number(3.0)));
}

/// Rows and cells of OpenDocument that stand for many.
#[test]
fn repeated_cells_are_capped_before_they_are_written_out() {
    let empty = "<table:table-row table:number-rows-repeated=\"4294967295\"><table:table-cell table:number-columns-repeated=\"4294967295\"/></table:table-row>";
    let own = super::made::ods_rows(&format!("{HEADER}\n{ROW}\n"));
    let (header, row) = own.split_once("</table:table-row>").unwrap();
    let two = row.replacen(
        "<table:table-row>",
        "<table:table-row table:number-rows-repeated=\"2\">",
        1,
    );
    let inner = format!("{empty}{header}</table:table-row>{two}");
    assert!(read(&ods(&[("Tools", &inner)])).library.is_none());
    let inner = format!("{header}</table:table-row>{two}{empty}");
    let all = library(&ods(&[("Tools", &inner)]));
    assert_eq!(all.assemblies.len(), 2);
    let many = two.replacen("\"2\"", "\"1048576\"", 1);
    let wide = many.replace(
        "<table:table-cell ",
        "<table:table-cell table:number-columns-repeated=\"99999\" ",
    );
    let loaded = read(&ods(&[(
        "Tools",
        &format!("{header}</table:table-row>{wide}"),
    )]));
    assert!(
        loaded.errors[0]
            .reason
            .contains("more cells than any tool library")
    );
}

#[test]
fn cells_of_open_document_are_what_they_store() {
    let cell = |cell: &str| {
        let rows = super::made::ods_rows(&format!("{HEADER},neck_length\n{ROW},@\n"));
        let rows = rows.replace(
            "<table:table-cell office:value-type=\"string\"><text:p>@</text:p></table:table-cell>",
            cell,
        );
        let sheets: [Made<'_>; 1] = [("Tools", &rows)];
        let library = library(&ods(&sheets));
        let stated = library.assemblies[0].record.value(Field::NeckLength);
        let number = stated.and_then(|value| match value {
            Scalar::Number(number) => Some(number),
            _ => None,
        });
        (number, told(&library).concat())
    };
    for (written, expected) in [
        (
            "<table:table-cell office:value-type=\"float\" office:value=\"39.999999999999996\"><text:p>40</text:p></table:table-cell>",
            40.0,
        ),
        (
            "<table:table-cell table:formula=\"of:=6*2\" office:value-type=\"float\" office:value=\"12\"><text:p>12</text:p></table:table-cell>",
            12.0,
        ),
        (
            "<table:table-cell office:value-type=\"currency\" office:value=\"12.5\"><text:p>12,50 E</text:p></table:table-cell>",
            12.5,
        ),
        (
            "<table:table-cell office:value-type=\"string\"><office:annotation><text:p>9</text:p></office:annotation><text:p><text:span>1</text:span>2<text:s text:c=\"4000000000\"/>mm</text:p></table:table-cell>",
            12.0,
        ),
    ] {
        assert_eq!(cell(written), (Some(expected), String::new()), "{written}");
    }
    for (written, text) in [
        (
            "<table:table-cell office:value-type=\"date\" office:date-value=\"2026-05-12\"><text:p>12.05.26</text:p></table:table-cell>",
            "2026-05-12|a date",
        ),
        (
            "<table:table-cell office:value-type=\"time\" office:time-value=\"PT12H30M00S\"><text:p>12:30</text:p></table:table-cell>",
            "12:30|a date or time",
        ),
        (
            "<table:table-cell office:value-type=\"percentage\" office:value=\"0.5\"><text:p>50 %</text:p></table:table-cell>",
            "50 %|`%` does not measure",
        ),
        (
            "<table:table-cell table:formula=\"of:=1/0\" office:value-type=\"string\" office:string-value=\"\" calcext:value-type=\"error\"><text:p>#DIV/0!</text:p></table:table-cell>",
            "#DIV/0!|an error value",
        ),
        (
            "<table:table-cell table:formula=\"of:=[.A1]*2\"/>",
            "=[.A1]*2|a formula whose value is not stored",
        ),
        (
            "<table:table-cell office:value-type=\"float\" office:value=\"x\"/>",
            "x|an error value",
        ),
    ] {
        let (number, told) = cell(written);
        assert_eq!(number, None, "{written}");
        assert!(told.contains(text), "{written}: {told}");
    }
}
