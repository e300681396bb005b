//! What cures a finding, in its advice: a stick-out, or a remedy from the crib.

use crate::judge::{Finding, Judge, Outcome, State};
use crate::library::{Field, Library, Overrides};
use crate::rulebook::Level;
use crate::units::Unit;
use crate::units::print;

use super::empty::NO_WINDOW;
use super::remedy::Remedies;
use super::window::Window;
use super::{remedy_words, words};

/// The rule whose cure is so often sought with the wrench.
const SHORT_GRIP: &str = "grip/short-grip";

/// Says which stick-out cures a finding, if one does.
pub(super) fn cured(finding: &mut Finding, library: &Library, judge: &Judge<'_>, window: &Window) {
    let Some(stick_out) = window.recommended else {
        return;
    };
    let Some((index, rule)) = judge.bounding().find(|(_, rule)| rule.id == finding.rule) else {
        return;
    };
    let assembly = finding
        .assembly_index
        .and_then(|at| library.assemblies.get(at));
    let (Some(assembly), Outcome::Fails) = (assembly, finding.outcome) else {
        return;
    };
    let overrides = Overrides {
        numbers: vec![(Field::StickOut, stick_out)],
        ..Overrides::default()
    };
    let still = judge.look(library, assembly, &overrides, |base, operations| {
        let fails = |state| state == State::Fails;
        let mut of_operations = operations.iter();
        if rule.of_operation {
            of_operations.any(|scene| fails(judge.measure(index, rule, scene).state))
        } else {
            fails(judge.measure(index, rule, base).state)
        }
    });
    if still {
        return;
    }
    finding.stick_out = Some(stick_out);
    let set = format!(
        "set the stick-out to {} ({})",
        print::value(stick_out, Unit::Mm, library.units),
        words::span(window, library.units)
    );
    let unknown = words::unknown(window, library.units);
    let mut unknown = unknown.map_or(String::new(), |unknown| format!("; {unknown}"));
    if window.advised.is_none() {
        unknown += "; a warning stands all over that range";
    }
    // Whoever reads of a short grip may have the wrench in hand already.
    let torque = if finding.rule == SHORT_GRIP {
        ". More torque on the nut is not the remedy"
    } else {
        ""
    };
    finding.advice = if rule.level == Level::Error {
        format!("{set}{unknown}{torque}")
    } else {
        format!("{set}{unknown}; or else: {}", finding.advice)
    };
}

/// Says which remedy cures a finding that no stick-out cures, or what comes nearest.
pub(super) fn remedied(finding: &mut Finding, library: &Library, found: &Remedies) {
    let topics = ["grip/", "reach/", "holding/"];
    let of_shape = topics.iter().any(|topic| finding.rule.starts_with(topic));
    let open = finding.outcome == Outcome::Fails && finding.full_level == Level::Error;
    if !of_shape || !open || finding.stick_out.is_some() {
        return;
    }
    let units = library.units;
    let says = match (found.list.first(), &found.nearest) {
        (Some(best), _) => remedy_words::remedy(best, units) + &remedy_words::leaves(best),
        (None, Some(nearest)) => remedy_words::nearest(nearest, units),
        (None, None) => return,
    };
    let others = found.list.iter().skip(1);
    finding.otherwise = others
        .map(|remedy| remedy_words::remedy(remedy, units))
        .collect();
    finding.advice = if finding.rule == NO_WINDOW || finding.beside.as_deref() == Some(NO_WINDOW) {
        format!("{says}. More torque on the nut is not the remedy")
    } else {
        format!("{}. Here: {says}", finding.advice)
    };
}
