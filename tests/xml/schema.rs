//! The XSD, used by an existing validator: xmllint.

use std::fmt::Write as _;
use std::fs;
use std::path::Path;
use std::process::Command;

use shankwise::library::{Kind, PROPERTIES, ValueType};

use super::{PARTS, document};
use crate::support::{fixture, root};

/// Whether xmllint finds a document valid.
fn is_valid(document: &Path) -> bool {
    let schema = root().join("tests/schema/library.xsd");
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
    let committed = fs::read_to_string(root().join("tests/schema/library.xsd")).unwrap();
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

/// One record with all that its kind can state, in reverse order.
fn full(element: &str, kinds: &[Kind]) -> String {
    let (mut attributes, mut fields) = (String::new(), String::new());
    for property in PROPERTIES.iter().rev().filter(|p| kinds.contains(&p.kind)) {
        let name = property.name.replace('_', "-");
        let written = match property.value {
            ValueType::Id => format!(" id='{element}'"),
            ValueType::Reference(kind) => format!(" {name}='{}'", kind.name()),
            _ if name == "tool-number" => " tool-number='1'".to_owned(),
            ValueType::Quantity(unit) => {
                write!(fields, "<{name} unit='{}'>1</{name}>", unit.symbol()).unwrap();
                continue;
            }
            _ => {
                write!(fields, "<{name}>1</{name}>").unwrap();
                continue;
            }
        };
        attributes.push_str(&written);
    }
    format!("<{element}{attributes}>{fields}</{element}>")
}

#[test]
fn every_property_has_its_place_in_schema_and_reader() {
    let mut sections = String::new();
    for kind in Kind::ALL.into_iter().rev() {
        let records = match kind {
            Kind::Stock => {
                full("cutter", &[Kind::Cutter, kind]) + &full("collet", &[Kind::Collet, kind])
            }
            _ => full(kind.name(), &[kind]),
        };
        write!(sections, "<{0}>{records}</{0}>", kind.section()).unwrap();
    }
    let text = document(&sections);
    assert!(is_text_valid(&text), "{text}");
    let library = super::library(&text);
    let strange = ["record/unknown-element", "record/column-twice"];
    let told: Vec<_> = library
        .faults()
        .filter(|fault| strange.contains(&fault.kind))
        .collect();
    assert!(told.is_empty(), "{told:#?}");
    // Words and threads are no `1`; all numbers, ids and texts must have arrived.
    for property in PROPERTIES {
        let read = match property.kind {
            Kind::Assembly => library.assemblies[0].record.get(property.field),
            Kind::Stock => library.records(Kind::Stock)[0].get(property.field),
            kind => library.records(kind)[0].get(property.field),
        };
        let is_list = matches!(property.value, ValueType::Word(_) | ValueType::Thread);
        assert!(is_list || read.is_some(), "{}", property.qualified);
    }
}
