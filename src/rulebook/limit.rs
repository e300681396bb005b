//! Limits: named numbers with unit, basis and reason.

use serde::Deserialize;
use toml::Spanned;

use crate::text::Source;
use crate::units::{self, Decimal, Spelling, Unit};

use super::RuleError;
use super::toml_text::span;
use super::words::Basis;

/// Which way a limit becomes stricter.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
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
    /// Its name.
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
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct LimitFile {
    value: Spanned<toml::Value>,
    unit: Spanned<String>,
    basis: Basis,
    reason: String,
    #[serde(default)]
    source: String,
    stricter: Stricter,
}

impl LimitFile {
    pub(super) fn read(self, name: &str, source: &Source) -> Result<Limit, RuleError> {
        let unit = Unit::ALL
            .into_iter()
            .find(|unit| unit.symbol() == self.unit.get_ref());
        let Some(unit) = unit else {
            let all: Vec<&str> = Unit::ALL.iter().map(|unit| unit.symbol()).collect();
            let message = format!(
                "`{}` is no unit of the closed list: {}",
                self.unit.get_ref(),
                all.join(", ")
            );
            return Err(RuleError::at(source, span(&self.unit), message));
        };
        let (value, written) = number(&self.value, unit, source)?;
        Ok(Limit {
            name: name.to_owned(),
            value,
            written,
            unit,
            basis: self.basis,
            reason: self.reason,
            source: self.source,
            stricter: self.stricter,
        })
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
        Err(problem) => wrong(problem.explain(unit)),
    }
}

impl Limit {
    /// Whether another value would condemn less.
    #[must_use]
    pub fn is_loosened_by(&self, value: f64) -> bool {
        match self.stricter {
            Stricter::Higher => value < self.value,
            Stricter::Lower => value > self.value,
        }
    }
}
