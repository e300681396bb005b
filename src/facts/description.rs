//! What a description says of the cutting diameter.

use crate::library::{Field, Reckoned, Trace};

use super::Scene;

/// Readings nearer than this, mm, are one diameter named twice.
const NEAR: f64 = 0.05;
/// Millimetres of an inch.
const INCH: f64 = 25.4;

/// The diameter that the description names, if it names one.
///
/// A description has no column and no unit of its own, and its writer may have worked in
/// another than the library's. Of what its number may mean, the reading nearest to the cutting
/// diameter counts: what can be read as agreeing is no disagreement.
pub(super) fn described_diameter(scene: &Scene<'_>) -> Reckoned<f64> {
    let cut = scene.field(Field::CuttingDiameter).value;
    let nearest = |readings: Vec<f64>| {
        let off = |reading: &f64| cut.map_or(0.0, |cut| (reading - cut).abs());
        readings
            .into_iter()
            .min_by(|a, b| off(a).total_cmp(&off(b)))
    };
    let texts = [Field::CutterDescription, Field::AssemblyDescription];
    let found = texts.into_iter().find_map(|field| {
        let text = scene.view.word(field);
        let diameter = text.value.and_then(readings_in).and_then(nearest)?;
        Some(text.map(|_| diameter))
    });
    found.unwrap_or(Reckoned::unknown(Trace::default()))
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
    for (at, word) in words.iter().enumerate() {
        let marked = ["ø", "⌀", "diameter", "dia", "d"]
            .into_iter()
            .find_map(|mark| word.strip_prefix(mark));
        let number = match marked {
            Some("" | "." | "=" | ":") => words.get(at + 1).copied(),
            other => other,
        };
        let readings = number.map_or_else(Vec::new, readings_of);
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

/// What a word may mean in millimetres; nothing unless it is a plain number, with `mm` or an
/// inch mark behind it at most. The point before a number may be a decimal mark, `D.500`, or
/// belong to the abbreviation, `D.12`.
fn readings_of(word: &str) -> Vec<f64> {
    let word = word.trim_start_matches(['=', ':']);
    let metric = word.strip_suffix("mm");
    let inch = word.strip_suffix("in").or(word.strip_suffix(['"', '″']));
    let bare = metric.or(inch).unwrap_or(word);
    let units: &[f64] = match (metric, inch) {
        (Some(_), _) => &[1.0],
        (None, Some(_)) => &[INCH],
        (None, None) => &[1.0, INCH],
    };
    let spellings = [bare, bare.trim_start_matches('.')];
    let plain = |text: &&str| text.starts_with(|c: char| c.is_ascii_digit() || c == '.');
    let numbers = spellings.iter().filter(|text| plain(text));
    let numbers = numbers.filter_map(|text| text.parse::<f64>().ok());
    numbers
        .filter(|number| *number > 0.0)
        .flat_map(|number| units.iter().map(move |unit| number * unit))
        .collect()
}
