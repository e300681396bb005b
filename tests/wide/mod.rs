//! No false alarm: a large library of tools that are right is told to be right.
//!
//! Every tool is made so that a tooling engineer would nod at it: standard dimensions, gripped
//! in full or to two thirds, an operation within what it can do. So every error, every warning
//! and everything not judged would be a false alarm.

mod clamping;
mod collet;
mod cutters;
mod dice;
mod dimensions;
mod edges;
mod holes;
mod jobs;
mod shankless;
mod standards;
pub mod tool;

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use shankwise::judge::{Report, Setup, Verdict, judge};
use shankwise::library::{Field, Input, load};
use shankwise::rulebook::Level;

use crate::support::{built_in, library, options};
use dice::Dice;
use tool::{Tool, Units, flat, tables, write_folder};

/// So many tools of a library, the same in every run.
pub fn tools(count: usize, units: Units) -> Vec<Tool> {
    let mut dice = Dice::new(83);
    (1..=count)
        .map(|number| {
            let mut tool = cutters::any(&mut dice, units);
            let stick_out = clamping::hold(&mut dice, &mut tool, units);
            jobs::give(&mut dice, &mut tool, stick_out);
            tool.say(Field::ToolNumber, &number.to_string());
            tool
        })
        .collect()
}

/// What is said at a level, by rule.
fn said(report: &Report, level: Option<Level>) -> BTreeMap<&str, usize> {
    let mut counts = BTreeMap::new();
    for finding in report.findings.iter().filter(|found| found.level == level) {
        *counts.entry(finding.rule.as_str()).or_default() += 1;
    }
    counts
}

/// Fails with the tools that were cried at, and their rows.
fn no_false_alarm(report: &Report, tools: &[Tool], notes: &[(&str, usize)]) {
    let alarms = report
        .findings
        .iter()
        .filter(|found| found.level != Some(Level::Note));
    let alarms: Vec<String> = alarms
        .map(|found| {
            let tool = found.assembly_index.map(|at| &tools[at].0);
            format!(
                "{} {}: {}\n  {tool:?}",
                found.level_name(),
                found.rule,
                found.message
            )
        })
        .collect();
    assert!(
        alarms.is_empty(),
        "{} alarms\n{}",
        alarms.len(),
        alarms.join("\n")
    );
    assert_eq!(report.summary.verdict, Verdict::NothingFound);
    assert_eq!(report.summary.not_judged, 0);
    assert_eq!(report.summary.grip_judged, report.summary.held_in_collets);
    assert_eq!(report.coverage.grip_judged(), report.summary.held_by_shank);
    assert_eq!(report.summary.assemblies, tools.len());
    let told = said(report, Some(Level::Note));
    assert_eq!(told, notes.iter().copied().collect(), "the notes");
}

/// What 500 sane tools are told: notes alone. Many are gripped to two thirds where the job would
/// let them be gripped in full; taps sit in plain collets; every fourth setup states no torque;
/// the model of the cut, with frictions from memory, finds invented torques low for some. Long thin
/// drills, and mills with thin chips, are told to have their run-out measured.
const METRIC_NOTES: &[(&str, usize)] = &[
    ("grip/flat-in-bore", 17),
    ("grip/part-grip", 73),
    ("grip/square-missing", 9),
    ("holding/pulls-out", 6),
    ("holding/slips", 20),
    ("reach/more-overhang-than-needed", 61),
    ("stiffness/run-out-not-measured", 39),
    ("stiffness/tip-bends", 30),
    ("torque/not-stated", 73),
    ("torque/torque-cannot-hold", 16),
];

/// The same without what a model of the cut says; the drills keep their feed.
const STRICT_NOTES: &[(&str, usize)] = &[
    ("grip/flat-in-bore", 17),
    ("grip/part-grip", 73),
    ("grip/square-missing", 9),
    ("reach/more-overhang-than-needed", 61),
    ("stiffness/run-out-not-measured", 19),
    ("torque/not-stated", 73),
];

const INCH_NOTES: &[(&str, usize)] = &[
    ("grip/part-grip", 29),
    ("grip/square-missing", 2),
    ("holding/pulls-out", 5),
    ("holding/slips", 9),
    ("reach/more-overhang-than-needed", 25),
    ("stiffness/run-out-not-measured", 18),
    ("stiffness/tip-bends", 17),
    ("torque/not-stated", 29),
    ("torque/torque-cannot-hold", 3),
];

#[test]
fn metric_library_in_one_table() {
    let tools = tools(500, Units::Metric);
    let read = library(&flat(&tools, Units::Metric));
    let report = judge(&read, &built_in(), &options());
    no_false_alarm(&report, &tools, METRIC_NOTES);
}

/// With `--strict` nothing is lowered, and there is still nothing to say. What models with
/// frictions from memory and run-out by class say of a cut is left out: strictly judged, that
/// is a warning.
#[test]
fn metric_library_judged_strictly() {
    let mut tools = tools(500, Units::Metric);
    for tool in &mut tools {
        tool.forget(&[Field::WorkpieceMaterial, Field::FeedPerTooth]);
    }
    let read = library(&flat(&tools, Units::Metric));
    let mut options = options();
    options.strict = true;
    let report = judge(&read, &built_in(), &options);
    no_false_alarm(&report, &tools, STRICT_NOTES);
}

#[test]
fn metric_library_in_a_folder() {
    let folder = tempfile::tempdir().unwrap();
    let tools = tools(500, Units::Metric);
    write_folder(folder.path(), &tables(&tools, Units::Metric), Units::Metric);
    no_false_alarm(&lint_path(folder.path()), &tools, METRIC_NOTES);
}

#[test]
fn inch_library_in_one_table_and_in_a_folder() {
    let tools = tools(250, Units::Inch);
    let folder = tempfile::tempdir().unwrap();
    write_folder(folder.path(), &tables(&tools, Units::Inch), Units::Inch);
    no_false_alarm(&lint_path(folder.path()), &tools, INCH_NOTES);
    let alone = tempfile::tempdir().unwrap();
    let file = alone.path().join("library.csv");
    fs::write(&file, flat(&tools, Units::Inch)).unwrap();
    fs::write(alone.path().join("shankwise.toml"), tool::INCH).unwrap();
    no_false_alarm(&lint_path(&file), &tools, INCH_NOTES);
}

/// The library is what it claims to be: all sizes, all ways of clamping, all kinds of cutter.
#[test]
fn library_is_as_varied_as_it_claims() {
    let tools = tools(500, Units::Metric);
    let kinds = |field| {
        let words = tools.iter().map(|tool| tool.text(field).to_owned());
        words
            .filter(|word| !word.is_empty())
            .collect::<std::collections::BTreeSet<_>>()
    };
    assert_eq!(
        kinds(Field::ClampingKind).len(),
        14,
        "one word has two spellings"
    );
    assert!(kinds(Field::CutterKind).len() >= 13);
    assert_eq!(kinds(Field::NutStyle).len(), 4);
    assert_eq!(kinds(Field::BoreForm).len(), 4);
    for (size, ..) in collet::SIZES {
        let held = tools
            .iter()
            .filter(|tool| tool.number(Field::ColletSize) == Some(*size));
        assert!(held.count() >= 10, "size {size}");
    }
    let collapsed =
        |tool: &&Tool| tool.number(Field::BoreDiameter) > tool.number(Field::ShankDiameter);
    assert!(tools.iter().filter(collapsed).count() >= 10);
    for field in [
        Field::OverallLengthActual,
        Field::InsertionDepthMax,
        Field::ClampingLength,
    ] {
        assert!(
            tools
                .iter()
                .filter(|tool| tool.number(field).is_some())
                .count()
                >= 20
        );
    }
}

/// Judges a path as the program does, its own shop file included.
pub fn lint_path(path: &Path) -> Report {
    let setup = Setup::load(Some(path), None, &[], true).unwrap();
    let loaded = load(Input::Path(path), &setup.read_settings());
    assert_eq!(loaded.errors, [], "{}", path.display());
    judge(&loaded.library.unwrap(), &setup, &options())
}
