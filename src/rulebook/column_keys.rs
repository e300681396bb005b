//! A column as a shop file names it: by its property alone, or with how its cells are read.

use std::collections::BTreeMap;
use std::fmt;

use schemars::JsonSchema;
use serde::Deserialize;
use serde::de::value::MapAccessDeserializer;
use serde::de::{Deserializer, Error, MapAccess, Visitor};

use crate::units::Spelling;

/// What is known of properties where a shop file names them.
#[derive(Clone, Copy)]
pub struct PropertyNames<'n> {
    /// Whether a name is that of a property.
    pub is_property: &'n dyn Fn(&str) -> bool,
    /// Whether a property may have a value, or why not.
    pub can_be: &'n dyn Fn(&str, &str) -> Result<(), String>,
}

/// The property that a header means, or that and more.
#[derive(Debug, JsonSchema)]
#[schemars(untagged, rename = "Column")]
pub(super) enum ColumnFile {
    /// The property, such as `stick_out`.
    Property(String),
    /// How its column is read.
    Entry(ColumnEntry),
}

/// How a column is read.
#[derive(Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "ColumnEntry")]
pub(super) struct ColumnEntry {
    /// The property that it means; without it the header names one itself.
    property: Option<String>,
    /// The unit of its bare numbers.
    unit: Option<String>,
    /// What its cells say, and what that means.
    #[serde(default)]
    values: BTreeMap<String, String>,
    /// Whether it is not read.
    #[serde(default)]
    ignored: bool,
}

/// A column of the shop's own, as a shop file has it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ShopColumn {
    /// Its header.
    pub header: String,
    /// The property that it means, if it is said.
    pub property: Option<String>,
    /// The unit of its bare numbers, if it is said.
    pub unit: Option<String>,
    /// What its cells say, and what that means.
    pub values: Vec<(String, String)>,
    /// Whether it is not read.
    pub ignored: bool,
}

impl<'de> Deserialize<'de> for ColumnFile {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<ColumnFile, D::Error> {
        from.deserialize_any(OfColumn)
    }
}

/// Tells a name from a table: where both are tried one after the other, the places of mistakes get
/// lost.
struct OfColumn;

impl<'de> Visitor<'de> for OfColumn {
    type Value = ColumnFile;

    fn expecting(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        to.write_str("a property, or a table with property, unit, values or ignored")
    }

    fn visit_str<E: Error>(self, property: &str) -> Result<ColumnFile, E> {
        Ok(ColumnFile::Property(property.to_owned()))
    }

    fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<ColumnFile, A::Error> {
        ColumnEntry::deserialize(MapAccessDeserializer::new(map)).map(ColumnFile::Entry)
    }
}

impl ColumnFile {
    /// The column of a header; or what is wrong with it.
    pub(super) fn of(&self, header: &str, names: PropertyNames<'_>) -> Result<ShopColumn, String> {
        let is_property = names.is_property;
        let no_property =
            |name: &str| format!("`{name}` is not a property; `shankwise columns` lists them");
        let entry = match self {
            ColumnFile::Property(property) if !is_property(property) => {
                return Err(no_property(property));
            }
            ColumnFile::Property(property) => {
                return Ok(ShopColumn {
                    header: header.to_owned(),
                    property: Some(property.clone()),
                    ..ShopColumn::default()
                });
            }
            ColumnFile::Entry(entry) => entry,
        };
        let says_more =
            entry.property.is_some() || entry.unit.is_some() || !entry.values.is_empty();
        if entry.ignored && says_more {
            return Err("it is ignored, and says how it is read; leave one out".to_owned());
        }
        let meant = entry.property.as_deref().unwrap_or(header);
        if !entry.ignored && !is_property(meant) {
            return Err(match &entry.property {
                Some(property) => no_property(property),
                None => format!(
                    "`{header}` is not a property, and `property` does not say which is meant"
                ),
            });
        }
        if let Some(unit) = &entry.unit
            && Spelling::find_any(unit).is_none()
        {
            return Err(format!("the unit `{unit}` is not known"));
        }
        for value in entry.values.values() {
            (names.can_be)(meant, value)?;
        }
        Ok(ShopColumn {
            header: header.to_owned(),
            property: entry.property.clone(),
            unit: entry.unit.clone(),
            values: entry.values.clone().into_iter().collect(),
            ignored: entry.ignored,
        })
    }
}
