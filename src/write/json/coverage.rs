//! Who was judged, as JSON.

use serde_json::{Value, json};

use crate::sheet::{Came, Coverage};

/// Coverage as JSON.
pub(super) fn coverage_json(coverage: &Coverage) -> Value {
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
        "grip_not_judged": coverage.grip_not_judged().collect::<Vec<_>>(),
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
