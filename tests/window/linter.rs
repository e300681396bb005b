//! The ordinary linter says the same as the window, with the stick-out written into the library.

use std::collections::BTreeSet;

use shankwise::advice::{End, Window};
use shankwise::judge::{Outcome, judge};

use super::Cell;
use super::counts::BOUNDING;
use super::ends::{Side, beyond, ends};
use super::tables::{cell, generated};
use super::tools::{AIMS, Aim, Tool};
use crate::support::options;

/// Assemblies of one library; each is written and read again a dozen times.
const EACH: u32 = 30;

/// Rules that fail, with the tool's place in the library.
fn failing(cell: &Cell) -> BTreeSet<(usize, String)> {
    let report = judge(&cell.library, &cell.setup, &options());
    let fails = |finding: &&shankwise::judge::Finding| finding.outcome == Outcome::NotMet;
    let failing = report.findings.iter().filter(fails);
    failing
        .filter_map(|finding| Some((finding.assembly_index?, finding.rule.clone())))
        .collect()
}

/// The ends that the linter can be asked about: it has no word for a full land, and says
/// nothing where a model ends.
fn asked(window: &Window) -> Vec<(Side, &End)> {
    let named = |end: &End| BOUNDING.iter().any(|(id, _)| *id == end.rule);
    ends(window)
        .into_iter()
        .filter(|(_, _, end)| named(end) && end.model_ends.is_none())
        .map(|(side, _, end)| (side, end))
        .collect()
}

/// Sets every tool of a library to one of its ends and then just beyond it, and lints both.
fn compare(aim: Aim, inch: bool, which: usize) -> usize {
    let (tools, solved) = generated(aim, inch, EACH);
    let windows: Vec<Option<Window>> = solved
        .library
        .assemblies
        .iter()
        .map(|assembly| solved.of(assembly).filter(|window| !window.is_empty()))
        .collect();
    let chosen: Vec<Option<(Side, &End)>> = windows
        .iter()
        .map(|window| asked(window.as_ref()?).get(which).copied())
        .collect();
    let set = |to: &dyn Fn(Side, &End) -> f64| -> BTreeSet<(usize, String)> {
        let tools = tools.iter().zip(&chosen).map(|(tool, end)| match end {
            Some((side, end)) => tool.set_to(to(*side, end)),
            None => tool.clone(),
        });
        failing(&cell(aim, inch, &tools.collect::<Vec<Tool>>()))
    };
    let at = set(&|_, end| end.value);
    let past = set(&|side, end| beyond(side, end));
    let mut compared = 0;
    for (tool, end) in chosen.iter().enumerate() {
        let Some((side, end)) = end else {
            continue;
        };
        let this = (tool, end.rule.clone());
        assert!(!at.contains(&this), "{aim:?} {tool} {side:?} {end:?}");
        assert!(past.contains(&this), "{aim:?} {tool} {side:?} {end:?}");
        compared += 1;
    }
    compared
}

#[test]
fn the_linter_agrees_at_every_end() {
    let mut compared = 0;
    for aim in AIMS {
        for inch in [false, true] {
            compared += (0..6).map(|which| compare(aim, inch, which)).sum::<usize>();
        }
    }
    assert!(compared > 1000, "{compared} ends were compared");
}
