//! Where to begin in a whole library.

use schemars::JsonSchema;
use serde::Serialize;

use crate::sheet::{Helps, How, Kind, Measured, Plan};

/// Which values decide most, and which cutters correct most.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "Plan")]
pub(super) struct Begin<'a> {
    /// Values to measure, the most deciding first.
    values: Vec<Value<'a>>,
    /// Cutters to take out, the most helpful first.
    cutters: Vec<Cutter<'a>>,
    /// Whether no other choice does better.
    exact: Exact,
}

/// A value that is missing.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "Missing")]
struct Value<'a> {
    /// The kind of record in which it would stand.
    #[schemars(extend("enum" = Kind::ALL.map(Kind::name)))]
    record: &'static str,
    /// The id of that record.
    id: Option<&'a str>,
    /// The property.
    field: &'static str,
    /// What is to be done about it.
    #[schemars(extend("enum" = How::ALL.map(How::name)))]
    how: &'static str,
    /// Judgements that wait for it alone.
    decides: usize,
    /// Judgements that wait for nothing else, once it and those before it are stated.
    together: usize,
}

/// A cutter that helps.
#[derive(Serialize, JsonSchema)]
struct Cutter<'a> {
    /// Its id.
    id: &'a str,
    /// The tools that it corrects.
    cures: &'a [String],
}

/// Whether no other choice does better.
#[derive(Serialize, JsonSchema)]
struct Exact {
    values: bool,
    cutters: bool,
}

impl<'a> Begin<'a> {
    pub(super) fn of(plan: &'a Plan) -> Begin<'a> {
        let value = |value: &'a Measured| Value {
            record: value.record.name(),
            id: value.id.as_deref(),
            field: value.field,
            how: value.how.name(),
            decides: value.decides,
            together: value.together,
        };
        let cutter = |cutter: &'a Helps| Cutter {
            id: &cutter.id,
            cures: &cutter.cures,
        };
        Begin {
            values: plan.values.iter().map(value).collect(),
            cutters: plan.cutters.iter().map(cutter).collect(),
            exact: Exact {
                values: plan.values_exact,
                cutters: plan.cutters_exact,
            },
        }
    }
}
