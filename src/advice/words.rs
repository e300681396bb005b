//! A window in words, in the library's units. Ends are rounded inwards.

use crate::units::Unit;
use crate::units::print::{self, DisplayUnits, Rounding};

use super::window::{End, Window};

/// The limit window and what binds it: `38.0 to 56.3: flutes below, grip above; bore full up
/// to 43.0`. For a window that is not empty.
#[must_use]
pub fn span(window: &Window, units: DisplayUnits) -> String {
    let mut text = match (&window.min, &window.max) {
        (Some(min), Some(max)) => {
            let (least, most) = print::inwards(min.value, max.value, units);
            format!(
                "{least} to {most}: {} below, {} above",
                name(min),
                name(max)
            )
        }
        (Some(min), None) => {
            let least = print::length(min.value, Rounding::Up, units);
            format!("{least} or more: {} below, nothing known above", name(min))
        }
        (None, Some(max)) => {
            let most = print::length(max.value, Rounding::Down, units);
            format!("up to {most}: nothing known below, {} above", name(max))
        }
        (None, None) => "no rule bounds it".to_owned(),
    };
    if let Some((_, most)) = window.full {
        let most = print::length(most, Rounding::Down, units);
        text.push_str(&format!("; bore full up to {most}"));
    }
    text
}

/// What binds an end, marked if it rests on something assumed or on the end of a model.
fn name(end: &End) -> String {
    let mut text = end.name.clone();
    if !end.assumed.is_empty() {
        text.push_str(" (assumed)");
    }
    if end.model_ends.is_some() {
        text.push_str(" (where its model ends)");
    }
    text
}

/// What nobody knows of the stop behind the tail, and the room that is needed there; `None`
/// where the stop is known, or does not matter.
#[must_use]
pub fn stop(window: &Window, units: DisplayUnits) -> Option<String> {
    let unjudged = window.unjudged.iter();
    let depth = "holder.insertion_depth_max";
    let stop = unjudged.into_iter().find(|one| one.missing == [depth])?;
    let least = window.recommended?;
    let insertion = window.overall_length - least;
    Some(format!(
        "not known: {} (insertion_depth_max not stated); needs {} free behind the nut's face",
        stop.name,
        print::value(insertion, Unit::Mm, units)
    ))
}
