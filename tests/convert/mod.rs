//! A library in another form is the same library, and what is not the same is told.

mod libraries;
mod lost;
mod places;
mod same;
pub mod strict;

use std::path::Path;

use shankwise::judge::{Finding, Report, Setup, judge};
use shankwise::library::{Field, Input, Kind, Library, Overrides, PROPERTIES, View, load};
use shankwise::units::Scalar;

use crate::support::{options, run};

/// Converts a library; what was told.
fn convert(from: &Path, to: &str, out: &Path) -> String {
    let (from, out) = (from.to_str().unwrap(), out.to_str().unwrap());
    let output = run(&["convert", from, "--to", to, "--out", out]);
    let told = String::from_utf8(output.stderr).unwrap();
    assert_eq!(output.status.code(), Some(0), "{from} to {to}: {told}");
    assert!(output.stdout.is_empty());
    told
}

/// A library with the shop file that is found for it.
fn read(path: &Path) -> (Library, Setup) {
    let setup = Setup::load(Some(path), None, &[], true).unwrap();
    let loaded = load(Input::Path(path), &setup.read_settings());
    assert_eq!(loaded.errors, [], "{}", path.display());
    (loaded.library.unwrap(), setup)
}

fn value(value: Scalar<&str>) -> String {
    match value {
        // To the last bit.
        Scalar::Number(number) => format!("{number:?}"),
        Scalar::Word(word) => word.word.to_owned(),
        Scalar::Truth(flag) => flag.to_string(),
        Scalar::Text(text) => text.to_owned(),
    }
}

/// All that the records of a library state, one line a record. An element of the stock says
/// whether it is a cutter; a bare column of a table of stock speaks of both kinds.
fn records(library: &Library) -> Vec<String> {
    let rows = library.assemblies.iter().map(|one| &one.record);
    let others = Kind::ALL.into_iter().flat_map(|kind| library.records(kind));
    let line = |record: &shankwise::library::Record| {
        let stated = record.entries();
        let stated =
            stated.map(|entry| format!("{} {}", entry.field.qualified(), value(entry.value)));
        format!(
            "{:?}: {}",
            record.kind,
            stated.collect::<Vec<_>>().join("; ")
        )
    };
    rows.chain(others).map(line).collect()
}

/// Fields that say which part, and nothing about it.
const NAMES: [Field; 8] = [
    Field::Cutter,
    Field::Collet,
    Field::Nut,
    Field::Holder,
    Field::CutterOf,
    Field::ColletOf,
    Field::NutOf,
    Field::HolderOf,
];

/// The holder's own bore: a bare column of a row states it beside the collet's, and where a collet
/// closes on the shank nobody asks for it.
const OWN_BORE: [Field; 3] = [
    Field::HolderBoreDiameter,
    Field::HolderBoreLength,
    Field::HolderBoreRecess,
];

/// What is known of each tool, wherever it stands: its own, of its parts, of its first operation.
fn tools(library: &Library) -> Vec<String> {
    let overrides = Overrides::default();
    let but = |view: &View<'_>, field: &Field| {
        let collet = view.slotted_collet().value != Some(false);
        NAMES.contains(field) || (collet && OWN_BORE.contains(field))
    };
    let of = |assembly| {
        let assembly: &shankwise::library::Assembly = assembly;
        let first = assembly.operations.first().copied();
        let view: View<'_> = View::new(library, assembly, first, &overrides);
        let links = [Field::OperationToolNumber, Field::OperationMachine];
        let fields = PROPERTIES.iter().map(|property| property.field);
        let fields = fields.filter(|field| !but(&view, field) && !links.contains(field));
        let stated = fields.filter_map(|field| {
            let entry = view.entry(field)?;
            Some(format!("{} {}", field.qualified(), value(entry.value)))
        });
        stated.collect::<Vec<_>>().join("; ")
    };
    library.assemblies.iter().map(of).collect()
}

/// What is wrong with the form of a library, but for places.
fn faults(library: &Library) -> Vec<String> {
    let line = |fault: shankwise::input::Fault| {
        let args = fault.args.iter().filter(|(name, _)| *name != "line");
        let args: Vec<String> = args.map(|(name, text)| format!("{name}={text}")).collect();
        format!("{} of {:?}: {}", fault.kind, fault.of, args.join(" "))
    };
    let faults = library.faults().filter(|fault| !of_lines(fault.kind));
    let mut all: Vec<String> = faults.map(line).collect();
    all.sort();
    all
}

/// Whether a fault is about lines or headers that another form does not have.
fn of_lines(kind: &str) -> bool {
    ["record/blank-rows", "record/column-not-there"].contains(&kind)
}

/// All of a finding but its places.
fn finding(found: &Finding) -> String {
    let line = without_lines(&found.message);
    format!(
        "{} {} {} tool {:?} operation {:?} {line} {}",
        found.rule,
        found.level_name(),
        found.outcome.name(),
        found.tool_number,
        found.operation,
        found.fingerprint,
    )
}

/// A message less the lines that it names.
fn without_lines(message: &str) -> String {
    let mut words = Vec::new();
    let mut after_line = false;
    for word in message.split(' ') {
        words.push(if after_line { "…" } else { word });
        after_line = word == "line";
    }
    words.join(" ")
}

fn judged(library: &Library, setup: &Setup) -> Report {
    judge(library, setup, &options())
}

/// The same where a row becomes records: a cell of a part belongs to no tool, and one of a part that
/// many tools share is told once.
fn findings_of_tools(library: &Library, setup: &Setup) -> Vec<String> {
    let report = judged(library, setup);
    let of_cells = [
        "record/cell-unreadable",
        "record/unit-missing",
        "record/negative-length",
    ];
    let mut all: Vec<String> = report
        .findings
        .iter()
        .filter(|found| !of_lines(&found.rule))
        .map(|found| {
            let text = found.places[0].text.as_str();
            if found.rule == "record/unit-missing" || text.ends_with(" ?") {
                // In a table a number that lacks its unit bears a question mark.
                let number = text.trim_end_matches(" ?");
                format!("record/unit-missing {} {number}", found.places[0].field)
            } else if of_cells.contains(&found.rule.as_str()) {
                format!("{} {}", found.rule, found.message)
            } else {
                finding(found)
            }
        })
        .collect();
    all.sort();
    let mut seen = String::new();
    all.retain(|line| {
        let of_cell = of_cells.iter().any(|rule| line.starts_with(rule));
        let again = of_cell && *line == seen;
        line.clone_into(&mut seen);
        !again
    });
    all
}

fn findings(library: &Library, setup: &Setup) -> Vec<String> {
    let report = judged(library, setup);
    let findings = report
        .findings
        .iter()
        .filter(|found| !of_lines(&found.rule));
    let mut all: Vec<String> = findings.map(finding).collect();
    all.sort();
    all
}

/// What stands in one list and not, or less often, in the other: both ways.
fn differ(first: &[String], second: &[String]) -> Vec<String> {
    let less = |first: &[String], second: &[String], sign: &str| {
        let mut second = second.to_vec();
        let missing = first.iter().filter(|text| {
            let at = second.iter().position(|other| other == *text);
            at.map(|at| second.swap_remove(at)).is_none()
        });
        missing
            .map(|text| format!("{sign} {text}"))
            .collect::<Vec<_>>()
    };
    let mut all = less(first, second, "-");
    all.extend(less(second, first, "+"));
    all
}

#[track_caller]
fn assert_same(first: &[String], second: &[String], what: &str) {
    let differ = differ(first, second);
    assert!(differ.is_empty(), "{what}:\n{}", differ.join("\n"));
}
