//! Every stated value points back at its cell, whatever the form of the file.

use std::collections::BTreeSet;

use shankwise::library::{Field, Input, Kind, Library, Record, load};
use shankwise::text::Position;

use super::{folder, load_folder};
use crate::support::BUILT_IN;

/// A small table in which every cell is unlike every other, so that it can be found again.
const FIELDS: [Field; 6] = [
    Field::ToolNumber,
    Field::AssemblyDescription,
    Field::StickOut,
    Field::OverallLength,
    Field::CutterKind,
    Field::NutThread,
];
const TABLE: [[&str; 6]; 4] = [
    [
        "tool_number",
        "description",
        "stick_out",
        "OAL",
        "cutter kind",
        "nut thread",
    ],
    [
        "T12",
        "Ø12 \"long\"",
        "33.25",
        "83.5",
        "end mill",
        "M40x1.5",
    ],
    [
        "T13",
        "first line\nsecond µm line",
        " 1/2 in ",
        "84 mm",
        "Ball Nose",
        "",
    ],
    ["T14", "", "35", "85.75", "", "M50 x 1.5"],
];

/// How a table is written down.
#[derive(Clone, Copy, Debug)]
struct Form {
    delimiter: &'static str,
    line_end: &'static str,
    comma: bool,
}

fn cell_in(form: Form, cell: &str) -> String {
    let number = cell.starts_with(|c: char| c.is_ascii_digit());
    let cell = cell.replace('\n', form.line_end);
    if form.comma && number {
        cell.replace('.', ",")
    } else {
        cell
    }
}

fn written(form: Form) -> String {
    let quoted = |cell: String| {
        if cell.contains(['"', '\n', '\r']) || cell.contains(form.delimiter) {
            format!("\"{}\"", cell.replace('"', "\"\""))
        } else {
            cell
        }
    };
    let line = |row: &[&str; 6]| {
        let cells: Vec<String> = row.iter().map(|c| quoted(cell_in(form, c))).collect();
        cells.join(form.delimiter) + form.line_end
    };
    TABLE.iter().map(line).collect()
}

/// Line and column by counting: CRLF, LF and CR each end a line.
fn count(text: &str, offset: usize) -> Position {
    let before = text[..offset].replace("\r\n", "\n").replace('\r', "\n");
    let line = before.rsplit('\n').next().unwrap();
    Position {
        line: before.matches('\n').count() + 1,
        column: line.chars().count() + 1,
    }
}

fn check(library: &Library, text: &str, form: Form) {
    assert_eq!(super::faults(library), [] as [&str; 0], "{form:?}");
    assert_eq!(library.assemblies.len(), 3, "{form:?}");
    for (assembly, row) in library.assemblies.iter().zip(&TABLE[1..]) {
        for (field, cell) in FIELDS.into_iter().zip(row) {
            let entry = assembly.record.get(field);
            assert_eq!(entry.is_some(), !cell.is_empty(), "{form:?} {field:?}");
            let Some(entry) = entry else { continue };
            let cell = cell_in(form, cell.trim());
            let escaped = cell.replace('"', "\"\"");
            assert_eq!(library.sources.text(entry.place()), escaped, "{form:?}");
            let at = text.find(&escaped).unwrap();
            let expected = count(text, at);
            assert_eq!(
                library.sources.position(entry.place()),
                expected,
                "{form:?} {cell}"
            );
        }
    }
}

fn load_bytes(bytes: &[u8]) -> Library {
    let loaded = load(Input::Bytes("t.csv", bytes), &BUILT_IN.read_settings());
    assert_eq!(loaded.errors, []);
    loaded.library.unwrap()
}

#[test]
fn flat_files_of_every_delimiter_line_end_and_encoding() {
    for (delimiter, comma) in [(",", false), (";", true), (";", false), ("\t", true)] {
        for line_end in ["\n", "\r\n", "\r"] {
            let form = Form {
                delimiter,
                line_end,
                comma,
            };
            let text = written(form);
            let utf_16: Vec<u8> = text.encode_utf16().flat_map(u16::to_le_bytes).collect();
            let big: Vec<u8> = text.encode_utf16().flat_map(u16::to_be_bytes).collect();
            // Of the characters used, each is its own byte in Windows-1252.
            let code_page: Vec<u8> = text.chars().map(|c| u8::try_from(c).unwrap()).collect();
            let encodings = [
                text.clone().into_bytes(),
                [&b"\xef\xbb\xbf"[..], text.as_bytes()].concat(),
                [&b"\xff\xfe"[..], &utf_16].concat(),
                [&b"\xfe\xff"[..], &big].concat(),
                code_page,
            ];
            for bytes in encodings {
                check(&load_bytes(&bytes), &text, form);
            }
        }
    }
}

#[test]
fn values_are_the_same_in_every_form() {
    let comma = Form {
        delimiter: ";",
        line_end: "\r\n",
        comma: true,
    };
    let library = load_bytes(written(comma).as_bytes());
    let of = |row: usize, field| library.assemblies[row].record.get(field).unwrap().value;
    assert_eq!(of(0, Field::StickOut).number(), Some(33.25));
    assert_eq!(of(1, Field::StickOut).number(), Some(12.7));
    assert_eq!(of(2, Field::OverallLength).number(), Some(85.75));
    let text = |row: usize, field| library.assemblies[row].record.text(field);
    assert_eq!(text(0, Field::AssemblyDescription), Some("Ø12 \"long\""));
    assert_eq!(
        text(1, Field::AssemblyDescription),
        Some("first line\r\nsecond µm line")
    );
    assert_eq!(text(0, Field::NutThread), text(0, Field::HolderNutThread));
}

#[test]
fn blank_lines_before_within_and_after_the_table_move_lines_and_nothing_else() {
    let library = load_bytes(b"\n  \r\ntool_number,stick_out\r\n\r\n,\r\n12,33\r\n\r\n");
    assert_eq!(library.assemblies.len(), 1);
    let entry = library.assemblies[0].record.get(Field::StickOut).unwrap();
    let expected = Position { line: 6, column: 4 };
    assert_eq!(library.sources.position(entry.place()), expected);
}

#[test]
fn a_place_leaves_out_quotes_and_blanks() {
    let library = load_bytes(b"tool_number,stick_out,OAL\n \"12\" ,\" 33 \" ,\t83 \n");
    let places = |record: &Record| -> Vec<(String, usize)> {
        let entries = record.entries();
        let at = |place| library.sources.position(place).column;
        entries
            .map(|e| (library.sources.text(e.place()).to_owned(), at(e.place())))
            .collect()
    };
    let expected = [
        ("\"12\"".to_owned(), 2),
        ("33".to_owned(), 10),
        ("83".to_owned(), 17),
    ];
    assert_eq!(places(&library.assemblies[0].record), expected);
}

#[test]
fn every_table_of_a_folder_points_into_its_own_file() {
    let folder = folder(&[
        (
            "assemblies.csv",
            "tool_number,cutter,collet,nut,holder,stick_out\n12,EM12,C12,N32,H1,33\n",
        ),
        (
            "cutters.csv",
            "\u{feff}cutter,overall_length\r\nEM12,83\r\n",
        ),
        ("collets.csv", "collet;bore_length\nC12;40,5\n"),
        ("nuts.csv", "nut\tface setback\nN32\t-0,5\n"),
        ("holders.csv", "holder,gauge_length [in]\nH1,4\n"),
        (
            "operations.csv",
            "operation,tool_number,reach\nrough,12,30\n",
        ),
        ("stock.csv", "cutter,overall_length,quantity\nEM12L,110,3\n"),
    ]);
    let loaded = load_folder(&folder);
    assert_eq!(loaded.errors, []);
    let library = loaded.library.unwrap();
    assert_eq!(super::faults(&library), [] as [&str; 0]);
    let mut seen = BTreeSet::new();
    for kind in Kind::ALL {
        let records: Vec<&Record> = match kind {
            Kind::Assembly => library.assemblies.iter().map(|a| &a.record).collect(),
            _ => library.records(kind).iter().collect(),
        };
        assert_eq!(records.len(), 1, "{kind:?}");
        for entry in records[0].entries() {
            assert!(library.sources.name(entry.place()).ends_with(kind.table()));
            assert_eq!(library.sources.position(entry.place()).line, 2);
            seen.insert(library.sources.text(entry.place()));
        }
    }
    let expected = [
        "-0,5", "110", "12", "3", "30", "33", "4", "40,5", "83", "C12", "EM12", "EM12L", "H1",
        "N32", "rough",
    ];
    assert_eq!(seen.into_iter().collect::<Vec<_>>(), expected);
}
