//! Tokens of the expression language, each with its bytes.

use crate::text::Span;
use crate::units::Unit;

/// A token.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Token<'a> {
    /// A number and the unit behind it.
    Number(f64, Option<Unit>),
    /// A text in single or double quotes.
    Text(&'a str),
    /// A name, with dots.
    Name(&'a str),
    /// An operator or bracket.
    Sign(&'static str),
    /// The end.
    End,
}

const SIGNS: [&str; 19] = [
    "==", "!=", "<=", ">=", "&&", "||", "<", ">", "+", "-", "*", "/", "!", "?", ":", "(", ")", ",",
    "[",
];

/// Splits an expression into tokens; the last is [`Token::End`].
pub(super) fn tokens(text: &str) -> Result<Vec<(Token<'_>, Span)>, (Span, String)> {
    let mut tokens = Vec::new();
    let mut at = 0;
    loop {
        let rest = text.get(at..).unwrap_or("");
        let blank = rest.len() - rest.trim_start().len();
        at += blank;
        let rest = text.get(at..).unwrap_or("");
        let Some(first) = rest.chars().next() else {
            tokens.push((Token::End, Span::new(at, at)));
            return Ok(tokens);
        };
        let (token, length) = if first.is_ascii_digit() {
            number(rest)
        } else if first.is_alphabetic() || first == '_' {
            let end = rest.find(|c: char| !is_name(c)).unwrap_or(rest.len());
            let name = rest.get(..end).unwrap_or("").trim_end_matches('.');
            Some((Token::Name(name), name.len()))
        } else if first == '\'' || first == '"' {
            quoted(rest, first)
        } else {
            sign(rest)
        }
        .ok_or_else(|| unexpected(at, first))?;
        tokens.push((token, Span::new(at, at + length)));
        at += length;
    }
}

fn unexpected(at: usize, first: char) -> (Span, String) {
    let message = match first {
        '\'' | '"' => "this text is never closed".to_owned(),
        '=' => "unexpected `=`; to compare write `==`".to_owned(),
        '&' | '|' => format!("unexpected `{first}`; write it twice"),
        '0'..='9' => "this number is too large".to_owned(),
        other => format!("unexpected `{}`", crate::text::visible(&other.to_string())),
    };
    (Span::new(at, at + first.len_utf8()), message)
}

fn is_name(c: char) -> bool {
    c.is_alphanumeric() || c == '_' || c == '.'
}

fn sign(rest: &str) -> Option<(Token<'_>, usize)> {
    let known = SIGNS.into_iter().chain(["]"]);
    let sign = known.into_iter().find(|sign| rest.starts_with(sign))?;
    Some((Token::Sign(sign), sign.len()))
}

fn quoted(rest: &str, quote: char) -> Option<(Token<'_>, usize)> {
    let inner = rest.get(1..)?;
    let end = inner.find(quote)?;
    Some((Token::Text(inner.get(..end)?), end + 2))
}

/// A number, and behind it a canonical unit; `None` if no float can hold it.
fn number(rest: &str) -> Option<(Token<'_>, usize)> {
    let mut end = digits(rest);
    if let Some(part) = rest.get(end..).and_then(|rest| rest.strip_prefix('.')) {
        let places = digits(part);
        if places > 0 {
            end += 1 + places;
        }
    }
    let value: f64 = rest.get(..end)?.parse().ok()?;
    if !value.is_finite() {
        return None;
    }
    let behind = rest.get(end..)?;
    let blank = behind.len() - behind.trim_start().len();
    match unit(behind.trim_start()) {
        Some((unit, length)) => Some((Token::Number(value, Some(unit)), end + blank + length)),
        None => Some((Token::Number(value, None), end)),
    }
}

fn digits(text: &str) -> usize {
    let end = text.bytes().position(|byte| !byte.is_ascii_digit());
    end.unwrap_or(text.len())
}

/// The longest canonical unit at the start of a text that no name goes on from. `1` is none:
/// a plain number needs no unit.
fn unit(text: &str) -> Option<(Unit, usize)> {
    let fits = |unit: &Unit| {
        let rest = text.strip_prefix(unit.symbol());
        rest.is_some_and(|rest| !rest.starts_with(|c: char| is_name(c) || c == '·'))
    };
    let units = Unit::ALL.into_iter().filter(|unit| *unit != Unit::One);
    let longest = units.filter(fits).max_by_key(|unit| unit.symbol().len())?;
    Some((longest, longest.symbol().len()))
}
