//! What every JSON Schema of ours has in common.

use schemars::Schema;
use serde_json::{Map, Value};

/// A schema under its name, what it is in front: descriptions are one line, as editors show them.
#[must_use]
pub fn described(schema: Schema, name: &str) -> Value {
    let Value::Object(mut keys) = schema.to_value() else {
        return Value::Null;
    };
    keys.insert(
        "$id".to_owned(),
        format!("urn:shankwise:schema:{name}:1").into(),
    );
    let mut front = Map::new();
    for key in ["$schema", "$id", "title", "description"] {
        front.extend(keys.shift_remove_entry(key));
    }
    front.extend(keys);
    let mut schema = Value::Object(front);
    in_one_line(&mut schema);
    schema
}

fn in_one_line(schema: &mut Value) {
    match schema {
        Value::Array(items) => items.iter_mut().for_each(in_one_line),
        Value::Object(fields) => {
            if let Some(Value::String(text)) = fields.get_mut("description") {
                *text = text.split_whitespace().collect::<Vec<_>>().join(" ");
            }
            fields.values_mut().for_each(in_one_line);
        }
        _ => {}
    }
}
