//! A column as a shop file names it: by its property alone, or with how its cells are read.

use std::collections::BTreeMap;
use std::fmt;

use schemars::JsonSchema;
use serde::Deserialize;
use serde::de::value::MapAccessDeserializer;
use serde::de::{Deserializer, Error, MapAccess, Visitor};

use crate::text::Place;

/// What is known of properties where a shop file names them.
#[derive(Clone, Copy)]
pub struct PropertyNames<'n> {
    /// Whether a name is that of a property, or why not.
    pub known: &'n dyn Fn(&str) -> Result<(), String>,
    /// Whether words may stand for a value of a property, or why not.
    pub can_be: &'n dyn Fn(&str, &str) -> Result<(), String>,
    /// Whether a unit measures a property, or why not.
    pub measures: &'n dyn Fn(&str, &str) -> Result<(), String>,
    /// Whether a text is a value that all rows may have of a property, or why not.
    pub is_value: &'n dyn Fn(&str, &str) -> Result<(), String>,
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
    /// Its value in every row that states none, with its unit.
    constant: Option<String>,
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
    /// Its value in every row that states none.
    pub constant: Option<String>,
    /// Whether it is not read.
    pub ignored: bool,
    /// Where its header stands, in the library's own shop file.
    pub spot: Option<Place>,
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
        to.write_str("a property, or a table with property, unit, values, constant or ignored")
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
        let entry = match self {
            ColumnFile::Property(property) => {
                (names.known)(property)?;
                return Ok(ShopColumn {
                    header: header.to_owned(),
                    property: Some(property.clone()),
                    ..ShopColumn::default()
                });
            }
            ColumnFile::Entry(entry) => entry,
        };
        let says_more = entry.property.is_some()
            || entry.unit.is_some()
            || entry.constant.is_some()
            || !entry.values.is_empty();
        if entry.ignored && says_more {
            return Err("it is ignored, and says how it is read; leave one out".to_owned());
        }
        let meant = entry.property.as_deref().unwrap_or(header);
        if !entry.ignored {
            (names.known)(meant).map_err(|why| match &entry.property {
                Some(_) => why,
                None => format!("{why}; `property` may say which is meant"),
            })?;
        }
        if let Some(unit) = &entry.unit {
            (names.measures)(meant, unit)?;
        }
        for value in entry.values.values() {
            (names.can_be)(meant, value)?;
        }
        if let Some(constant) = &entry.constant {
            (names.is_value)(meant, constant)?;
        }
        Ok(ShopColumn {
            header: header.to_owned(),
            property: entry.property.clone(),
            unit: entry.unit.clone(),
            values: entry.values.clone().into_iter().collect(),
            constant: entry.constant.clone(),
            ignored: entry.ignored,
            spot: None,
        })
    }
}
