//! How often every rule speaks, over many libraries of all clampings: whoever changes a rule sees
//! in the table's difference how many findings appear and vanish.
//!
//! `REWRITE_COUNTS=1 cargo test --test all found` writes the table anew.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::Path;

use rayon::prelude::*;
use shankwise::advice::{Advice, advise};
use shankwise::judge::{Outcome, Setup, judge};

use super::row::flat;
use super::rows::rows;
use super::slips::slipped;
use super::{Units, read};
use crate::support::{built_in, options};
use crate::window::dice::Dice;

const TABLE: &str = "fixtures/expected/found.csv";
const LIBRARIES: u64 = 300;
/// Tools of each library.
const TOOLS: usize = 20;
/// What may come of a judgement that is not met or not made.
const COLUMNS: [&str; 4] = ["error", "warning", "note", "not judged"];
/// Where a tool may be counted.
const PLACES: [&str; 5] = [
    "fails",
    "grip not judged",
    "warned",
    "otherwise not judged",
    "nothing found",
];

/// One library in so many has slips of the hand in it.
const WITH_SLIPS: u64 = 3;

/// Counts by rule, and by where the tools are counted.
#[derive(Clone, Default)]
struct Counts {
    rules: BTreeMap<String, [usize; 4]>,
    places: [usize; 5],
}

impl Counts {
    fn and(mut self, other: Counts) -> Counts {
        for (rule, more) in other.rules {
            let own = self.rules.entry(rule).or_default();
            own.iter_mut()
                .zip(more)
                .for_each(|(own, more)| *own += more);
        }
        let places = self.places.iter_mut().zip(other.places);
        places.for_each(|(own, more)| *own += more);
        self
    }

    /// As it stands in the file.
    fn written(&self) -> String {
        let mut text = format!("rule,{}\n", COLUMNS.join(","));
        for (rule, counts) in &self.rules {
            let counts = counts.map(|count| count.to_string()).join(",");
            let _ = writeln!(text, "{rule},{counts}");
        }
        for (place, count) in PLACES.iter().zip(self.places) {
            let _ = writeln!(text, "tools: {place},{count},,,");
        }
        text
    }
}

fn counts(number: u64, setup: &Setup) -> Counts {
    let units = if number.is_multiple_of(2) {
        Units::Metric
    } else {
        Units::Inch
    };
    let mut rows = rows(TOOLS, 5000 + number);
    if number.is_multiple_of(WITH_SLIPS) {
        let mut dice = Dice::new(number);
        rows = rows
            .into_iter()
            .map(|row| slipped(&mut dice, row))
            .collect();
    }
    let library = read(&flat(&rows, units), units);
    let mut report = judge(&library, setup, &options());
    let _: Advice = advise(&library, setup, &options(), false, &mut report);
    let mut counts = Counts::default();
    for finding in &report.findings {
        let column = match finding.outcome {
            Outcome::NotMet => finding.level_name(),
            _ => "not judged",
        };
        let at = COLUMNS.iter().position(|name| *name == column);
        counts.rules.entry(finding.rule.clone()).or_default()[at.expect("a column")] += 1;
    }
    let came = report.came();
    counts.places = [
        came.fails,
        came.grip_not_judged,
        came.warned,
        came.not_judged,
        came.nothing_found,
    ];
    counts
}

#[test]
fn as_many_findings_as_the_table_has() {
    let setup = built_in();
    let silent = setup.book.rules.iter().filter(|rule| !rule.is_fault());
    let silent = silent.map(|rule| (rule.id.clone(), [0; 4])).collect();
    let none = Counts {
        rules: silent,
        places: [0; 5],
    };
    let each = (0..LIBRARIES).into_par_iter();
    let all = each.map(|number| counts(number, &setup));
    let all = none.and(all.reduce(Counts::default, Counts::and)).written();
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(TABLE);
    if std::env::var_os("REWRITE_COUNTS").is_some() {
        std::fs::write(&path, &all).expect("the table is written");
    }
    let wanted = std::fs::read_to_string(&path).expect("there is a table");
    let other: Vec<String> = wanted
        .lines()
        .zip(all.lines())
        .filter(|(wanted, now)| wanted != now)
        .map(|(wanted, now)| format!("{wanted}  now: {now}"))
        .collect();
    assert!(wanted == all, "{}", other.join("\n"));
}
