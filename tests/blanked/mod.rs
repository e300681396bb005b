//! No silent pass: where a value that a rule needs is blank, the rule does not hold.
//!
//! What a rule needs is not asked of the program: a rule needs a value if some other value in its
//! place changes what the rule says of that tool. The tools are those of the wide library.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;

use shankwise::judge::{Options, Outcome, Report, Selection, Setup, Verdict, judge};
use shankwise::library::{Field, Kind, PROPERTIES};

use crate::support::{built_in, library, options, read_text, run};
use crate::wide::tool::{Cell, Tool, Units, flat, tables, write_folder};
use crate::wide::{lint_path, tools};

/// A rule and the tools for which it needs a field.
type Needs = BTreeMap<(Field, String), BTreeSet<usize>>;

/// Sane tools in collets, with the stick-out stated and nothing from which it would follow.
fn plain_tools() -> Vec<Tool> {
    let other_lengths = [
        Field::ProtrudingLength,
        Field::FunctionalLength,
        Field::ClampingLength,
        Field::GaugeLength,
        Field::HeadLength,
        Field::NeckLength,
        Field::NeckDiameter,
        Field::OverallLengthActual,
        Field::WorkpieceMaterial,
        Field::FeedPerTooth,
    ];
    let all = tools(120, Units::Metric)
        .into_iter()
        .filter_map(|mut tool| {
            tool.number(Field::BoreLength)?;
            tool.number(Field::StickOut)?;
            tool.forget(&other_lengths);
            tool.say(Field::ClampingKind, "taper collet");
            Some(tool)
        });
    let some: Vec<Tool> = all.take(40).chain(closed_and_tightened()).collect();
    assert_eq!(some.len(), 42);
    some
}

/// Two tools that the wide library has no like of: a collet closed by more than a small size may
/// be, with no range stated; a nut tightened to more than is recommended for other bores.
fn closed_and_tightened() -> [Tool; 2] {
    let mut closed = sound();
    closed.set(Field::ShankDiameter, 11.4);
    let mut tightened = sound();
    tightened.set(Field::NutTorque, 100.0);
    tightened.set(Field::TorqueMax, 136.0);
    tightened.set(Field::NutTorqueRecommended, 80.0);
    tightened.set(Field::TorqueBoreMin, 2.0);
    tightened.set(Field::TorqueBoreMax, 7.0);
    closed.say(Field::ToolNumber, "closed");
    tightened.say(Field::ToolNumber, "tightened");
    [closed, tightened]
}

/// A cutter of 12 in a collet of 12.
fn sound() -> Tool {
    let mut tool = Tool::default();
    for (field, number) in [
        (Field::StickOut, 40.0),
        (Field::CuttingDiameter, 10.0),
        (Field::ShankDiameter, 12.0),
        (Field::ShankLength, 45.0),
        (Field::OverallLength, 83.0),
        (Field::ColletSize, 32.0),
        (Field::BoreDiameter, 12.0),
        (Field::BoreLength, 40.0),
    ] {
        tool.0.insert(field, Cell::Number(number));
    }
    tool.say(Field::ToolNumber, "7");
    tool
}

/// Starred numbers: the tool number is a text that no rule compares.
fn starred() -> impl Iterator<Item = Field> {
    let starred = PROPERTIES.iter().filter(|property| property.starred);
    starred
        .map(|property| property.field)
        .filter(|field| *field != Field::ToolNumber)
}

/// Other values of a field, in and beyond what tools have.
fn others(field: Field, value: f64) -> Vec<f64> {
    if field == Field::ColletSize {
        return vec![8.0, 11.0, 16.0, 25.0, 40.0, 50.0];
    }
    [0.1, 0.5, 0.9, 0.97, 1.1, 1.5, 3.0]
        .iter()
        .map(|part| value * part)
        .collect()
}

/// Tool and rule of what fails.
fn failing(report: &Report) -> BTreeSet<(usize, String)> {
    let failing = report
        .findings
        .iter()
        .filter(|found| found.outcome == Outcome::Fails);
    failing
        .filter_map(|found| Some((found.assembly_index?, found.rule.clone())))
        .collect()
}

fn needs(tools: &[Tool], setup: &Setup) -> Needs {
    let as_stated = failing(&judge(
        &library(&flat(tools, Units::Metric)),
        setup,
        &options(),
    ));
    let mut needs = Needs::new();
    for field in starred() {
        for at in 0..others(field, 1.0).len() {
            let changed: Vec<Tool> = tools
                .iter()
                .map(|tool| {
                    let mut tool = tool.clone();
                    let value = tool.number(field).unwrap();
                    tool.set(field, others(field, value)[at]);
                    tool
                })
                .collect();
            let report = judge(&library(&flat(&changed, Units::Metric)), setup, &options());
            for (tool, rule) in failing(&report).symmetric_difference(&as_stated) {
                needs
                    .entry((field, rule.clone()))
                    .or_default()
                    .insert(*tool);
            }
        }
    }
    needs
}

fn only(rule: &str) -> Options {
    Options {
        selection: Selection {
            only: vec![rule.to_owned()],
            except: Vec::new(),
        },
        ..options()
    }
}

/// Ways in which a cell says nothing.
const BLANKS: [&str; 4] = ["", "n/a", "1 2", "0"];

fn blanked(tools: &[Tool], which: &BTreeSet<usize>, field: Field, blank: &str) -> Vec<Tool> {
    let blank_one = |at: &usize| {
        let mut tool = tools[*at].clone();
        tool.say(field, blank);
        tool
    };
    which.iter().map(blank_one).collect()
}

/// The same tools judged with one rule, blanked in all ways: how often it holds.
fn silent_passes(tools: &[Tool], needs: &Needs, setup: &Setup) -> Vec<String> {
    let mut silent = Vec::new();
    for ((field, rule), which) in needs {
        for blank in BLANKS {
            let some = blanked(tools, which, *field, blank);
            let text = flat(&some, Units::Metric);
            let holds = judge(&library(&text), setup, &only(rule)).summary.holds;
            if holds > 0 {
                let name = field.qualified();
                silent.push(format!(
                    "{rule} holds {holds} times with {name} = `{blank}`\n{text}"
                ));
            }
        }
    }
    silent
}

#[test]
fn no_rule_holds_without_what_it_needs() {
    let (tools, setup) = (plain_tools(), built_in());
    let needs = needs(&tools, &setup);
    assert!(needs.len() >= 25, "{:?}", needs.keys());
    let silent = silent_passes(&tools, &needs, &setup);
    assert!(
        silent.is_empty(),
        "{} silent passes\n{}",
        silent.len(),
        silent.join("\n")
    );
}

/// The library as a whole: never a verdict of `holds`, and every missing value is named.
#[test]
fn the_missing_value_is_named_for_every_tool() {
    let (tools, setup) = (plain_tools(), built_in());
    for field in starred().chain([Field::ToolNumber]) {
        for blank in BLANKS {
            if field == Field::ToolNumber && !blank.is_empty() {
                continue;
            }
            let all: BTreeSet<usize> = (0..tools.len()).collect();
            let text = flat(&blanked(&tools, &all, field, blank), Units::Metric);
            let report = judge(&library(&text), &setup, &options());
            is_named(&report, field, &tools);
        }
    }
}

fn is_named(report: &Report, field: Field, tools: &[Tool]) {
    assert_ne!(
        report.summary.verdict,
        Verdict::Holds,
        "{}",
        field.qualified()
    );
    let named = report.findings.iter().filter(|found| {
        let missing = found.missing.contains(&field.qualified());
        missing && found.outcome == Outcome::CannotBeJudged
    });
    // A field that is only assumed is named by the rules that would hold with it alone.
    let named: BTreeSet<_> = named.map(|found| found.tool_number.clone()).collect();
    let assumed = report
        .findings
        .iter()
        .filter(|found| found.rule == "record/value-assumed");
    let assumed: BTreeSet<_> = assumed.map(|found| found.tool_number.clone()).collect();
    for tool in tools.iter().filter(|_| field != Field::ToolNumber) {
        let number = Some(tool.text(Field::ToolNumber).to_owned());
        let told = named.contains(&number) || assumed.contains(&number);
        assert!(told, "{number:?} {}", field.qualified());
    }
    assert!(
        !named.is_empty() || !assumed.is_empty(),
        "{}",
        field.qualified()
    );
}

/// A row cut short before the field leaves it unknown; a row with a cell too many is not judged.
#[test]
fn ragged_rows_hold_nothing_that_they_lack() {
    let (tools, setup) = (plain_tools(), built_in());
    for ((field, rule), which) in needs(&tools, &setup) {
        let some: Vec<Tool> = which.iter().map(|at| tools[*at].clone()).collect();
        let text = last_column(&flat(&some, Units::Metric), field.short());
        let mut lines = text.lines();
        let header = lines.next().unwrap();
        let cut: Vec<&str> = lines
            .clone()
            .map(|row| row.rsplit_once(',').unwrap().0)
            .collect();
        let more: Vec<String> = lines.map(|row| format!("{row},1")).collect();
        for rows in [cut.join("\n"), more.join("\n")] {
            let loaded = read_text(&format!("{header}\n{rows}\n")).library.unwrap();
            let report = judge(&loaded, &setup, &only(&rule));
            assert_eq!(
                report.summary.holds,
                0,
                "{rule} without {}\n{rows}",
                field.qualified()
            );
            let whole = judge(&loaded, &setup, &options());
            assert_ne!(whole.summary.verdict, Verdict::Holds);
        }
    }
}

/// The table with one of its columns moved to the end.
fn last_column(text: &str, name: &str) -> String {
    let header: Vec<&str> = text.lines().next().unwrap().split(',').collect();
    let at = header.iter().position(|column| *column == name).unwrap();
    let moved = text.lines().map(|line| {
        let mut cells: Vec<&str> = line.split(',').collect();
        let cell = cells.remove(at);
        cells.push(cell);
        cells.join(",")
    });
    moved.collect::<Vec<_>>().join("\n")
}

/// In a folder: the cell of the part's record is empty, or the assembly names a part that the
/// library does not have.
#[test]
fn folders_hold_nothing_that_they_lack() {
    let (tools, setup) = (plain_tools(), built_in());
    for ((field, rule), which) in needs(&tools, &setup) {
        let some: Vec<Tool> = which.iter().map(|at| tools[*at].clone()).collect();
        let blank = blanked(&tools, &which, field, "");
        let lost = match field.kind() {
            Kind::Assembly => None,
            kind => Some(without_part(&some, kind)),
        };
        for files in [Some(tables(&blank, Units::Metric)), lost]
            .into_iter()
            .flatten()
        {
            let folder = tempfile::tempdir().unwrap();
            write_folder(folder.path(), &files, Units::Metric);
            let input = shankwise::library::Input::Path(folder.path());
            let loaded = shankwise::library::load(input, &setup.read_settings());
            let read = loaded.library.unwrap();
            let report = judge(&read, &setup, &only(&rule));
            assert_eq!(
                report.summary.holds,
                0,
                "{rule} {} {files:?}",
                field.qualified()
            );
            assert_ne!(lint_path(folder.path()).summary.verdict, Verdict::Holds);
        }
    }
}

/// A folder whose assemblies name parts of a kind by ids that stand in no table.
fn without_part(tools: &[Tool], kind: Kind) -> Vec<(&'static str, String)> {
    let mut files = tables(tools, Units::Metric);
    for (name, text) in &mut files {
        if *name == Kind::Assembly.table() {
            *text = text.replace(&format!("{}-", kind.name()), &format!("{}_", kind.name()));
        }
    }
    files
}

/// An assumed value stands in for none: a standard shank, a through bore of a standard collet.
#[test]
fn assumed_values_hold_nothing() {
    let setup = built_in();
    let mut tool = sound();
    tool.say(Field::CutterMaterial, "carbide");
    tool.say(Field::BoreForm, "through");
    let stated = judge(
        &library(&flat(&[tool.clone()], Units::Metric)),
        &setup,
        &options(),
    );
    assert_eq!(stated.summary.verdict, Verdict::Holds);
    for field in [Field::ShankLength, Field::BoreLength] {
        let mut bare = tool.clone();
        bare.forget(&[field]);
        let text = flat(&[bare], Units::Metric);
        let report = judge(&library(&text), &setup, &options());
        assert_eq!(
            report.summary.verdict,
            Verdict::Incomplete,
            "{}",
            field.qualified()
        );
        let rules = report.findings.iter().filter(|found| {
            found.outcome == Outcome::CannotBeJudged && found.missing == [field.qualified()]
        });
        let rules: BTreeSet<_> = rules.map(|found| found.rule.as_str()).collect();
        assert!(rules.contains("grip/short-grip"), "{rules:?}");
        assert!(rules.contains("grip/shank-too-short"), "{rules:?}");
        assert!(
            report
                .findings
                .iter()
                .any(|found| found.rule == "record/value-assumed")
        );
    }
}

/// Through the program: what is incomplete ends as 0, strictly as 1, and the field is named.
#[test]
fn the_program_says_so_too() {
    let tools = plain_tools();
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("library.csv");
    let path = file.to_str().unwrap();
    for field in starred() {
        fs::write(
            &file,
            flat(&blanked(&tools, &[0].into(), field, ""), Units::Metric),
        )
        .unwrap();
        let output = run(&["lint", path]);
        let text = String::from_utf8(output.stdout).unwrap();
        assert_eq!(
            output.status.code(),
            Some(0),
            "{}\n{text}",
            field.qualified()
        );
        assert!(!text.contains("no findings"), "{text}");
        assert!(
            text.contains(field.property().name),
            "{}\n{text}",
            field.qualified()
        );
        let strict = run(&["lint", "--strict", path]);
        assert_eq!(strict.status.code(), Some(1), "{}", field.qualified());
    }
}
