//! Facts as a table for people.

use std::fmt::Write as _;

use crate::sheet::{AssemblyFacts, FactShown, Level, Overview, Sheet, span};
use crate::units::print::{self, DisplayUnits};
use crate::units::{Scalar, Unit};

use super::super::NOTICE;
use super::super::lacking::lacking;
use super::super::wrap::{name, wrapped};
use super::below::{defaults, not_read, shop_files};

/// The facts of one assembly, and its stick-out window.
#[must_use]
pub fn facts_of(sheet: &Sheet, units: DisplayUnits) -> String {
    let mut text = String::new();
    for clamping in &sheet.clampings {
        let Some(assembly) = &clamping.facts else {
            continue;
        };
        text.push_str(&title(assembly));
        if let Some(window) = &clamping.window {
            let set = window.recommended.map_or_else(String::new, |stick_out| {
                let stick_out = print::value(stick_out, Unit::Mm, units);
                match condemned(sheet) {
                    // A number to set by, beside something that must not run, would be followed.
                    Some(rule) => format!("; first correct {rule}, which no stick-out corrects"),
                    None => format!("; set it to {stick_out}"),
                }
            });
            let words = format!("stick-out: {}{set}", span(window, units));
            text.push_str(&wrapped(&words, 2, 4));
        }
        for fact in &assembly.facts {
            text.push_str(&line(fact, units));
        }
        for operation in &assembly.operations {
            let name = name(&operation.operation);
            // Writing to a String cannot fail.
            let _ = writeln!(text, "  operation {name}");
            for fact in &operation.facts {
                text.push_str(&line(fact, units));
            }
        }
        text.push('\n');
    }
    text
}

/// What stands below the facts of a library.
#[must_use]
pub fn facts_end(overview: &Overview) -> String {
    let library = &overview.library;
    not_read(library) + &shop_files(library) + &defaults(&library.defaults) + &wrapped(NOTICE, 0, 0)
}

/// An error of an assembly that its recommended stick-out does not cure, by its rule.
fn condemned(sheet: &Sheet) -> Option<&str> {
    let own = sheet.findings.iter().find(|finding| {
        let stands = finding.accepted.is_none() && finding.stick_out.is_none();
        finding.level == Some(Level::Error) && stands
    });
    own.map(|finding| finding.rule.as_str())
}

fn title(assembly: &AssemblyFacts) -> String {
    let number = assembly.tool_number.as_deref().unwrap_or("without number");
    let id = assembly.assembly.as_deref().filter(|id| *id != number);
    let id = id.map_or_else(String::new, |id| format!(" ({})", name(id)));
    format!("tool {}{id}\n", name(number))
}

fn line(fact: &FactShown, units: DisplayUnits) -> String {
    if let Some((low, high)) = fact.range {
        let ends = print::ends((low, high), fact.unit.unwrap_or(Unit::One), units);
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
        (Some(Scalar::Number(number)), unit) => {
            let printed = if fact.estimated {
                print::bare_estimate
            } else {
                print::bare
            };
            let (number, symbol) = printed(*number, unit.unwrap_or(Unit::One), units);
            format!("{number:>10} {symbol:<6}")
        }
        (Some(Scalar::Word(word)), _) => format!("{:>10}       ", word.word),
        (Some(Scalar::Text(text)), _) => format!("{:>10}       ", name(text)),
        (Some(Scalar::Truth(truth)), _) => {
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
