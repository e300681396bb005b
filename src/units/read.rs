//! Reading a quantity from a cell: a number with or without its unit.

use super::number::{self, Decimal, NumberFault};
use super::{Spelling, Unit};
use crate::text::{closest, quoted, visible};

/// Why a cell is no quantity of the wanted kind.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Problem {
    /// The number itself is broken.
    Number(NumberFault),
    /// The unit is not known; the second text is the nearest known one.
    UnitUnknown(String, Option<&'static str>),
    /// The unit is known, but measures something else.
    UnitWrong(&'static str),
    /// The number has no unit, and the library has no default for it.
    UnitMissing,
    /// A whole number was expected.
    NotWhole,
}

/// Where a value stands that a person is to mend.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Asked {
    /// In a cell of a library.
    #[default]
    InCell,
    /// In an option of a question.
    InOption,
}

impl Asked {
    /// The one of two wordings that fits.
    #[must_use]
    pub const fn either(self, of_cell: &'static str, of_option: &'static str) -> &'static str {
        match self {
            Asked::InCell => of_cell,
            Asked::InOption => of_option,
        }
    }

    /// What is wrong with a stand-in such as `tbd`.
    #[must_use]
    pub const fn stand_in(self) -> &'static str {
        self.either(
            "a stand-in; leave the cell empty if nothing is known",
            "a stand-in; leave the option out if nothing is known",
        )
    }
}

impl Problem {
    /// One sentence for the person who mends the value: what is wrong and what was expected.
    #[must_use]
    pub fn explain(&self, wanted: Unit, asked: Asked) -> String {
        let fault = match self {
            Problem::UnitUnknown(unit, None) => {
                let unit = quoted(unit);
                let unit = visible(&unit);
                return format!(
                    "the unit `{unit}` is not known; expected {}",
                    accepted(wanted)
                );
            }
            Problem::UnitUnknown(unit, Some(near)) => {
                let unit = quoted(unit);
                let unit = visible(&unit);
                return format!("the unit `{unit}` is not known; did you mean `{near}`?");
            }
            Problem::UnitWrong(unit) => {
                return format!(
                    "`{unit}` does not measure this; expected {}",
                    accepted(wanted)
                );
            }
            Problem::UnitMissing => {
                let here = asked.either("this library", "this question");
                return format!(
                    "a number without its unit, and {here} has no default for it; expected {}",
                    accepted(wanted)
                );
            }
            Problem::NotWhole => return "expected a whole number".to_owned(),
            Problem::Number(fault) => fault,
        };
        let words = match fault {
            NumberFault::None => "expected a number",
            NumberFault::Placeholder => asked.stand_in(),
            NumberFault::Prefix => "expected the number alone, without signs or words before it",
            NumberFault::DecimalComma => asked.either(
                "a comma in a number; this file has decimal points and no thousands mark: write 12.5, or 1250",
                "a comma in a number; a question has decimal points and no thousands mark: write 12.5, or 1250",
            ),
            NumberFault::TwoMarks => "more than one decimal mark; expected a number such as 12.5",
            NumberFault::TwoNumbers => asked.either(
                "two numbers in one cell; expected one, its digits not grouped",
                "two numbers; expected one, its digits not grouped",
            ),
            NumberFault::Range => "a range; expected the one value as built",
            NumberFault::ZeroDenominator => "a fraction over zero",
            NumberFault::TooLarge => {
                "more digits than any dimension has; expected a number such as 12.5"
            }
        };
        words.to_owned()
    }
}

fn accepted(wanted: Unit) -> String {
    let names: Vec<&str> = Spelling::names(wanted).collect();
    match names.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} or {last}", rest.join(", ")),
        Some((last, _)) => (*last).to_owned(),
        None => "no unit".to_owned(),
    }
}

/// Reads a quantity, in the canonical unit `wanted`. `default` applies to a bare number.
pub fn read(
    text: &str,
    wanted: Unit,
    default: Option<&Spelling>,
    decimal: Decimal,
) -> Result<f64, Problem> {
    let text = text.trim();
    if let Some((number, _)) = default.and_then(|unit| read_plain(text, unit, decimal)) {
        return Ok(number);
    }
    let (exact, unit) = number::leading(text, decimal).map_err(Problem::Number)?;
    let spelling = if unit.is_empty() {
        default.ok_or(Problem::UnitMissing)?
    } else {
        Spelling::named(unit, wanted)?
    };
    Ok(exact.times(spelling.numerator, spelling.denominator))
}

/// Reads a plain number, `12` or `-12.5`, in a unit, and says whether it has a decimal mark;
/// `None` for anything else, which [`read`] reads.
#[must_use]
pub fn read_plain(text: &str, unit: &Spelling, decimal: Decimal) -> Option<(f64, bool)> {
    number::plain(text, decimal, (unit.numerator, unit.denominator))
}

/// The unit that stands in a cell behind its number, if it is one that measures `wanted`.
#[must_use]
pub fn own_unit(text: &str, wanted: Unit, decimal: Decimal) -> Option<&'static Spelling> {
    let (_, unit) = number::leading(text.trim(), decimal).ok()?;
    Spelling::find(unit, wanted)
}

impl Spelling {
    /// The unit of this name that measures the same as `wanted`, or what is wrong with it.
    pub fn named(unit: &str, wanted: Unit) -> Result<&'static Spelling, Problem> {
        if let Some(spelling) = Spelling::find(unit, wanted) {
            return Ok(spelling);
        }
        if let Some(other) = Spelling::find_any(unit) {
            return Err(Problem::UnitWrong(other.name));
        }
        let near = closest(unit, Spelling::names(wanted));
        Err(Problem::UnitUnknown(quoted(unit).into_owned(), near))
    }
}

/// Reads a whole number without unit.
pub fn read_count(text: &str, decimal: Decimal) -> Result<f64, Problem> {
    let text = text.trim();
    let value = match number::plain(text, decimal, (1, 1)) {
        Some((value, _)) => value,
        None => {
            let (exact, unit) = number::leading(text, decimal).map_err(Problem::Number)?;
            if !unit.is_empty() {
                return Err(Spelling::named(unit, Unit::One)
                    .err()
                    .unwrap_or(Problem::NotWhole));
            }
            exact.times(1, 1)
        }
    };
    if value.fract() == 0.0 {
        Ok(value)
    } else {
        Err(Problem::NotWhole)
    }
}

/// Splits a header such as `overall length [mm]` or `OAL (in)` into name and unit text.
#[must_use]
pub fn split_unit(header: &str) -> (&str, Option<&str>) {
    let trimmed = header.trim();
    for (open, close) in [('[', ']'), ('(', ')')] {
        if let Some(inner) = trimmed.strip_suffix(close)
            && let Some((name, unit)) = inner.rsplit_once(open)
        {
            return (name.trim(), Some(unit.trim()));
        }
    }
    (trimmed, None)
}
