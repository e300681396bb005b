//! The schemas of the files that people write take what the program takes, and refuse keys and
//! words that it refuses.

use std::fs;
use std::path::{Path, PathBuf};

use jsonschema::Validator;
use serde_json::{Map, Value, json};
use shankwise::judge::VocabularyNames;
use shankwise::rulebook::{Layer, Pack, Rulebook, ShopFile};
use tempfile::TempDir;

use super::printed;
use crate::rule_fixtures::cases::CASES;
use crate::support::root;

fn validator(schema: &Value) -> Validator {
    jsonschema::validator_for(schema).expect("the schema is one")
}

/// A definition of a schema as a schema of its own.
fn part(schema: &Value, name: &str) -> Validator {
    validator(&json!({
        "$schema": schema["$schema"], "$ref": format!("#/$defs/{name}"), "$defs": schema["$defs"],
    }))
}

/// TOML as editors see it: a date is a text.
fn as_json(value: &toml::Value) -> Value {
    match value {
        toml::Value::Datetime(date) => json!(date.to_string()),
        toml::Value::Array(items) => items.iter().map(as_json).collect(),
        toml::Value::Table(table) => {
            let fields = table
                .iter()
                .map(|(key, value)| (key.clone(), as_json(value)));
            Value::Object(fields.collect())
        }
        other => json!(other),
    }
}

fn read(text: &str) -> Value {
    as_json(&toml::from_str(text).expect("it is TOML"))
}

fn refusals(schema: &Validator, value: &Value) -> Vec<String> {
    let errors = schema.iter_errors(value);
    errors
        .map(|error| format!("{}: {error}", error.instance_path()))
        .collect()
}

fn files(folder: &Path, wanted: &dyn Fn(&Path) -> bool, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            files(&path, wanted, found);
        } else if wanted(&path) {
            found.push(path);
        }
    }
}

/// Whether the program takes a shop file, as far as its form goes.
fn shop_is_read(text: &str) -> bool {
    let folder = TempDir::new().unwrap();
    let path = folder.path().join("shankwise.toml");
    fs::write(&path, text).unwrap();
    Layer::read(ShopFile { path, own: true }).is_ok()
}

/// Whether the program takes a rule, beside the built-in limits.
fn rule_is_read(text: &str) -> bool {
    let limits = fs::read_to_string(root().join("rules/tables/limits.toml")).unwrap();
    let file = |name: &str, text: &str| (name.to_owned(), name.to_owned(), text.to_owned());
    let pack = Pack {
        files: vec![
            file("tables/limits.toml", &limits),
            file("reach/mine.toml", text),
        ],
        ..Pack::default()
    };
    Rulebook::load(&[pack], &VocabularyNames).is_ok()
}

/// Every way to write one key of a table wrongly, at any depth, but below maps whose keys are names.
fn misspelt(value: &Value, is_map: &dyn Fn(&str) -> bool) -> Vec<(String, Value)> {
    fn inner(value: &Value, map: bool, is_map: &dyn Fn(&str) -> bool) -> Vec<(String, Value)> {
        let mut found = Vec::new();
        match value {
            Value::Array(items) => {
                for (at, item) in items.iter().enumerate() {
                    for (key, changed) in inner(item, false, is_map) {
                        let mut all = items.clone();
                        all[at] = changed;
                        found.push((key, Value::Array(all)));
                    }
                }
            }
            Value::Object(fields) => {
                for (key, own) in fields {
                    if !map {
                        let renamed = fields.iter().map(|(other, value)| {
                            let x = if other == key { "x" } else { "" };
                            (format!("{other}{x}"), value.clone())
                        });
                        found.push((key.clone(), Value::Object(renamed.collect())));
                    }
                    for (name, changed) in inner(own, !map && is_map(key), is_map) {
                        let mut all: Map<String, Value> = fields.clone();
                        all[key] = changed;
                        found.push((format!("{key}.{name}"), Value::Object(all)));
                    }
                }
            }
            _ => {}
        }
        found
    }
    inner(value, false, is_map)
}

#[test]
fn all_shop_files_are_taken() {
    let schema = validator(&printed("shop"));
    let folder = TempDir::new().unwrap();
    for case in CASES.iter() {
        case.on_disk(folder.path());
    }
    let mut found = Vec::new();
    let is_shop = |path: &Path| path.ends_with("shankwise.toml");
    files(&root().join("fixtures"), &is_shop, &mut found);
    files(folder.path(), &is_shop, &mut found);
    assert!(found.len() > 5, "{found:?}");
    for path in found {
        let text = fs::read_to_string(&path).unwrap();
        assert!(shop_is_read(&text), "{}", path.display());
        let refused = refusals(&schema, &read(&text));
        assert_eq!(refused, [""; 0], "{}", path.display());
    }
}

/// A shop file in a text that indents it: from its name to the first line at the margin.
fn shown_shop(text: &str, indent: &str) -> String {
    let start = format!("\n{indent}name = \"cell 3\"\n");
    let (_, block) = text.split_once(&start).expect("the example");
    let block = block
        .lines()
        .take_while(|line| line.is_empty() || line.starts_with(indent));
    let lines: String = block.flat_map(|line| [line.trim_start(), "\n"]).collect();
    format!("name = \"cell 3\"\n{lines}")
}

/// The shop file that the help of `rules` shows, which has every key but a few.
fn long_shop() -> String {
    let help = String::from_utf8(crate::support::run(&["help", "rules"]).stdout).unwrap();
    shown_shop(&help, "  ")
}

#[test]
fn the_shop_file_of_the_readme_is_taken() {
    let readme = fs::read_to_string(root().join("README.md")).unwrap();
    let text = shown_shop(&readme, "    ");
    assert!(text.contains("[[accept]]") && shop_is_read(&text), "{text}");
    let refused = refusals(&validator(&printed("shop")), &read(&text));
    assert_eq!(refused, [""; 0]);
}

#[test]
fn the_shop_file_of_the_help_is_taken_and_no_slip_in_it() {
    let schema = validator(&printed("shop"));
    let text = long_shop();
    assert!(shop_is_read(&text), "{text}");
    let shop = read(&text);
    assert_eq!(refusals(&schema, &shop), [""; 0]);
    // Names of rules, limits, headers and styles of nuts are the shop's: others may be right.
    let is_map = |key: &str| {
        [
            "limit",
            "rule",
            "columns",
            "values",
            "face_setback",
            "operation_values",
        ]
        .contains(&key)
    };
    let slips = misspelt(&shop, &is_map);
    assert!(slips.len() > 30, "{}", slips.len());
    for (key, slip) in slips {
        assert!(!schema.is_valid(&slip), "{key}");
        let text = toml::to_string(&slip).expect("TOML");
        assert!(!shop_is_read(&text), "{key}");
    }
    for (place, value) in [
        ("/rule/torque~1not-stated/level", json!("eror")),
        ("/limit/min_grip_fraction", json!(true)),
        ("/accept/0/tool_number", json!(12)),
        ("/default/bore_length/0/bore_diameter", json!([1, 2, 3])),
        ("/material/0/kc11", json!([2600])),
        ("/units/length", json!(25.4)),
    ] {
        let mut wrong = shop.clone();
        *wrong.pointer_mut(place).expect(place) = value;
        assert!(!schema.is_valid(&wrong), "{place}");
    }
    // Either spelling of the specific cutting force, and not both.
    let material = |keys: &str| {
        let text = format!("[[material]]\nname = \"m\"\nmc = 0.25\nsource = \"s\"\n{keys}");
        (schema.is_valid(&read(&text)), shop_is_read(&text))
    };
    assert_eq!(material("kc11 = 2600"), (true, true));
    assert_eq!(material("\"kc1.1\" = 2600"), (true, true));
    assert_eq!(material(""), (false, false));
    assert_eq!(material("kc11 = 2600\n\"kc1.1\" = 2600"), (false, false));
}

#[test]
fn the_schema_of_the_shop_names_the_rules_and_limits() {
    let schema = printed("shop");
    let book = crate::support::built_in().book;
    for rule in &book.rules {
        let own = &schema["properties"]["rule"]["properties"][&rule.id];
        assert_eq!(own["description"], rule.title.as_ref());
        for limit in &rule.limits {
            let limits = &own["properties"]["limit"]["properties"];
            assert!(
                limits[&limit.name]["description"].is_string(),
                "{}",
                limit.name
            );
        }
    }
    for limit in &book.limits {
        let own = &schema["properties"]["limit"]["properties"][&limit.name];
        assert!(own["description"].as_str().unwrap().contains(&limit.reason));
    }
    let styles = &schema["$defs"]["Default"]["properties"]["face_setback"]["properties"];
    assert!(styles["sealing"].is_object());
}

#[test]
fn all_rules_are_taken_and_no_slip_in_them() {
    let published = printed("rule");
    let schema = validator(&published);
    let mut found = Vec::new();
    let tables = root().join("rules/tables");
    files(
        &root().join("rules"),
        &|path| !path.starts_with(&tables),
        &mut found,
    );
    assert!(found.len() > 50);
    let is_map = |key: &str| key == "limit";
    for (at, path) in found.iter().enumerate() {
        let text = fs::read_to_string(path).unwrap();
        let rule = read(&text);
        let refused = refusals(&schema, &rule);
        assert_eq!(refused, [""; 0], "{}", path.display());
        for (key, slip) in misspelt(&rule, &is_map) {
            assert!(!schema.is_valid(&slip), "{}: {key}", path.display());
            // Loading takes long: the program is asked about some.
            if at % 16 == 0 && rule.get("expect").is_some() {
                assert!(!rule_is_read(&toml::to_string(&slip).unwrap()), "{key}");
            }
        }
    }
    for (name, table) in [("Limits", "limits.toml"), ("Pairs", "pairs.toml")] {
        let text = fs::read_to_string(tables.join(table)).unwrap();
        let part = part(&published, name);
        assert_eq!(refusals(&part, &read(&text)), [""; 0], "{table}");
        assert!(!schema.is_valid(&read(&text)), "{table} is no rule");
    }
}

/// Words that the program does not know are refused in their place.
#[test]
fn unknown_words_of_a_rule_are_refused() {
    let schema = validator(&printed("rule"));
    let path = root().join("rules/grip/short-grip.toml");
    let rule = read(&fs::read_to_string(path).unwrap());
    for (key, value) in [
        ("level", json!("fatal")),
        ("basis", json!("hearsay")),
        ("consequence", json!("none")),
        ("bounds", json!(["stick_out"])),
        ("cured_by", json!(["luck"])),
        ("title", json!(7)),
        ("judges_grip", json!("yes")),
        ("milder", json!({ "when": "true", "level": "note" })),
        (
            "limit",
            json!({ "a": { "value": 1, "unit": "cm", "basis": "shop", "reason": "r", "stricter": "lower" } }),
        ),
    ] {
        let mut wrong = rule.clone();
        wrong[key] = value;
        assert!(!schema.is_valid(&wrong), "{key}");
    }
}
