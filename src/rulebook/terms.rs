//! On what terms the plant lets findings be accepted: `[acceptance]` in its shop file.

use schemars::JsonSchema;
use serde::Deserialize;
use toml::Spanned;

use crate::text::Source;

use super::RuleError;
use super::toml_text::span;

/// On what terms findings may be accepted.
#[derive(Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "Acceptance")]
pub(super) struct AcceptanceFile {
    /// Whether every accepted finding needs a last day, whatever its rule.
    #[serde(default)]
    until_required: bool,
    /// How far off the last day may be, such as `180 d`. What is accepted for longer does not
    /// count.
    #[schemars(with = "Option<String>")]
    longest: Option<Spanned<toml::Value>>,
}

/// The terms of all shop files together: of two the stricter counts, as a library's own file must
/// not undo what the plant asks.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Terms {
    /// Whether every accepted finding needs a last day.
    pub until_required: bool,
    /// How many days off that day may be.
    pub longest: Option<i64>,
}

/// Longest time that makes sense, days: a century.
const MOST: i64 = 36_525;

impl AcceptanceFile {
    /// Adds its terms to those of files that count less.
    pub(super) fn add_to(&self, terms: &mut Terms, source: &Source) -> Result<(), RuleError> {
        terms.until_required |= self.until_required;
        if let Some(longest) = &self.longest {
            let days = days(longest.get_ref()).ok_or_else(|| {
                let message = "expected a number of days, such as \"180 d\"";
                RuleError::at(source, span(longest), message)
            })?;
            let before = terms.longest.unwrap_or(days);
            terms.longest = Some(days.min(before));
        }
        Ok(())
    }
}

fn days(value: &toml::Value) -> Option<i64> {
    let days = match value {
        toml::Value::Integer(days) => Some(*days),
        toml::Value::String(text) => {
            let number = text.trim().trim_end_matches(char::is_alphabetic);
            let unit = text.trim().strip_prefix(number)?;
            let known = ["", "d", "day", "days"].contains(&unit);
            number.trim().parse().ok().filter(|_| known)
        }
        _ => None,
    };
    days.filter(|days| (1..=MOST).contains(days))
}
