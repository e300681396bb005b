//! Where to begin in a whole library, as JSON.

use serde_json::{Value, json};

use crate::sheet::Plan;

/// The plan as JSON.
pub(super) fn plan_json(plan: &Plan) -> Value {
    let values = plan.values.iter().map(|value| {
        json!({
            "record": value.record.name(),
            "id": value.id,
            "field": value.field,
            "how": value.how.name(),
            "decides": value.decides,
            "together": value.together,
        })
    });
    let cutters = plan.cutters.iter();
    let cutters = cutters.map(|cutter| json!({ "id": cutter.id, "cures": cutter.cures }));
    json!({
        "values": values.collect::<Vec<_>>(),
        "cutters": cutters.collect::<Vec<_>>(),
        "exact": { "values": plan.values_exact, "cutters": plan.cutters_exact },
    })
}
