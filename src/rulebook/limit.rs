//! Limits: named numbers with unit, basis and reason.

use schemars::JsonSchema;
use serde::Deserialize;
use toml::Spanned;

use crate::text::Source;
use crate::units::{self, Asked, Decimal, Spelling, Unit};

use super::RuleError;
use super::schema::NumberOrText;
use super::toml_text::span;
use super::words::Basis;

/// Which way a limit becomes stricter.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Stricter {
    /// A higher value condemns more.
    Higher,
    /// A lower value condemns more.
    Lower,
}

/// A named number that rules or facts compare with.
#[derive(Clone, Debug, PartialEq)]
pub struct Limit {
    /// As expressions and shop files name it: `min_grip_fraction`.
    pub name: String,
    /// Its value, in `unit`.
    pub value: f64,
    /// The value as written.
    pub written: String,
    /// Its canonical unit.
    pub unit: Unit,
    /// What it rests on.
    pub basis: Basis,
    /// Why this value.
    pub reason: String,
    /// Where it is printed; empty for common practice.
    pub source: String,
    /// Which way it becomes stricter.
    pub stricter: Stricter,
    /// The values that make sense for it, in `unit`.
    pub range: Sensible,
}

/// The range in which a limit makes sense, ends included. A value outside it is a slip of the
/// pen or of the unit, or would make its rule say nothing at all.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sensible {
    /// The minimum and how it is written; none if the file states none.
    pub min: Option<(f64, String)>,
    /// The maximum and how it is written; none if the file states none.
    pub max: Option<(f64, String)>,
}

impl Sensible {
    /// Whether a value lies in it.
    #[must_use]
    pub fn takes(&self, value: f64) -> bool {
        let above = self.min.as_ref().is_none_or(|(min, _)| value >= *min);
        let below = self.max.as_ref().is_none_or(|(max, _)| value <= *max);
        above && below
    }

    /// Refuses a value outside it, at its place.
    pub(super) fn check(
        &self,
        value: f64,
        name: &str,
        unit: Unit,
        at: &Spanned<toml::Value>,
        source: &Source,
    ) -> Result<(), RuleError> {
        if self.takes(value) {
            return Ok(());
        }
        let range = self.words(unit);
        let message = format!("`{name}` must be {range}; state a value in this range");
        Err(RuleError::at(source, span(at), message))
    }

    /// The range for people, `from 1/2 to 1`, `up to 0.05 mm`; empty if none is stated.
    #[must_use]
    pub fn words(&self, unit: Unit) -> String {
        let end = |end: &Option<(f64, String)>| {
            let written = end.as_ref().map(|(_, written)| written);
            written.map(|written| with_unit(written, unit))
        };
        match (end(&self.min), end(&self.max)) {
            (None, None) => String::new(),
            (Some(min), None) => format!("from {min}"),
            (None, Some(max)) => format!("up to {max}"),
            (Some(min), Some(max)) => format!("from {min} to {max}"),
        }
    }
}

/// A limit's value with its unit, unless it is written with one.
pub(super) fn with_unit(written: &str, unit: Unit) -> String {
    let bare = written.ends_with(|c: char| c.is_ascii_digit());
    match unit {
        Unit::One => written.to_owned(),
        unit if bare => format!("{written} {}", unit.symbol()),
        _ => written.to_owned(),
    }
}

#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "Limit")]
/// A named number that rules compare with.
pub(super) struct LimitFile {
    /// Its value.
    #[schemars(with = "NumberOrText")]
    value: Spanned<toml::Value>,
    /// The unit of a number without unit; `1` for a ratio or a count.
    #[schemars(with = "String", extend("enum" = Unit::ALL.map(Unit::symbol)))]
    unit: Spanned<String>,
    /// What it rests on.
    basis: Basis,
    /// Why this value.
    reason: String,
    /// Where it is printed; empty for common practice.
    #[serde(default)]
    source: String,
    /// Which way it becomes stricter.
    stricter: Stricter,
    /// The least value that makes sense.
    #[schemars(with = "Option<NumberOrText>")]
    min: Option<Spanned<toml::Value>>,
    /// The greatest value that makes sense.
    #[schemars(with = "Option<NumberOrText>")]
    max: Option<Spanned<toml::Value>>,
}

impl LimitFile {
    pub(super) fn read(self, name: &str, source: &Source) -> Result<Limit, RuleError> {
        let unit = Unit::ALL
            .into_iter()
            .find(|unit| unit.symbol() == self.unit.get_ref());
        let Some(unit) = unit else {
            let all: Vec<&str> = Unit::ALL.iter().map(|unit| unit.symbol()).collect();
            let message = format!(
                "`{}` is not one of the units: {}",
                self.unit.get_ref(),
                all.join(", ")
            );
            return Err(RuleError::at(source, span(&self.unit), message));
        };
        let (value, written) = number(&self.value, unit, source)?;
        let end = |end: &Option<Spanned<toml::Value>>| {
            let end = end.as_ref();
            end.map(|end| number(end, unit, source)).transpose()
        };
        let limit = Limit {
            name: name.to_owned(),
            value,
            written,
            unit,
            basis: self.basis,
            reason: self.reason,
            source: self.source,
            stricter: self.stricter,
            range: Sensible {
                min: end(&self.min)?,
                max: end(&self.max)?,
            },
        };
        // A range turned round takes no value, so that it is refused here too.
        limit.refuse_outside(value, &self.value, source)?;
        Ok(limit)
    }
}

/// A limit's number: a TOML number, or a text with a fraction or a unit, such as `"2/3"` or
/// `"0.5 mm"`. Returns it in `unit`, and as written.
pub(super) fn number(
    value: &Spanned<toml::Value>,
    unit: Unit,
    source: &Source,
) -> Result<(f64, String), RuleError> {
    let wrong = |message: String| Err(RuleError::at(source, span(value), message));
    let written = match value.get_ref() {
        toml::Value::Integer(number) => number.to_string(),
        toml::Value::Float(number) => number.to_string(),
        toml::Value::String(text) => text.clone(),
        _ => return wrong("expected a number, or a text such as \"2/3\" or \"0.5 mm\"".to_owned()),
    };
    let default = Spelling::find(unit.symbol(), unit);
    match units::read(&written, unit, default, Decimal::Point) {
        Ok(number) => Ok((number, written)),
        Err(problem) => wrong(problem.explain(unit, Asked::InCell)),
    }
}

impl Limit {
    /// Refuses a value in which the limit makes no sense, at its place.
    pub(super) fn refuse_outside(
        &self,
        value: f64,
        at: &Spanned<toml::Value>,
        source: &Source,
    ) -> Result<(), RuleError> {
        self.range.check(value, &self.name, self.unit, at, source)
    }

    /// Whether another value would condemn less.
    #[must_use]
    pub fn is_loosened_by(&self, value: f64) -> bool {
        match self.stricter {
            Stricter::Higher => value < self.value,
            Stricter::Lower => value > self.value,
        }
    }
}
