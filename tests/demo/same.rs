//! The same library in another form is judged the same.

use shankwise::judge::{Finding, Report};

use super::shuffled::without_lines;
use super::{level, report, tool};
use crate::support::fixture;

/// All of a finding but its places.
fn shown(finding: &Finding) -> String {
    format!(
        "{} {} {} tool {} operation {} {} {}",
        finding.rule,
        level(finding),
        finding.outcome.name(),
        tool(finding),
        finding.operation.as_deref().unwrap_or("-"),
        without_lines(&finding.message),
        finding.fingerprint,
    )
}

fn all(report: &Report) -> Vec<String> {
    let mut all: Vec<String> = report.findings.iter().map(shown).collect();
    all.sort_unstable();
    all
}

/// What stands in the first list and not, or less often, in the second.
fn less(first: &[String], second: &[String]) -> Vec<String> {
    let mut second = second.to_vec();
    let missing = first.iter().filter(|text| {
        let at = second.iter().position(|other| other == *text);
        at.map(|at| second.swap_remove(at)).is_none()
    });
    missing.cloned().collect()
}

#[test]
fn folder_and_document_are_judged_the_same() {
    let folder = report(&fixture("demo"));
    let document = report(&fixture("forms/demo.xml"));
    assert_eq!(document.library.form, "xml");
    assert_eq!(less(&all(&folder), &all(&document)), Vec::<String>::new());
    assert_eq!(less(&all(&document), &all(&folder)), Vec::<String>::new());
    assert_eq!(document.summary, folder.summary);
}

/// Findings of the folder that a flat table has not, each with the reason.
const ONLY_IN_FOLDER: [&str; 10] = [
    // A row that names no collet's properties does not say that the collet is lost, so the
    // harmless conventions hold: the recess counts as none.
    "grip/flutes-in-bore none not judged tool 37 operation - not judged (the front of the bore does not grip plain shank): assembly.stick_out and collet.bore_recess are not stated",
    "grip/little-shank none not judged tool 37 operation - not judged (very little shank inserted): assembly.stick_out and collet.bore_recess are not stated",
    "grip/short-grip none not judged tool 37 operation - not judged (too little shank in the collet): assembly.stick_out, collet.bore_length and collet.bore_recess are not stated",
    // A row holds one operation.
    "reach/flutes-too-short error not met tool 41 operation k9-41 axial depth 48.0 mm; cutting edges 45.0 mm, 3.0 mm too short",
    // A broken cell of a part or an operation belongs to no one tool.
    "record/cell-unreadable error not met tool - operation - reach: `14,5`: decimal comma where this file has points: write 14.5",
    "record/cell-unreadable note not met tool - operation - corner_radius: `n/a`: a stand-in; leave the cell empty if nothing is known",
    "record/negative-length error not met tool - operation - neck_length: `0`; expected a number above zero",
    // Parts are no records of their own: none stands twice, is lost or is left over.
    "record/part-twice error not met tool - operation - collet `c40-25` is already defined in line …",
    "record/part-unknown error not met tool 37 operation - collet `c20-08` is not among the collets; did you mean `c20-8`?",
    "record/part-unused note not met tool - operation - cutter `em14-83` is used in no assembly",
];

/// Findings of the flat table that the folder has not.
const ONLY_IN_FLAT: [&str; 7] = [
    // See above: the recess counts as none.
    "grip/flutes-in-bore none not judged tool 37 operation - not judged (the front of the bore does not grip plain shank): assembly.stick_out is not stated",
    "grip/little-shank none not judged tool 37 operation - not judged (very little shank inserted): assembly.stick_out is not stated",
    "grip/short-grip none not judged tool 37 operation - not judged (too little shank in the collet): assembly.stick_out and collet.bore_length are not stated",
    // A broken cell is copied into every row that it is part of, and belongs to that tool.
    "record/cell-unreadable error not met tool 33 operation - reach: `14,5`: decimal comma where this file has points: write 14.5",
    "record/cell-unreadable note not met tool 33 operation - corner_radius: `n/a`: a stand-in; leave the cell empty if nothing is known",
    "record/cell-unreadable note not met tool 7 operation - corner_radius: `n/a`: a stand-in; leave the cell empty if nothing is known",
    "record/negative-length error not met tool 32 operation - neck_length: `0`; expected a number above zero",
];

fn but_for_fingerprints(findings: &[String]) -> Vec<&str> {
    let cut = findings.iter().map(|text| text.rsplit_once(' '));
    cut.map(|parts| parts.expect("there is a fingerprint").0)
        .collect()
}

#[test]
fn the_flat_table_is_judged_the_same_less_what_it_cannot_say() {
    let (folder, flat) = (
        all(&report(&fixture("demo"))),
        all(&report(&fixture("forms/demo-flat.csv"))),
    );
    let (lost, gained) = (less(&folder, &flat), less(&flat, &folder));
    assert_eq!(but_for_fingerprints(&lost), ONLY_IN_FOLDER);
    assert_eq!(but_for_fingerprints(&gained), ONLY_IN_FLAT);
    // What is the same but for a missing field keeps its fingerprint, and so its acceptance.
    let of = |findings: &[String]| {
        let of_rules = findings.iter().filter(|text| text.starts_with("grip/"));
        let cut = of_rules.map(|text| text.rsplit_once(' ').map(|(_, print)| print.to_owned()));
        cut.collect::<Vec<_>>()
    };
    assert_eq!(of(&lost), of(&gained));
}
