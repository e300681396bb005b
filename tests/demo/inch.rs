//! The demo as an inch library, every length and torque converted exactly: a fault is a fault
//! in any unit.

use std::fmt::Write as _;

use shankwise::judge::{FactShown, Finding, Report};
use shankwise::library::{Kind, ValueType, fields_of};
use shankwise::units::{Scalar, Unit, split_unit};

use super::report;
use super::tables::{Table, rewritten};
use crate::support::fixture;

/// The unit of a column's property, and the unit that its header names.
fn column(header: &str, kind: Kind) -> (Option<Unit>, Option<&str>) {
    let (name, stated) = split_unit(header);
    let field = fields_of(name, kind).first().copied();
    let value = field.map(|field| field.property().value);
    match value {
        Some(ValueType::Quantity(unit)) => (Some(unit), stated),
        _ => (None, stated),
    }
}

/// Digits and how many of them stand behind the point; `None` for a cell that is no plain
/// number above zero. Zero is zero in any unit, and what cannot be read must stay as it is.
fn digits(text: &str) -> Option<(u64, u32)> {
    let (whole, part) = text.split_once('.').unwrap_or((text, ""));
    let digits: u64 = format!("{whole}{part}").parse().ok()?;
    (digits > 0).then(|| (digits, u32::try_from(part.len()).unwrap()))
}

/// Millimetres as a fraction of inches: 1 in is 25.4 mm by definition, so 83 mm is 830/254 in.
fn inches(text: &str) -> Option<String> {
    let (digits, places) = digits(text)?;
    Some(format!("{}/{}", digits * 10, 254 * 10u64.pow(places)))
}

/// Newton metres as a fraction of pound-force feet, of which one is 1.3558179483314004 N·m
/// exactly; 10^16 and that number times 10^16 have been divided by 4.
fn pound_feet(text: &str) -> Option<String> {
    let (digits, places) = digits(text)?;
    let under = 3_389_544_870_828_501 * 10u64.pow(places);
    Some(format!("{}e14/{under} lbf·ft", digits * 25))
}

/// A cell with its unit converted; `None` if it is to stay as it is.
fn converted(cell: &str, unit: Unit, stated: Option<&str>) -> Option<String> {
    match unit {
        Unit::Mm => match cell.strip_suffix(" mm") {
            Some(number) => Some(inches(number)? + " in"),
            None if stated == Some("in") => None,
            None => inches(cell),
        },
        Unit::Nm => match cell.strip_suffix(" N·m") {
            Some(number) => pound_feet(number),
            None if stated == Some("lbf·ft") => None,
            None => pound_feet(cell),
        },
        _ => None,
    }
}

fn to_inches(kind: Kind, table: &mut Table) {
    for (at, header) in table.header.iter_mut().enumerate() {
        let (Some(unit), stated) = column(header, kind) else {
            continue;
        };
        for row in &mut table.rows {
            if let Some(cell) = converted(&row[at], unit, stated) {
                row[at] = cell;
            }
        }
        if unit == Unit::Mm && stated == Some("mm") {
            *header = header.replace("[mm]", "[in]");
        }
    }
}

/// Name, unit and value to 9 digits.
fn fact(fact: &FactShown) -> String {
    let value = match &fact.value {
        Some(Scalar::Number(number)) => format!("{number:.8e}"),
        other => format!("{other:?}"),
    };
    let FactShown {
        name,
        unit,
        assumed,
        from,
        missing,
        ..
    } = fact;
    format!("{name} {value} {unit:?} {assumed} {from:?} {missing:?}; ")
}

fn facts(all: &[FactShown]) -> String {
    all.iter().map(fact).collect()
}

fn finding(finding: &Finding) -> String {
    let mut text = format!(
        "{} {} {:?} {:?} {:?} {} {:?} ",
        finding.rule,
        finding.level_name(),
        // What was accepted is in the units of its library.
        finding.accepted.as_ref().map(|one| (&one.by, &one.until)),
        finding.tool_number,
        finding.operation,
        finding.fingerprint,
        finding.missing,
    );
    for limit in &finding.limits {
        write!(text, "{} {:.8e}; ", limit.name, limit.value).unwrap();
    }
    text + &facts(&finding.facts)
}

fn all_findings(report: &Report) -> Vec<String> {
    report.findings.iter().map(finding).collect()
}

fn all_facts(report: &Report) -> Vec<String> {
    let assemblies = report.assemblies.as_ref().expect("facts were asked for");
    assemblies
        .iter()
        .map(|assembly| {
            let of = |operation: &shankwise::judge::OperationFacts| facts(&operation.facts);
            let operations: String = assembly.operations.iter().map(of).collect();
            format!(
                "{:?} {}{operations}",
                assembly.tool_number,
                facts(&assembly.facts)
            )
        })
        .collect()
}

/// No unit of torque is given, so that a torque cell left without its unit would be a fault.
const INCH: &str = "\n[units]\nlength = \"in\"\n";

#[test]
fn the_demo_in_inches_is_judged_the_same() {
    let demo = report(&fixture("demo"));
    let inch = report(rewritten(to_inches, INCH).path());
    assert_eq!(inch.library.units, "in");
    assert_eq!(all_findings(&inch), all_findings(&demo));
    assert_eq!(all_facts(&inch), all_facts(&demo));
    assert_eq!(inch.summary, demo.summary);
}

#[test]
fn the_demo_in_inches_speaks_inches() {
    let inch = report(rewritten(to_inches, INCH).path());
    let of = |rule: &str| {
        let mut all = inch.findings.iter().filter(|finding| finding.rule == rule);
        all.next().expect("the demo breaks it").message.clone()
    };
    // 21 mm and 80/3 mm; 150 and 120 N·m.
    assert!(
        of("grip/short-grip").contains("0.826 in"),
        "{}",
        of("grip/short-grip")
    );
    assert!(of("grip/short-grip").contains("1.050 in"));
    assert!(of("torque/over-torqued").contains("lbf·ft"));
    assert!(!of("torque/over-torqued").contains("N·m"));
}

/// Left unconverted the same cells must not be judged the same, or the conversion tests nothing.
#[test]
fn the_demo_misread_in_inches_is_not_the_demo() {
    let demo = report(&fixture("demo"));
    let misread = report(rewritten(|_, _| (), INCH).path());
    assert_ne!(all_findings(&misread), all_findings(&demo));
}
