//! The ordinary linter says the same as the window, with the stick-out written into the library.

use std::collections::BTreeSet;

use rayon::prelude::*;
use shankwise::advice::{End, Window};
use shankwise::judge::{Outcome, judge};

use super::Cell;
use super::counts::BOUNDING;
use super::ends::{Side, beyond, ends};
use super::tables::{GENERATED, Generated, cell};
use super::tools::Tool;
use crate::support::options;

/// Assemblies of one library; each is written and read again a dozen times.
const EACH: usize = 30;

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
fn compare(generated: &Generated, which: usize) -> usize {
    let (aim, inch) = (generated.aim, generated.inch);
    let tools = &generated.tools[..EACH];
    let windows = generated.windows[..EACH].iter();
    let windows = windows.map(|window| (!window.is_empty()).then_some(window));
    let chosen: Vec<Option<(Side, &End)>> = windows
        .map(|window| asked(window?).get(which).copied())
        .collect();
    // The library would be the one that was generated.
    if chosen.iter().all(Option::is_none) {
        return 0;
    }
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
    let each = GENERATED.par_iter();
    let each = each.flat_map_iter(|one| (0..6).map(move |which| compare(one, which)));
    let compared: usize = each.sum();
    assert!(compared > 1000, "{compared} ends were compared");
}
