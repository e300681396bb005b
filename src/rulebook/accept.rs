//! What the shop accepts: `[[accept]]` in its file.

use std::path::{Path, PathBuf};

use schemars::JsonSchema;
use serde::Deserialize;
use toml::Spanned;

use crate::text::Source;

use super::RuleError;
use super::date::Date;
use super::shop_files::ShopFile;
use super::toml_text::span;

/// A finding that the shop accepts.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Accept {
    /// The library that it counts for, if it names one.
    pub library: Option<PathBuf>,
    /// The rule.
    pub rule: String,
    /// The tool.
    pub tool_number: String,
    /// The operation, if only one of them is meant.
    pub operation: Option<String>,
    /// Why.
    pub reason: String,
    /// Who.
    pub by: String,
    /// Last day on which it holds.
    pub until: Option<Date>,
}

/// A finding that the shop accepts.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "Accept")]
pub(super) struct AcceptFile {
    /// The library that it counts for; a file above its libraries must name it.
    #[schemars(with = "Option<String>")]
    library: Option<Spanned<String>>,
    /// The rule.
    #[schemars(with = "String")]
    rule: Spanned<String>,
    /// The tool.
    tool_number: String,
    /// The operation, if only one of them is meant.
    operation: Option<String>,
    /// Why.
    reason: String,
    /// Who.
    by: String,
    /// The last day, such as `2027-01-31`.
    #[schemars(with = "Option<String>", extend("format" = "date"))]
    until: Option<Spanned<toml::value::Datetime>>,
}

impl AcceptFile {
    /// The rule, with its place.
    pub(super) const fn rule(&self) -> &Spanned<String> {
        &self.rule
    }

    /// Reads it, or refuses it at its place.
    pub(super) fn read(&self, source: &Source, from: &ShopFile) -> Result<Accept, RuleError> {
        let until = self.until.as_ref().map(|until| day(until, source));
        Ok(Accept {
            library: self.library(source, from)?,
            rule: self.rule.get_ref().clone(),
            tool_number: self.tool_number.clone(),
            operation: self.operation.clone(),
            reason: self.reason.clone(),
            by: self.by.clone(),
            until: until.transpose()?,
        })
    }

    /// The library that it is of. A plant's file speaks for many, so that a tool number alone
    /// would reach further than whoever accepted it could see.
    fn library(&self, source: &Source, from: &ShopFile) -> Result<Option<PathBuf>, RuleError> {
        let Some(named) = &self.library else {
            if from.own {
                return Ok(None);
            }
            let message = "an accepted finding of a plant's file counts for one library; name it, as seen from the folder of this file, such as library = \"cell-3/tools.csv\"";
            return Err(RuleError::at(source, span(&self.rule), message));
        };
        let path = Path::new(named.get_ref());
        if named.get_ref().trim().is_empty() || path.is_absolute() {
            let message = "expected the library's path as seen from the folder of this file, such as \"cell-3/tools.csv\"";
            return Err(RuleError::at(source, span(named), message));
        }
        Ok(Some(from.folder().join(path)))
    }
}

fn day(until: &Spanned<toml::value::Datetime>, source: &Source) -> Result<Date, RuleError> {
    let date = until.get_ref().date.and_then(|date| {
        Some(Date {
            year: i16::try_from(date.year).ok()?,
            month: i8::try_from(date.month).ok()?,
            day: i8::try_from(date.day).ok()?,
        })
    });
    date.ok_or_else(|| RuleError::at(source, span(until), "expected a date such as 2027-01-31"))
}
