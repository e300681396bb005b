//! What cures a finding, in its advice: a stick-out, or a remedy from the crib.

use crate::facts::Scene;
use crate::judge::{Finding, Judge, Outcome, State};
use crate::library::{Assembly, Field, Library, Overrides};
use crate::rulebook::{Level, Rule};
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
    let at = Setting {
        judge,
        library,
        assembly,
        stick_out,
    };
    if at.fails(index, rule) {
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
    for rule in at.warnings() {
        unknown += &format!("; the warning {rule} stays");
    }
    unknown += &at.other_lengths();
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

/// An assembly set to another stick-out.
struct Setting<'s> {
    judge: &'s Judge<'s>,
    library: &'s Library,
    assembly: &'s Assembly,
    /// mm.
    stick_out: f64,
}

impl Setting<'_> {
    /// Whether a rule fails there, for any of the operations if it is on one.
    fn fails(&self, index: usize, rule: &Rule) -> bool {
        let overrides = Overrides {
            numbers: vec![(Field::StickOut, self.stick_out)],
            ..Overrides::default()
        };
        let fails = |scene: &Scene<'_>| {
            let measure = self.judge.measure(index, rule, scene);
            measure.state == State::Fails
        };
        self.judge
            .look(self.library, self.assembly, &overrides, |base, jobs| {
                if rule.of_operation {
                    jobs.iter().any(fails)
                } else {
                    fails(base)
                }
            })
    }

    /// Warnings about the stick-out that stand there all the same.
    fn warnings(&self) -> Vec<&str> {
        let bounding = self.judge.bounding();
        let warnings = bounding.filter(|(_, rule)| rule.level == Level::Warning);
        let standing = warnings.filter(|(index, rule)| self.fails(*index, rule));
        standing.map(|(_, rule)| rule.id.as_str()).collect()
    }

    /// Lengths that the record states with the stick-out, as they should come out when the tool
    /// is measured again.
    fn other_lengths(&self) -> String {
        let stated = |field| self.assembly.record.get(field).is_some();
        if !stated(Field::ProtrudingLength) {
            return String::new();
        }
        let none = Overrides::default();
        let length = self
            .judge
            .look(self.library, self.assembly, &none, |base, _| {
                let gauge = base.field(Field::GaugeLength).value;
                gauge.map(|gauge| gauge + self.stick_out)
            });
        let shown = length.map(|length| print::value(length, Unit::Mm, self.library.units));
        shown.map_or_else(String::new, |shown| {
            format!("; the protruding length comes to {shown}")
        })
    }
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
        .map(|remedy| remedy_words::remedy(remedy, units) + &remedy_words::leaves(remedy))
        .collect();
    finding.advice = if finding.rule == NO_WINDOW || finding.beside.as_deref() == Some(NO_WINDOW) {
        format!("{says}. More torque on the nut is not the remedy")
    } else {
        format!("{}. Here: {says}", finding.advice)
    };
}
