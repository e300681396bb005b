//! What is converted is valid by the strict schema, and what is wrong is not.

use std::fs;
use std::path::Path;
use std::process::Command;

use shankwise::library::{Kind, Library, fields_of};
use shankwise::write::strict_xsd;

use super::same::libraries;
use super::{convert, read};
use crate::support::{fixture, root};
use crate::unseen::{Units, generated};
use crate::wide;

/// What xmllint finds wrong with a document; empty if it is valid.
pub fn invalid(document: &Path) -> String {
    let schema = tempfile::NamedTempFile::new().unwrap();
    fs::write(schema.path(), strict_xsd()).unwrap();
    let output = Command::new("xmllint")
        .args(["--noout", "--nonet", "--schema"])
        .arg(schema.path())
        .arg(document)
        .output()
        .expect("xmllint is installed: Debian package libxml2-utils");
    if output.status.success() {
        return String::new();
    }
    String::from_utf8(output.stderr).unwrap()
}

/// Faults that a document keeps. A value that is only missing is none of its form.
fn is_sound(library: &Library) -> bool {
    const OF_FORM: [&str; 8] = [
        "record/cell-unreadable",
        "record/unit-missing",
        "record/negative-length",
        "record/part-twice",
        "record/part-unknown",
        "record/column-twice",
        "record/row-ragged",
        "record/number-taken-twice",
    ];
    let mut faults = library.faults();
    !faults
        .any(|fault| OF_FORM.contains(&fault.kind) || fault.missing == Some("assembly.tool_number"))
}

#[test]
fn sound_libraries_are_valid() {
    let folder = tempfile::tempdir().unwrap();
    let mut all = libraries();
    for (name, units) in [("metric", Units::Metric), ("inch", Units::Inch)] {
        let own = folder.path().join(name);
        fs::create_dir(&own).unwrap();
        if units == Units::Inch {
            fs::write(own.join("shankwise.toml"), wide::tool::INCH).unwrap();
        }
        for number in [1, 2, 4, 5] {
            let file = own.join(format!("{number}.csv"));
            fs::write(&file, generated(number, 30, units)).unwrap();
            all.push(file);
        }
    }
    let wide = folder.path().join("wide.csv");
    let tools = wide::tools(200, wide::tool::Units::Metric);
    fs::write(&wide, wide::tool::flat(&tools, wide::tool::Units::Metric)).unwrap();
    all.push(wide);
    let mut valid = 0;
    for library in all {
        if !is_sound(&read(&library).0) {
            continue;
        }
        let document = folder.path().join("out.xml");
        convert(&library, "xml", &document);
        let why = invalid(&document);
        assert!(why.is_empty(), "{}: {why}", library.display());
        valid += 1;
    }
    assert!(valid >= 25, "{valid} were sound");
}

const DOCUMENT: &str = r#"<shankwise xmlns="urn:shankwise:library:1" units="mm">
  <cutters>
    <cutter id="a"><cutter-kind>end mill</cutter-kind><flute-count>4</flute-count><overall-length>83</overall-length></cutter>
    <cutter id="b"><overall-length unit="in">3.5</overall-length></cutter>
  </cutters>
  <collets><collet id="c"><collet-size>32</collet-size><sealed>no</sealed></collet></collets>
  <nuts><nut id="n"><nut-thread>M40x1.5</nut-thread></nut></nuts>
  <assemblies>
    <assembly tool-number="1" cutter="a" collet="c" nut="n"><stick-out>40</stick-out><nut-torque unit="N·m">90</nut-torque></assembly>
    <assembly tool-number="2" cutter="b" collet="c"><stick-out>50</stick-out><overall-length>80</overall-length></assembly>
  </assemblies>
  <operations><operation tool-number="1"><reach>30</reach></operation></operations>
  <stock><cutter id="a"><quantity>3</quantity></cutter></stock>
</shankwise>
"#;

#[test]
fn what_is_wrong_is_not_valid() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("a.xml");
    fs::write(&file, DOCUMENT).unwrap();
    assert_eq!(invalid(&file), "");
    assert!(is_sound(&read(&file).0));
    let wrong = [
        ("end mill", "end mil"),
        (">83<", ">eighty<"),
        (">83<", ">1 3/8<"),
        (">83<", ">-83<"),
        (">83<", "><"),
        (">4<", ">4.5<"),
        ("collet=\"c\"", "collet=\"d\""),
        ("id=\"b\"", "id=\"a\""),
        ("id=\"n\"", ""),
        ("tool-number=\"2\" ", ""),
        ("<operation tool-number=\"1\">", "<operation>"),
        (" unit=\"N·m\"", ""),
        ("N·m", "mm"),
        ("unit=\"in\"", "unit=\"furlong\""),
        ("units=\"mm\"", ""),
        (">no<", ">No<"),
        ("M40x1.5", "forty"),
        ("<reach>30</reach>", "<reach>30</reach><reach>31</reach>"),
        ("<stick-out>", "<stick-out bore=\"1\">"),
        ("stick-out>", "stickout>"),
        ("<quantity>3", "<quantity>-3"),
    ];
    for (right, wrong) in wrong {
        assert!(DOCUMENT.contains(right), "{right}");
        fs::write(&file, DOCUMENT.replacen(right, wrong, 1)).unwrap();
        if right == "stick-out>" {
            fs::write(&file, DOCUMENT.replace(right, wrong)).unwrap();
        }
        assert!(!invalid(&file).is_empty(), "{right} as {wrong} is valid");
    }
}

/// What the schema holds to be right the program reads without a word.
#[test]
fn what_is_valid_is_read() {
    let demo = fixture("clean");
    let folder = tempfile::tempdir().unwrap();
    let document = folder.path().join("clean.xml");
    convert(&demo, "xml", &document);
    assert_eq!(invalid(&document), "");
    let (library, _) = read(&document);
    let told: Vec<&str> = library.faults().map(|fault| fault.kind).collect();
    let (source, _) = read(&demo);
    let of_source: Vec<&str> = source.faults().map(|fault| fault.kind).collect();
    assert_eq!(told, of_source);
}

/// The lines that write a document from a database name what there is.
#[test]
fn the_shown_queries_name_properties() {
    let help = fs::read_to_string(root().join("src/cli/help/columns.txt")).unwrap();
    let queries = help.lines().filter_map(|line| {
        let (section, query) = line.trim().split_once(": \"SELECT ")?;
        Some((
            section.trim_matches('"').to_owned(),
            query.split_once(" FROM ")?.0.to_owned(),
        ))
    });
    let mut named = 0;
    for (section, columns) in queries {
        let kind = Kind::ALL
            .into_iter()
            .find(|kind| kind.section() == section)
            .unwrap();
        for column in columns.split(", ") {
            assert!(!fields_of(column, kind).is_empty(), "{column} of {section}");
            named += 1;
        }
    }
    assert_eq!(named, 14);
}
