//! Numbers as people write them, read exactly: `12.5`, `12,5`, `1e3`, `3/8`, `1 1/2`, `1½`, `12'000`.

use std::borrow::Cow;

/// The decimal mark of a source. A comma is one only where it does not separate cells.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Decimal {
    /// Only a point.
    Point,
    /// A comma or a point, one of them.
    CommaOrPoint,
}

/// An exact fraction, numerator over denominator.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Exact {
    negative: bool,
    numerator: u128,
    denominator: u128,
}

/// What is wrong with a number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NumberFault {
    /// No number at the start of the text.
    None,
    /// A stand-in for "nothing": `-`, `n/a`, `?`, `tbd`.
    Placeholder,
    /// Characters before the number: `~12`, `Ø12`, `>12`.
    Prefix,
    /// A decimal comma where only a point is one.
    DecimalComma,
    /// Two decimal marks, or a comma and a point.
    TwoMarks,
    /// Two numbers, or digits grouped by blanks.
    TwoNumbers,
    /// A range such as `12-14`.
    Range,
    /// A fraction over zero.
    ZeroDenominator,
    /// More digits or a larger exponent than any dimension has.
    TooLarge,
}

/// Up to 2^53 whole numbers are exact in an `f64`, and IEEE 754 division rounds correctly.
const WHOLE: u64 = 1 << 53;

/// Ten to this power is below 2^64.
const PLAIN_DIGITS: usize = 18;

/// More digits than this no length has; the limit keeps all products inside `u128`.
const MOST_DIGITS: usize = 17;

impl Exact {
    /// The fraction times another exact fraction, rounded once to the nearest `f64`, so that
    /// 0.3 in is 7.62 mm to the last bit. Only beyond 20 decimals is it rounded twice.
    #[must_use]
    #[expect(
        clippy::cast_precision_loss,
        reason = "what does not fit u128 has more digits than an f64 anyway"
    )]
    pub fn times(self, numerator: u64, denominator: u64) -> f64 {
        // Cancel crosswise first: so the products stay below 2^120.
        let (a, d) = cancel(self.numerator, u128::from(denominator));
        let (n, b) = cancel(u128::from(numerator), self.denominator);
        let size = match (a.checked_mul(n), b.checked_mul(d)) {
            (Some(top), Some(bottom)) => quotient(top, bottom),
            _ => (a as f64 * n as f64) / (b as f64 * d as f64),
        };
        if self.negative { -size } else { size }
    }
}

/// The `f64` nearest to a quotient of whole numbers; the divisor is not zero.
#[expect(
    clippy::cast_precision_loss,
    reason = "the only rounding is the one that is wanted"
)]
fn quotient(top: u128, bottom: u128) -> f64 {
    const EXACT: u128 = WHOLE as u128;
    if top <= EXACT && bottom <= EXACT {
        return top as f64 / bottom as f64;
    }
    let (mut whole, mut rest) = (top / bottom, top % bottom);
    let mut halvings = 0;
    // Long division in binary until there are more bits than an f64 keeps.
    while whole < EXACT << 2 && rest > 0 {
        // Twice the rest may not fit, so it is compared with what the rest lacks.
        let lacks = bottom - rest;
        let bit = rest >= lacks;
        rest = if bit { rest - lacks } else { rest + rest };
        whole = 2 * whole + u128::from(bit);
        halvings += 1;
    }
    // What is left only decides which side of a tie it is: it may stand in the last bit.
    (whole | u128::from(rest > 0)) as f64 * 2f64.powi(-halvings)
}

fn cancel(a: u128, b: u128) -> (u128, u128) {
    let (mut x, mut y) = (a, b);
    while y != 0 {
        (x, y) = (y, x % y);
    }
    let divided = |part: u128| part.checked_div(x).unwrap_or(part);
    (divided(a), divided(b))
}

/// A plain number, `12`, `-12.5` or `12,5`, times a fraction, and whether it has a decimal mark:
/// most cells hold one. `None` for anything else, and where one division of whole numbers would
/// not round as [`Exact::times`].
#[expect(
    clippy::cast_precision_loss,
    reason = "both are whole numbers that an f64 holds"
)]
pub(super) fn plain(
    text: &str,
    decimal: Decimal,
    (top, bottom): (u64, u64),
) -> Option<(f64, bool)> {
    let (negative, digits) = match text.strip_prefix('-') {
        Some(digits) => (true, digits),
        None => (false, text),
    };
    // So many digits fit into 64 bits; what is longer is read the long way.
    if digits.len() > PLAIN_DIGITS {
        return None;
    }
    let (mut number, mut divisor) = (0u64, bottom);
    let (mut marked, mut read) = (false, false);
    for byte in digits.bytes() {
        match byte {
            b'0'..=b'9' => {
                number = number * 10 + u64::from(byte - b'0');
                if marked {
                    divisor = divisor.checked_mul(10)?;
                }
                read = true;
            }
            b'.' if !marked => marked = true,
            b',' if !marked && decimal == Decimal::CommaOrPoint => marked = true,
            _ => return None,
        }
    }
    let number = number.checked_mul(top)?;
    if !read || number > WHOLE || divisor > WHOLE {
        return None;
    }
    let size = number as f64 / divisor as f64;
    Some((if negative { -size } else { size }, marked))
}

/// Reads the number at the start of `text` (trimmed) and returns it with the rest, trimmed.
pub(super) fn leading(text: &str, decimal: Decimal) -> Result<(Exact, &str), NumberFault> {
    let (negative, body) = sign(text);
    let (mut exact, mut rest) = match decimal_number(body, decimal) {
        Err(NumberFault::None) => return Err(no_number(text)),
        other => other?,
    };
    if let Some((over, after)) = over(rest) {
        exact = fraction(exact, over)?;
        rest = after;
    } else if let Some((part, after)) = mixed(rest)? {
        exact = sum(exact, part)?;
        rest = after;
    }
    exact.negative = negative;
    let unit = rest.trim();
    let number = body.strip_suffix(rest).unwrap_or(body);
    match wrong_rest(number, unit, rest) {
        Some(fault) => Err(fault),
        None => Ok((exact, unit)),
    }
}

fn sign(text: &str) -> (bool, &str) {
    if let Some(body) = text.strip_prefix(['-', '−']) {
        (true, body.trim_start())
    } else {
        (false, text.strip_prefix('+').unwrap_or(text))
    }
}

/// Digits with at most one mark and an exponent, without sign.
fn decimal_number(text: &str, decimal: Decimal) -> Result<(Exact, &str), NumberFault> {
    if let Some((fraction, rest)) = vulgar(text) {
        return Ok((fraction, rest));
    }
    let (whole, mut rest) = match grouped(text, decimal) {
        Some((whole, rest)) => (Cow::Owned(whole), rest),
        None => {
            let (whole, rest) = digits(text);
            (Cow::Borrowed(whole), rest)
        }
    };
    let mut part = "";
    if let Some(after) = after_mark(rest, decimal) {
        (part, rest) = digits(after);
    }
    if whole.is_empty() && part.is_empty() {
        return Err(NumberFault::None);
    }
    let part = part.trim_end_matches('0');
    let all = format!("{whole}{part}");
    let significant = all.trim_start_matches('0');
    if significant.len() > MOST_DIGITS || part.len() > 2 * MOST_DIGITS {
        return Err(NumberFault::TooLarge);
    }
    let numerator: u128 = if significant.is_empty() {
        0
    } else {
        significant.parse().map_err(|_| NumberFault::TooLarge)?
    };
    let mut exponent = -i32::try_from(part.len()).map_err(|_| NumberFault::TooLarge)?;
    if let Some((power, after)) = power(rest)? {
        exponent = exponent.saturating_add(power);
        rest = after;
    }
    Ok((scaled(numerator, exponent)?, rest))
}

/// Digits in groups of three: behind an apostrophe or a blank that does not break, which separate
/// nothing else; behind a comma or a point only where the other mark follows, as in `1,234.5`.
fn grouped(text: &str, decimal: Decimal) -> Option<(String, &str)> {
    let (first, mut rest) = digits(text);
    let separator = rest.chars().next()?;
    let mark = match separator {
        '\'' | '’' | '\u{a0}' | '\u{202f}' | '\u{2009}' => None,
        ',' => Some('.'),
        '.' if decimal == Decimal::CommaOrPoint => Some(','),
        _ => return None,
    };
    if !(1..=3).contains(&first.len()) || first.starts_with('0') {
        return None;
    }
    let mut whole = first.to_owned();
    while let Some(behind) = rest.strip_prefix(separator) {
        let (group, after) = digits(behind);
        if group.len() != 3 {
            break;
        }
        whole.push_str(group);
        rest = after;
    }
    let ended = match mark {
        None => true,
        Some(mark) => {
            let part = rest.strip_prefix(mark);
            part.is_some_and(|part| part.starts_with(|c: char| c.is_ascii_digit()))
        }
    };
    (whole.len() > first.len() && ended).then_some((whole, rest))
}

/// `½` and its like, each one character.
fn vulgar(text: &str) -> Option<(Exact, &str)> {
    let mut characters = text.chars();
    let (numerator, denominator) = match characters.next()? {
        '½' => (1, 2),
        '¼' => (1, 4),
        '¾' => (3, 4),
        '⅛' => (1, 8),
        '⅜' => (3, 8),
        '⅝' => (5, 8),
        '⅞' => (7, 8),
        _ => return None,
    };
    let fraction = Exact {
        negative: false,
        numerator,
        denominator,
    };
    Some((fraction, characters.as_str()))
}

fn after_mark(text: &str, decimal: Decimal) -> Option<&str> {
    let comma = match decimal {
        Decimal::Point => None,
        Decimal::CommaOrPoint => text.strip_prefix(','),
    };
    text.strip_prefix('.').or(comma)
}

fn digits(text: &str) -> (&str, &str) {
    let end = text
        .bytes()
        .position(|byte| !byte.is_ascii_digit())
        .unwrap_or(text.len());
    text.split_at(end)
}

/// An exponent: `e3`, `E-2`.
fn power(text: &str) -> Result<Option<(i32, &str)>, NumberFault> {
    let Some(after) = text.strip_prefix(['e', 'E']) else {
        return Ok(None);
    };
    let (negative, body) = sign(after);
    let (number, rest) = digits(body);
    if number.is_empty() {
        return Ok(None);
    }
    let power: i32 = number.parse().map_err(|_| NumberFault::TooLarge)?;
    Ok(Some((if negative { -power } else { power }, rest)))
}

fn scaled(numerator: u128, exponent: i32) -> Result<Exact, NumberFault> {
    let ten = 10u128
        .checked_pow(exponent.unsigned_abs())
        .ok_or(NumberFault::TooLarge)?;
    let (top, bottom) = if exponent < 0 {
        (numerator, ten)
    } else {
        let top = numerator.checked_mul(ten).ok_or(NumberFault::TooLarge)?;
        (top, 1)
    };
    let (numerator, denominator) = cancel(top, bottom);
    Ok(Exact {
        negative: false,
        numerator,
        denominator,
    })
}

/// `/8` directly behind a whole number.
fn over(text: &str) -> Option<(&str, &str)> {
    let (number, rest) = digits(text.trim_start().strip_prefix('/')?.trim_start());
    (!number.is_empty()).then_some((number, rest))
}

/// ` 1/2`, `-1/2` or `½` behind a whole number.
fn mixed(text: &str) -> Result<Option<(Exact, &str)>, NumberFault> {
    if let Some(found) = vulgar(text.trim_start()) {
        return Ok(Some(found));
    }
    let Some(after) = text.strip_prefix([' ', '-', '\u{a0}']) else {
        return Ok(None);
    };
    let (top, rest) = digits(after.trim_start());
    match over(rest) {
        Some((bottom, rest)) if !top.is_empty() => {
            let (top, _) = decimal_number(top, Decimal::Point)?;
            Ok(Some((fraction(top, bottom)?, rest)))
        }
        _ => Ok(None),
    }
}

fn fraction(top: Exact, bottom: &str) -> Result<Exact, NumberFault> {
    if top.denominator != 1 {
        return Err(NumberFault::TwoMarks);
    }
    let (bottom, _) = decimal_number(bottom, Decimal::Point)?;
    if bottom.numerator == 0 {
        return Err(NumberFault::ZeroDenominator);
    }
    let (numerator, denominator) = cancel(top.numerator, bottom.numerator);
    Ok(Exact {
        negative: false,
        numerator,
        denominator,
    })
}

fn sum(whole: Exact, part: Exact) -> Result<Exact, NumberFault> {
    if whole.denominator != 1 {
        return Err(NumberFault::TwoNumbers);
    }
    let shifted = whole.numerator.checked_mul(part.denominator);
    let numerator = shifted
        .and_then(|shifted| shifted.checked_add(part.numerator))
        .ok_or(NumberFault::TooLarge)?;
    Ok(Exact {
        negative: false,
        numerator,
        denominator: part.denominator,
    })
}

/// Whether people write this where they know nothing: `-`, `n/a`, `?`, `tbd`.
#[must_use]
pub fn is_stand_in(text: &str) -> bool {
    const STAND_INS: [&str; 12] = [
        "-", "--", "–", "—", "?", "n/a", "na", "n.a.", "tbd", "none", "null", "unknown",
    ];
    let mut all = STAND_INS.iter();
    all.any(|stand_in| stand_in.eq_ignore_ascii_case(text))
}

fn no_number(text: &str) -> NumberFault {
    // An `x` is no number, but may be an id, or a tick in a yes-or-no column.
    if is_stand_in(text) || text.eq_ignore_ascii_case("x") {
        NumberFault::Placeholder
    } else if text.bytes().any(|byte| byte.is_ascii_digit()) {
        NumberFault::Prefix
    } else {
        NumberFault::None
    }
}

/// What follows a number must be a unit; these beginnings are none. `1/min` and `/min` are.
fn wrong_rest(number: &str, unit: &str, raw: &str) -> Option<NumberFault> {
    let mut chars = unit.chars();
    let first = chars.next()?;
    let mut behind = chars.as_str().trim_start().chars();
    match (first, behind.next()) {
        (',', _) if raw.starts_with(',') && !number.contains(['.', ',']) && !unit.contains('.') => {
            Some(NumberFault::DecimalComma)
        }
        ('.' | ',', _) => Some(NumberFault::TwoMarks),
        ('-' | '–' | '−', Some(next)) if next.is_ascii_digit() => Some(NumberFault::Range),
        ('1', Some('/')) if !raw.starts_with('1') => None,
        ('/', Some(next)) if next.is_alphabetic() => None,
        (first, _) if first.is_ascii_digit() || first == '/' => Some(NumberFault::TwoNumbers),
        _ => None,
    }
}
