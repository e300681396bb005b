//! A window in words, in the units of its library: one line for advice and for the question.

use crate::units::Unit;
use crate::units::print::{self, DisplayUnits, Rounding};

use super::window::{End, Window};

/// Ends nearer to each other than this are one, mm.
const SAME: f64 = 0.01;

/// Where the stick-out may be and what binds it: `38.0 to 56.3: flutes below, grip above; bore
/// full up to 43.0`. Lengths are in the library's units and rounded inwards.
#[must_use]
pub fn span(window: &Window, units: DisplayUnits) -> String {
    if window.is_empty() {
        return empty(window, units);
    }
    let (least, most) = ends(window, units);
    let words = match (&window.min, &window.max) {
        (Some(min), Some(max)) => format!(
            "{least} to {most}: {} below, {} above",
            name(min),
            name(max)
        ),
        (Some(min), None) => format!(
            "{least} or more: {} below; no upper end is known",
            name(min)
        ),
        (None, Some(max)) => {
            format!("up to {most}: {} above; no lower end is known", name(max))
        }
        (None, None) => "no lower end is known; no upper end is known".to_owned(),
    };
    match full(window, units) {
        Some(full) => format!("{words}; {full}"),
        None => words,
    }
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
    format!("{} ({})", end.name, marks.join(", "))
}

/// At which stick-outs of the window the whole land is filled; `None` if at none, or not known.
#[must_use]
pub fn full(window: &Window, units: DisplayUnits) -> Option<String> {
    let (from, to) = window.full?;
    let (least, most) = print::inwards(from, to, units);
    let min = window.min.as_ref().map_or(0.0, |min| min.value);
    let starts = from - min < SAME;
    let max = window.max.as_ref();
    let goes_on = max.is_some_and(|max| max.value - to < SAME);
    Some(match (starts, goes_on) {
        (true, true) => "bore full throughout".to_owned(),
        (true, false) => format!("bore full up to {most}"),
        (false, true) => format!("bore full from {least} on"),
        (false, false) => format!("bore full from {least} to {most}"),
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
            "{} asks for {least} or more, {} for {most} or less",
            name(min),
            name(max)
        ),
        (Some(min), None) => {
            let tool = print::value(window.overall_length, Unit::Mm, units);
            let name = name(min);
            format!("{name} asks for {least} or more of a tool that is {tool} long")
        }
        (None, Some(max)) => format!("{} asks for {most} or less", name(max)),
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
        all.push("the reach of its job (reach not stated): look that it is deep enough".to_owned());
    }
    if waits("holder.insertion_depth_max") {
        let insertion = print::value(window.overall_length - recommended, Unit::Mm, units);
        all.push(format!(
            "stop (insertion_depth_max not stated): the tail goes {insertion} in and needs room behind it"
        ));
    }
    (!all.is_empty()).then(|| format!("not known: {}", all.join("; ")))
}
