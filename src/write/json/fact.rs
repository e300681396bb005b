//! Facts, properties and limits with what they rest on.

use std::borrow::Cow;
use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::{Serialize, Serializer};

use crate::sheet::{Basis, FactShown, LimitShown};
use crate::units::Scalar;

use super::notation::{FieldName, Number, UnitName, fields, name};

/// The value of a fact or property.
#[derive(Serialize, JsonSchema)]
#[serde(untagged)]
#[schemars(inline)]
enum Known<'a> {
    Number(Number),
    Text(Cow<'a, str>),
    Truth(bool),
}

/// A fact or property.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "Fact")]
struct Shown<'a> {
    /// Its value; null if it is not known.
    value: Option<Known<'a>>,
    /// The unit of a number; null for words, and for yes or no.
    unit: Option<UnitName>,
    /// Whether it rests on something assumed.
    assumed: bool,
    /// The properties that it came from; one that several records have stands with its record.
    from: &'a [&'static str],
    /// Only where it is not known: the properties that are missing for it.
    #[serde(skip_serializing_if = "Option::is_none")]
    missing: Option<Vec<FieldName>>,
    /// Only where what nobody states makes it a range: the least and the greatest value.
    #[serde(skip_serializing_if = "Option::is_none")]
    range: Option<[Number; 2]>,
}

impl<'a> Shown<'a> {
    fn of(fact: &'a FactShown) -> Shown<'a> {
        let value = fact.value.as_ref().map(|value| match value {
            Scalar::Number(value) => Known::Number(Number(*value)),
            Scalar::Word(word) => Known::Text(word.word.into()),
            Scalar::Text(text) => Known::Text(name(text)),
            Scalar::Truth(truth) => Known::Truth(*truth),
        });
        let unknown = value.is_none();
        let range = fact.range.filter(|_| unknown);
        Shown {
            value,
            unit: fact.unit.map(UnitName::from),
            assumed: fact.assumed,
            from: &fact.from,
            missing: unknown.then(|| fields(&fact.missing)),
            range: range.map(|(low, high)| [Number(low), Number(high)]),
        }
    }
}

/// Facts and properties by name.
#[derive(JsonSchema)]
#[schemars(with = "BTreeMap<String, Shown<'_>>")]
pub(in crate::write) struct Facts<'a>(pub &'a [FactShown]);

impl Serialize for Facts<'_> {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_map(self.0.iter().map(|fact| (&fact.name, Shown::of(fact))))
    }
}

/// A limit that a finding rests on.
#[derive(Serialize, JsonSchema)]
struct Limit<'a> {
    /// How much, in `unit`.
    value: Number,
    /// The unit of the value.
    unit: UnitName,
    /// What it rests on.
    #[schemars(extend("enum" = Basis::ALL.map(Basis::name)))]
    basis: &'static str,
    /// Where it is printed; empty for common practice.
    source: &'a str,
}

impl<'a> Limit<'a> {
    fn of(limit: &'a LimitShown) -> Limit<'a> {
        Limit {
            value: Number(limit.value),
            unit: UnitName::from(limit.unit),
            basis: limit.basis,
            source: &limit.source,
        }
    }
}

/// Limits by name.
#[derive(JsonSchema)]
#[schemars(with = "BTreeMap<String, Limit<'_>>")]
pub(in crate::write) struct Limits<'a>(pub &'a [LimitShown]);

impl Serialize for Limits<'_> {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_map(self.0.iter().map(|limit| (&limit.name, Limit::of(limit))))
    }
}
