//! JSON Schemas of rule files and of the shop's file, made from the types that these are read into.

use std::borrow::Cow;

use schemars::generate::SchemaSettings;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde_json::Value;

use crate::text::described;

use super::rule_keys::{LimitsFile, PairsFile, RuleFile};
use super::shop_keys::File;

/// A number as TOML files may write it.
pub(super) struct NumberOrText;

impl JsonSchema for NumberOrText {
    fn schema_name() -> Cow<'static, str> {
        "Number".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "type": ["number", "string"],
            "description": "A number, or a text with a fraction or a unit: 0.5, \"2/3\", \"0.5 mm\"."
        })
    }
}

/// One number, or two: from and to.
pub(super) struct OneOrTwo;

impl JsonSchema for OneOrTwo {
    fn schema_name() -> Cow<'static, str> {
        "OneOrTwo".into()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        let one = generator.subschema_for::<NumberOrText>();
        json_schema!({
            "anyOf": [one, { "type": "array", "items": one, "minItems": 2, "maxItems": 2 }]
        })
    }
}

/// The schema of a rule file. Its definitions `Limits` and `Pairs` are those of the tables
/// `tables/limits.toml` and `tables/pairs.toml`.
#[must_use]
pub fn rule_schema() -> Value {
    let mut generator = SchemaSettings::draft2020_12().into_generator();
    generator.subschema_for::<LimitsFile>();
    generator.subschema_for::<PairsFile>();
    finished(generator.into_root_schema_for::<RuleFile>(), "rule")
}

/// The schema of the shop's file, without the names of the rules and limits that there are.
#[must_use]
pub fn shop_schema() -> Value {
    let generator = SchemaSettings::draft2020_12().into_generator();
    finished(generator.into_root_schema_for::<File>(), "shop")
}

fn finished(schema: Schema, name: &str) -> Value {
    let mut schema = described(schema, name);
    without_null(&mut schema);
    schema
}

/// TOML has no null: a key that may be left out is not there.
fn without_null(schema: &mut Value) {
    match schema {
        Value::Array(items) => items.iter_mut().for_each(without_null),
        Value::Object(fields) => {
            for key in ["type", "anyOf", "enum"] {
                let Some(Value::Array(choices)) = fields.get_mut(key) else {
                    continue;
                };
                choices.retain(|choice| !is_null(choice));
                if key == "type"
                    && let [one] = choices.as_slice()
                {
                    let one = one.clone();
                    fields.insert(key.to_owned(), one);
                }
            }
            fields.values_mut().for_each(without_null);
        }
        _ => {}
    }
}

/// Whether a choice is null, or the type of null.
fn is_null(choice: &Value) -> bool {
    choice.is_null() || choice == "null" || choice.get("type").is_some_and(|of| of == "null")
}
