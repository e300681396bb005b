//! Who was judged, as JSON.

use std::io::{self, Write};

use serde_json::{Map, Value, json};

use crate::sheet::{Came, Coverage, Overview};

use super::{piece, summary};

/// Coverage as JSON, with the names of the tools whose grip was not judged.
pub(super) fn coverage_json(coverage: &Coverage, names: &Value) -> Value {
    let kinds = |by_shank, judged: bool| {
        let kinds = coverage.kinds(by_shank);
        let each = kinds.iter().map(|kind| {
            let mut one = json!({
                "clamping_kind": kind.word(),
                "assemblies": kind.held_by_shank,
            });
            if let (true, Some(one)) = (judged, one.as_object_mut()) {
                one.insert("grip_judged".to_owned(), json!(kind.grip_judged));
            }
            one
        });
        each.collect::<Vec<_>>()
    };
    json!({
        "grip_judged": coverage.grip_judged(),
        "held_by_shank": coverage.held_by_shank(),
        "grip_asked": coverage.grip_asked(),
        "enough": coverage.is_enough(),
        "kinds": kinds(true, true),
        "grip_not_judged": names,
        "not_held_by_shank": kinds(false, false),
        "reach_judged": coverage.reach_judged(),
        "reach_stated": coverage.reach_stated(),
    })
}

/// What came of the assemblies, as JSON: each is counted once.
pub(super) fn came_json(came: &Came) -> Value {
    json!({
        "fails": came.fails,
        "grip_not_judged": came.grip_not_judged,
        "warned": came.warned,
        "not_judged": came.not_judged,
        "nothing_found": came.nothing_found,
    })
}

/// Writes the summary. The tools whose grip was not judged may be a million, and are written one by
/// one.
pub(super) fn write_summary(to: &mut impl Write, overview: &Overview) -> io::Result<()> {
    let summary = summary(overview, &Value::Null);
    fields(to, summary.as_object(), |to, key, value| match value {
        Value::Object(coverage) if key == "coverage" => {
            fields(to, Some(coverage), |to, key, value| match value {
                Value::Null if key == "grip_not_judged" => names(to, &overview.coverage),
                _ => to.write_all(piece(value).as_bytes()),
            })
        }
        _ => to.write_all(piece(value).as_bytes()),
    })
}

/// Writes an object field by field.
fn fields<W: Write>(
    to: &mut W,
    object: Option<&Map<String, Value>>,
    mut each: impl FnMut(&mut W, &str, &Value) -> io::Result<()>,
) -> io::Result<()> {
    let mut before = "{";
    for (key, value) in object.into_iter().flatten() {
        write!(to, "{before}\"{key}\":")?;
        each(to, key, value)?;
        before = ",";
    }
    to.write_all(b"}")
}

fn names(to: &mut impl Write, coverage: &Coverage) -> io::Result<()> {
    to.write_all(b"[")?;
    let mut before = "";
    for name in coverage.grip_not_judged() {
        write!(to, "{before}{}", piece(&json!(name)))?;
        before = ",";
    }
    to.write_all(b"]")
}
