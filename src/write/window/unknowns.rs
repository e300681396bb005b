//! What the answer to a quick question does not know, grouped so that it stays short.

use crate::sheet::{Answer, Bound, Front, Level, Unjudged};
use crate::units::print::Rounding;

use super::super::lacking::lacking as lacking_words;
use super::answer::{Line, labelled, length};
use super::front::face;

/// How far an end may be off, mm: lengths nearer than 0.01 count as equal.
const EDGE: f64 = 0.011;

/// What would bound it, were more stated: the stop first, as it needs room whoever sets it.
pub(super) fn gaps(answer: &Answer) -> Vec<Line> {
    let all = &answer.window.unjudged;
    let stop = |one: &&Unjudged| one.of_stop;
    let stops = all.iter().filter(stop);
    let mut lines: Vec<Line> = stops
        .map(|stop| labelled("not known", &of_the_stop(answer, stop)))
        .collect();
    let others: Vec<&Unjudged> = all.iter().filter(|one| !stop(one)).collect();
    let ends = [(Bound::StickOutMin, "below"), (Bound::StickOutMax, "above")];
    let sides = ends.into_iter().filter_map(|(bound, side)| {
        let of_end = others.iter().filter(|one| one.bound == bound);
        let names = once(of_end.map(|one| match one.outside {
            Some(why) => format!("{} ({why})", one.name),
            None => one.name.clone(),
        }));
        (!names.is_empty()).then(|| format!("{side}: {}", names.join(", ")))
    });
    let sides: Vec<String> = sides.collect();
    if sides.is_empty() {
        return lines;
    }
    // What only warnings lack is too much to read for what it would tell.
    let errors = others.iter().filter(|one| one.level == Level::Error);
    // Nobody is asked for a nut where there is none.
    let has_nut = !matches!(answer.front, Front::Holder | Front::NoShank);
    let asked = |name: &&&str| has_nut || !name.starts_with("nut.");
    let missing = errors.flat_map(|one| {
        let stated = |name: &&&str| one.unlisted.iter().any(|(known, _)| known == *name);
        one.missing.iter().filter(move |name| !stated(name))
    });
    let missing = missing.filter(asked);
    let missing = once(missing.map(|name| bare(name).to_owned()));
    let mut words = sides.join("; ");
    if !missing.is_empty() {
        words += "; not stated: ";
        words += &missing.join(", ");
    }
    // What is stated and not understood is told whoever lacks it.
    let unlisted = others.iter().flat_map(|one| &one.unlisted);
    for stated in once(unlisted.map(|(name, words)| format!("{} {words}", bare(name)))) {
        words += "; ";
        words += &stated;
    }
    lines.push(labelled("not known", &words));
    lines
}

/// What nobody knows of the stop, with the room that is needed there.
fn of_the_stop(answer: &Answer, stop: &Unjudged) -> String {
    let least = answer.window.min.as_ref().map(|min| min.value);
    let why = lacking(stop);
    let least = least.or(answer.present);
    // A stick-out beyond the tool's own length leaves nothing behind the face.
    let Some(least) = least.filter(|least| *least < answer.window.overall_length) else {
        return format!("stop ({why})");
    };
    // What counts as equal may move an end: that is no tenth of a millimetre here.
    let insertion = answer.window.overall_length - least - EDGE;
    let insertion = length(answer, insertion, Rounding::Up);
    let front = answer.front;
    let face = face(front);
    let room = length(answer, answer.room, Rounding::Up);
    let draw_in = if front == Front::Nut && !answer.draw_in_known {
        ", plus the collet's draw-in"
    } else {
        ""
    };
    let at = length(answer, least, Rounding::Up);
    format!(
        "stop ({why}); at {at} the shank end is {insertion} behind the {face} and needs {room} free behind it{draw_in}"
    )
}

/// Each of them, where it stands first.
fn once(names: impl Iterator<Item = String>) -> Vec<String> {
    let mut found: Vec<String> = Vec::new();
    for name in names {
        if !found.contains(&name) {
            found.push(name);
        }
    }
    found
}

/// A property's name without its record.
fn bare(name: &str) -> &str {
    name.split_once('.').map_or(name, |(_, bare)| bare)
}

/// Why a rule says nothing.
fn lacking(unjudged: &Unjudged) -> String {
    if let Some(why) = unjudged.outside {
        return why.to_owned();
    }
    let names: Vec<&str> = unjudged.missing.iter().map(|name| bare(name)).collect();
    let stated = unjudged.unlisted.iter();
    let stated: Vec<(&str, String)> = stated
        .map(|(name, words)| (bare(name), words.clone()))
        .collect();
    lacking_words(&names, &stated)
}
