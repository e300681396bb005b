//! Exports that want to harm: whoever reads them, their terminal, or the shop file.

use std::fs;

use tempfile::TempDir;

use super::{said, text};
use crate::support::run;

#[test]
fn headers_and_cells_stay_text() {
    let folder = TempDir::new().unwrap();
    let hostile = "Tool no,\"\x1b[31mred\",\"a\"\"\n[limit]\nmin_grip_fraction = 0 #\",\"x\\\",Type,Collet\n1,\x1b]0;title\x07,2,3,\"\"\"x\",\"C32-12\n\"\n2,\u{202e}abc,2,3,\u{202e}word,C32-10\n";
    let file = folder.path().join("export.csv");
    fs::write(&file, hostile).unwrap();
    let (file, library) = (file.display().to_string(), folder.path().join("library"));
    let shown = library.display().to_string();
    let output = run(&["start", &file, "--into", &shown]);
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
    for out in [text(&output), said(&output)] {
        assert!(!out.contains(['\x1b', '\x07', '\u{202e}']), "{out:?}");
    }
    let shop = fs::read_to_string(library.join("shankwise.toml")).unwrap();
    let parsed: toml::Table = toml::from_str(&shop).unwrap();
    assert_eq!(parsed.keys().collect::<Vec<_>>(), ["columns"], "{shop}");
}

#[test]
fn what_is_no_table_is_refused() {
    let folder = TempDir::new().unwrap();
    for (content, why) in [
        (&b""[..], "is empty"),
        (b"\n\n", "is empty"),
        (b"a,b,c\n", "has a header and no row"),
        (b"a|b|c\n1|2|3\n", "has one column"),
        (b"\x00\x01\x02", "byte 1 does not occur"),
        (b"<tools/>", "no element repeats"),
        (
            b"<shankwise xmlns=\"urn:shankwise:library:1\"/>",
            "nothing is to be guessed",
        ),
    ] {
        let file = folder.path().join("export");
        fs::write(&file, content).unwrap();
        let output = run(&["start", &file.display().to_string()]);
        assert_eq!(output.status.code(), Some(2), "{why}");
        assert!(said(&output).contains(why), "{why}: {}", said(&output));
    }
}

#[test]
fn a_folder_is_no_export() {
    let folder = TempDir::new().unwrap();
    let output = run(&["start", &folder.path().display().to_string()]);
    assert_eq!(output.status.code(), Some(2));
    let said = said(&output);
    assert!(
        said.contains("is a folder") && said.contains("name one file"),
        "{said}"
    );
}
