//! What a shop file holds: its keys, as the TOML has them and as its schema describes them.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::Deserialize;
use toml::Spanned;

use super::accept_keys::AcceptFile;
use super::column_keys::ColumnFile;
use super::defaults::DefaultFile;
use super::material::MaterialFile;
use super::schema::NumberOrText;
use super::terms::AcceptanceFile;

/// How a shop, or a plant, works: `shankwise.toml`.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "Shop", title = "A shop file of Shankwise, shankwise.toml")]
pub(super) struct File {
    /// What the shop calls the library.
    pub name: Option<String>,
    /// The sheet with a row for each tool, where the library is a workbook of several.
    pub sheet: Option<String>,
    /// Folders of its own rules, from the folder of this file.
    #[serde(default)]
    #[schemars(with = "Vec<String>")]
    pub rules: Vec<Spanned<String>>,
    /// The units of numbers that state none.
    #[serde(default)]
    pub units: UnitsFile,
    /// Other values for shared limits.
    #[serde(default)]
    #[schemars(with = "BTreeMap<String, NumberOrText>")]
    pub limit: BTreeMap<Spanned<String>, Spanned<toml::Value>>,
    /// Other levels and limits for rules, by their id.
    #[serde(default)]
    #[schemars(with = "BTreeMap<String, RuleChange>")]
    pub rule: BTreeMap<Spanned<String>, RuleChange>,
    /// Headers of its own, and the properties that they mean.
    #[serde(default)]
    #[schemars(with = "BTreeMap<String, ColumnFile>")]
    pub columns: BTreeMap<Spanned<String>, Spanned<ColumnFile>>,
    /// What a table may hold besides records.
    #[serde(default)]
    pub recognise: RecogniseFile,
    /// Findings that the shop accepts.
    #[serde(default)]
    pub accept: Vec<AcceptFile>,
    /// On what terms they may be accepted.
    #[serde(default)]
    pub acceptance: AcceptanceFile,
    /// Its own workpiece materials.
    #[serde(default)]
    pub material: Vec<MaterialFile>,
    /// What it takes for granted where no record states it.
    #[serde(default, rename = "default")]
    pub defaults: DefaultFile,
}

/// What a table may hold besides records; each is recognised unless it is set to false.
#[derive(Clone, Copy, Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "Recognise")]
pub struct RecogniseFile {
    /// Lines above the header.
    pub title_lines: Option<bool>,
    /// A line of units below it.
    pub units_line: Option<bool>,
    /// The header once more.
    pub repeated_headers: Option<bool>,
    /// A line that only names the group below it.
    pub headings: Option<bool>,
    /// A line of totals.
    pub totals: Option<bool>,
}

/// The units of numbers that state none.
#[derive(Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "Units")]
pub(super) struct UnitsFile {
    /// The unit of lengths.
    #[schemars(with = "Option<String>", extend("examples" = LENGTHS))]
    pub length: Option<Spanned<String>>,
    /// The unit of torques.
    #[schemars(with = "Option<String>", extend("examples" = TORQUES))]
    pub torque: Option<Spanned<String>>,
}

/// The units that a bare length may have.
pub(super) const LENGTHS: [&str; 2] = ["mm", "in"];
/// The units that a bare torque may have.
pub(super) const TORQUES: [&str; 3] = ["N·m", "lbf·ft", "lbf·in"];

/// What the shop changes in a rule.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct RuleChange {
    /// Another level, or `off`.
    #[schemars(with = "Option<ShopLevel>")]
    pub level: Option<Spanned<ShopLevel>>,
    /// Why.
    #[serde(default)]
    pub reason: String,
    /// Other values for the rule's own limits.
    #[serde(default)]
    #[schemars(with = "BTreeMap<String, NumberOrText>")]
    pub limit: BTreeMap<Spanned<String>, Spanned<toml::Value>>,
}

/// A level, or none at all.
#[derive(Clone, Copy, Debug, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub(super) enum ShopLevel {
    Error,
    Warning,
    Note,
    Off,
}
