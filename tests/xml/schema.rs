//! The XSD, used by an existing validator: xmllint.

use std::fs;
use std::path::Path;
use std::process::Command;

use super::{PARTS, document};
use crate::support::{fixture, root};

/// Whether xmllint finds a document valid.
fn is_valid(document: &Path) -> bool {
    let schema = root().join("tests/schema/tool-library.xsd");
    let output = Command::new("xmllint")
        .args(["--noout", "--nonet", "--schema"])
        .arg(schema)
        .arg(document)
        .output()
        .expect("xmllint is installed: Debian package libxml2-utils");
    output.status.success()
}

fn is_text_valid(text: &str) -> bool {
    let file = tempfile::NamedTempFile::new().unwrap();
    fs::write(file.path(), text).unwrap();
    is_valid(file.path())
}

#[test]
fn the_schema_in_the_tree_is_the_one_printed() {
    let committed = fs::read_to_string(root().join("tests/schema/tool-library.xsd")).unwrap();
    assert_eq!(committed, shankwise::write::xsd());
}

#[test]
fn libraries_have_its_shape() {
    assert!(is_text_valid(&document(PARTS)));
    let forms = fixture("forms/demo.xml");
    assert!(!forms.exists() || is_valid(&forms));
    for folder in ["formats/valid", "rules/record/unknown-element"] {
        for entry in fs::read_dir(fixture(folder)).unwrap() {
            let path = entry.unwrap().path();
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            let is_xml = path.extension().is_some_and(|ending| ending == "xml");
            if is_xml && !name.starts_with("fail-") {
                assert!(is_valid(&path), "{name}");
            }
        }
    }
}

#[test]
fn other_shapes_are_refused() {
    let wrong = [
        document(&PARTS.replace("cutters>", "cuters>")),
        document(&PARTS.replace("stick-out>", "stickout>")),
        document(&PARTS.replace("<stick-out>", "<stick-out inch=\"yes\">")),
        document(&PARTS.replace("tool-number", "number")),
        document(PARTS).replace("\"mm\"", "\"furlong\""),
        document(PARTS).replace("library:1", "library:2"),
    ];
    for text in wrong {
        assert!(!is_text_valid(&text), "{text}");
    }
}
