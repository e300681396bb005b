//! No silent pass: where a value that a rule needs is blank, the rule is not met.
//!
//! What a rule needs is not asked of the program: a rule needs a value if some other value in its
//! place changes what the rule says of that tool. The tools are those of the wide library.

mod rows;
mod subjects;

use std::collections::{BTreeMap, BTreeSet};
use std::fs;

use shankwise::judge::{Options, Outcome, Report, Selection, Setup, Verdict, judge};
use shankwise::library::{Field, PROPERTIES};

use crate::support::{built_in, library, options, run};
use crate::wide::tool::{Tool, Units, flat};
use subjects::{plain_tools, sound};

/// A rule and the tools for which it needs a field.
type Needs = BTreeMap<(Field, String), BTreeSet<usize>>;

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
        .filter(|found| found.outcome == Outcome::NotMet);
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

/// The same tools judged with one rule, blanked in all ways: how often it is met.
fn silent_passes(tools: &[Tool], needs: &Needs, setup: &Setup) -> Vec<String> {
    let mut silent = Vec::new();
    for ((field, rule), which) in needs {
        for blank in BLANKS {
            let some = blanked(tools, which, *field, blank);
            let text = flat(&some, Units::Metric);
            let met = judge(&library(&text), setup, &only(rule)).summary.met;
            if met > 0 {
                let name = field.qualified();
                silent.push(format!(
                    "{rule} is met {met} times with {name} = `{blank}`\n{text}"
                ));
            }
        }
    }
    silent
}

#[test]
fn no_rule_is_met_without_what_it_needs() {
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

/// The library as a whole: never a verdict of `nothing-found`, and every missing value is named.
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
        Verdict::NothingFound,
        "{}",
        field.qualified()
    );
    let named = report.findings.iter().filter(|found| {
        let missing = found.missing.contains(&field.qualified());
        missing && found.outcome == Outcome::NotJudged
    });
    // A field that is only assumed is named by the rules that would be met with it alone.
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
    assert_eq!(stated.summary.verdict, Verdict::NothingFound);
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
            found.outcome == Outcome::NotJudged && found.missing == [field.qualified()]
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
        let output = run(&["lint", "--min-coverage", "0", path]);
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
