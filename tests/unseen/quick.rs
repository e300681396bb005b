//! Short cuts that must not be seen: rules asked by marks alone, and scenes that take over what no
//! stick-out moves.

use std::cell::Cell;

use rayon::prelude::*;
use shankwise::facts::{Fact, Scene};
use shankwise::judge::{Judge, Measure};
use shankwise::library::{
    Assembly, Field, Library, Marks, Overrides, Provenance, Reckoned, Watch, Watched,
};

use super::row::flat;
use super::rows::rows;
use super::{Units, read};
use crate::support::built_in;

/// Assemblies whose rules are asked both ways.
const ASSEMBLIES: usize = 100_000;
/// So many at once, so that no library of all of them is held.
const PART: usize = 10_000;
/// Assemblies that are pulled out.
const PULLED: usize = 4_000;

/// Whether two answers are the same, whatever they say that they rest on.
fn agree(quick: &Measure<Marks>, full: &Measure) -> bool {
    let (marks, trace) = (quick.trace, full.trace);
    quick.outcome == full.outcome
        && quick.waits.is_some() == full.waits.is_some()
        && quick.outside == full.outside
        && quick.slack.to_bits() == full.slack.to_bits()
        && marks.lacks() == trace.lacks()
        && marks.ranges() == trace.ranges()
        && marks.rests_on_assumed_star() == trace.rests_on_assumed_star()
}

/// Rules that say another thing when asked by marks.
fn disagreeing<'b>(judge: &'b Judge<'_>, scene: &Scene<'_>) -> Vec<&'b str> {
    let rules = judge.book.rules.iter().enumerate();
    let asked = rules.filter(|(_, rule)| !rule.is_fault());
    let differs = asked.filter(|(index, rule)| {
        let quick = judge.measure(*index, rule, scene.quick());
        !agree(&quick, &judge.measure(*index, rule, scene))
    });
    differs.map(|(_, rule)| rule.id.as_str()).collect()
}

#[test]
fn rules_asked_by_marks_say_the_same() {
    let setup = built_in();
    let judge = Judge::new(&setup.book, false);
    for seed in 0..ASSEMBLIES / PART {
        let rows = rows(PART, 7_000 + u64::try_from(seed).expect("small"));
        let library = read(&flat(&rows, Units::Metric), Units::Metric);
        let as_it_is = Overrides::default();
        let each = library.assemblies.par_iter();
        let found: Vec<_> = each
            .flat_map_iter(|assembly| {
                judge.look(&library, assembly, &as_it_is, |base, jobs| {
                    let scenes = std::iter::once(base).chain(jobs);
                    let found = scenes.flat_map(|scene| disagreeing(&judge, scene));
                    let number = assembly.tool_number().map(str::to_owned);
                    found.map(|rule| (number.clone(), rule)).collect::<Vec<_>>()
                })
            })
            .collect();
        assert!(found.is_empty(), "{found:?}");
    }
}

/// Facts of a scene by their names, without those that no number tells apart.
fn facts(scene: &Scene<'_>) -> Vec<String> {
    let all = Fact::all();
    all.map(|info| {
        let Reckoned { value, trace } = scene.fact(info.fact);
        format!("{} {value:?} {trace:?}", info.name)
    })
    .collect()
}

/// Facts that differ between a tool pulled out and the same tool recorded so.
fn pulled(
    judge: &Judge<'_>,
    library: &Library,
    assembly: &Assembly,
    stick_out: f64,
) -> Vec<(String, String)> {
    let moved = Cell::new(false);
    let as_it_is = Overrides::default();
    let watch = Watch {
        of: Watched::StickOut,
        seen: &moved,
    };
    let seen = judge.look_under(library, assembly, &as_it_is, Some(watch), |base, jobs| {
        // Asked twice: the second time what the first scene knows is there already.
        let _ = facts(&base.at_stick_out(stick_out - 1.0, None));
        let there = base.at_stick_out(stick_out, None);
        match jobs.first() {
            Some(job) => facts(&job.at_stick_out(stick_out, Some(&there))),
            None => facts(&there),
        }
    });
    let recorded = Overrides {
        numbers: vec![(Field::StickOut, stick_out)],
        ..Overrides::default()
    };
    let job = (!assembly.operations.is_empty()).then_some(0);
    let wanted = judge.look_at(library, assembly, &recorded, job, facts);
    let pairs = seen.into_iter().zip(wanted);
    pairs.filter(|(seen, wanted)| seen != wanted).collect()
}

#[test]
fn a_tool_pulled_out_is_the_tool_recorded_so() {
    let setup = built_in();
    let judge = Judge::new(&setup.book, false);
    let library = read(&flat(&rows(PULLED, 71), Units::Metric), Units::Metric);
    let each = library.assemblies.par_iter();
    let found: Vec<_> = each
        .flat_map_iter(|assembly| {
            let at = [12.5, 41.0];
            at.map(|at| pulled(&judge, &library, assembly, at)).concat()
        })
        .collect();
    assert!(found.is_empty(), "{:#?}", &found[..found.len().min(10)]);
}
