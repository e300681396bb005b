//! No false alarm: the first one is the last time that a programmer looks.

use std::collections::BTreeMap;

use shankwise::judge::{Finding, Verdict, judge};

use super::shop::{csv, rows};
use crate::support::{built_in, library, options};

/// What 500 sane assemblies are told, and how often: notes only. Half of them are gripped to two
/// thirds where the job would let them be gripped in full, and one torque serves all nuts, so
/// that the model of slip, with frictions from memory, finds small nuts and heavy cuts. Long drills
/// are told to have their run-out measured. No helix is stated, so nothing is known to pull.
const NOTES: [(&str, usize); 7] = [
    ("grip/collapsed-collet", 3),
    ("grip/part-grip", 189),
    ("holding/slips", 20),
    ("reach/more-overhang-than-needed", 164),
    ("stiffness/run-out-not-measured", 31),
    ("stiffness/tip-bends", 1),
    ("torque/torque-cannot-hold", 17),
];

fn listed<'f>(findings: impl Iterator<Item = &'f Finding>) -> BTreeMap<String, usize> {
    let mut counts = BTreeMap::new();
    for finding in findings {
        *counts.entry(finding.rule.clone()).or_insert(0) += 1;
    }
    counts
}

#[test]
fn sane_tools_are_left_alone() {
    let text = csv(&rows(500));
    let library = library(&text);
    let report = judge(&library, &built_in(), &options());
    let alarms: Vec<String> = report
        .findings
        .iter()
        .filter(|finding| finding.level_name() != "note")
        .map(|f| {
            let row = f.assembly_index.and_then(|at| text.lines().nth(at + 1));
            format!(
                "{} {}: {}\n    {}",
                f.rule,
                f.level_name(),
                f.message,
                row.unwrap_or("")
            )
        })
        .collect();
    let first: Vec<&String> = alarms.iter().take(12).collect();
    assert!(
        alarms.is_empty(),
        "{} alarms: {first:#?}\n{}",
        alarms.len(),
        text.lines().next().unwrap()
    );
    assert_eq!(report.summary.verdict, Verdict::NothingFound);
    assert_eq!(report.summary.grip_judged, report.summary.held_in_collets);
    assert_eq!(report.coverage.grip_judged(), report.summary.held_by_shank);
    let notes: BTreeMap<String, usize> = NOTES
        .into_iter()
        .map(|(rule, count)| (rule.to_owned(), count))
        .collect();
    assert_eq!(listed(report.findings.iter()), notes, "the notes");
}
