//! A window in words, in the units of its library: one line for advice and for the question.

use crate::judge::Brief;
use crate::units::Unit;
use crate::units::print::{self, DisplayUnits, Rounding};

use super::stick_out_limits::{End, Window};

/// Ends nearer to each other than this are one, mm.
const SAME: f64 = 0.01;

/// Where the stick-out may be and what binds it: `limits 38.0 (flutes) to 56.3 mm (grip); full
/// grip up to 43.0`. Lengths are in the library's units and rounded inwards.
#[must_use]
pub fn span(window: &Window, units: DisplayUnits) -> String {
    if window.is_empty() {
        return empty(window, units);
    }
    let (least, most) = ends(window, units);
    let unit = units.length();
    let words = match (&window.min, &window.max) {
        (Some(min), Some(max)) => format!(
            "limits {least} ({}) to {most} {unit} ({})",
            name(min),
            name(max)
        ),
        (Some(min), None) => format!(
            "not below {least} {unit} ({}); no upper limit is known",
            name(min)
        ),
        (None, Some(max)) => format!(
            "not above {most} {unit} ({}); no lower limit is known",
            name(max)
        ),
        (None, None) => "neither a lower nor an upper limit is known".to_owned(),
    };
    match full(window, units) {
        Some(full) => format!("{words}; {full}"),
        None => words,
    }
}

/// What to do in short: `set the stick-out to 42.0 mm (38.0 to 56.3)`.
pub(crate) fn brief(window: &Window, units: DisplayUnits, at: &str) -> Brief {
    let (least, most) = ends(window, units);
    let limits = match (&window.min, &window.max) {
        (Some(_), Some(_)) => format!(" ({least} to {most})"),
        (Some(_), None) => format!(" (not below {least})"),
        (None, Some(_)) => format!(" (not above {most})"),
        (None, None) => String::new(),
    };
    Brief::of("set the stick-out to ").set(at).and(limits)
}

/// The recommended stick-out with its unit, never outside of its window by rounding.
#[must_use]
pub fn recommended(window: &Window, units: DisplayUnits) -> Option<String> {
    let at = window.recommended?;
    Some(print::between(at, window.ends(), units))
}

/// Both ends in the library's units, rounded inwards, without unit; empty where an end is not
/// known.
#[must_use]
pub fn ends(window: &Window, units: DisplayUnits) -> (String, String) {
    let value = |end: &Option<End>| end.as_ref().map(|end| end.value);
    let (min, max) = (value(&window.min), value(&window.max));
    match (min, max) {
        (Some(min), Some(max)) if !window.is_empty() => print::inwards(min, max, units),
        _ => {
            let show = |end: Option<f64>, way| {
                end.map_or_else(String::new, |end| print::length(end, way, units))
            };
            (show(min, Rounding::Up), show(max, Rounding::Down))
        }
    }
}

/// What binds an end, marked where it rests on what is only assumed, or is where a model ends.
#[must_use]
pub fn name(end: &End) -> String {
    let marks = [
        (!end.assumed.is_empty()).then_some("assumed"),
        end.model_ends.map(|_| "its model ends there"),
    ];
    let marks: Vec<&str> = marks.into_iter().flatten().collect();
    if marks.is_empty() {
        return end.name.clone();
    }
    format!("{}, {}", end.name, marks.join(", "))
}

/// At which stick-outs of the window the whole gripping length is filled; `None` if at none, or not known.
#[must_use]
pub fn full(window: &Window, units: DisplayUnits) -> Option<String> {
    let (from, to) = window.full?;
    let (least, most) = print::inwards(from, to, units);
    let min = window.min.as_ref().map_or(0.0, |min| min.value);
    let starts = from - min < SAME;
    let max = window.max.as_ref();
    let goes_on = max.is_some_and(|max| max.value - to < SAME);
    Some(match (starts, goes_on) {
        (true, true) => "full grip throughout".to_owned(),
        (true, false) => format!("full grip up to {most}"),
        (false, true) => format!("full grip from {least}"),
        (false, false) => format!("full grip from {least} to {most}"),
    })
}

/// Why nothing is left, and by how much.
fn empty(window: &Window, units: DisplayUnits) -> String {
    let short = window.short_by.unwrap_or(0.0);
    let short = print::length(short, Rounding::Up, units);
    let short = format!("{short} {}", units.length());
    let (least, most) = ends(window, units);
    let why = match (&window.min, &window.max) {
        (Some(min), Some(max)) if min.rule == max.rule => {
            return format!("no stick-out: {} is {short} short at its best", name(min));
        }
        (Some(min), Some(max)) => format!(
            "{} needs at least {least}, {} at most {most}",
            name(min),
            name(max)
        ),
        (Some(min), None) => {
            let tool = print::value(window.overall_length, Unit::Mm, units);
            let name = name(min);
            format!("{name} needs at least {least}, but the tool is {tool} long")
        }
        (None, Some(max)) => format!("{} needs at most {most}", name(max)),
        (None, None) => return format!("no stick-out: {short} short"),
    };
    format!("no stick-out: {why}; {short} short")
}

/// What nobody knows of the stop behind the tail and of the job's reach, where a recommended
/// stick-out rests on neither; `None` where both are known, or do not matter.
#[must_use]
pub fn unknown(window: &Window, units: DisplayUnits) -> Option<String> {
    let waits = |field: &str| {
        let mut all = window.unjudged.iter();
        all.any(|one| one.missing == [field])
    };
    let recommended = window.recommended?;
    let mut all: Vec<String> = Vec::new();
    if waits("operation.reach") {
        all.push(
            "reach, which is not stated: check that this stick-out reaches the full depth"
                .to_owned(),
        );
    }
    if waits("holder.insertion_depth_max") {
        let insertion = print::value(window.overall_length - recommended, Unit::Mm, units);
        all.push(format!(
            "stop (insertion_depth_max not stated): the insertion is {insertion}; check that the shank end is free"
        ));
    }
    (!all.is_empty()).then(|| format!("not known: {}", all.join("; ")))
}
