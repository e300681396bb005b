//! The lines below the drawing: how much is gripped, and what the characters mean.

use crate::sheet::{Drawing, Extent, Field, FieldSet, Grip, Mark, PartKind};
use crate::units::Unit;
use crate::units::print::{self, DisplayUnits};

use super::canvas::{COLUMNS, INDENT, Ink};
use super::glyphs::Glyphs;
use super::scale::{LONGEST, Scale, keep_above};

/// A character with what it means, or words alone.
struct Explained {
    mark: Option<(String, Ink)>,
    words: String,
}

impl Explained {
    fn of(mark: impl Into<String>, ink: Ink, words: impl Into<String>) -> Explained {
        Explained {
            mark: Some((mark.into(), ink)),
            words: words.into(),
        }
    }

    fn words(words: impl Into<String>) -> Explained {
        Explained {
            mark: None,
            words: words.into(),
        }
    }

    fn width(&self) -> usize {
        let mark = self.mark.as_ref();
        mark.map_or(0, |(mark, _)| mark.chars().count() + 1) + self.words.chars().count()
    }

    fn painted(&self, colour: bool) -> String {
        match &self.mark {
            Some((mark, ink)) => format!("{} {}", ink.paint(mark, colour), self.words),
            None => self.words.clone(),
        }
    }
}

/// The legend of a drawing.
pub(super) fn legend(
    drawing: &Drawing,
    scale: Scale,
    units: DisplayUnits,
    glyphs: &Glyphs,
    colour: bool,
) -> String {
    let mut numbers = grip(drawing, units, glyphs);
    numbers.extend(too_far(drawing, scale, units));
    let mut meanings = key(drawing, glyphs);
    let unit = units.length();
    meanings.push(Explained::words(format!(
        "{unit} from the tip; diameters not to scale"
    )));
    flowed(&numbers, colour) + &flowed(&meanings, colour)
}

/// What is gripped and what is not, in numbers.
fn grip(drawing: &Drawing, units: DisplayUnits, glyphs: &Glyphs) -> Vec<Explained> {
    let show = |length: f64| print::value(length, Unit::Mm, units);
    let land = drawing.land.and_then(|land| land.span());
    match (drawing.grip, land) {
        (Grip::NoCollet, _) => vec![Explained::words(
            "not held in a collet: no grip to be shown",
        )],
        (Grip::Unknown(missing), land) => {
            let words = not_known(missing);
            let open = land.map(|_| Explained::of(glyphs.open, Ink::Plain, words.clone()));
            vec![open.unwrap_or(Explained::words(words))]
        }
        (Grip::Nothing, land) => {
            let length = land.map_or(0.0, |land| land.length());
            let words = format!(
                "nothing gripped: no plain shank in the {} gripping length",
                show(length)
            );
            vec![Explained::of(glyphs.bare, Ink::Bare, words)]
        }
        (Grip::Over(grip), land) => {
            let whole = land.map_or(0.0, |land| land.length());
            let bare: f64 = drawing.ungripped().iter().map(Extent::length).sum();
            let (part, whole) = print::pair(grip.length(), whole, Unit::Mm, units);
            let assumed = if grip.assumed { ", partly assumed" } else { "" };
            let words = if bare > 0.0 {
                format!("gripped: {part} of the {whole} gripping length{assumed}")
            } else {
                format!("gripped: the whole {whole} gripping length{assumed}")
            };
            let bare = (bare > 0.0)
                .then(|| Explained::of(glyphs.bare, Ink::Bare, format!("no grip: {}", show(bare))));
            let gripped = Explained::of(glyphs.gripped, Ink::Gripped, words);
            std::iter::once(gripped).chain(bare).collect()
        }
    }
}

/// Which values would show the grip.
fn not_known(missing: FieldSet) -> String {
    let names: Vec<&str> = missing.iter().map(Field::short).collect();
    if names.is_empty() {
        "grip not known".to_owned()
    } else {
        format!("grip not known: {} not stated", names.join(", "))
    }
}

/// The characters of the cutter that occur.
fn key(drawing: &Drawing, glyphs: &Glyphs) -> Vec<Explained> {
    let has = |kind| drawing.cutter.iter().any(|part| part.kind == kind);
    let mut parts = drawing.cutter.iter();
    let assumed = parts.any(|part| part.kind == PartKind::Shank && part.span.assumed);
    let (edge, shank) = if assumed {
        (glyphs.assumed, "plain shank, assumed")
    } else {
        (glyphs.edge, "plain shank")
    };
    let flutes = if has(PartKind::RunOut) {
        "flutes, washout"
    } else {
        "flutes"
    };
    let kinds = [
        (PartKind::Flutes, glyphs.flutes, flutes),
        (PartKind::Neck, glyphs.neck, "neck"),
        (PartKind::Shank, edge, shank),
        (PartKind::Square, glyphs.square, "square"),
        (PartKind::Unstated, '?', "not stated"),
    ];
    let kinds = kinds.into_iter().filter(|(kind, _, _)| has(*kind));
    kinds
        .map(|(_, mark, words)| Explained::of(mark, Ink::Plain, words))
        .collect()
}

/// What is known and too far away to be drawn.
fn too_far(drawing: &Drawing, scale: Scale, units: DisplayUnits) -> Vec<Explained> {
    // Beyond all measure it is no length of an assembly, and no label either.
    let show = |length: f64| {
        let sane = (0.0..LONGEST).contains(&length);
        sane.then(|| print::value(length, Unit::Mm, units))
    };
    let hidden = |mark: Option<Mark>| mark.filter(|mark| !scale.shows(*mark));
    let stop = hidden(drawing.stop)
        .zip(drawing.tail)
        .and_then(|(stop, tail)| {
            let assumed = if stop.assumed { ", assumed" } else { "" };
            let free = show(stop.z - tail.z)?;
            Some(format!("stop {free} behind the shank end{assumed}"))
        });
    let needs = hidden(keep_above(drawing));
    let needs = needs.and_then(|mark| Some(format!("job needs {}", show(mark.z)?)));
    [stop, needs]
        .into_iter()
        .flatten()
        .map(Explained::words)
        .collect()
}

/// Items side by side, as many on a line as fit.
fn flowed(items: &[Explained], colour: bool) -> String {
    const APART: usize = 3;
    let indent = " ".repeat(INDENT);
    let mut text = String::new();
    let mut used = 0;
    for item in items {
        let width = item.width();
        if used > 0 && used + APART + width <= usize::from(COLUMNS) {
            text.push_str(&" ".repeat(APART));
            used += APART;
        } else {
            if used > 0 {
                text.push('\n');
            }
            text.push_str(&indent);
            used = 0;
        }
        text.push_str(&broken(&item.painted(colour)));
        used += width;
    }
    if used > 0 {
        text.push('\n');
    }
    text
}

/// Words too long for a line are continued on the next.
fn broken(words: &str) -> String {
    let lines = textwrap::wrap(words, usize::from(COLUMNS - 2));
    lines.join("\n    ")
}
