//! Every assembly is counted in exactly one place.

use shankwise::judge::judge;

use super::row::{Row, flat};
use super::rows::rows;
use super::{Units, read};
use crate::clampings::category;
use crate::support::{BUILT_IN, adds_up, options};

/// Counts of the five in their order: fails, grip not judged, warned, otherwise not judged,
/// nothing found; as the program counts them.
fn counts(rows: &[Row], units: Units) -> [usize; 5] {
    let report = judge(&read(&flat(rows, units), units), &BUILT_IN, &options());
    adds_up(&report.summary);
    let came = report.came();
    assert_eq!(came.sum(), rows.len());
    [
        came.fails,
        came.grip_not_judged,
        came.warned,
        came.not_judged,
        came.nothing_found,
    ]
}

const WORDS: [&str; 5] = [
    "fails",
    "grip not judged",
    "warned",
    "otherwise not judged",
    "nothing found",
];

/// The same from the findings alone.
fn from_findings(rows: &[Row], units: Units) -> [usize; 5] {
    let report = judge(&read(&flat(rows, units), units), &BUILT_IN, &options());
    let mut found = [0; 5];
    for at in 0..rows.len() {
        let own = report.findings.iter();
        let own: Vec<_> = own.filter(|one| one.assembly_index == Some(at)).collect();
        let word = category(&own);
        found[WORDS.iter().position(|other| *other == word).unwrap()] += 1;
    }
    found
}

#[test]
fn each_is_in_one_place() {
    for (units, seed) in [(Units::Metric, 50), (Units::Inch, 60)] {
        let rows = rows(1000, seed);
        let all = counts(&rows, units);
        assert!(all.iter().all(|count| *count > 0), "{all:?}");
        assert_eq!(all, from_findings(&rows, units), "{units:?}");
    }
}

/// Tools are counted alike alone and among others.
#[test]
fn each_counts_for_itself() {
    let rows = rows(100, 70);
    let mut sum = [0; 5];
    for row in &rows {
        let one = counts(std::slice::from_ref(row), Units::Metric);
        assert_eq!(one.iter().sum::<usize>(), 1);
        sum.iter_mut().zip(one).for_each(|(sum, one)| *sum += one);
    }
    assert_eq!(sum, counts(&rows, Units::Metric));
}
