//! The diameter that a description names.
//!
//! People write descriptions for people, so whatever is not certain is not read: a note about
//! a diameter that nobody meant costs more than one that is missed.

use crate::library::{Field, Reckoned, Trace};

use super::Scene;

/// What marks a number as a diameter.
const MARKS: [&str; 7] = ["ø", "⌀", "∅", "diameter", "dia", "d", "\u{3c6}"];
/// Beside one of these words a diameter is not the cutter's own; `D2 steel` is none at all.
const OTHERS: [&str; 15] = [
    "shank", "shaft", "neck", "bore", "hole", "pocket", "boss", "collet", "nut", "holder", "body",
    "arbor", "pilot", "thread", "steel",
];
/// Diameters closer than this are one, mm.
const SAME: f64 = 0.05;
/// One inch, mm.
const INCH: f64 = 25.4;
/// No cutter of a bare number above this is meant in inches.
const GREATEST_INCH: f64 = 4.0;

/// The diameter that the description names, if it names one: the cutter's, else the assembly's.
pub(super) fn diameter(scene: &Scene<'_>) -> Reckoned<f64> {
    let inch = scene.view.library.units.length() == "in";
    let texts = [Field::CutterDescription, Field::AssemblyDescription];
    let found = texts.into_iter().find_map(|field| {
        let text = scene.view.word(field);
        let diameter = text.value.and_then(|text| diameter_in(text, inch))?;
        Some(text.map(|_| diameter))
    });
    found.unwrap_or(Reckoned::unknown(Trace::default()))
}

/// The one diameter that a text marks as such, in mm: `Ø12`, `D12`, `dia 12`, `diameter 12 mm`.
/// None if it marks two, for one of them is another part's.
fn diameter_in(text: &str, inch: bool) -> Option<f64> {
    let text = with_points(&text.to_lowercase());
    let words: Vec<&str> = text
        .split(|c: char| c.is_whitespace() || matches!(c, ',' | ';' | '(' | ')'))
        .filter(|word| !word.is_empty())
        .collect();
    let mut found = None;
    for at in 0..words.len() {
        let Some(diameter) = marked(&words, at, inch) else {
            continue;
        };
        if found.is_some_and(|known: f64| (known - diameter).abs() > SAME) {
            return None;
        }
        found = Some(diameter);
    }
    found
}

/// A comma between two digits is a decimal comma.
fn with_points(text: &str) -> String {
    let letters: Vec<char> = text.chars().collect();
    let digit = |at: Option<usize>| {
        at.and_then(|at| letters.get(at))
            .is_some_and(char::is_ascii_digit)
    };
    let pointed = letters.iter().enumerate().map(|(at, letter)| {
        let decimal = *letter == ',' && digit(at.checked_sub(1)) && digit(Some(at + 1));
        if decimal { '.' } else { *letter }
    });
    pointed.collect()
}

/// The diameter that begins at a word, in mm.
fn marked(words: &[&str], at: usize, inch: bool) -> Option<f64> {
    let word = words.get(at)?;
    let (mark, rest) = MARKS
        .into_iter()
        .find_map(|mark| Some((mark, word.strip_prefix(mark)?)))?;
    // `dia.5` may be five or a half.
    if mark.starts_with("dia") && rest.len() > 1 && rest.starts_with('.') {
        return None;
    }
    let rest = rest.trim_start_matches(['=', ':']);
    let apart = rest.is_empty() || rest == ".";
    let at_number = if apart { at + 1 } else { at };
    let written = if apart { *words.get(at_number)? } else { rest };
    let next = words.get(at_number + 1).copied().unwrap_or("");
    // `d1 = 10` and `d2 12` name dimensions of a drawing; `1 1/2` is not one.
    let names_dimension = mark == "d" && !apart && rest.len() == 1;
    let starts = |part: &str| part.starts_with(|c: char| c.is_ascii_digit());
    if names_dimension && (starts(next) || next.starts_with('=')) || next.contains('/') {
        return None;
    }
    let unit_apart = matches!(next, "mm" | "in" | "inch" | "\"");
    let behind = words.get(at_number + 1 + usize::from(unit_apart));
    let before = at.checked_sub(1).and_then(|before| words.get(before));
    let of_another = |word: Option<&&str>| {
        word.is_some_and(|word| OTHERS.contains(&word.trim_end_matches(['.', ':'])))
    };
    if of_another(behind) || of_another(before) {
        return None;
    }
    in_mm(written, if unit_apart { next } else { "" }, inch)
}

/// A plain number with its unit, in mm. A bare one is in the library's own unit of length.
fn in_mm(word: &str, unit: &str, inch: bool) -> Option<f64> {
    let split = word.find(|c: char| !c.is_ascii_digit() && c != '.');
    let (number, own_unit) = word.split_at(split.unwrap_or(word.len()));
    let number: f64 = number.trim_end_matches('.').parse().ok()?;
    let unit = if own_unit.is_empty() { unit } else { own_unit };
    let factor = match unit {
        "in" | "inch" | "\"" => INCH,
        "" if inch && number < GREATEST_INCH => INCH,
        "" | "mm" => 1.0,
        _ => return None,
    };
    (number > 0.0).then_some(number * factor)
}
