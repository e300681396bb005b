//! The keys of the output, and of an audit's, are promised: one that goes, or changes its place, breaks other people's
//! scripts.

use std::collections::BTreeSet;
use std::fs;

use serde_json::Value;

use super::{OF_AUDIT, PUBLISHED};
use crate::support::root;

/// Every key with the kind of object that it stands in, `Finding.level`.
fn keys(schema: &Value) -> BTreeSet<String> {
    let definitions = schema["$defs"].as_object().unwrap();
    let all = definitions
        .iter()
        .map(|(name, schema)| (name.as_str(), schema));
    let all = all.chain([("", schema)]);
    let mut found = BTreeSet::new();
    for (name, schema) in all {
        let Some(own) = schema["properties"].as_object() else {
            continue;
        };
        let required = schema["required"].as_array();
        for key in own.keys() {
            let always = required.is_some_and(|all| all.iter().any(|one| one == key));
            let at_times = if always { "" } else { " (at times)" };
            found.insert(format!("{name}.{key}{at_times}"));
        }
    }
    found
}

/// `REWRITE_KEYS=1` writes the list anew: a key may be added, and none may go while the format is 1.
#[test]
fn no_key_goes() {
    listed("json-keys.txt", &PUBLISHED);
    listed("audit-keys.txt", &OF_AUDIT);
}

fn listed(name: &str, schema: &Value) {
    let path = root().join("fixtures/expected").join(name);
    let found = keys(schema);
    let text = found
        .iter()
        .flat_map(|key| [key.as_str(), "\n"])
        .collect::<String>();
    if std::env::var_os("REWRITE_KEYS").is_some() {
        fs::write(&path, &text).unwrap();
    }
    let listed = fs::read_to_string(&path).expect("the list of keys");
    let listed: BTreeSet<String> = listed.lines().map(str::to_owned).collect();
    let gone: Vec<_> = listed.difference(&found).collect();
    assert!(gone.is_empty(), "promised and not there: {gone:?}");
    let new: Vec<_> = found.difference(&listed).collect();
    assert!(
        new.is_empty(),
        "not in the list, which REWRITE_KEYS=1 writes anew: {new:?}"
    );
}
