//! At every end the rule that binds it holds, and just beyond it fails; inside none fails.

use rayon::prelude::*;
use shankwise::advice::{End, Window};
use shankwise::facts::Fact;
use shankwise::judge::{Measure, Outcome};
use shankwise::library::Field;
use shankwise::rulebook::{Level, Rule};

use super::tables::GENERATED;
use super::{Bench, Cell};

/// Which way a window ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Side {
    Lower,
    Upper,
}

/// How far beyond an end is looked, mm.
const BEYOND: f64 = 0.05;
/// The name under which the end of a full land is reported.
const FULL_LAND: &str = "grip/part-grip";
/// Stick-outs that are looked at inside.
const INSIDE: u32 = 20;

/// All ends that a window reports, and whether each is an end of the window or of its advised
/// part, or only the next one beyond.
pub(super) fn ends(window: &Window) -> Vec<(Side, bool, &End)> {
    let advised = window.advised.as_ref();
    let all = [
        (Side::Lower, true, window.min.as_ref()),
        (Side::Upper, true, window.max.as_ref()),
        (
            Side::Lower,
            true,
            advised.and_then(|part| part.min.as_ref()),
        ),
        (
            Side::Upper,
            true,
            advised.and_then(|part| part.max.as_ref()),
        ),
        (Side::Lower, false, window.next_min.as_ref()),
        (Side::Upper, false, window.next_max.as_ref()),
    ];
    let known = all.into_iter();
    known
        .filter_map(|(side, binds, end)| Some((side, binds, end?)))
        .collect()
}

pub(super) fn beyond(side: Side, end: &End) -> f64 {
    match side {
        Side::Lower => end.value - BEYOND,
        Side::Upper => end.value + BEYOND,
    }
}

/// An end where the land is just filled.
fn full_land(bench: &Bench<'_>, side: Side, end: &End) {
    let spare = |at: f64| {
        bench.look(at, |base, _| {
            let grip = base.number(Fact::GrippedLength).value.expect("a grip");
            base.field(Field::BoreLength).value.expect("a land") - grip
        })
    };
    // Ends that just miss each other share what counts as equal.
    assert!(spare(end.value) <= 0.01 + 1e-9, "{side:?} {end:?}");
    assert!(spare(beyond(side, end)) > 0.01, "{end:?}");
}

fn check_end(bench: &Bench<'_>, side: Side, end: &End) {
    if end.rule == FULL_LAND {
        return full_land(bench, side, end);
    }
    let rule = bench.rule(&end.rule).expect("a bounding rule");
    let at = bench.said(rule, end.value);
    // A rule may also end where it does not apply any more: the nut is out of the pocket.
    let silent = |said: &Measure| {
        !matches!(said.outcome, Outcome::Met | Outcome::NotMet)
            && said.waits.is_none()
            && said.outside.is_none()
    };
    let kept = |said: &Measure| said.outcome == Outcome::Met || silent(said);
    let fails = |said: &Measure| said.outcome == Outcome::NotMet;
    assert!(at.iter().any(kept), "{side:?} {end:?}: {at:?}");
    assert!(!at.iter().any(fails), "{side:?} {end:?}: {at:?}");
    let past = bench.said(rule, beyond(side, end));
    let ends =
        |said: &Measure| fails(said) || said.outside.is_some() && said.outside == end.model_ends;
    assert!(past.iter().any(ends), "{side:?} {end:?}: {past:?}");
}

/// Which of these rules fails somewhere between two stick-outs, both included.
fn failing<'r>(
    bench: &'r Bench<'_>,
    window: &Window,
    (min, max): (f64, f64),
    level: Level,
) -> Vec<(&'r str, f64)> {
    let judged = |rule: &Rule| rule.level == level && !window.beyond_cure.contains(&rule.id);
    let rules = bench.judge.bounding();
    let rules: Vec<_> = rules.filter(|(_, rule)| judged(rule)).collect();
    let mut found = Vec::new();
    for part in 0..=INSIDE {
        let at = min + (max - min) * f64::from(part) / f64::from(INSIDE);
        let fail = rules.iter().filter(|rule| bench.fails(**rule, at));
        found.extend(fail.map(|(_, rule)| (rule.id.as_str(), at)));
    }
    found
}

pub(super) fn span(min: Option<&End>, max: Option<&End>, length: f64) -> (f64, f64) {
    let value = |end: Option<&End>, otherwise| end.map_or(otherwise, |end| end.value);
    (value(min, 0.05), value(max, length))
}

fn check_inside(bench: &Bench<'_>, window: &Window) {
    let length = window.overall_length;
    let limits = span(window.min.as_ref(), window.max.as_ref(), length);
    let failing = |span, level| failing(bench, window, span, level);
    assert_eq!(failing(limits, Level::Error), [], "{window:#?}");
    if let Some(advised) = &window.advised {
        let span = span(advised.min.as_ref(), advised.max.as_ref(), length);
        assert_eq!(failing(span, Level::Warning), [], "{window:#?}");
        assert_eq!(failing(span, Level::Error), [], "{window:#?}");
    }
    for other in &window.others {
        assert_eq!(failing(*other, Level::Error), [], "{window:#?}");
    }
}

/// A rule that holds nowhere has no end of its own: where it would have one is reckoned, and
/// what is reckoned shows as an empty window.
fn holds_nowhere(bench: &Bench<'_>, end: &End, length: f64) -> bool {
    let Some(rule) = bench.rule(&end.rule) else {
        return false;
    };
    let steps = (1..).map(|step| 0.25 * f64::from(step));
    steps
        .take_while(|at| *at <= length)
        .all(|at| bench.fails(rule, at))
}

fn check_empty(bench: &Bench<'_>, window: &Window) {
    let (least, most) = span(
        window.min.as_ref(),
        window.max.as_ref(),
        window.overall_length,
    );
    assert!(least > most, "{window:#?}");
    let short_by = window.short_by.expect("it is empty");
    assert!((short_by - (least - most)).abs() < 1e-9, "{window:#?}");
    assert_eq!(window.recommended, None);
    assert_eq!(window.advised, None);
    for (side, _, end) in ends(window) {
        if !holds_nowhere(bench, end, window.overall_length) {
            check_end(bench, side, end);
        }
    }
}

/// Checks every window of a library, and says how many were empty.
pub(super) fn check(cell: &Cell) -> usize {
    let windows = cell.library.assemblies.iter();
    let windows = windows.map(|assembly| cell.of(assembly).expect("a window"));
    check_all(cell, &windows.collect::<Vec<Window>>())
}

fn check_all(cell: &Cell, windows: &[Window]) -> usize {
    let mut empty = 0;
    for (assembly, window) in cell.library.assemblies.iter().zip(windows) {
        let bench = Bench::new(cell, assembly);
        if window.is_empty() {
            check_empty(&bench, window);
            empty += 1;
            continue;
        }
        for (side, _, end) in ends(window) {
            check_end(&bench, side, end);
        }
        check_inside(&bench, window);
    }
    empty
}

#[test]
fn ends_bind_and_nothing_fails_between() {
    let each = GENERATED.par_iter();
    let empty: usize = each.map(|one| check_all(&one.cell, &one.windows)).sum();
    assert!(empty > 20, "{empty} empty windows were checked");
}
