//! How far a tool may run out, by all rules that a measured run-out would not meet.

use crate::judge::Session;
use crate::library::{Assembly, Field, Overrides};
use crate::rulebook::Level;

/// What stands beside the box for the measured run-out. Lengths in mm.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct RunOutShown {
    /// The most that meets every rule, and the rule that ends it.
    pub limit: Option<(f64, String)>,
    /// What is recorded as measured.
    pub recorded: Option<f64>,
    /// What a new collet of the normal class may show at the tip, where none is measured.
    pub class: Option<f64>,
}

/// The step in which it is sought: a dial indicator shows no less, mm.
const STEP: f64 = 0.001;
/// No rule is asked about more steps than this.
const MOST: u32 = 1000;

impl RunOutShown {
    /// The limit alone: it is sought by asking the rules, so that a shop's own count too.
    pub(super) fn of(session: &Session<'_>, assembly: &Assembly) -> RunOutShown {
        let judge = &session.judge;
        let failing = |steps: u32, among: Option<&[usize]>| {
            let overrides = Overrides {
                numbers: vec![(Field::RunOut, f64::from(steps) * STEP)],
                ..Overrides::default()
            };
            judge.failing(session.library, assembly, &overrides, |index, rule| {
                among.map_or(rule.level >= Level::Warning, |own| own.contains(&index))
            })
        };
        let at_most = failing(MOST, None);
        let at_none = failing(0, Some(&at_most));
        let turning: Vec<usize> = at_most
            .into_iter()
            .filter(|rule| !at_none.contains(rule))
            .collect();
        if turning.is_empty() {
            return RunOutShown::default();
        }
        // All are met at `low`, and one is not at `high`.
        let (mut low, mut high) = (0, MOST);
        while high - low > 1 {
            let middle = u32::midpoint(low, high);
            if failing(middle, Some(&turning)).is_empty() {
                low = middle;
            } else {
                high = middle;
            }
        }
        let ends = failing(high, Some(&turning));
        let rule = ends.first().and_then(|index| judge.book.rules.get(*index));
        RunOutShown {
            limit: rule.map(|rule| (f64::from(low) * STEP, rule.id.clone())),
            ..RunOutShown::default()
        }
    }
}
