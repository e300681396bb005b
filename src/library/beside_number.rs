//! What people write into a cell beside its number: that they are not sure, a tolerance class; and
//! numbers that are dates, or that no spindle has.

use super::property::{Property, ValueType};
use crate::units::Unit;

/// Below this no spindle turns to cut, 1/min; common practice, no source. So `9.500` is 9500.
const SLOWEST: f64 = 20.0;

pub(super) fn is_no_speed(property: &Property, reading: &str) -> bool {
    let is_speed = matches!(property.value, ValueType::Quantity(Unit::PerMin));
    is_speed
        && reading
            .parse::<f64>()
            .is_ok_and(|reading| reading < SLOWEST)
}

/// A diameter without the tolerance class of ISO 286 directly behind it: `12h6`, `10H7`.
pub(super) fn without_class(text: &str) -> &str {
    let text = text.trim_end();
    let grade = text.trim_end_matches(|c: char| c.is_ascii_digit());
    let number = grade.trim_end_matches(|c: char| c.is_ascii_alphabetic());
    let (Some(letters), Some(digits)) = (grade.get(number.len()..), text.get(grade.len()..)) else {
        return text;
    };
    let is_class = matches!(
        letters.to_ascii_lowercase().as_str(),
        "d" | "e" | "f" | "g" | "h" | "j" | "js" | "k" | "m" | "n" | "p"
    );
    let is_grade = digits
        .parse::<u8>()
        .is_ok_and(|grade| (3..=14).contains(&grade));
    let behind_number = number.ends_with(|c: char| c.is_ascii_digit());
    if is_class && is_grade && behind_number {
        number
    } else {
        text
    }
}

/// Whether a number says of itself that nobody is sure of it: `ca. 42`, `~42`.
pub(super) fn says_unsure(text: &str) -> bool {
    let text = text.trim_start();
    let letters = text.find(|c: char| !c.is_alphabetic());
    let (word, _) = text.split_at(letters.unwrap_or(text.len()));
    let words = ["ca", "circa", "approx", "approximately", "about", "etwa"];
    text.starts_with(['~', '≈']) || words.iter().any(|one| one.eq_ignore_ascii_case(word))
}

/// Whether a text is a day and a month, as spreadsheets show dates: `4-Jan`, `06. Aug`.
pub(super) fn is_date(text: &str) -> bool {
    const MONTHS: [&str; 16] = [
        "jan", "feb", "mar", "mrz", "apr", "may", "mai", "jun", "jul", "aug", "sep", "oct", "okt",
        "nov", "dec", "dez",
    ];
    let mut words = text
        .split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty());
    let (Some(day), Some(month), None) = (words.next(), words.next(), words.next()) else {
        return false;
    };
    let is_day = day.parse::<u8>().is_ok_and(|day| (1..=31).contains(&day));
    is_day && MONTHS.iter().any(|known| known.eq_ignore_ascii_case(month))
}
