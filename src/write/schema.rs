//! JSON Schemas for editors and scripts. Each is made from the types that write or read what it
//! describes, and from the names of the rules, limits and columns that there are.

use serde_json::{Map, Value, json};

use crate::library::{PROPERTIES, ValueType};
use crate::rulebook::{self, Limit, Rulebook};

/// The schema of the shop's file, with the rules and limits of a rulebook. Others may be named
/// too: they may be in folders of rules that the file names.
#[must_use]
pub fn shop_schema(book: &Rulebook) -> Value {
    let mut schema = rulebook::shop_schema();
    offer(&mut schema, "/properties/limit", limits(&book.limits));
    let rules = book.rules.iter().map(|rule| {
        let own = json!({
            "$ref": "#/$defs/RuleChange",
            "description": &*rule.title,
            "properties": { "limit": { "properties": limits(&rule.limits) } },
        });
        (rule.id.clone(), own)
    });
    offer(&mut schema, "/properties/rule", rules.collect());
    let columns = PROPERTIES.iter().map(|property| property.name);
    examples(
        &mut schema,
        "/properties/columns/additionalProperties",
        columns,
    );
    for name in ["cutter_material", "clamping_kind"] {
        let place = match name {
            "clamping_kind" => "/$defs/Insertion/properties/clamping_kind",
            _ => "/$defs/Default/properties/cutter_material",
        };
        examples(&mut schema, place, words(name));
    }
    let styles =
        words("nut_style").map(|style| (style.to_owned(), json!({ "$ref": "#/$defs/Number" })));
    offer(
        &mut schema,
        "/$defs/Default/properties/face_setback",
        styles.collect(),
    );
    schema
}

/// Limits by name, each with its reason and its range.
fn limits(limits: &[Limit]) -> Map<String, Value> {
    let each = limits.iter().map(|limit| {
        let unit = limit.unit.symbol();
        let range = limit.range.words(limit.unit);
        let description = format!(
            "{} [{unit}], built in: {}, {range}. {}",
            limit.name, limit.written, limit.reason
        );
        let one = json!({ "$ref": "#/$defs/Number", "description": description });
        (limit.name.clone(), one)
    });
    each.collect()
}

/// The words of a property.
fn words(name: &str) -> impl Iterator<Item = &'static str> {
    let property = PROPERTIES.iter().find(|property| property.name == name);
    let words = match property.map(|property| property.value) {
        Some(ValueType::Word(words)) => words,
        _ => &[],
    };
    words.iter().map(|word| word.word)
}

/// Names keys of a table that takes others too.
fn offer(schema: &mut Value, place: &str, keys: Map<String, Value>) {
    if let Some(Value::Object(table)) = schema.pointer_mut(place) {
        table.insert("properties".to_owned(), Value::Object(keys));
    }
}

/// Gives examples of a text.
fn examples(schema: &mut Value, place: &str, texts: impl Iterator<Item = &'static str>) {
    if let Some(Value::Object(text)) = schema.pointer_mut(place) {
        text.insert("examples".to_owned(), texts.collect());
    }
}
