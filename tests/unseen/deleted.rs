//! A cell that is taken away proves nothing: what fails, or is not judged, is never met for it,
//! nor does its rule stop to apply.
//!
//! Where a starred cell is taken away, a tool of which a rule falls silent is not judged for want
//! of that very cell.

use std::collections::{BTreeMap, BTreeSet};

use rayon::prelude::*;
use shankwise::judge::{Judge, Ruling};
use shankwise::library::{Kind, Library, Overrides, PROPERTIES};
use shankwise::rulebook::Rule;

use super::exceptions::{EXCEPTIONS, OF_A_SLEEVE, holds_no_shank, sleeved};
use super::row::{Row, flat};
use super::rows::rows;
use super::{Units, read};
use crate::support::built_in;

/// Rows of each of the two systems of units.
const EACH: usize = 5000;

/// A rule, the column whose cell is taken away, and one row where that makes it fall silent.
type Lost = BTreeMap<(String, &'static str), (usize, String)>;

fn judged(judge: &Judge<'_>, library: &Library) -> Vec<Vec<Ruling>> {
    let as_it_is = Overrides::default();
    let assemblies = library.assemblies.par_iter();
    let each = assemblies.map(|assembly| judge.verdicts(library, assembly, &as_it_is));
    each.collect()
}

/// Whether a rule stands in the way of calling its tool right.
fn open(ruling: &Ruling) -> bool {
    ruling.outcome.is_found()
}

/// Rules that were open and are not any more.
fn closed<'r>(
    judge: &'r Judge<'_>,
    before: &'r [Ruling],
    after: &'r [Ruling],
) -> impl Iterator<Item = &'r Rule> {
    let still = |ruling: &Ruling| {
        let mut after = after.iter();
        after.any(|now| (now.rule, now.operation) == (ruling.rule, ruling.operation) && open(now))
    };
    let lost = before.iter().filter(|ruling| open(ruling));
    let lost = lost.filter(move |ruling| !still(ruling));
    lost.map(|ruling| &judge.book.rules[ruling.rule])
}

/// Whether a tool is said to be not judged because a column's cell is missing.
fn missed(library: &Library, number: &str, column: &str) -> bool {
    library.faults().any(|fault| {
        let short = fault
            .missing
            .map(|name| name.trim_start_matches("assembly."));
        let same = fault.missing == Some(column) || short == Some(column);
        let own = fault.of.map(|of| &library.assemblies[of]);
        same && own.is_some_and(|own| own.tool_number() == Some(number))
    })
}

fn excused(rule: &str, column: &str, row: &Row) -> bool {
    let named = |rules: &[&str]| {
        let mut names = rules.iter();
        names.any(|name| *name == rule || name.ends_with('/') && rule.starts_with(name))
    };
    let (rules, columns) = OF_A_SLEEVE;
    let mut excuses = EXCEPTIONS.iter();
    excuses.any(|one| named(one.rules) && one.columns.contains(&column) && (one.of)(row))
        || sleeved(row) && named(rules) && columns.contains(&column)
        || holds_no_shank(row) && column.starts_with("cutter.")
}

/// Takes a column's cell away from every fourth row; each row is a tool of its own.
fn without(
    judge: &Judge<'_>,
    rows: &[Row],
    before: &[Vec<Ruling>],
    (at, column): (usize, &'static str),
    units: Units,
) -> (usize, Lost) {
    let with = rows.iter().zip(before).skip(at % 4).step_by(4);
    let with: Vec<_> = with.filter(|(row, _)| row.0.contains_key(column)).collect();
    let bare: Vec<Row> = with.iter().map(|(row, _)| row.without(column)).collect();
    let library = read(&flat(&bare, units), units);
    let after = judged(judge, &library);
    let mut lost = Lost::new();
    for (tool, ((row, before), after)) in library.assemblies.iter().zip(with.iter().zip(&after)) {
        for rule in closed(judge, before, after) {
            let number = tool.tool_number().unwrap_or_default();
            if missed(&library, number, column) || excused(&rule.id, column, row) {
                continue;
            }
            let shown = || flat(std::slice::from_ref(row), units);
            let entry = lost.entry((rule.id.clone(), column));
            entry.or_insert_with(|| (0, shown())).0 += 1;
        }
    }
    (with.len(), lost)
}

/// Takes away a quarter of all cells, one at a time.
fn all(units: Units, seed: u64) -> (usize, Lost) {
    let setup = built_in();
    let judge = Judge::new(&setup.book, false);
    let rows = rows(EACH, seed);
    let before = judged(&judge, &read(&flat(&rows, units), units));
    let columns: BTreeSet<&str> = rows.iter().flat_map(|row| row.0.keys().copied()).collect();
    let columns: Vec<&str> = columns.into_iter().collect();
    let each = columns.into_par_iter().enumerate();
    let each = each.map(|column| without(&judge, &rows, &before, column, units));
    each.reduce(
        || (0, Lost::new()),
        |(count, mut all), (more, lost)| {
            all.extend(lost);
            (count + more, all)
        },
    )
}

fn check(units: Units, seed: u64) {
    let (cells, lost) = all(units, seed);
    assert!(cells > 5 * EACH, "{cells}");
    let sum: usize = lost.iter().map(|(_, (count, _))| count).sum();
    let words: Vec<String> = lost
        .iter()
        .map(|((rule, column), (count, row))| format!("{count:5} {rule} without {column}\n{row}"))
        .collect();
    assert!(lost.is_empty(), "{sum} of {cells}\n{}", words.join(""));
}

#[test]
fn a_cell_taken_away_proves_nothing_in_mm() {
    check(Units::Metric, 10);
}

#[test]
fn a_cell_taken_away_proves_nothing_in_inch() {
    check(Units::Inch, 20);
}

/// A value that the main rules need may never be what a rule hangs on.
#[test]
fn no_starred_cell_is_excused() {
    let starred = PROPERTIES.iter().filter(|property| property.starred);
    for property in starred {
        for one in EXCEPTIONS {
            assert!(!one.reason.is_empty());
            let named = one.columns.iter().any(|column| {
                let bare = property.kind == Kind::Assembly;
                *column == property.qualified || bare && *column == property.name
            });
            assert!(!named, "{:?} {}", one.rules, property.qualified);
        }
    }
}
