//! The number that a quick question is asked for, and how to set it at the bench.

use crate::sheet::wording::{ends, name, recommended};
use crate::sheet::{Answer, End, Level, Unjudged};
use crate::units::Unit;
use crate::units::print::{self, Rounding};

use super::answer::{Line, labelled, length};
use super::front::{closed, face};

/// Stick-outs nearer to an end than this are on it, mm.
const SAME: f64 = 0.01;

/// Where to set the tool, or why nowhere.
pub(super) fn headline(answer: &Answer) -> String {
    let window = &answer.window;
    if window.is_empty() {
        return format!("There is {}", crate::sheet::span(window, answer.units));
    }
    let limits = limits(answer);
    let at = recommended(window, answer.units);
    match (at, inside(answer)) {
        // A number to set by, beside something that must not run, would be followed.
        (Some(at), _) if answer.stopped => format!(
            "Correct that and ask again; with the values as stated it would be {at} ({limits})"
        ),
        (Some(at), Some(stated)) if stated != at => {
            format!("{stated} is inside ({limits}); the shortest advised is {at}")
        }
        (Some(at), _) => format!("Set the stick-out to {at} ({limits})"),
        (None, _) if window.undecided.is_empty() => {
            format!("No stick-out can be recommended ({limits})")
        }
        (None, stated) => {
            let nothing = match stated {
                Some(stated) => {
                    format!("NOT JUDGED: {stated} cannot be checked, and no")
                }
                None => "No".to_owned(),
            };
            let who = undecided(answer).join(" and ");
            let verb = if undecided(answer).len() > 1 {
                "are"
            } else {
                "is"
            };
            let missing = window.undecided.join(", ");
            format!(
                "{nothing} stick-out can be recommended: {who} {verb} not judged, {missing} not stated (what else is known: {limits})"
            )
        }
    }
}

/// The words for what an undecided window waits for: the grip above all, else the stop, the flutes.
fn undecided(answer: &Answer) -> Vec<String> {
    let window = &answer.window;
    let waits = |one: &&Unjudged| {
        let mut missing = one.missing.iter();
        one.of_tool
            && one.level == Level::Error
            && missing.any(|name| window.undecided.contains(name))
    };
    let waiting = || window.unjudged.iter().filter(waits);
    // Where the grip is not judged, nothing else is worth a word.
    let of_grip = |one: &Unjudged| one.of_grip;
    let mut found: Vec<String> = waiting().map(|one| format!("the {}", one.name)).collect();
    found.dedup();
    if found.is_empty() || waiting().any(of_grip) {
        return vec!["the grip".to_owned()];
    }
    found
}

/// Both ends, what they rest on, and whether there is room between them.
fn limits(answer: &Answer) -> String {
    let (window, unit) = (&answer.window, answer.units.length());
    let (least, most) = ends(window, answer.units);
    let mut words = match (&window.min, &window.max) {
        (Some(_), Some(_)) => format!("limits {least} to {most} {unit}"),
        (Some(_), None) => format!("not below {least} {unit}; no upper limit is known"),
        (None, Some(_)) => format!("not above {most} {unit}; no lower limit is known"),
        (None, None) => "neither a lower nor an upper limit is known".to_owned(),
    };
    let mut both = [&window.min, &window.max].into_iter().flatten();
    if both.any(|end| !end.assumed.is_empty()) {
        words += ", partly assumed";
    }
    let width = window.max.as_ref().zip(window.min.as_ref());
    let width = width.map(|(max, min)| max.value - min.value);
    let needed = 2.0 * answer.setting_tolerance;
    if width.is_some_and(|width| width < needed - SAME) {
        let needed = length(answer, needed, Rounding::Nearest);
        words.extend(["; less than the ", &needed, " that setting needs"]);
    }
    words
}

/// How far the stick-out that the question states lies outside, and beyond which end.
fn by(answer: &Answer) -> Option<(f64, &'static str, &End)> {
    let present = answer.present?;
    let window = &answer.window;
    let below = window.min.as_ref().filter(|min| min.value - present > SAME);
    let above = window.max.as_ref().filter(|max| present - max.value > SAME);
    below
        .map(|min| (min.value - present, "short", min))
        .or_else(|| above.map(|max| (present - max.value, "long", max)))
}

/// The stick-out that the question states, if it lies inside.
fn inside(answer: &Answer) -> Option<String> {
    let present = answer.present?;
    by(answer)
        .is_none()
        .then(|| print::value(present, Unit::Mm, answer.units))
}

/// What is wrong with the stick-out that the question states.
pub(super) fn outside(answer: &Answer) -> Option<String> {
    let at = print::value(answer.present?, Unit::Mm, answer.units);
    if answer.window.is_empty() {
        return Some(format!("{at}: no stick-out meets all limits"));
    }
    let (by, way, end) = by(answer)?;
    let by = length(answer, by, Rounding::Up);
    Some(format!("{at}: outside, {by} too {way} ({})", name(end)))
}

/// How to set it at the bench.
pub(super) fn mark(answer: &Answer) -> Vec<Line> {
    // Nobody marks a shank for what must not be built.
    if answer.stopped {
        return Vec::new();
    }
    // A stick-out that is stated and right needs no other mark.
    let stated = answer.present.zip(inside(answer));
    let advised = || Some((answer.advised?, recommended(&answer.window, answer.units)?));
    let Some((at, shown)) = advised().map(|advised| stated.unwrap_or(advised)) else {
        return Vec::new();
    };
    let long = answer.window.overall_length;
    let tail = print::value(long - at, Unit::Mm, answer.units);
    let front = answer.front;
    let (face, closed) = (face(front), closed(front));
    let words = format!(
        "{tail} from the shank end, for {shown}; the mark must be flush with the {face} {closed}. Mark with a pen or set a stop collar; never scribe the shank, never measure along the cutting edges"
    );
    let mut lines = vec![labelled("mark", &words)];
    // At the same mark the whole grip is the same: only the tip is elsewhere.
    if let Some(longer) = answer.longest.filter(|longest| *longest - long > SAME) {
        let words = format!(
            "calculated with {}, the shortest length stated; at the same mark a tool of {} sticks out {} more",
            print::value(long, Unit::Mm, answer.units),
            print::value(longer, Unit::Mm, answer.units),
            print::value(longer - long, Unit::Mm, answer.units),
        );
        lines.push(labelled("length", &words));
    }
    lines
}
