//! Files that begin like a workbook and are none, or are one that is not read: each with its
//! reason. And no bytes at all stop the program.

use std::io::{Cursor, Write as _};

use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipWriter};

use super::made::{archive, ods_parts, ods_rows, packed, xlsx, xlsx_parts, xlsx_rows};
use super::{HEADER, ROW, read, refusal};
use crate::window::dice::Dice;

fn valid() -> Vec<(String, Vec<u8>)> {
    let rows = xlsx_rows(&format!("{HEADER}\n{ROW}\n"));
    let inner = format!(
        "<cols><col min=\"3\" max=\"4\" hidden=\"1\"/></cols>{rows}<mergeCells><mergeCell ref=\"B2:B3\"/></mergeCells>"
    );
    xlsx_parts(&[("Tools", &inner)], &["<t>x</t>"])
}

fn valid_ods() -> Vec<(String, Vec<u8>)> {
    ods_parts(&[("Tools", &ods_rows(&format!("{HEADER}\n{ROW}\n")))])
}

/// The same with one part changed.
fn with(
    mut parts: Vec<(String, Vec<u8>)>,
    name: &str,
    change: impl Fn(String) -> String,
) -> Vec<u8> {
    let part = parts.iter_mut().find(|(own, _)| own == name).unwrap();
    part.1 = change(String::from_utf8(part.1.clone()).unwrap()).into_bytes();
    packed(&parts)
}

const SHEET: &str = "xl/worksheets/s0.xml";

#[test]
fn what_is_no_workbook_says_so() {
    let old = [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1, 0, 0, 0];
    let mut locked = old.to_vec();
    locked.extend("EncryptedPackage".bytes().flat_map(|byte| [byte, 0]));
    let text = "application/vnd.oasis.opendocument.text";
    let with_part = |name: &str| {
        let mut parts = valid();
        parts.push((name.to_owned(), b"x".to_vec()));
        packed(&parts)
    };
    let twice = {
        let mut bytes = archive(&[("xl/aaaa", b"1"), ("xl/bbbb", b"2")]);
        for at in 0..bytes.len() - 7 {
            if &bytes[at..at + 7] == b"xl/bbbb" {
                bytes[at..at + 7].copy_from_slice(b"xl/aaaa");
            }
        }
        bytes
    };
    let encrypted = with(valid_ods(), "META-INF/manifest.xml", |text| {
        text.replace(
            "/>",
            "><f><manifest:encryption-data/></f></manifest:manifest>",
        )
    });
    for (bytes, expected) in [
        (
            old.to_vec(),
            "is a workbook of the old binary format, .xls, which is not read; save it as .xlsx or .ods",
        ),
        (
            locked,
            "is protected by a password, so that it cannot be read; save a copy without a password",
        ),
        (encrypted, "is protected by a password"),
        (
            b"PK\x03\x04\x14\x00\x08".to_vec(),
            "begins as a workbook does, and cannot be read as one",
        ),
        (
            packed(&valid())[..900].to_vec(),
            "begins as a workbook does, and cannot be read as one",
        ),
        (
            archive(&[]),
            "is an archive, and neither a workbook nor a document in OpenDocument",
        ),
        (
            archive(&[("a.txt", b"1")]),
            "is an archive, and neither a workbook",
        ),
        (
            archive(&[("mimetype", text.as_bytes())]),
            "is an OpenDocument file, and no spreadsheet (`text`)",
        ),
        (
            with_part("xl/vbaProject.bin"),
            "is a workbook with macros, which may change its cells",
        ),
        (
            with_part("xl/workbook.bin"),
            "is a workbook in binary form, .xlsb",
        ),
        (twice, "is a workbook that has a part twice"),
        (
            xlsx(&[("A", "<sheetData/>")], &[]),
            "has no sheet with a cell that holds anything",
        ),
        (
            xlsx(&[], &[]),
            "has no sheet with a cell that holds anything",
        ),
    ] {
        let told = refusal(&bytes);
        assert!(told.starts_with(expected), "{expected}: {told}");
    }
}

#[test]
fn a_part_that_is_broken_is_named() {
    let cell = |inner: &'static str| {
        with(valid(), SHEET, move |text| {
            text.replacen("<c><v>12</v></c>", inner, 1)
        })
    };
    for (bytes, expected) in [
        (
            with(valid(), SHEET, |text| text[..text.len() / 2].to_owned()),
            SHEET,
        ),
        (
            with(valid(), SHEET, |text| text.replacen("</row>", "</rows>", 1)),
            SHEET,
        ),
        (
            cell("<c t=\"s\"><v>7</v></c>"),
            "a cell names a text that there is not",
        ),
        (
            cell("<c r=\"A1\"><v>&boom;</v></c>"),
            "a reference to no known character",
        ),
        (
            with(valid(), SHEET, |text| {
                format!("<!DOCTYPE x [<!ENTITY a \"aaaa\">]>{text}")
            }),
            "it declares a document type",
        ),
        (
            with(valid(), "xl/styles.xml", |text| {
                text.replacen("</cellXfs>", "", 1)
            }),
            "xl/styles.xml",
        ),
        // The crate that reads spreadsheets in general never comes to an end of this.
        (
            with(valid_ods(), "content.xml", |text| {
                text.split_once("</table:table>").unwrap().0.to_owned()
            }),
            "it ends too early, in its part `content.xml`",
        ),
    ] {
        let told = refusal(&bytes);
        assert!(
            told.starts_with("is a workbook that cannot be read: "),
            "{told}"
        );
        assert!(told.contains(expected), "{expected}: {told}");
    }
}

/// Small archives that unpack to very much, whatever they say of themselves.
#[test]
fn what_unpacks_to_too_much_is_refused() {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    let options = SimpleFileOptions::default().compression_method(CompressionMethod::Deflated);
    zip.start_file("xl/workbook.xml", options).unwrap();
    zip.write_all(b"<workbook>").unwrap();
    let blanks = vec![b' '; 1 << 20];
    for _ in 0..513 {
        zip.write_all(&blanks).unwrap();
    }
    let bytes = zip.finish().unwrap().into_inner();
    assert!(bytes.len() < 1 << 20);
    let expected = "is a workbook that unpacks to more than 512 MiB";
    assert!(refusal(&bytes).starts_with(expected));
    // The sizes that it states of its only part, in both places where they stand.
    let size = ((513u32 << 20) + 10).to_le_bytes();
    let mut small = bytes;
    let mut lies = 0;
    for at in 0..small.len() - 4 {
        if small[at..at + 4] == size {
            small[at..at + 4].copy_from_slice(&1000u32.to_le_bytes());
            lies += 1;
        }
    }
    assert_eq!(lies, 2);
    assert!(!read(&small).errors.is_empty());
}

#[test]
fn an_archive_of_very_many_files_is_refused() {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    for number in 0..10_001 {
        zip.start_file(number.to_string(), SimpleFileOptions::default())
            .unwrap();
    }
    let bytes = zip.finish().unwrap().into_inner();
    assert!(refusal(&bytes).starts_with("is an archive of 10001 files"));
}

/// A row of a few letters that says its only cell is the last of a sheet, a million times.
#[test]
fn a_wide_sheet_is_refused_before_it_is_written_out() {
    let row =
        |row: u32| format!("<row><c r=\"A{row}\"><v>1</v></c><c r=\"XFD{row}\"><v>1</v></c></row>");
    let rows: Vec<String> = (1..=30_000).map(row).collect();
    let rows = rows.concat();
    let bytes = xlsx(&[("Tools", &format!("<sheetData>{rows}</sheetData>"))], &[]);
    assert!(refusal(&bytes).contains("has more cells than any tool library"));
}

/// Two thousand broken workbooks of each kind: every one is read or refused.
#[test]
fn no_bytes_stop_the_program() {
    let mut dice = Dice::new(16);
    for parts in [valid(), valid_ods()] {
        let whole = packed(&parts);
        for round in 0..2_000 {
            let bytes = if round % 2 == 0 {
                broken(&whole, &mut dice)
            } else {
                let mut parts = parts.clone();
                let which = below(&mut dice, parts.len());
                let part = &mut parts[which].1;
                *part = broken(part, &mut dice);
                packed(&parts)
            };
            let loaded = read(&bytes);
            assert!(loaded.library.is_some() || !loaded.errors.is_empty());
        }
    }
}

/// A whole number below another.
fn below(dice: &mut Dice, end: usize) -> usize {
    dice.pick(&(0..end).collect::<Vec<usize>>())
}

/// The bytes with some of them changed, lost or doubled.
fn broken(bytes: &[u8], dice: &mut Dice) -> Vec<u8> {
    let mut bytes = bytes.to_vec();
    for _ in 0..=below(dice, 4) {
        let at = below(dice, bytes.len());
        match below(dice, 4) {
            0 => bytes[at] = u8::try_from(below(dice, 256)).unwrap(),
            1 => bytes[at] = b"<>&;\"/ 9"[below(dice, 8)],
            2 => bytes.truncate(at.max(1)),
            _ => {
                let piece = bytes[at..(at + 9).min(bytes.len())].to_vec();
                let to = below(dice, bytes.len());
                bytes.splice(to..to, piece);
            }
        }
    }
    bytes
}
