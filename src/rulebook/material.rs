//! A shop's own workpiece materials: `[[material]]` in its file.

use schemars::{JsonSchema, Schema};
use serde::Deserialize;
use serde_json::{Value, json};
use toml::Spanned;

use crate::text::Source;
use crate::units::Unit;

use super::RuleError;
use super::limit::{self, Sensible};
use super::schema::NumberOrText;
use super::toml_text::span;

/// A workpiece material that a shop states.
#[derive(Clone, Debug, PartialEq)]
pub struct ShopMaterial {
    /// The name by which operations call it.
    pub name: String,
    /// Main group of ISO 513; empty if none is stated.
    pub group: String,
    /// Specific cutting force k_c1.1, MPa.
    pub kc11: f64,
    /// Its exponent m_c.
    pub mc: f64,
    /// Where the two come from.
    pub source: String,
}

/// A workpiece material of the shop's own.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "Material", transform = also_kc1_1)]
pub(super) struct MaterialFile {
    /// The name by which operations call it.
    #[schemars(with = "String")]
    name: Spanned<String>,
    /// Its main group of ISO 513.
    #[schemars(with = "Option<String>", extend("enum" = GROUPS))]
    group: Option<Spanned<String>>,
    /// The specific cutting force kc1.1, MPa.
    #[serde(alias = "kc1.1")]
    #[schemars(with = "NumberOrText")]
    kc11: Spanned<toml::Value>,
    /// Its exponent.
    #[schemars(with = "NumberOrText")]
    mc: Spanned<toml::Value>,
    /// Where the two come from.
    #[schemars(with = "String")]
    source: Spanned<String>,
}

/// The key `kc11` has a second spelling, of which derived schemas know nothing.
fn also_kc1_1(schema: &mut Schema) {
    if let Some(Value::Object(keys)) = schema.get_mut("properties")
        && let Some(force) = keys.get("kc11").cloned()
    {
        keys.insert("kc1.1".to_owned(), force);
    }
    if let Some(Value::Array(required)) = schema.get_mut("required") {
        required.retain(|key| key != "kc11");
    }
    let either = json!([{ "required": ["kc11"] }, { "required": ["kc1.1"] }]);
    schema.insert("oneOf".to_owned(), either);
}

/// Main groups of ISO 513.
const GROUPS: [&str; 6] = ["P", "M", "K", "N", "S", "H"];
/// Specific cutting forces that a metal may have, MPa, from memory: magnesium lies at 300, hardened
/// steel at 5000.
const FORCES: (f64, f64) = (100.0, 10_000.0);
/// Exponents that a metal may have, from memory: tables print 0.10 to 0.35.
const EXPONENTS: (f64, f64) = (0.0, 0.6);

impl MaterialFile {
    /// Reads it, or refuses it at its place.
    pub(super) fn read(&self, source: &Source) -> Result<ShopMaterial, RuleError> {
        for text in [&self.name, &self.source] {
            if text.get_ref().trim().is_empty() {
                let message = "a material has a name and a source";
                return Err(RuleError::at(source, span(text), message));
            }
        }
        let group = self.group.as_ref().map(|group| {
            let known = GROUPS.contains(&group.get_ref().as_str());
            let message = format!("a group of ISO 513 is one of {}", GROUPS.join(", "));
            known
                .then(|| group.get_ref().clone())
                .ok_or_else(|| RuleError::at(source, span(group), message))
        });
        Ok(ShopMaterial {
            name: self.name.get_ref().clone(),
            group: group.transpose()?.unwrap_or_default(),
            kc11: within(&self.kc11, "kc1.1", Unit::MPa, FORCES, source)?,
            mc: within(&self.mc, "mc", Unit::One, EXPONENTS, source)?,
            source: self.source.get_ref().clone(),
        })
    }

    /// Its name, with its place.
    pub(super) fn name(&self) -> &Spanned<String> {
        &self.name
    }
}

/// A number within a range, ends included.
fn within(
    value: &Spanned<toml::Value>,
    name: &str,
    unit: Unit,
    (min, max): (f64, f64),
    source: &Source,
) -> Result<f64, RuleError> {
    let (number, _) = limit::number(value, unit, source)?;
    let range = Sensible {
        min: Some((min, min.to_string())),
        max: Some((max, max.to_string())),
    };
    range.check(number, name, unit, value, source)?;
    Ok(number)
}
