//! What is not well-formed, or wants to be expanded, is refused at a place.

use std::fmt::Write as _;
use std::fs;
use std::sync::LazyLock;
use std::time::{Duration, Instant};

use proptest::prelude::*;
use shankwise::judge::{Setup, judge};
use shankwise::library::{Library, PROPERTIES};

use super::{PARTS, document, library, read, refused};
use crate::support::{adds_up, built_in, cases, fixture, options};

fn reason(text: &str) -> String {
    refused(text.as_bytes()).1
}

#[test]
fn nothing_is_expanded() {
    let secret = tempfile::NamedTempFile::new().unwrap();
    std::fs::write(secret.path(), "the secret").unwrap();
    let path = secret.path().display();
    let doctypes = [
        format!("<!DOCTYPE shankwise [<!ENTITY x SYSTEM \"file://{path}\">]>"),
        "<!DOCTYPE shankwise [<!ENTITY % p SYSTEM \"http://127.0.0.1:9/x\"> %p;]>".to_owned(),
        "<!DOCTYPE lolz [<!ENTITY a \"lol\"><!ENTITY b \"&a;&a;&a;&a;\"><!ENTITY c \"&b;&b;&b;\">]>".to_owned(),
        "<!DOCTYPE shankwise SYSTEM \"shankwise.dtd\">".to_owned(),
    ];
    for doctype in doctypes {
        let text = format!("<?xml version=\"1.0\"?>\n{doctype}\n{}", document(PARTS));
        let (place, reason) = refused(text.as_bytes());
        assert_eq!(place, "2:1", "{text}");
        assert!(reason.contains("document type"), "{reason}");
        assert!(!reason.contains("secret"));
    }
    let own = document(&PARTS.replace(">65<", ">&x;<"));
    assert!(reason(&own).contains("entity `&x;`"));
    let attribute = document(&PARTS.replace("\"em12\"", "\"&x;\""));
    assert!(reason(&attribute).contains("not expanded"));
}

#[test]
fn what_is_not_well_formed_is_refused() {
    let whole = document(PARTS);
    let broken = [
        ("unclosed", whole.replace("</stick-out>", "")),
        ("cut short", whole.replace("</shankwise>\n", "")),
        ("mismatched", whole.replace("</stick-out>", "</stickout>")),
        ("two roots", format!("{whole}{whole}")),
        ("text outside", format!("{whole} and more")),
        (
            "text before",
            format!("more {whole}").replacen("more <", "<a/> <", 1),
        ),
        (
            "twice",
            whole.replace("tool-number=\"7\"", "tool-number=\"7\" tool-number=\"8\""),
        ),
        ("less than", whole.replace("\"em12\"", "\"em<12\"")),
        ("no character", whole.replace(">65<", ">&#xFFFFFFFF;<")),
        ("bare ampersand", whole.replace(">65<", ">6 & 5<")),
        ("only a comment", "<!-- nothing -->".to_owned()),
    ];
    for (what, text) in broken {
        let (place, reason) = refused(text.as_bytes());
        assert!(!place.is_empty(), "{what}: {reason}");
    }
}

#[test]
fn another_namespace_is_another_document() {
    for root in [
        "<shankwise>",
        "<shankwise xmlns=\"urn:shankwise:library:2\">",
        "<tools xmlns=\"urn:shankwise:library:1\">",
        "<t:shankwise xmlns=\"urn:shankwise:library:1\" xmlns:t=\"urn:else\">",
    ] {
        let end = if root.starts_with("<t:") {
            "</t:shankwise>"
        } else if root.starts_with("<tools") {
            "</tools>"
        } else {
            "</shankwise>"
        };
        let (place, reason) = refused(format!("{root}{PARTS}{end}").as_bytes());
        assert_eq!(place, "1:1");
        assert!(reason.contains("urn:shankwise:library:1"), "{reason}");
    }
    let units = document(PARTS).replace("units=\"mm\"", "units=\"furlong\"");
    assert!(reason(&units).contains("must be mm or in"));
}

/// The root's former name is refused, whatever its namespace, and the refusal says what to write.
#[test]
fn the_former_root_is_refused_with_what_to_write() {
    let written = fs::read_to_string(fixture("formats/invalid/former-root.xml")).unwrap();
    let bare = written.replace(" xmlns=\"urn:shankwise:tool-library:1\"", "");
    let renamed = written.replace("urn:shankwise:tool-library:1", "urn:shankwise:library:1");
    assert!(bare != written && renamed != written);
    for text in [&written, &bare, &renamed] {
        let (place, reason) = refused(text.as_bytes());
        assert_eq!(place, "1:1");
        assert_eq!(
            reason,
            "expected the root element <shankwise xmlns=\"urn:shankwise:library:1\">; this is its former name; write the new name in both tags, and this namespace"
        );
    }
    // What it says is enough.
    let corrected = written
        .replace("<tool-library", "<shankwise")
        .replace("</tool-library", "</shankwise")
        .replace("urn:shankwise:tool-library:1", "urn:shankwise:library:1");
    assert_eq!(library(&corrected).assemblies.len(), 1);
}

#[test]
fn a_prefix_is_only_a_name() {
    let prefixed = document(PARTS)
        .replace('<', "<t:")
        .replace("<t:/", "</t:")
        .replace("xmlns=", "xmlns:t=");
    assert_eq!(library(&prefixed).assemblies.len(), 1);
}

#[test]
fn size_is_no_weapon() {
    let start = Instant::now();
    let nested = |levels| format!("{PARTS}{}{}", "<a>".repeat(levels), "</a>".repeat(levels));
    assert_eq!(library(&document(&nested(60_000))).assemblies.len(), 1);
    assert!(reason(&document(&nested(1_000_000))).contains("nests elements deeper"));
    let mut many = String::new();
    for number in 0..100_000 {
        write!(many, " a{number}=\"1\"").unwrap();
    }
    let text = document(&PARTS.replace("<assembly ", &format!("<assembly {many} ")));
    assert_eq!(library(&text).assemblies.len(), 1);
    let huge = "x".repeat(10_000_000);
    let text = document(&PARTS.replace("\"em12\"", &format!("\"{huge}\"")));
    assert_eq!(library(&text).assemblies.len(), 1);
    // No measure of speed: only that none of it grows with the square of its size.
    assert!(start.elapsed() < Duration::from_mins(1));
}

/// A minified document is one line, and a finding may stand in every record of it.
#[test]
fn one_long_line_is_no_weapon() {
    let mut rows = String::new();
    for n in 0..20_000 {
        write!(
            rows,
            "<assembly tool-number='{n}'><stick-out>x</stick-out></assembly>"
        )
        .unwrap();
    }
    let library = library(&document(&format!("<assemblies>{rows}</assemblies>")));
    let start = Instant::now();
    let mut last = 0;
    for fault in library.faults() {
        for place in &fault.places {
            last = last.max(library.sources.position(place.place).column);
        }
    }
    assert!(last > 1_000_000);
    assert!(start.elapsed() < Duration::from_secs(5));
}

/// Names that no two elements share, and namespaces without end.
#[test]
fn names_are_no_weapon() {
    let start = Instant::now();
    let mut sections = PARTS.to_owned();
    sections.push_str("<nuts>");
    for n in 0..30_000 {
        write!(sections, "<nut{n}/><nut><a{n}>1</a{n}></nut>").unwrap();
    }
    sections.push_str("</nuts>");
    assert_eq!(library(&document(&sections)).assemblies.len(), 1);
    let mut spaces = String::new();
    for n in 0..50_000 {
        write!(spaces, " xmlns:p{n}='urn:{n}'").unwrap();
    }
    let text = document(PARTS).replace(" units=", &format!("{spaces} units="));
    assert!(reason(&text).contains("namespace bindings"));
    assert!(start.elapsed() < Duration::from_mins(1));
}

/// The counts add up, and every fault points into its text.
fn is_whole(library: &Library) {
    adds_up(&judge(library, &SETUP, &options()).summary);
    for fault in library.faults() {
        for place in &fault.places {
            let text = library.sources.get(place.place.source).text();
            assert!(text.get(place.place.span.range()).is_some(), "{fault:?}");
        }
    }
}

static SETUP: LazyLock<Setup> = LazyLock::new(built_in);

/// Sections of records of fields, the names right, near or wrong.
fn sections() -> impl Strategy<Value = String> {
    let names: Vec<String> = PROPERTIES
        .iter()
        .map(|p| p.name.replace('_', "-"))
        .collect();
    let field = (
        prop_oneof![9 => prop::sample::select(names), 1 => "[a-z][a-z-]{0,9}x"],
        prop::sample::select(
            &[
                "",
                "",
                " unit='mm'",
                " unit='in'",
                " unit='N m'",
                " unit='x'",
            ][..],
        ),
        prop::sample::select(
            &[
                "12", "33.5", "-1", "x", "", "2 in", "yes", "end mill", "1<b/>2", "&amp;",
                "size 32",
            ][..],
        ),
    )
        .prop_map(|(name, unit, text)| format!("<{name}{unit}>{text}</{name}>"));
    let record = (
        prop::sample::select(
            &[
                "assembly",
                "cutter",
                "collet",
                "nut",
                "holder",
                "operation",
                "stock",
            ][..],
        ),
        prop::sample::select(&["", " id='a'", " id='b'", " tool-number='7'", " cutter='a'"][..]),
        prop::collection::vec(field, 0..6),
    )
        .prop_map(|(name, id, fields)| format!("<{name}{id}>{}</{name}>", fields.concat()));
    let section = (
        prop::sample::select(
            &[
                "assemblies",
                "cutters",
                "collets",
                "nuts",
                "holders",
                "operations",
                "stock",
            ][..],
        ),
        prop::collection::vec(record, 0..4),
    )
        .prop_map(|(name, records)| format!("<{name}>{}</{name}>", records.concat()));
    prop::collection::vec(section, 0..5).prop_map(|sections| sections.concat())
}

proptest! {
    #![proptest_config(cases(64))]

    #[test]
    fn whatever_a_document_holds_every_judgement_is_counted_once(sections in sections()) {
        let text = document(&format!("{sections}<assemblies><assembly tool-number='1'/></assemblies>"));
        is_whole(&library(&text));
    }
}

proptest! {
    #![proptest_config(cases(256))]

    #[test]
    fn no_text_makes_it_panic(text in "<[ -~\n]{0,200}") {
        let _ = read(text.as_bytes());
    }

    #[test]
    fn no_damage_makes_it_panic(at in 0usize..600, with in "[<>&\"'/a-z0-9 ]{0,6}", take in 0usize..20) {
        let whole = document(PARTS);
        let at = at.min(whole.len());
        let end = (at + take).min(whole.len());
        let damaged = format!("{}{with}{}", &whole[..at], &whole[end..]);
        let loaded = read(damaged.as_bytes());
        prop_assert!(loaded.library.is_some() || !loaded.errors.is_empty());
        if let Some(library) = &loaded.library {
            is_whole(library);
        }
    }
}
