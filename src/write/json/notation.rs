//! How values stand in a line of JSON: numbers with nine digits, texts safe and short.
//!
//! Everything is written straight from typed data: a tree of values would take longer to build than
//! the line takes to write.

use std::borrow::Cow;
use std::io::{self, Write};

use schemars::JsonSchema;
use serde::{Serialize, Serializer};
use serde_json::ser::{CharEscape, CompactFormatter, Formatter};

use crate::text::cut;
use crate::units::Unit;

/// Digits of a number in JSON.
const SIGNIFICANT: usize = 9;
/// Longest name or cell from input, in characters: each stands in many findings.
const LONGEST_NAME: usize = 200;
/// Longest text of any other kind, in characters.
const LONGEST_TEXT: usize = 2000;
/// Whole numbers below this have no more digits than are written.
const WHOLE: f64 = 1e9;

/// A number with nine significant digits; never NaN.
#[derive(Clone, Copy, JsonSchema)]
#[schemars(transparent)]
pub(crate) struct Number(pub f64);

impl Serialize for Number {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        let rounded = rounded(self.0);
        if rounded.is_finite() {
            to.serialize_f64(rounded)
        } else {
            to.serialize_none()
        }
    }
}

/// The nearest number with nine digits.
fn rounded(value: f64) -> f64 {
    if value.fract() == 0.0 && value.abs() < WHOLE {
        return value;
    }
    let digits = format!("{value:.*e}", SIGNIFICANT - 1);
    digits.parse().unwrap_or(value)
}

/// A canonical unit. Every number is in one of these, whatever the units of its library.
#[derive(Clone, Copy, Serialize, JsonSchema)]
#[serde(transparent)]
#[schemars(rename = "Unit", extend("enum" = Unit::ALL.map(Unit::symbol)))]
pub(super) struct UnitName(&'static str);

impl From<Unit> for UnitName {
    fn from(unit: Unit) -> UnitName {
        UnitName(unit.symbol())
    }
}

/// A rule's id: its topic and its name.
#[derive(Clone, Copy, Serialize, JsonSchema)]
#[serde(transparent)]
#[schemars(rename = "RuleId", extend("pattern" = "^[a-z0-9-]+/[a-z0-9-]+$"))]
pub(super) struct RuleId<'a>(pub &'a str);

/// A property with its record: `cutter.shank_length`.
#[derive(Clone, Copy, Serialize, JsonSchema)]
#[serde(transparent)]
#[schemars(rename = "Field", extend("pattern" = "^[a-z]+\\.[a-z][a-z_]*$"))]
pub(in crate::write) struct FieldName(pub &'static str);

/// Properties with their record.
pub(in crate::write) fn fields(names: &[&'static str]) -> Vec<FieldName> {
    names.iter().copied().map(FieldName).collect()
}

/// A text of any other kind, as long as it may be.
pub(in crate::write) fn text(text: &str) -> Cow<'_, str> {
    cut(text, LONGEST_TEXT)
}

/// A name or a cell from input.
pub(in crate::write) fn name(text: &str) -> Cow<'_, str> {
    cut(text, LONGEST_NAME)
}

/// The value in one line.
pub(super) fn piece(value: &impl Serialize) -> String {
    let mut line = Vec::new();
    add(value, &mut line);
    // It is UTF-8: every piece of it is written as text.
    String::from_utf8(line).unwrap_or_default()
}

/// Adds a value to a line.
pub(in crate::write) fn add(value: &impl Serialize, line: &mut Vec<u8>) {
    // Writing to memory cannot fail, and every key is a text.
    let _ = put(value, line);
}

/// Writes a value.
pub(super) fn put(value: &impl Serialize, to: &mut impl Write) -> io::Result<()> {
    put_up_to(value, LONGEST_TEXT, to)
}

/// Writes a value of which no text is longer than this: a file's address is of no use in part.
pub(in crate::write) fn put_up_to(
    value: &impl Serialize,
    longest: usize,
    to: &mut impl Write,
) -> io::Result<()> {
    let mut writer = serde_json::Serializer::with_formatter(to, Safe::up_to(longest));
    value.serialize(&mut writer).map_err(io::Error::from)
}

/// Writes texts so that no terminal acts on them, and none longer than any message: characters
/// that turn the direction of writing, and the like, are escaped as control characters are.
struct Safe {
    /// Characters of the text that were written.
    written: usize,
    /// Most of them.
    longest: usize,
}

impl Safe {
    const fn up_to(longest: usize) -> Safe {
        Safe {
            written: 0,
            longest,
        }
    }

    /// Whether a text goes on; where it is cut it says so.
    fn goes_on<W: ?Sized + Write>(&mut self, to: &mut W) -> io::Result<bool> {
        self.written += 1;
        if self.written == self.longest + 1 {
            to.write_all("…".as_bytes())?;
        }
        Ok(self.written <= self.longest)
    }
}

impl Formatter for Safe {
    /// With nine digits, whoever wrote it.
    fn write_f64<W: ?Sized + Write>(&mut self, to: &mut W, value: f64) -> io::Result<()> {
        CompactFormatter.write_f64(to, rounded(value))
    }

    fn begin_string<W: ?Sized + Write>(&mut self, to: &mut W) -> io::Result<()> {
        self.written = 0;
        to.write_all(b"\"")
    }

    fn write_string_fragment<W: ?Sized + Write>(
        &mut self,
        to: &mut W,
        fragment: &str,
    ) -> io::Result<()> {
        let plain = fragment.is_ascii() && !fragment.contains('\u{7f}');
        if plain && self.written + fragment.len() <= self.longest {
            self.written += fragment.len();
            return to.write_all(fragment.as_bytes());
        }
        for c in fragment.chars() {
            if !self.goes_on(to)? {
                return Ok(());
            }
            if acts_on_terminal(c) {
                write!(to, "\\u{:04x}", u32::from(c))?;
            } else {
                to.write_all(c.encode_utf8(&mut [0; 4]).as_bytes())?;
            }
        }
        Ok(())
    }

    fn write_char_escape<W: ?Sized + Write>(
        &mut self,
        to: &mut W,
        escape: CharEscape,
    ) -> io::Result<()> {
        if self.goes_on(to)? {
            CompactFormatter.write_char_escape(to, escape)?;
        }
        Ok(())
    }
}

/// Characters beside the control characters of ASCII, which JSON escapes by itself.
fn acts_on_terminal(c: char) -> bool {
    matches!(c, '\u{61c}' | '\u{7f}'..='\u{9f}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}')
}
