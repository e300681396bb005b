//! `[[accept]]` in a shop file: its keys, read or refused at their place.

use std::collections::BTreeMap;
use std::path::Path;

use schemars::JsonSchema;
use serde::Deserialize;
use toml::Spanned;

use crate::text::{Place, Source, SourceId};
use crate::units::{self, Decimal, Unit};

use super::RuleError;
use super::accept_entry::{Accept, NamedLibrary, Spots, Was};
use super::date::Date;
use super::limit;
use super::rule::Rulebook;
use super::schema::NumberOrText;
use super::shop_files::ShopFile;
use super::terms::Terms;
use super::toml_text::span;

/// Says what is wrong with a value of a property, if anything is.
pub type Stated<'a> = dyn Fn(&str, &str) -> Result<(), String> + 'a;

/// A finding that the shop accepts.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "Accept")]
pub(super) struct AcceptFile {
    /// The library that it counts for, as seen from the folder of this file; a file above its
    /// libraries must name it.
    #[schemars(with = "Option<String>")]
    library: Option<Spanned<String>>,
    /// The rule.
    #[schemars(with = "String")]
    rule: Spanned<String>,
    /// The tool.
    #[schemars(with = "String")]
    tool_number: Spanned<String>,
    /// The machine, if only the tool of one of them is meant.
    #[schemars(with = "Option<String>")]
    machine: Option<Spanned<String>>,
    /// The operation, if only one of them is meant.
    #[schemars(with = "Option<String>")]
    operation: Option<Spanned<String>>,
    /// Why.
    reason: String,
    /// Who.
    by: String,
    /// The last day, such as `2027-01-31`. It must be there for grip, holding and torque, and
    /// wherever a tool may come out.
    #[schemars(with = "Option<String>", extend("format" = "date"))]
    until: Option<Spanned<toml::value::Datetime>>,
    /// The value that was accepted, such as `21.0 mm`: a worse one counts again.
    #[schemars(with = "Option<NumberOrText>")]
    not_worse_than: Option<Spanned<toml::Value>>,
    /// What has that value, as the rule writes it, such as `gripped_length`: where another of its
    /// conditions is not met, the finding counts again.
    value_of: Option<String>,
    /// How much of what is needed, or permitted, that value was, such as `0.78`: a worse share
    /// counts again.
    #[schemars(with = "Option<NumberOrText>")]
    part_of_needed: Option<Spanned<toml::Value>>,
    /// Id of the cutter then; empty if there was none. The same goes for the other parts.
    cutter: Option<String>,
    /// Id of the collet then.
    collet: Option<String>,
    /// Id of the nut then.
    nut: Option<String>,
    /// Id of the holder then.
    holder: Option<String>,
    /// The tightening torque that the record stated, such as `80 N·m`; empty if it stated none.
    #[schemars(with = "Option<String>")]
    nut_torque: Option<Spanned<String>>,
    /// Properties of the operation and the values that they had, such as `reach = "35 mm"`.
    #[serde(default)]
    #[schemars(with = "BTreeMap<String, String>")]
    operation_values: BTreeMap<Spanned<String>, Spanned<String>>,
}

impl AcceptFile {
    /// Reads it, or refuses it at its place.
    pub(super) fn read(
        &self,
        (source, id): (&Source, SourceId),
        from: &ShopFile,
    ) -> Result<Accept, RuleError> {
        let own = |text: &Option<Spanned<String>>| text.as_ref().map(|text| text.get_ref().clone());
        let until = self.until.as_ref().map(|until| day(until, source));
        let ratio = self.part_of_needed.as_ref();
        let ratio = ratio.map(|ratio| limit::number(ratio, Unit::One, source));
        let values = self.operation_values.iter();
        Ok(Accept {
            library: self.library(source, from)?,
            rule: self.rule.get_ref().clone(),
            tool_number: self.tool_number.get_ref().clone(),
            machine: own(&self.machine),
            operation: own(&self.operation),
            reason: self.reason.clone(),
            by: self.by.clone(),
            until: until.transpose()?,
            was: Was {
                value: self.value(source)?,
                of: self.value_of.clone(),
                ratio: ratio.transpose()?.map(|(ratio, _)| ratio),
                parts: [&self.cutter, &self.collet, &self.nut, &self.holder].map(Clone::clone),
                nut_torque: own(&self.nut_torque),
                values: values
                    .map(|(name, value)| (name.get_ref().clone(), value.get_ref().clone()))
                    .collect(),
            },
            spots: self.spots(id),
        })
    }

    /// Where it says what.
    fn spots(&self, id: SourceId) -> Spots {
        fn at<T>(id: SourceId, value: &Spanned<T>) -> Place {
            Place {
                source: id,
                span: span(value),
            }
        }
        let (rule, tool) = (at(id, &self.rule), at(id, &self.tool_number));
        let or = |value: &Option<Spanned<String>>, otherwise| {
            value.as_ref().map_or(otherwise, |value| at(id, value))
        };
        Spots {
            rule,
            tool_number: tool,
            machine: or(&self.machine, tool),
            operation: or(&self.operation, tool),
            until: self.until.as_ref().map_or(rule, |until| at(id, until)),
            library: or(&self.library, rule),
        }
    }

    /// The library that it is of. A plant's file speaks for many, so that a tool number alone
    /// would reach further than whoever accepted it could see.
    fn library(&self, source: &Source, from: &ShopFile) -> Result<Option<NamedLibrary>, RuleError> {
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
        Ok(Some(NamedLibrary {
            written: named.get_ref().clone(),
            path: from.folder().join(path),
        }))
    }

    /// The value as written. What it measures is known only beside its finding, so that here it
    /// has to be a quantity of any kind.
    fn value(&self, source: &Source) -> Result<Option<String>, RuleError> {
        let Some(value) = &self.not_worse_than else {
            return Ok(None);
        };
        let text = value.get_ref().as_str().unwrap_or_default();
        let measures = |unit: &Unit| units::own_unit(text, *unit, Decimal::Point).is_some();
        let unit = Unit::ALL.into_iter().find(measures).unwrap_or(Unit::One);
        limit::number(value, unit, source).map(|(_, text)| Some(text))
    }

    /// Refuses what needs to know the rules, the plant's terms or the properties.
    pub(super) fn check(
        &self,
        source: &Source,
        book: &Rulebook,
        terms: &Terms,
        stated: &Stated<'_>,
    ) -> Result<(), RuleError> {
        let rule = book.rule(self.rule.get_ref());
        if self.until.is_none() {
            let why = if rule.is_some_and(super::Rule::needs_until) {
                "what is accepted of this rule has a last day"
            } else if terms.until_required {
                "whatever the plant accepts has a last day"
            } else {
                ""
            };
            if !why.is_empty() {
                let message = format!("{why}; add it, such as until = 2027-01-31");
                return Err(RuleError::at(source, span(&self.rule), message));
            }
        }
        let torque = self.nut_torque.iter().map(|torque| (NUT_TORQUE, torque));
        let values = self.operation_values.iter();
        let values = values.map(|(name, value)| (name.get_ref().as_str(), value));
        for (name, value) in torque.chain(values) {
            stated(name, value.get_ref()).map_err(|why| RuleError::at(source, span(value), why))?;
        }
        Ok(())
    }

    /// The rule, with its place.
    pub(super) const fn rule(&self) -> &Spanned<String> {
        &self.rule
    }
}

/// The property that `nut_torque` states.
const NUT_TORQUE: &str = "nut_torque";

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
