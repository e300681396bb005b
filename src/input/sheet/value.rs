//! What a stored value is as text: numbers as a spreadsheet shows them at full length, dates in
//! the order of ISO 8601, percentages with their sign.

use jiff::civil::{Date, date};
use jiff::{Span, ToSpan as _};

use crate::text::Odd;

/// How a number is shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Shown {
    #[default]
    Number,
    Percent,
    Date,
    Time,
}

/// Digits behind the first of a number as spreadsheets show it: fifteen in all, so that the sum of
/// 0.1 and 0.2 is 0.3.
const DIGITS: usize = 14;
/// Outside of these powers of ten a number is written with an exponent.
const PLAIN: std::ops::Range<f64> = 1e-9..1e15;
/// Hours, minutes and seconds of a day.
const SECONDS: f64 = 86_400.0;
/// The last day that a spreadsheet knows, 9999-12-31.
const LAST_DAY: f64 = 2_958_465.0;

/// A number as text, with a point.
pub(super) fn number(value: f64) -> String {
    let rounded: f64 = format!("{value:.DIGITS$e}").parse().unwrap_or(value);
    if rounded == 0.0 || PLAIN.contains(&rounded.abs()) {
        // No zero has a sign.
        format!("{}", rounded + 0.0)
    } else {
        format!("{rounded:e}")
    }
}

/// A number as it is shown, and what is odd about it. Days count from 1900, or from 1904.
pub(super) fn shown(value: f64, shown: Shown, since_1904: bool) -> (String, Option<Odd>) {
    match shown {
        Shown::Number => (number(value), None),
        Shown::Percent => (format!("{} %", number(value * 100.0)), None),
        Shown::Date => {
            let text = day(value, since_1904).unwrap_or_else(|| number(value));
            (text, Some(Odd::Date))
        }
        Shown::Time => (time(value), Some(Odd::Date)),
    }
}

/// The day of a number, with the time of day if it has one; none if no calendar has that day.
fn day(value: f64, since_1904: bool) -> Option<String> {
    if !(0.0..=LAST_DAY).contains(&value) {
        return None;
    }
    // Spreadsheets that count from 1900 take that year for a leap year.
    let first: Date = match (since_1904, value < 60.0) {
        (true, _) => date(1904, 1, 1),
        (false, true) => date(1899, 12, 31),
        (false, false) => date(1899, 12, 30),
    };
    #[expect(clippy::cast_possible_truncation, reason = "a day of a calendar")]
    let days: Span = (value.trunc() as i64).days();
    let day = first.checked_add(days).ok()?;
    Some(if value.fract() == 0.0 {
        day.to_string()
    } else {
        format!("{day} {}", time(value.fract()))
    })
}

/// A part of a day as hours, minutes and seconds.
fn time(value: f64) -> String {
    if !(0.0..LAST_DAY).contains(&value) {
        return number(value);
    }
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "not negative, and at most the seconds of some thousand years"
    )]
    let seconds = (value * SECONDS).round() as u64;
    let (minutes, seconds) = (seconds / 60, seconds % 60);
    format!("{:02}:{:02}:{seconds:02}", minutes / 60, minutes % 60)
}

/// How a number format shows numbers.
pub(super) fn of_format(code: &str) -> Shown {
    let first = bare(code);
    let has = |letters: &[char]| first.contains(letters);
    if first.trim().eq_ignore_ascii_case("general") {
        Shown::Number
    } else if has(&['y', 'Y', 'd', 'D']) || (has(&['m', 'M']) && !has(&['h', 'H', 's', 'S'])) {
        Shown::Date
    } else if has(&['h', 'H', 's', 'S']) {
        Shown::Time
    } else if has(&['%']) {
        Shown::Percent
    } else {
        Shown::Number
    }
}

/// The part of a format for positive numbers, without what it shows as it stands and without
/// colours, conditions and currencies. A bracket of hours, minutes or seconds remains.
fn bare(code: &str) -> String {
    let mut bare = String::new();
    let mut characters = code.chars();
    while let Some(character) = characters.next() {
        match character {
            ';' => break,
            '"' => drop(characters.by_ref().find(|next| *next == '"')),
            '\\' | '_' | '*' => drop(characters.next()),
            '[' => {
                let inner: String = characters
                    .by_ref()
                    .take_while(|next| *next != ']')
                    .collect();
                let elapsed = |c: char| matches!(c, 'h' | 'H' | 'm' | 'M' | 's' | 'S');
                if !inner.is_empty() && inner.chars().all(elapsed) {
                    // Of elapsed minutes alone too it is a time.
                    bare.push('h');
                }
            }
            other => bare.push(other),
        }
    }
    bare
}

/// How the formats that a workbook does not write out show numbers.
///
/// # Source
/// ECMA-376 part 1, 18.8.30 (numFmt).
pub(super) fn of_number(id: u32) -> Shown {
    match id {
        9 | 10 => Shown::Percent,
        14..=17 | 22 | 27..=31 | 34..=36 | 50..=58 => Shown::Date,
        18..=21 | 32 | 33 | 45..=47 => Shown::Time,
        _ => Shown::Number,
    }
}

/// What is odd about a text.
pub(super) fn of_text(text: &str) -> Option<Odd> {
    let text = text.trim().trim_start_matches(['-', '+']);
    let (whole, part) = text.split_once('.')?;
    let end = part
        .find(|c: char| !c.is_ascii_digit())
        .unwrap_or(part.len());
    let is_whole = (1..=3).contains(&whole.len()) && whole.bytes().all(|b| b.is_ascii_digit());
    (is_whole && end == 3).then_some(Odd::TextNumber)
}
