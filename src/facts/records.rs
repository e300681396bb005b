//! Facts that hold a record against itself: wrong units, wrong columns, slips of the pen.

use crate::library::{All, Field, Reckoned, standing};
use crate::mechanics::cutting;

use super::Scene;

/// Thicker in inches than any shank that a collet of this kind takes; read as millimetres it
/// is thinner than any.
const THINNEST_SHANK: f64 = 1.6;
/// Thicker than any shank that a holder takes, mm.
const THICKEST_SHANK: f64 = 80.0;
/// How near a converted value must come to a common size, mm.
const NEAR: f64 = 0.05;

fn is_common(sizes: &[f64], diameter: f64) -> bool {
    sizes.iter().any(|size| (size - diameter).abs() <= NEAR)
}

/// The shank is implausibly thin, and would be a common inch size if its number meant inches.
pub(super) fn looks_like_inches(scene: &Scene<'_>) -> Reckoned<bool> {
    let shank = scene.field(Field::ShankDiameter);
    shank.map(|shank| {
        let inch = &standing::SHANK_SIZES.table.inch;
        shank < THINNEST_SHANK && is_common(inch, shank * 25.4)
    })
}

/// The shank is implausibly thick, and would be a common metric size if its number, read as
/// inches, meant millimetres.
pub(super) fn looks_like_millimetres(scene: &Scene<'_>) -> Reckoned<bool> {
    let shank = scene.field(Field::ShankDiameter);
    shank.map(|shank| {
        let metric = &standing::SHANK_SIZES.table.metric;
        shank > THICKEST_SHANK && is_common(metric, shank / 25.4)
    })
}

/// Cutting speed that the spindle speed gives at the cutting diameter.
pub(super) fn cutting_speed_of_spindle(scene: &Scene<'_>) -> Reckoned<f64> {
    let both = (
        scene.field(Field::CuttingDiameter),
        scene.field(Field::SpindleSpeed),
    );
    both.all()
        .map(|(diameter, speed)| cutting::cutting_speed(diameter, speed))
}

/// The diameter that the description names, if it names one.
pub(super) fn described_diameter(scene: &Scene<'_>) -> Reckoned<f64> {
    let texts = [Field::CutterDescription, Field::AssemblyDescription];
    let found = texts.into_iter().find_map(|field| {
        let text = scene.view.word(field);
        let diameter = text.value.and_then(diameter_in)?;
        Some(text.map(|_| diameter))
    });
    found.unwrap_or(Reckoned::unknown(crate::library::Trace::default()))
}

/// The one diameter that a text marks as such: `Ø12`, `D12`, `dia 12`, `diameter 12 mm`. None
/// if it marks two, for one of them is another part's.
fn diameter_in(text: &str) -> Option<f64> {
    let text = text.to_lowercase();
    let words: Vec<&str> = text
        .split(|c: char| c.is_whitespace() || matches!(c, ',' | ';' | '(' | ')' | '/'))
        .filter(|word| !word.is_empty())
        .collect();
    let mut found = None;
    for (at, word) in words.iter().enumerate() {
        let marked = ["ø", "⌀", "diameter", "dia.", "dia", "d"]
            .into_iter()
            .find_map(|mark| word.strip_prefix(mark));
        let number = match marked {
            Some("") => words.get(at + 1).copied(),
            other => other,
        };
        let Some(diameter) = number.and_then(number_of) else {
            continue;
        };
        if found.is_some_and(|known: f64| (known - diameter).abs() > NEAR) {
            return None;
        }
        found = Some(diameter);
    }
    found
}

/// A plain number in millimetres; anything behind it but `mm` makes it none.
fn number_of(word: &str) -> Option<f64> {
    let word = word.trim_start_matches(['=', ':', '.']);
    let bare = word.strip_suffix("mm").unwrap_or(word);
    let number: f64 = bare.parse().ok()?;
    (bare.starts_with(|c: char| c.is_ascii_digit()) && number > 0.0).then_some(number)
}
