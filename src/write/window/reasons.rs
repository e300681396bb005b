//! What the number of a quick question rests on: ends, job, grip, torque, assumptions.

use crate::sheet::wording::{self, full, name, recommended};
use crate::sheet::{Answer, End, Front, Job, RangeAsked, Shortest};
use crate::units::Unit;
use crate::units::print::{self, Rounding};

use super::answer::{Line, labelled, length};
use super::front::face;

/// What binds, and what would bind next.
pub(super) fn ends(answer: &Answer) -> Vec<Line> {
    let window = &answer.window;
    let mut lines = Vec::new();
    let (least, most) = wording::ends(window, answer.units);
    let mut one = |label: &str, bound: &Option<End>, at: Option<String>| match bound {
        Some(bound) => lines.push(labelled(label, &end(answer, bound, at))),
        None if label.starts_with("not") => {
            lines.push(labelled(label, "no limit is known here"));
        }
        None => {}
    };
    let next = |end: &Option<End>, way| {
        let end = end.as_ref();
        end.map(|end| print::length(end.value, way, answer.units))
    };
    one("not below", &window.min, Some(least));
    one(
        " next",
        &window.next_min,
        next(&window.next_min, Rounding::Up),
    );
    one("not above", &window.max, Some(most));
    one(
        " next",
        &window.next_max,
        next(&window.next_max, Rounding::Down),
    );
    for (least, most) in &window.others {
        let (least, most) = print::inwards(*least, *most, answer.units);
        lines.push(labelled("also free", &format!("{least} to {most}")));
    }
    for rule in &window.beyond_cure {
        let words = format!("{rule}: no stick-out meets it");
        lines.push(labelled("not met", &words));
    }
    lines
}

fn end(answer: &Answer, end: &End, at: Option<String>) -> String {
    let at = at.unwrap_or_default();
    // An operation without a name goes by the tool's number.
    let operation = end.operation.as_deref();
    let operation = operation.filter(|name| answer.number.as_deref() != Some(*name));
    let operation = operation.map_or_else(String::new, |name| format!(" of {name}"));
    let unit = answer.units.length();
    let words = format!("{at} {unit}, {}{operation} [{}]", name(end), end.rule);
    let assumed = (!end.assumed.is_empty()).then(|| format!("assumed: {}", end.assumed.join(", ")));
    let beyond = end.model_ends.map(|why| format!("beyond it {why}"));
    let all = [Some(words), assumed, beyond].into_iter().flatten();
    all.collect::<Vec<_>>().join("; ")
}

/// What is not stated of the setup and moves the ends, and what stating it would win; without a
/// reach nobody has asked whether the tool gets to the floor.
pub(super) fn job(answer: &Answer) -> Vec<Line> {
    let ranges = answer.ranges.iter().map(|asked| ranged(answer, asked));
    let reach = match answer.job {
        Job::NoReach => Some(labelled(
            "reach",
            "not stated: whether the tool reaches the bottom of the job is not judged; add it with --reach",
        )),
        Job::Stated => None,
    };
    ranges.chain(reach).collect()
}

/// One property that is taken as a range.
fn ranged(answer: &Answer, asked: &RangeAsked) -> Line {
    let units = answer.units;
    let name = asked.name;
    let range = print::ends(asked.range, Unit::Mm, units);
    let stated: Vec<String> = asked
        .windows
        .iter()
        .zip([asked.range.0, asked.range.1])
        .map(|(window, at)| {
            let at = print::value(at, Unit::Mm, units);
            let (least, most) = wording::ends(window, units);
            match (window.is_empty(), least.is_empty(), most.is_empty()) {
                (true, ..) => format!("at {at} no stick-out is left"),
                (_, false, false) => format!("at {at} they are {least} to {most}"),
                (_, false, true) => format!("at {at} not below {least}"),
                (_, true, false) => format!("at {at} not above {most}"),
                (_, true, true) => format!("at {at} no limit is known"),
            }
        })
        .collect();
    let option = name.replace('_', "-");
    labelled(
        "not stated",
        &format!(
            "{name}: taken as {range}, from memory; the limits suit all of it. Stated, {}: add --{option}",
            stated.join(", ")
        ),
    )
}

/// How much grip is needed, how short the tool may get, the torque, what is assumed.
pub(super) fn reasons(answer: &Answer) -> Vec<Line> {
    let mut lines = vec![labelled("grip", &grip(answer))];
    let (label, words) = if answer.window.is_empty() {
        ("instead", instead(answer))
    } else {
        ("shortest", shortest(answer))
    };
    lines.extend(words.map(|words| labelled(label, &words)));
    if answer.front == Front::Nut {
        lines.push(labelled("torque", &torque(answer)));
    }
    lines.extend(
        answer
            .assumed
            .iter()
            .map(|words| labelled("assumed", words)),
    );
    lines
}

/// How short regrinding may make the tool.
fn shortest(answer: &Answer) -> Option<String> {
    let long = |long: f64| length(answer, long, Rounding::Up);
    Some(match &answer.shortest {
        Shortest::ForThisReach(length) => {
            let length = long(*length);
            format!("{length} overall after regrinding, for this reach")
        }
        Shortest::AtThisStickOut(length) => {
            let at = recommended(&answer.window, answer.units)?;
            format!(
                "{} overall after regrinding, at {at} stick-out",
                long(*length)
            )
        }
        Shortest::Unknown(missing) if missing.is_empty() => return None,
        Shortest::Unknown(missing) => format!("not known: {} not stated", missing.join(", ")),
    })
}

/// What would serve where no stick-out does.
fn instead(answer: &Answer) -> Option<String> {
    let around = answer;
    let parts = if around.front == Front::Nut {
        "a collet with a shorter gripping length, or a holder that reaches further"
    } else {
        "a holder that reaches further"
    };
    let Shortest::ForThisReach(overall) = around.shortest else {
        return None;
    };
    // One rule alone leaves nothing, and it does not mind how long the tool is.
    let (min, max) = (&answer.window.min, &answer.window.max);
    let alone = min
        .as_ref()
        .zip(max.as_ref())
        .filter(|(min, max)| min.rule == max.rule);
    if let Some((end, _)) = alone.filter(|(end, _)| !end.where_none.is_empty()) {
        return Some(end.where_none.clone());
    }
    let long = |long: f64| length(answer, long, Rounding::Up);
    // Behind the face there is no more room, however long a cutter is.
    let room = around.insertion_possible.zip(around.insertion_needed);
    if let Some((room, behind)) = room.filter(|(room, behind)| room < behind) {
        let face = face(around.front);
        let (room, behind) = (length(answer, room, Rounding::Down), long(behind));
        return Some(format!(
            "no cutter suits: {room} can be inserted behind the {face}, and {behind} is needed; {parts}"
        ));
    }
    let shank = around.shank_needed.map_or_else(String::new, |shank| {
        format!(", of it at least {} plain shank", long(shank))
    });
    let room = long(2.0 * around.setting_tolerance);
    Some(format!(
        "a cutter at least {} overall{shank}, and {room} more of both for setting; or {parts}",
        long(overall)
    ))
}

fn grip(answer: &Answer) -> String {
    if answer.front == Front::NoShank {
        return "none to judge: no shank is held".to_owned();
    }
    let Some(needed) = answer.needed_grip else {
        return of_the_insertion(answer);
    };
    let needed = length(answer, needed, Rounding::Up);
    let land = answer.land.map_or_else(String::new, |land| {
        let land = length(answer, land, Rounding::Nearest);
        format!(" of the {land} gripping length")
    });
    let full = full(&answer.window, answer.units);
    let full = full.map_or_else(String::new, |full| format!("; {full}"));
    format!("needed {needed}{land}{full}")
}

/// Where no bore says how much of it is to be filled: what is missing for it, or what the holder
/// asks for.
fn of_the_insertion(answer: &Answer) -> String {
    let missing = answer.window.undecided.join(", ");
    match answer.holder_minimum {
        _ if !missing.is_empty() => {
            format!("NOT JUDGED: {missing} not stated{}", of_the_size(answer))
        }
        Some(least) => {
            let least = length(answer, least, Rounding::Up);
            format!("at least {least} of the shank in the holder, as its manufacturer states")
        }
        None if answer.flat.is_some() => {
            let at = answer
                .flat
                .map(|flat| length(answer, flat, Rounding::Nearest));
            let at = at.unwrap_or_default();
            format!(
                "the clamp screw meets the middle of its flat at {at}, and at no other stick-out"
            )
        }
        None => "NOT JUDGED: no stated value gives the insertion that is needed".to_owned(),
    }
}

/// What a collet's size alone does not tell.
fn of_the_size(answer: &Answer) -> &'static str {
    if answer.sized {
        "; the size alone does not give the gripping length: measure it, or add --bore-diameter and --bore-form through if its bore is not relieved"
    } else {
        ""
    }
}

fn torque(answer: &Answer) -> String {
    let stated = answer
        .torques
        .iter()
        .map(|(word, torque)| format!("{word} {}", print::value(*torque, Unit::Nm, answer.units)));
    let stated: Vec<String> = stated.collect();
    let words = if stated.is_empty() {
        "take it from the manufacturers' instructions for this bore".to_owned()
    } else {
        format!("as stated: {}", stated.join(", "))
    };
    format!("{words}; more torque never makes up for a short grip")
}
