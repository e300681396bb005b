//! Where a conversion writes, and where it does not.

use std::fs;

use crate::support::{fixture, run};

fn refused(arguments: &[&str], why: &str) {
    let output = run(arguments);
    let told = String::from_utf8(output.stderr).unwrap();
    assert_eq!(output.status.code(), Some(2), "{told}");
    assert!(told.contains(why), "{told}");
    assert!(output.stdout.is_empty());
}

#[test]
fn what_is_read_is_never_written_over() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("tools.csv");
    fs::write(&file, "tool_number,stick_out\n1,40\n").unwrap();
    let file = file.to_str().unwrap();
    refused(
        &["convert", file, "--to", "csv", "--out", file],
        "what is read is never changed",
    );
    let library = folder.path().join("library");
    fs::create_dir(&library).unwrap();
    for entry in fs::read_dir(fixture("clean")).unwrap() {
        let path = entry.unwrap().path();
        fs::copy(&path, library.join(path.file_name().unwrap())).unwrap();
    }
    let library = library.to_str().unwrap();
    refused(
        &["convert", library, "--to", "folder", "--out", library],
        "what is read is never changed",
    );
}

#[test]
fn a_table_that_would_be_read_with_the_others_is_refused() {
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name).to_str().unwrap().to_owned();
    fs::write(at("tools.csv"), "tool_number,stick_out\n1,40\n").unwrap();
    fs::create_dir(at("out")).unwrap();
    fs::write(at("out/notes.txt"), "mine").unwrap();
    fs::write(at("out/stock.csv"), "cutter,quantity\na,1\n").unwrap();
    let convert = [
        "convert",
        &at("tools.csv"),
        "--to",
        "folder",
        "--out",
        &at("out"),
    ];
    refused(&convert, "stock.csv is there");
    assert!(!folder.path().join("out/assemblies.csv").exists());
    fs::remove_file(at("out/stock.csv")).unwrap();
    for _ in 0..2 {
        assert_eq!(run(&convert).status.code(), Some(0));
        assert_eq!(fs::read_to_string(at("out/notes.txt")).unwrap(), "mine");
    }
}

#[test]
fn all_is_converted_or_nothing() {
    let path = fixture("formats/invalid/one-table-not-text");
    let path = path.to_str().unwrap();
    let out = tempfile::tempdir().unwrap();
    let out = out.path().join("out.xml");
    let out_name = out.to_str().unwrap();
    refused(
        &["convert", path, "--to", "xml", "--out", out_name],
        "nothing is written",
    );
    assert!(!out.exists());
    refused(&["convert", path, "--to", "folder"], "");
}

#[test]
fn one_file_is_printed_where_none_is_named() {
    let output = run(&["convert", "fixtures/formats/valid/comma.csv", "--to", "xml"]);
    assert_eq!(output.status.code(), Some(0));
    let text = String::from_utf8(output.stdout).unwrap();
    assert!(
        text.starts_with("<?xml") && text.ends_with("</shankwise>\n"),
        "{text}"
    );
    refused(
        &["convert", "fixtures/clean", "--to", "folder"],
        "a folder is not printed",
    );
}

#[test]
fn a_workbook_becomes_a_table() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("out.csv");
    let path = fixture("formats/valid/one-sheet.ods");
    super::convert(&path, "csv", &out);
    let (sheet, table) = (super::read(&path).0, super::read(&out).0);
    super::assert_same(
        &super::records(&sheet),
        &super::records(&table),
        "one-sheet.ods",
    );
}
