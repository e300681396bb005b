//! Facts name what they use, and no demand falls because something is not known.

use std::collections::BTreeMap;

use rayon::prelude::*;
use shankwise::facts::{Fact, Scene};
use shankwise::judge::Judge;
use shankwise::library::{Assembly, Field, Library, Overrides, ValueType};

use super::exceptions::sleeved;
use super::row::{Row, flat};
use super::rows::rows;
use super::{Units, read};
use crate::support::built_in;

/// Rows that are looked at.
const ROWS: usize = 1500;
/// So many times a fact must have named a field before it is asked whether it ever hung on it.
const OFTEN: usize = 40;
/// What is derived from rounded lengths may be off by so much, mm.
const ROUNDING: f64 = 0.02;
/// What a job or a part asks for, at least.
const DEMANDS: [Fact; 4] = [
    Fact::InsertionNeeded,
    Fact::NeededGrip,
    Fact::ShortestOverallLength,
    Fact::LeastStickOut,
];

/// A cell that is a demand itself, or tells that there is one.
const ASKS: &[(&[&str], &str)] = &[
    (
        &[
            "cutter.clamping_length_min",
            "collet.clamping_length_min",
            "holder.clamping_length_min",
        ],
        "what it asks for is asked by nobody else",
    ),
    (
        &[
            "cutter.clamping_length_max",
            "collet.clamping_length_max",
            "holder.clamping_length_max",
            "holder.insertion_depth_max",
            "extension",
        ],
        "the tool may go in further where nothing that is known forbids it",
    ),
    (
        &[
            "cutter.drive_square",
            "cutter.drive_square_length",
            "cutter.rear_flute_length",
        ],
        "a square or rear flutes that nobody states are none",
    ),
    (
        &[
            "nut.face_setback",
            "operation.clearance",
            "holder.bore_recess",
            "collet.bore_recess",
        ],
        "unstated it is a range, of which the nominal value is reckoned with",
    ),
    (
        &["cutter.overall_length_min", "cutter.overall_length_actual"],
        "they say that the tool is shorter than when new",
    ),
    (
        &[
            "holder.clamping_kind",
            "cutter.shank_form",
            "collet.collet_system",
        ],
        "they say what clamps, and so whose bore is meant",
    ),
];

fn known(scene: &Scene<'_>, fact: Fact) -> Option<f64> {
    scene.number(fact).value
}

/// Numbers of a scene that a fact says it came from, and that can be moved.
fn moved(scene: &Scene<'_>, fact: Fact) -> Vec<(Field, f64)> {
    let used = scene.number(fact).trace.used;
    let numbers = used
        .iter()
        .filter(|field| matches!(field.property().value, ValueType::Quantity(_)));
    numbers
        .filter_map(|field| Some((field, scene.field(field).value?)))
        .collect()
}

/// How often a fact named a field, and how often it hung on it.
type Seen = BTreeMap<(&'static str, &'static str), (usize, usize)>;

fn look(judge: &Judge<'_>, library: &Library, assembly: &Assembly) -> Seen {
    let as_it_is = Overrides::default();
    let operation = (!assembly.operations.is_empty()).then_some(0);
    let mut seen = Seen::new();
    judge.look_at(library, assembly, &as_it_is, operation, |scene| {
        for info in Fact::all() {
            let Some(value) = known(scene, info.fact) else {
                continue;
            };
            for (field, number) in moved(scene, info.fact) {
                let entry = seen.entry((info.name, field.qualified())).or_default();
                entry.0 += 1;
                let hangs = [0.5, 0.9, 1.1, 2.0].iter().any(|part| {
                    let overrides = Overrides {
                        numbers: vec![(field, number * part)],
                        ..Overrides::default()
                    };
                    judge.look_at(library, assembly, &overrides, operation, |other| {
                        known(other, info.fact) != Some(value)
                    })
                });
                entry.1 += usize::from(hangs);
            }
        }
    });
    seen
}

#[test]
fn a_fact_names_only_what_it_uses() {
    let setup = built_in();
    let judge = Judge::new(&setup.book, false);
    let library = read(&flat(&rows(ROWS, 30), Units::Metric), Units::Metric);
    let each = library.assemblies.par_iter();
    let each = each.map(|assembly| look(&judge, &library, assembly));
    let seen = each.reduce(Seen::new, |mut all, more| {
        for (pair, (named, hung)) in more {
            let entry = all.entry(pair).or_default();
            *entry = (entry.0 + named, entry.1 + hung);
        }
        all
    });
    let idle = seen
        .iter()
        .filter(|(_, (named, hung))| *named >= OFTEN && *hung == 0);
    let idle: Vec<_> = idle.collect();
    assert!(idle.is_empty(), "named and never used: {idle:#?}");
}

/// What is asked of each tool, with nothing taken for true that is only assumed.
fn demands(judge: &Judge<'_>, library: &Library) -> Vec<[Option<f64>; 4]> {
    let as_it_is = Overrides::default();
    let each = library.assemblies.par_iter().map(|assembly| {
        judge.look_at(library, assembly, &as_it_is, None, |base| {
            DEMANDS.map(|fact| known(base.distrusting(), fact))
        })
    });
    each.collect()
}

#[test]
fn no_demand_falls_because_something_is_not_known() {
    let setup = built_in();
    let judge = Judge::new(&setup.book, false);
    let rows = rows(ROWS, 40);
    let before = demands(&judge, &read(&flat(&rows, Units::Metric), Units::Metric));
    let columns: std::collections::BTreeSet<&str> =
        rows.iter().flat_map(|row| row.0.keys().copied()).collect();
    let excused = |column: &str| ASKS.iter().any(|(columns, _)| columns.contains(&column));
    let mut fallen: BTreeMap<(&str, &str), (usize, String)> = BTreeMap::new();
    for column in columns.into_iter().filter(|column| !excused(column)) {
        let with = rows.iter().zip(&before);
        let with: Vec<_> = with.filter(|(row, _)| row.0.contains_key(column)).collect();
        let bare: Vec<Row> = with.iter().map(|(row, _)| row.without(column)).collect();
        let after = demands(&judge, &read(&flat(&bare, Units::Metric), Units::Metric));
        for ((row, before), after) in with.iter().zip(&after) {
            for ((fact, was), now) in DEMANDS.iter().zip(*before).zip(after) {
                let (Some(was), Some(now)) = (was, now) else {
                    continue;
                };
                if now + ROUNDING < *was && !(sleeved(row) && *column == *"collet.bore_length") {
                    let shown = || flat(&[(*row).clone()], Units::Metric);
                    let entry = fallen.entry((fact.info().name, column));
                    entry
                        .or_insert_with(|| (0, format!("{was} to {now}\n{}", shown())))
                        .0 += 1;
                }
            }
        }
    }
    assert!(fallen.is_empty(), "{fallen:#?}");
}
