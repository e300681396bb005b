//! Diameters of cutters by the names of the trade: number and letter drills, and the threads that a
//! tap is called by.

use crate::units::{self, Decimal, Spelling, Unit};

use super::standard_sizes::DRILLS;
use super::thread::Thread;

/// An inch, mm.
const INCH: f64 = 25.4;
/// Threads on an inch that a screw may have: the coarsest and the finest of ASME B1.1, from memory.
const THREADS: std::ops::RangeInclusive<u32> = 4..=80;

/// The diameter that a name stands for, mm; `None` for what is no such name.
///
/// # Source
/// Drills: the table `drill-sizes.toml`. Screws: ASME B1.1, number n is 0.060 + 0.013 n in; metric
/// threads are called by their nominal diameter, ISO 261.
pub(super) fn diameter(text: &str, decimal: Decimal) -> Option<f64> {
    let text = text.trim();
    numbered(text)
        .or_else(|| letter(text))
        .or_else(|| Thread::read(text).map(|thread| thread.diameter))
        .or_else(|| inch_thread(text, decimal))
        .or_else(|| screw(text))
}

/// Numbered screws and their threads on an inch, coarse and fine: without a `#` only these are told
/// from two numbers.
///
/// # Source
/// ASME B1.1, from memory.
const SCREWS: [(u32, &[u32]); 12] = [
    (0, &[80]),
    (1, &[64, 72]),
    (2, &[56, 64]),
    (3, &[48, 56]),
    (4, &[40, 48]),
    (5, &[40, 44]),
    (6, &[32, 40]),
    (8, &[32, 36]),
    (10, &[24, 32]),
    (12, &[24, 28, 32]),
    (14, &[20, 24]),
    (16, &[18, 20]),
];

/// `10-32`, `8-32 UNC`: a screw by its number, if there is such a one.
fn screw(text: &str) -> Option<f64> {
    let (number, threads) = text.split_once('-')?;
    let number: u32 = number.parse().ok()?;
    let end = threads.find(|c: char| !c.is_ascii_digit());
    let (digits, _) = threads.split_at(end.unwrap_or(threads.len()));
    let pitch: u32 = digits.parse().ok()?;
    let mut known = SCREWS.iter();
    let is_known = known.any(|(own, pitches)| *own == number && pitches.contains(&pitch));
    (is_known && are_threads(threads)).then(|| (0.060 + 0.013 * f64::from(number)) * INCH)
}

/// A diameter and a corner radius in one cell, as texts: `8 R4`, `12 / R1`, `8xR0.5`, each perhaps
/// with its unit.
pub(super) fn with_radius(text: &str) -> Option<(&str, &str)> {
    let (diameter, radius) = text.split_once(['R', 'r'])?;
    let diameter = diameter.trim_end();
    let diameter = diameter
        .strip_suffix(['x', 'X', '×', '/'])
        .unwrap_or(diameter);
    let (diameter, radius) = (diameter.trim(), radius.trim());
    let is_number =
        |text: &str| text.starts_with(|c: char| c.is_ascii_digit() || matches!(c, '.' | ','));
    let bare = diameter.trim_start_matches(['Ø', 'ø', '⌀', ' ']);
    (is_number(bare) && is_number(radius)).then_some((diameter, radius))
}

/// Two numbers with a cross between, as texts: `21x9`.
pub(super) fn crossed(text: &str) -> Option<(&str, &str)> {
    let (first, second) = text.split_once(['x', 'X', '×'])?;
    let (first, second) = (first.trim(), second.trim());
    let is_number = |text: &str| {
        let mut bytes = text.bytes();
        !text.is_empty() && bytes.all(|byte| byte.is_ascii_digit() || matches!(byte, b'.' | b','))
    };
    (is_number(first) && is_number(second)).then_some((first, second))
}

/// `#7`, `No. 7`, and `#10-32`, which is a screw.
fn numbered(text: &str) -> Option<f64> {
    let behind = text.strip_prefix('#').or_else(|| {
        let (word, behind) = text.split_at_checked(2)?;
        let behind = behind.strip_prefix('.').unwrap_or(behind);
        word.eq_ignore_ascii_case("no").then_some(behind)
    })?;
    let behind = behind.trim_start();
    if let Some((number, threads)) = behind.split_once('-') {
        let number: u32 = number.trim_end().parse().ok()?;
        let is_screw = number <= 14 && are_threads(threads);
        return is_screw.then(|| (0.060 + 0.013 * f64::from(number)) * INCH);
    }
    let number: usize = behind.parse().ok()?;
    let sizes = &DRILLS.table.numbers;
    sizes.get(number.checked_sub(1)?).map(|size| size * INCH)
}

/// `F`, as a capital; an `X` is more often a tick.
fn letter(text: &str) -> Option<f64> {
    let [letter] = text.as_bytes() else {
        return None;
    };
    if *letter == b'X' {
        return None;
    }
    let at = letter.checked_sub(b'A')?;
    let sizes = &DRILLS.table.letters;
    sizes.get(usize::from(at)).map(|size| size * INCH)
}

/// `1/4-20`, `1 1/8-7 UNC`.
fn inch_thread(text: &str, decimal: Decimal) -> Option<f64> {
    let (size, threads) = text.rsplit_once('-')?;
    let is_fraction = size.contains('/') && are_threads(threads);
    let inch = Spelling::find("in", Unit::Mm).filter(|_| is_fraction)?;
    units::read(size, Unit::Mm, Some(inch), decimal).ok()
}

/// Threads on an inch, and perhaps the series.
fn are_threads(text: &str) -> bool {
    let text = text.trim();
    let end = text.find(|c: char| !c.is_ascii_digit());
    let (number, series) = text.split_at(end.unwrap_or(text.len()));
    let known = ["", "UN", "UNC", "UNF", "UNEF", "UNS"];
    let is_known = known
        .iter()
        .any(|one| one.eq_ignore_ascii_case(series.trim()));
    let number: Option<u32> = number.parse().ok();
    is_known && number.is_some_and(|number| THREADS.contains(&number))
}
