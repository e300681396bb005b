//! What is on hand and would correct a tool.

use std::fmt::Write as _;

use crate::units::Unit;
use crate::units::print::{self, DisplayUnits};

use super::super::html::escaped;
use super::model::Remedy;

/// The remedies of a tool, the best first.
pub(super) fn list(remedies: &[Remedy], units: DisplayUnits, page: &mut String) {
    // One that only sets the tool anew is what the stick-out limits say.
    let parts: Vec<&Remedy> = remedies
        .iter()
        .filter(|own| own.changes.is_part())
        .collect();
    if parts.is_empty() {
        return;
    }
    *page += "<p><b>On hand, and would serve:</b></p><ul class=\"stock\">";
    for remedy in parts {
        // Writing to a String cannot fail.
        let _ = write!(page, "<li>{}</li>", escaped(&words(remedy, units)));
    }
    *page += "</ul>";
}

fn words(remedy: &Remedy, units: DisplayUnits) -> String {
    let length = |value: f64| print::value(value, Unit::Mm, units);
    let changes = &remedy.changes;
    let parts = [
        ("cutter", &changes.cutter),
        ("collet", &changes.collet),
        ("nut", &changes.nut),
        ("holder", &changes.holder),
    ];
    let parts = parts
        .into_iter()
        .filter_map(|(kind, id)| Some(format!("{kind} {}", id.as_ref()?)));
    let mut steps: Vec<String> = parts.collect();
    steps.extend(changes.stick_out.as_ref().map(|at| {
        let ends = match (remedy.window.min, remedy.window.max) {
            (Some(min), Some(max)) => format!(" (limits {} to {})", length(min), length(max)),
            (Some(min), None) => format!(" (at least {})", length(min)),
            (None, Some(max)) => format!(" (at most {})", length(max)),
            (None, None) => String::new(),
        };
        format!("stick-out {}{ends}", length(at.value))
    }));
    let deep = changes.operations.iter();
    steps.extend(deep.map(|one| {
        let reach = length(one.reach.value);
        format!(
            "operation {} with this tool to a depth of {reach}, the rest with a longer one",
            one.operation
        )
    }));
    steps.extend(changes.nut_torque.as_ref().map(|torque| {
        let most = print::value(torque.value, Unit::Nm, units);
        format!("at most {most} on the nut")
    }));
    let mut said = steps.join(", ");
    for (name, all) in [
        ("does not correct", &remedy.leaves),
        ("to check then", &remedy.warnings),
        ("not stated of it", &remedy.unstated),
    ] {
        if !all.is_empty() {
            let _ = write!(said, "; {name}: {}", all.join(", "));
        }
    }
    said
}
