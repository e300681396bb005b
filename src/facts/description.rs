//! What a description says of the cutting diameter.
//!
//! People write descriptions for people, so whatever is not certain is not read: a note about
//! a diameter that nobody meant costs more than one that is missed.

use crate::library::{Field, Provenance, Reckoned};

use super::Scene;

/// What marks a number as a diameter.
const MARKS: [&str; 7] = ["ø", "⌀", "∅", "\u{3c6}", "diameter", "dia", "d"];
/// Beside one of these words a diameter is not the cutter's own; `D2 steel` is none at all.
const OTHERS: [&str; 15] = [
    "shank", "shaft", "neck", "bore", "hole", "pocket", "boss", "collet", "nut", "holder", "body",
    "arbor", "pilot", "thread", "steel",
];
/// Before one of these words `in` is no unit: `D8 in drill chuck`. Compared with a word's end, so
/// that `shrink-chuck` and `chucks` are the same.
const HOLDS: [&str; 5] = ["chuck", "collet", "holder", "extension", "nut"];
/// How many words behind `in` are looked at for one that holds a tool.
const NOUN: usize = 3;
/// Readings nearer than this, mm, are one diameter named twice.
const NEAR: f64 = 0.05;
/// Millimetres of an inch.
const INCH: f64 = 25.4;

/// The diameter that the description names, if it names one: the cutter's, else the assembly's.
///
/// A description has no column and no unit of its own, and its writer may have worked in
/// another than the library's. Of what its number may mean, the reading nearest to a cutting
/// diameter counts: what can be read as agreeing is no disagreement.
pub(super) fn described_diameter<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let cuts = [Field::CuttingDiameter, Field::CuttingDiameterMax];
    let cuts = cuts.map(|field| scene.field(field).value);
    let off = |reading: &f64| {
        let offs = cuts.iter().flatten().map(|cut| (reading - cut).abs());
        offs.fold(f64::INFINITY, f64::min)
    };
    let nearest = |readings: Vec<f64>| {
        readings
            .into_iter()
            .min_by(|a, b| off(a).total_cmp(&off(b)))
    };
    let texts = [Field::CutterDescription, Field::AssemblyDescription];
    let found = texts.into_iter().find_map(|field| {
        let text = scene.word(field);
        let diameter = text.value.and_then(readings_in).and_then(nearest)?;
        Some(text.map(|_| diameter))
    });
    found.unwrap_or(Reckoned::unknown(P::default()))
}

/// The readings of the one diameter that a text marks as such: `Ø12`, `D12`, `dia 12`,
/// `diameter 12 mm`, `D.500`. None if it marks two, for one of them is another part's.
fn readings_in(text: &str) -> Option<Vec<f64>> {
    let text = marks(&text.to_lowercase());
    let separates = |c: char| c.is_whitespace() || matches!(c, ',' | ';' | '(' | ')');
    let words: Vec<&str> = text
        .split(separates)
        .filter(|word| !word.is_empty())
        .collect();
    let mut found: Option<Vec<f64>> = None;
    for at in 0..words.len() {
        let readings = marked(&words, at).unwrap_or_default();
        let Some(first) = readings.first() else {
            continue;
        };
        let known = found.as_ref().and_then(|known| known.first());
        if known.is_some_and(|known| (known - first).abs() > NEAR) {
            return None;
        }
        found = Some(readings);
    }
    found
}

/// Between two digits a comma is a decimal mark, `Ø8,5`, and a slash one of a fraction, `D1/2`;
/// anywhere else both separate words.
fn marks(text: &str) -> String {
    let letters: Vec<char> = text.chars().collect();
    let digit = |at: Option<usize>| {
        let letter = at.and_then(|at| letters.get(at));
        letter.is_some_and(char::is_ascii_digit)
    };
    let inside = |at: usize| digit(at.checked_sub(1)) && digit(Some(at + 1));
    let marked = letters.iter().enumerate().map(|(at, letter)| match letter {
        ',' if inside(at) => '.',
        '/' if !inside(at) => ' ',
        other => *other,
    });
    marked.collect()
}

/// The readings of a diameter whose mark a word begins with.
fn marked(words: &[&str], at: usize) -> Option<Vec<f64>> {
    let word = words.get(at)?;
    let (mark, rest) = MARKS
        .into_iter()
        .find_map(|mark| Some((mark, word.strip_prefix(mark)?)))?;
    // `dia.5` may be five or a half.
    if mark == "dia" && rest.len() > 1 && rest.starts_with('.') {
        return None;
    }
    let rest = rest.trim_start_matches(['=', ':']);
    let apart = rest.is_empty() || rest == ".";
    let at_number = if apart { at + 1 } else { at };
    let number = if apart { *words.get(at_number)? } else { rest };
    let next = words.get(at_number + 1).copied().unwrap_or("");
    // `d1 = 10` and `d2 12` name dimensions of a drawing; `1 1/2` is not one.
    let names_dimension = mark == "d" && !apart && rest.len() == 1;
    let counts_on = next.starts_with(|c: char| c.is_ascii_digit() || c == '=');
    if names_dimension && counts_on || next.contains('/') {
        return None;
    }
    let unit = Some(next).filter(|next| {
        matches!(*next, "mm" | "inch" | "\"" | "″")
            || (*next == "in" && !says_where(words.get(at_number + 2..).unwrap_or_default()))
    });
    let behind = words.get(at_number + 1 + usize::from(unit.is_some()));
    let before = at.checked_sub(1).and_then(|before| words.get(before));
    let of_another = |word: Option<&&str>| {
        word.is_some_and(|word| OTHERS.contains(&word.trim_end_matches(['.', ':'])))
    };
    if of_another(behind) || of_another(before) {
        return None;
    }
    Some(readings_of(number, unit))
}

/// Whether what stands behind `in` says in what the tool is held: a holder within a few words, or
/// a size. Then both readings of the number stay open.
fn says_where(behind: &[&str]) -> bool {
    let first = behind.first().copied().unwrap_or("");
    let is_size = first == "size" || first.contains(|c: char| c.is_ascii_digit());
    let holds = |word: &&str| {
        let word = word.trim_end_matches(['.', ':', 's']);
        HOLDS.iter().any(|holder| word.ends_with(holder))
    };
    is_size || behind.iter().take(NOUN).any(holds)
}

/// What a word may mean in millimetres; nothing unless it is a plain number, with its unit at
/// most. The point before a number may be a decimal mark, `D.500`, or belong to the
/// abbreviation, `D.12`.
fn readings_of(word: &str, unit_behind: Option<&str>) -> Vec<f64> {
    let split = word.find(|c: char| !c.is_ascii_digit() && c != '.');
    let (bare, own_unit) = word.split_at(split.unwrap_or(word.len()));
    let unit = Some(own_unit).filter(|own| !own.is_empty()).or(unit_behind);
    let units: &[f64] = match unit {
        None => &[1.0, INCH],
        Some("mm") => &[1.0],
        Some("in" | "inch" | "\"" | "″") => &[INCH],
        Some(_) => &[],
    };
    let spellings = [bare, bare.trim_start_matches('.')];
    let numbers = spellings
        .iter()
        .filter_map(|text| text.trim_end_matches('.').parse::<f64>().ok());
    numbers
        .filter(|number| *number > 0.0)
        .flat_map(|number| units.iter().map(move |unit| number * unit))
        .collect()
}
