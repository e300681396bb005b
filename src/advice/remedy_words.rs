//! A remedy in words, in the library's units.

use crate::judge::Brief;
use crate::units::Unit;
use crate::units::print::{self, DisplayUnits};

use super::remedy::{Changed, Nearest, Remedy};
use super::window::wording;

/// What to do, in short: `take cutter em16-123 (drawer 4), and set the stick-out to 67.5 mm (67.0 to
/// 95.3)`.
#[must_use]
pub(super) fn brief(remedy: &Remedy, units: DisplayUnits) -> Brief {
    let at = wording::recommended(&remedy.window, units);
    let set = at.map(|at| wording::brief(&remedy.window, units, &at));
    let steps = steps(remedy, set, units).into_iter();
    let joined = steps.reduce(|all, step| all.and(", and ").then(step));
    let brief = joined.unwrap_or_default();
    match remedy.torque_at_most {
        Some(most) => brief
            .and("; at most ")
            .set(print::value(most, Unit::Nm, units))
            .and(" on the nut"),
        None => brief,
    }
}

/// Which parts, which stick-out, and which part of the depth.
fn steps<S: From<String>>(remedy: &Remedy, set: Option<S>, units: DisplayUnits) -> Vec<S> {
    let parts: Vec<String> = remedy.changes.iter().map(part).collect();
    let splits = remedy.split.iter().map(|split| {
        let reach = print::value(split.reach, Unit::Mm, units);
        format!(
            "run {} with this tool to a depth of {reach} only, and the rest with a longer tool",
            split.operation
        )
    });
    let take = (!parts.is_empty()).then(|| format!("take {}", parts.join(" with ")));
    let steps = take.map(S::from).into_iter().chain(set);
    steps.chain(splits.map(S::from)).collect()
}

/// What to do, in one sentence: `take cutter em16-123 (drawer 4), and set the stick-out to 67.5 mm;
/// limits 67.0 (reach) to 95.3 mm (grip)`.
#[must_use]
pub fn remedy(remedy: &Remedy, units: DisplayUnits) -> String {
    let length = |value: f64| print::value(value, Unit::Mm, units);
    let set = wording::recommended(&remedy.window, units).map(|at| {
        let span = wording::span(&remedy.window, units);
        format!("set the stick-out to {at}; {span}")
    });
    let steps = steps(remedy, set, units).join(", and ");
    let torque = remedy.torque_at_most.map(|most| {
        let most = print::value(most, Unit::Nm, units);
        format!("keep the nut torque to at most {most}, the maximum for these parts")
    });
    let unstated = (!remedy.unstated.is_empty()).then(|| {
        let fields = remedy.unstated.join(", ");
        format!("first check on the new component: {fields} not stated")
    });
    let protruding = remedy
        .protruding_length
        .map(|comes_to| format!("new protruding length {}", length(comes_to)));
    let all = std::iter::once(steps)
        .chain(torque)
        .chain(unstated)
        .chain(protruding);
    all.collect::<Vec<_>>().join("; ")
}

/// What no part corrects and what is still to be checked, in sentences; empty if there is nothing.
#[must_use]
pub fn leaves(remedy: &Remedy) -> String {
    let mut words = match remedy.leaves.as_slice() {
        [] => String::new(),
        rules => format!(
            ". {} remains until the torque is corrected",
            rules.join(", ")
        ),
    };
    match remedy.warnings.as_slice() {
        [] => {}
        [one] => words.extend([". The warning ", one, " remains"]),
        rules => words.extend([". Warnings that remain: ", &rules.join(", ")]),
    }
    words
}

fn part(changed: &Changed) -> String {
    let name = changed.part.name();
    let place = match (&changed.location, changed.in_stock) {
        (Some(location), _) => format!(" ({location})"),
        (None, true) => " (in stock)".to_owned(),
        (None, false) => " (listed in the library)".to_owned(),
    };
    format!("{name} {}{place}", changed.id)
}

/// What to buy or to state, in short; `None` where nobody knows.
#[must_use]
pub(super) fn nearest_brief(nearest: &Nearest, units: DisplayUnits) -> Option<Brief> {
    let to_buy = to_buy(nearest, false, units);
    (!to_buy.is_empty()).then(|| Brief::of(to_buy.join("; ")))
}

/// What would have to be bought or stated, where nothing on hand suits.
#[must_use]
pub fn nearest(nearest: &Nearest, units: DisplayUnits) -> String {
    let length = |value: f64| print::value(value, Unit::Mm, units);
    let mut all = vec![nearest.why.clone()];
    if let Some(near) = &nearest.cutter {
        let at = length(near.stick_out);
        let part = part(&near.cutter);
        let differs = match (&near.own, &near.present) {
            (Some(own), Some(present)) => format!("{} is {own}, not {present}", near.differs),
            _ => format!("{} is another", near.differs),
        };
        all.push(format!(
            "the nearest is {part}: it would suit at {at}, but its {differs}"
        ));
    }
    all.extend(to_buy(nearest, true, units));
    all.join("; ")
}

/// What to buy, and what to state first; `explained` with where the lengths come from.
fn to_buy(nearest: &Nearest, explained: bool, units: DisplayUnits) -> Vec<String> {
    let length = |value: f64| print::value(value, Unit::Mm, units);
    let mut all = Vec::new();
    let cutter = if explained {
        cutter(nearest, units)
    } else {
        cutter_in_short(nearest, units)
    };
    if !cutter.is_empty() {
        all.push(format!("to buy: a cutter with {cutter}"));
    }
    let land = nearest.land.filter(|_| explained).map(length);
    all.extend(land.map(|land| format!("this collet's gripping length is {land}")));
    let collet = [(nearest.bore, "bore"), (nearest.drive_square, "square")];
    let collet = collet
        .into_iter()
        .filter_map(|(value, name)| Some(format!("a {name} of {}", length(value?))));
    let collet = collet.collect::<Vec<_>>().join(" and ");
    if !collet.is_empty() {
        all.push(format!("to buy: a collet with {collet}"));
    }
    let nut = nearest.nut_diameter_max.map(length);
    all.extend(nut.map(|nut| format!("to buy: a nut of at most {nut} outside")));
    if !nearest.missing.is_empty() {
        all.push(format!("first state {}", nearest.missing.join(", ")));
    }
    all
}

/// The lengths that a cutter to buy must have, with room for setting.
fn cutter_in_short(nearest: &Nearest, units: DisplayUnits) -> String {
    let length = |value: f64| print::value(value, Unit::Mm, units);
    let both = nearest.overall_length_min.zip(nearest.shank_length_min);
    let room = both.map_or(0.0, |_| nearest.room);
    let all = [
        (
            nearest.overall_length_min.map(|least| least + room),
            "overall",
        ),
        (
            nearest.shank_length_min.map(|least| least + room),
            "of plain shank",
        ),
        (nearest.flute_length_min, "of flutes or relieved neck"),
        (nearest.cutting_edge_min, "of cutting edges"),
    ];
    let needs = all
        .into_iter()
        .filter_map(|(least, what)| Some(format!("{} {what}", length(least?))));
    let needs: Vec<String> = needs.collect();
    if needs.is_empty() {
        return String::new();
    }
    format!("at least {}", needs.join(" and "))
}

/// The lengths that a cutter to buy must have, and where the first comes from.
fn cutter(nearest: &Nearest, units: DisplayUnits) -> String {
    let length = |value: f64| print::value(value, Unit::Mm, units);
    let mut needs: Vec<String> = Vec::new();
    if let Some(overall) = nearest.overall_length_min {
        let sum = [
            (nearest.reach_needed, "reach"),
            (nearest.bore_setback, "recess"),
            (nearest.needed_grip, "grip"),
            (nearest.square_length, "square"),
            (nearest.clamped_min, "required insertion"),
        ];
        let terms = sum.into_iter().filter_map(|(value, name)| {
            let value = value.filter(|value| *value != 0.0)?;
            Some(format!("{name} {}", length(value)))
        });
        let terms = terms.collect::<Vec<_>>().join(" + ");
        needs.push(format!(
            "an overall length of at least {} ({terms})",
            length(overall)
        ));
    }
    if let Some(shank) = nearest.shank_length_min {
        needs.push(format!("a plain shank of at least {}", length(shank)));
    }
    if let Some(flutes) = nearest.flute_length_min {
        needs.push(format!(
            "flutes, or a relieved neck, of at least {}",
            length(flutes)
        ));
    }
    if let Some(edges) = nearest.cutting_edge_min {
        needs.push(format!("cutting edges of at least {}", length(edges)));
    }
    let room = match (nearest.overall_length_min, nearest.shank_length_min) {
        (Some(_), Some(_)) => format!("; {} more of both for setting", length(nearest.room)),
        _ => String::new(),
    };
    needs.join(", ") + &room
}
