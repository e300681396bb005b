//! Facts as a table for people.

use std::fmt::Write as _;

use crate::advice::{Window, span};
use crate::judge::{AssemblyFacts, FactShown, Report, ShownValue};
use crate::rulebook::Level;
use crate::units::Unit;
use crate::units::print;

use super::NOTICE;
use super::lacking::lacking;
use super::sections::{defaults, not_read};
use super::wrap::{name, wrapped};

/// The facts of every assembly, and its stick-out window; `windows` are in the same order.
#[must_use]
pub fn facts(report: &Report, windows: &[Option<Window>]) -> String {
    let mut text = String::new();
    let windows = windows.iter().chain(std::iter::repeat(&None));
    for (assembly, window) in report.assemblies.iter().flatten().zip(windows) {
        text.push_str(&title(assembly));
        if let Some(window) = window {
            let set = window.recommended.map_or_else(String::new, |stick_out| {
                let stick_out = print::value(stick_out, Unit::Mm, report.units);
                match condemned(report, assembly) {
                    // A number to set by, beside something that must not run, would be followed.
                    Some(rule) => format!("; first correct {rule}, which no stick-out corrects"),
                    None => format!("; set it to {stick_out}"),
                }
            });
            let words = format!("stick-out: {}{set}", span(window, report.units));
            text.push_str(&wrapped(&words, 2, 4));
        }
        for fact in &assembly.facts {
            text.push_str(&line(fact, report));
        }
        for operation in &assembly.operations {
            let name = name(&operation.operation);
            // Writing to a String cannot fail.
            let _ = writeln!(text, "  operation {name}");
            for fact in &operation.facts {
                text.push_str(&line(fact, report));
            }
        }
        text.push('\n');
    }
    text.push_str(&not_read(report));
    text.push_str(&defaults(&report.library.defaults));
    text.push_str(&wrapped(NOTICE, 0, 0));
    text
}

/// An error of an assembly that its recommended stick-out does not cure, by its rule.
fn condemned<'r>(report: &'r Report, assembly: &AssemblyFacts) -> Option<&'r str> {
    let own = report.findings.iter().find(|finding| {
        let stands = finding.accepted.is_none() && finding.stick_out.is_none();
        finding.level == Some(Level::Error)
            && stands
            && finding.tool_number == assembly.tool_number
            && finding.assembly == assembly.assembly
    });
    own.map(|finding| finding.rule.as_str())
}

fn title(assembly: &AssemblyFacts) -> String {
    let number = assembly.tool_number.as_deref().unwrap_or("without number");
    let id = assembly.assembly.as_deref().filter(|id| *id != number);
    let id = id.map_or_else(String::new, |id| format!(" ({})", name(id)));
    format!("tool {}{id}\n", name(number))
}

fn line(fact: &FactShown, report: &Report) -> String {
    if let Some((low, high)) = fact.range {
        let ends = print::ends((low, high), fact.unit.unwrap_or(Unit::One), report.units);
        let missing = fact.missing.join(", ");
        return format!(
            "    {:<26}{ends}  assumed: {missing} not stated\n",
            fact.name
        );
    }
    let value = match (&fact.value, fact.unit) {
        (None, _) if fact.missing.is_empty() => match fact.outside {
            Some(why) => format!("not judged: {why}"),
            None => "does not apply".to_owned(),
        },
        (None, _) => format!("not known: {}", lacking(&fact.missing, &fact.unlisted)),
        (Some(ShownValue::Number(number)), unit) => {
            let printed = if fact.estimated {
                print::bare_estimate
            } else {
                print::bare
            };
            let (number, symbol) = printed(*number, unit.unwrap_or(Unit::One), report.units);
            format!("{number:>10} {symbol:<6}")
        }
        (Some(ShownValue::Text(text)), _) => format!("{:>10}       ", name(text)),
        (Some(ShownValue::Truth(truth)), _) => {
            format!("{:>10}       ", if *truth { "yes" } else { "no" })
        }
    };
    let from = if fact.value.is_some() && !fact.from.is_empty() {
        let mark = if fact.assumed { "partly assumed, " } else { "" };
        let estimated = if fact.estimated { "estimated, " } else { "" };
        format!("  {estimated}{mark}from {}", fact.from.join(", "))
    } else {
        String::new()
    };
    format!(
        "    {:<26}{}\n",
        fact.name,
        format!("{value}{from}").trim_end()
    )
}
