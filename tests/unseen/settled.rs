//! What one tool settles for all that differ from it in numbers alone: judged among them, each
//! comes out as it does alone.

use rayon::prelude::*;
use shankwise::judge::{Report, judge};

use super::row::{Cell, Row, flat};
use super::rows::rows;
use super::{Units, read};
use crate::support::{BUILT_IN, options};
use crate::window::dice::Dice;

const TOOLS: usize = 1_500;
/// So many of each: the first settles what no number decides.
const KIN: usize = 4;

/// The same tool with other lengths and torques, and a number of its own.
fn kin(dice: &mut Dice, row: &Row, number: usize) -> Row {
    let mut kin = row.clone();
    kin.say("tool_number", number);
    for cell in kin.0.values_mut() {
        match cell {
            Cell::Length(value) | Cell::Torque(value) => *value *= dice.between(0.5, 1.6),
            Cell::Text(_) => {}
        }
    }
    kin
}

fn judged(rows: &[Row]) -> Report {
    judge(
        &read(&flat(rows, Units::Metric), Units::Metric),
        &BUILT_IN,
        &options(),
    )
}

/// What is said of each tool, and what is counted.
fn said(report: &Report) -> (Vec<String>, [usize; 3]) {
    let findings = report.findings.iter();
    let findings = findings.filter(|finding| finding.assembly_index.is_some());
    let mut said: Vec<String> = findings
        .map(|one| {
            format!(
                "{:?} {} {:?} {}",
                one.tool_number, one.rule, one.level, &*one.message
            )
        })
        .collect();
    said.sort();
    let summary = report.summary;
    (
        said,
        [summary.met, summary.not_applicable, summary.judgements],
    )
}

#[test]
fn what_a_tool_settles_holds_for_its_kin() {
    let mut dice = Dice::new(31);
    let families: Vec<Vec<Row>> = rows(TOOLS, 31)
        .iter()
        .enumerate()
        .map(|(at, row)| {
            (0..KIN)
                .map(|own| kin(&mut dice, row, 10 * at + own))
                .collect()
        })
        .collect();
    let differ = families.par_iter().filter(|family| {
        let (mut alone, mut counts) = (Vec::new(), [0; 3]);
        for row in *family {
            let (findings, own) = said(&judged(std::slice::from_ref(row)));
            alone.extend(findings);
            counts = std::array::from_fn(|at| counts[at] + own[at]);
        }
        alone.sort();
        said(&judged(family)) != (alone, counts)
    });
    assert_eq!(differ.count(), 0);
}
