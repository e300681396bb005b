//! Workbooks made for a test, as spreadsheets and as careless programs write them.

#![allow(
    clippy::format_push_string,
    reason = "what a test makes need not be quick"
)]

use std::io::{Cursor, Write as _};

use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipWriter};

/// A sheet: its name, and what stands in the element of its format.
pub type Made<'m> = (&'m str, &'m str);

/// An archive of these parts, packed.
pub fn archive(parts: &[(&str, &[u8])]) -> Vec<u8> {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, bytes) in parts {
        let method = match *name {
            "mimetype" => CompressionMethod::Stored,
            _ => CompressionMethod::Deflated,
        };
        let options = SimpleFileOptions::default().compression_method(method);
        zip.start_file(*name, options).unwrap();
        zip.write_all(bytes).unwrap();
    }
    zip.finish().unwrap().into_inner()
}

/// The parts of a workbook in Office Open XML. The styles of its cells show: 0 a number, 1 a
/// date, 2 and 3 a percentage, 4 a date with the time, 5 elapsed hours, 6 a number with words,
/// 7 an amount of money.
pub fn xlsx_parts(sheets: &[Made<'_>], strings: &[&str]) -> Vec<(String, Vec<u8>)> {
    const MAIN: &str = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
    const OFFICE: &str = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
    let relation = |id: &str, kind: &str, target: &str| {
        format!("<Relationship Id=\"{id}\" Type=\"{OFFICE}/{kind}\" Target=\"{target}\"/>")
    };
    let relations = |all: &str| {
        format!(
            "<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\">{all}</Relationships>"
        )
    };
    let mut named = String::new();
    let mut related = relation("s", "styles", "styles.xml");
    related += &relation("t", "sharedStrings", "/xl/sharedStrings.xml");
    let mut parts = Vec::new();
    for (at, (name, inner)) in sheets.iter().enumerate() {
        let (name, state) = match name.strip_suffix(" (hidden)") {
            Some(name) => (name, " state=\"hidden\""),
            None => (*name, ""),
        };
        named += &format!(
            "<sheet name=\"{name}\" sheetId=\"{}\"{state} r:id=\"r{at}\"/>",
            at + 1
        );
        related += &relation(
            &format!("r{at}"),
            "worksheet",
            &format!("worksheets/s{at}.xml"),
        );
        let sheet = format!("<worksheet xmlns=\"{MAIN}\">{inner}</worksheet>");
        parts.push((format!("xl/worksheets/s{at}.xml"), sheet));
    }
    let of_styles = [0, 14, 9, 10, 164, 165, 166, 167];
    let styles: Vec<String> = of_styles
        .iter()
        .map(|id| format!("<xf numFmtId=\"{id}\"/>"))
        .collect();
    let formats = [
        (164, "dd.mm.yyyy hh:mm"),
        (165, "[h]:mm"),
        (166, "0.00&quot; days&quot;"),
        (167, "#,##0.00 [$&#8364;-407];[Red]-#,##0.00"),
    ];
    let formats: Vec<String> = formats
        .iter()
        .map(|(id, code)| format!("<numFmt numFmtId=\"{id}\" formatCode=\"{code}\"/>"))
        .collect();
    let shared: Vec<String> = strings
        .iter()
        .map(|text| format!("<si>{text}</si>"))
        .collect();
    parts.extend([
        ("_rels/.rels".to_owned(), relations(&relation("w", "officeDocument", "xl/workbook.xml"))),
        ("xl/_rels/workbook.xml.rels".to_owned(), relations(&related)),
        (
            "xl/workbook.xml".to_owned(),
            format!("<?xml version=\"1.0\"?><workbook xmlns=\"{MAIN}\" xmlns:r=\"{OFFICE}\"><sheets>{named}</sheets></workbook>"),
        ),
        (
            "xl/styles.xml".to_owned(),
            format!("<styleSheet xmlns=\"{MAIN}\"><numFmts>{}</numFmts><cellStyleXfs><xf numFmtId=\"14\"/></cellStyleXfs><cellXfs>{}</cellXfs></styleSheet>", formats.concat(), styles.concat()),
        ),
        (
            "xl/sharedStrings.xml".to_owned(),
            format!("<sst xmlns=\"{MAIN}\">{}</sst>", shared.concat()),
        ),
    ]);
    let bytes = parts.into_iter();
    bytes
        .map(|(name, text)| (name, text.into_bytes()))
        .collect()
}

/// A workbook of these sheets, and the texts that their cells share.
pub fn xlsx(sheets: &[Made<'_>], strings: &[&str]) -> Vec<u8> {
    packed(&xlsx_parts(sheets, strings))
}

pub fn packed(parts: &[(String, Vec<u8>)]) -> Vec<u8> {
    let parts = parts.iter();
    let parts: Vec<(&str, &[u8])> = parts
        .map(|(name, bytes)| (name.as_str(), &bytes[..]))
        .collect();
    archive(&parts)
}

/// The parts of a spreadsheet in OpenDocument.
pub fn ods_parts(sheets: &[Made<'_>]) -> Vec<(String, Vec<u8>)> {
    const OASIS: &str = "urn:oasis:names:tc:opendocument:xmlns";
    let tables: Vec<String> = sheets
        .iter()
        .map(|(name, inner)| format!("<table:table table:name=\"{name}\">{inner}</table:table>"))
        .collect();
    let content = format!(
        "<office:document-content xmlns:office=\"{OASIS}:office:1.0\" xmlns:table=\"{OASIS}:table:1.0\" xmlns:text=\"{OASIS}:text:1.0\" xmlns:calcext=\"urn:calcext\"><office:body><office:spreadsheet>{}</office:spreadsheet></office:body></office:document-content>",
        tables.concat()
    );
    let manifest = format!("<manifest:manifest xmlns:manifest=\"{OASIS}:manifest:1.0\"/>");
    [
        (
            "mimetype",
            "application/vnd.oasis.opendocument.spreadsheet".to_owned(),
        ),
        ("content.xml", content),
        ("META-INF/manifest.xml", manifest),
    ]
    .map(|(name, text)| (name.to_owned(), text.into_bytes()))
    .to_vec()
}

pub fn ods(sheets: &[Made<'_>]) -> Vec<u8> {
    packed(&ods_parts(sheets))
}

/// Whether a cell of CSV is a number, as whoever types it into a spreadsheet has it stored.
fn is_number(text: &str) -> bool {
    let bare = text.strip_prefix('-').unwrap_or(text);
    let is_id = bare.len() > 1 && bare.starts_with('0') && !bare.starts_with("0.");
    !is_id && bare.starts_with(|c: char| c.is_ascii_digit()) && text.parse::<f64>().is_ok()
}

fn escaped(text: &str) -> String {
    quick_xml::escape::escape(text).into_owned()
}

fn records(csv: &str) -> Vec<Vec<String>> {
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .from_reader(csv.as_bytes());
    let all = reader.records();
    all.map(|record| record.unwrap().iter().map(str::to_owned).collect())
        .collect()
}

/// The rows of a sheet that hold what a text in CSV does.
pub fn xlsx_rows(csv: &str) -> String {
    let mut rows = String::new();
    for record in records(csv) {
        rows += "<row>";
        for text in record {
            rows += &match text.trim() {
                "" => "<c/>".to_owned(),
                number if is_number(number) => format!("<c><v>{number}</v></c>"),
                _ => format!("<c t=\"inlineStr\"><is><t>{}</t></is></c>", escaped(&text)),
            };
        }
        rows += "</row>";
    }
    format!("<sheetData>{rows}</sheetData>")
}

/// The same in OpenDocument.
pub fn ods_rows(csv: &str) -> String {
    let mut rows = String::new();
    for record in records(csv) {
        rows += "<table:table-row>";
        for text in record {
            rows += &match text.trim() {
                "" => "<table:table-cell/>".to_owned(),
                number if is_number(number) => format!(
                    "<table:table-cell office:value-type=\"float\" office:value=\"{number}\"><text:p>{}</text:p></table:table-cell>",
                    number.replace('.', ",")
                ),
                _ => {
                    let lines: Vec<String> = text
                        .lines()
                        .map(|line| format!("<text:p>{}</text:p>", escaped(line)))
                        .collect();
                    format!(
                        "<table:table-cell office:value-type=\"string\">{}</table:table-cell>",
                        lines.concat()
                    )
                }
            };
        }
        rows += "</table:table-row>";
    }
    rows
}
