//! A quantity as a decimal number and a unit, in which it reads the same to the last bit.

use std::borrow::Cow;

use super::book::BookCell;
use crate::units::{Decimal, Spelling, Unit, own_unit, read};

/// Decimals of a number that was a fraction: those of a 64th of an inch, and more.
const DECIMALS: usize = 9;

/// The number as it was written, where it is a decimal; else in its own unit, if that is exact;
/// else in the canonical unit.
pub(super) fn decimal<'c>(
    cell: &'c BookCell<'_>,
    number: f64,
    wanted: Unit,
) -> (Cow<'c, str>, Option<&'static str>) {
    let text: &str = cell.text.as_ref();
    let beside = cell.unit.and_then(|unit| Spelling::find(unit, wanted));
    let unit = beside.or_else(|| own_unit(text, wanted, Decimal::Point));
    let same = |text: &str, unit: &Spelling| {
        let found = read(text, wanted, Some(unit), Decimal::Point);
        is_decimal(text) && found.is_ok_and(|found| found.to_bits() == number.to_bits())
    };
    if let Some(unit) = unit {
        let bare = text.trim_end_matches(|c: char| !c.is_ascii_digit());
        if let Some(bare) = [text, bare].into_iter().find(|bare| same(bare, unit)) {
            return (Cow::Borrowed(bare), Some(unit.name));
        }
        let said = format!("{:.DECIMALS$}", number / unit.factor());
        let said = said.trim_end_matches('0').trim_end_matches('.');
        if same(said, unit) {
            return (Cow::Owned(said.to_owned()), Some(unit.name));
        }
    }
    let canonical = Spelling::find(wanted.symbol(), wanted);
    let said = number.to_string();
    match canonical.filter(|unit| same(&said, unit)) {
        Some(unit) => (Cow::Owned(said), Some(unit.name)),
        // More digits than any dimension has.
        None => (Cow::Borrowed(text), cell.unit),
    }
}

/// Whether a text is a decimal number as schemas know it.
fn is_decimal(text: &str) -> bool {
    let digits = text.strip_prefix(['-', '+']).unwrap_or(text);
    let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
    let all = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
    all(whole) && all(part) && !(whole.is_empty() && part.is_empty())
}
