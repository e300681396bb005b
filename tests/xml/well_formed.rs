//! What is well-formed to an existing parser is well-formed to us, and nothing else is.

use std::collections::BTreeSet;
use std::fs;
use std::process::Command;

use proptest::prelude::*;
use proptest::strategy::ValueTree as _;
use proptest::test_runner::TestRunner;

use super::{PARTS, document, read};
use crate::support::cases;

/// Numbers of the documents that xmllint calls not well-formed. What it says of namespaces is
/// left out: it also wants their names to be addresses.
fn refused_by_xmllint(documents: &[String]) -> BTreeSet<usize> {
    let folder = tempfile::TempDir::new().unwrap();
    let name = |number: usize| format!("{number}.xml");
    for (number, text) in documents.iter().enumerate() {
        fs::write(folder.path().join(name(number)), text).unwrap();
    }
    let output = Command::new("xmllint")
        .args(["--noout", "--nonet"])
        .args((0..documents.len()).map(name))
        .current_dir(folder.path())
        .output()
        .expect("xmllint is installed: Debian package libxml2-utils");
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    let errors = said.lines().filter(|line| line.contains("parser error"));
    errors
        .map(|line| line.split('.').next().unwrap().parse().unwrap())
        .collect()
}

/// Why we call a document not well-formed, if we do.
fn refusal(text: &str) -> Option<String> {
    let errors = read(text.as_bytes()).errors;
    let about_form = |reason: &String| {
        ["not well-formed", "entity", "document type", "no element"]
            .iter()
            .any(|words| reason.contains(words))
    };
    let mut reasons = errors.into_iter().map(|error| error.reason);
    reasons.find(about_form)
}

/// A document with a little of everything that XML has.
fn rich() -> String {
    document(&PARTS.replace(">65<", "><!-- set --><?by hand?>6&#53;<![CDATA[.0]]> &lt;<"))
        .replace("xmlns=", "xmlns:v=\"urn:v\" v:a='1' xmlns=")
}

const PIECES: [&str; 37] = [
    "<",
    ">",
    "&",
    "\"",
    "'",
    "/",
    "=",
    " ",
    "<!--",
    "-->",
    "--",
    "<![CDATA[",
    "]]>",
    "<?p x?>",
    "<?xml version=\"1.0\"?>",
    "&amp;",
    "&#65;",
    "&#0;",
    "&#x1F;",
    "&#xD800;",
    "&x;",
    ":",
    "x:",
    "<a>",
    "</a>",
    "<a/>",
    "<1/>",
    " a=\"1\"",
    "a=\"1\"",
    "1",
    "\u{b}",
    "é",
    "\u{a0}",
    "!",
    "<!",
    "<?",
    "?>",
];

fn damaged() -> impl Strategy<Value = String> {
    let piece = prop::sample::select(&PIECES[..]);
    let change = (
        any::<prop::sample::Index>(),
        prop::sample::select(&[0usize, 0, 0, 1, 2, 5][..]),
        prop::collection::vec(piece, 0..3),
    );
    prop::collection::vec(change, 1..3).prop_map(|changes| {
        let mut text = rich();
        for (at, take, pieces) in changes {
            let edges: Vec<usize> = text.char_indices().map(|(at, _)| at).collect();
            let from = at.index(edges.len());
            let to = edges.get(from + take).copied().unwrap_or(text.len());
            text.replace_range(edges[from]..to, &pieces.concat());
        }
        text
    })
}

#[test]
fn xmllint_and_we_agree() {
    let mut runner = TestRunner::new(cases(256));
    let strategy = damaged();
    let mut documents = vec![rich()];
    documents.extend((0..500).map(|_| strategy.new_tree(&mut runner).unwrap().current()));
    let theirs = refused_by_xmllint(&documents);
    // The test would be empty if one side were always right.
    assert!(!theirs.contains(&0) && theirs.len() > 200 && theirs.len() < 480);
    for (number, text) in documents.iter().enumerate() {
        let ours = refusal(text);
        if theirs.contains(&number) {
            assert!(!read(text.as_bytes()).errors.is_empty(), "read:\n{text}");
        } else if let Some(reason) = ours {
            // Namespaces are the only ground on which more is refused.
            assert!(reason.contains("is not declared"), "{reason}:\n{text}");
        }
    }
}

/// A document with a part of its fourth line changed, and where the mark `|` stood in it.
fn with_mark(from: &str, to: &str) -> (String, String) {
    let whole = document(PARTS);
    assert!(whole.contains(from));
    let marked = whole.replacen(from, to, 1);
    let (number, line) = marked
        .lines()
        .enumerate()
        .find(|(_, line)| line.contains('|'))
        .unwrap();
    let column = line.chars().position(|c| c == '|').unwrap() + 1;
    (marked.replace('|', ""), format!("{}:{column}", number + 1))
}

#[test]
fn each_slip_has_its_words_and_its_place() {
    let stick = "<stick-out>65";
    let cutter = "\"em12\" collet";
    let cases = [
        (stick, "<stick-out>6|]]>5", "`]]>` in text"),
        (stick, "<stick-out><!-- a |-- b -->65", "comment"),
        (stick, "<stick-out>|\u{b}65", "U+000B"),
        (stick, "<stick-out>|&#1;65", "not expanded"),
        (cutter, "\"|&#1;\" collet", "XML does not allow"),
        (cutter, "\"|a<b\" collet", "a `<` inside"),
        (stick, "|<stick-out unit='mm'by='me'>65", "no blank before"),
        (stick, "|<stick-out unit='mm' unit='mm'>65", "given twice"),
        (stick, "|<stick-out unit=mm>65", "not well-formed"),
        (stick, "|<stick-out 1='1'>65", "not an attribute name"),
        (stick, "<stick-out>|<1/>65", "not an element name"),
        (
            stick,
            "<stick-out v:unit='|mm'>65",
            "prefix `v` is not declared",
        ),
        (stick, "|<v:x/><stick-out>65", "prefix `v` is not declared"),
        (stick, "<stick-out>|<?xml x?>65", "must open the file"),
        (stick, "<stick-out>|<?a:b x?>65", "processing instruction"),
    ];
    for (from, to, words) in cases {
        let (text, place) = with_mark(from, to);
        let (at, reason) = super::refused(text.as_bytes());
        assert!(reason.contains(words), "{to}: {reason}");
        assert_eq!(at, place, "{to}: {reason}");
    }
}
