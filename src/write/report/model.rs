//! What a page reads of an audit: the JSON of an audit, as far as it is shown.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::super::audit::LOST;
use super::super::json::Drawn;

/// An audit.
#[derive(Debug, Default, Deserialize)]
#[serde(default)]
#[expect(clippy::struct_field_names, reason = "the keys of JSON")]
pub(super) struct Audit {
    pub program: String,
    pub audit: Head,
    pub passed_over: Vec<Passed>,
    pub unreadable: Vec<Passed>,
    pub libraries: Vec<Library>,
    pub earlier: Vec<Earlier>,
    pub totals: Totals,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(super) struct Head {
    pub id: String,
    pub day: String,
    pub rules_sha256: String,
    pub roots: Vec<String>,
    pub since: Option<Since>,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(super) struct Since {
    pub id: String,
    pub day: String,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(super) struct Passed {
    pub file: String,
    pub reason: String,
}

/// A finding of the earlier audit that is not among today's.
#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(super) struct Earlier {
    pub change: String,
    pub reason: String,
    pub finding: Noted,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(super) struct Noted {
    pub library: String,
    pub tool_number: String,
    pub rule: String,
    pub level: String,
    pub title: String,
    pub message: String,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(super) struct Totals {
    pub fails: bool,
    pub assemblies: usize,
    pub groups: [usize; 5],
    pub findings: [usize; 4],
    pub accepted: usize,
    pub held_by_shank: usize,
    pub grip_judged: usize,
    pub new: [usize; 4],
    pub worse: [usize; 4],
    pub accepted_no_more: [usize; 4],
    pub better: [usize; 4],
    pub gone: [usize; 4],
    pub not_compared: [usize; 4],
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
#[expect(clippy::struct_field_names, reason = "the keys of JSON")]
pub(super) struct Library {
    pub key: String,
    pub input: String,
    pub status: String,
    pub unreadable: Vec<Fault>,
    pub findings: Vec<Finding>,
    pub sheets: Vec<Sheet>,
    pub points: Vec<Point>,
    pub left_out: BTreeMap<String, usize>,
    pub library: Option<About>,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(super) struct Fault {
    pub file: Option<String>,
    pub line: Option<usize>,
    pub message: String,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(super) struct About {
    pub name: String,
    pub units: String,
    pub weakened: Vec<String>,
    pub unread: Vec<Passed>,
}

/// Where an assembly stands among all others.
#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(super) struct Point {
    pub tool: String,
    pub group: String,
    pub grip: Option<f64>,
    pub reach_margin: Option<f64>,
    pub needed: Option<f64>,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(super) struct Sheet {
    pub tool_number: Option<String>,
    pub assembly: Option<String>,
    pub machine: Option<String>,
    pub pot: Option<String>,
    pub description: Option<String>,
    pub group: String,
    pub line: usize,
    pub clampings: Vec<Clamping>,
    pub findings: Vec<Finding>,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(super) struct Clamping {
    pub parts: Vec<Part>,
    pub values: Vec<Stated>,
    pub window: Option<Window>,
    pub set_to: Option<f64>,
    pub remedies: Option<Vec<Remedy>>,
    pub drawing: Option<Drawn>,
}

/// A change that would correct it, with what is on hand.
#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(super) struct Remedy {
    pub changes: Changes,
    pub window: Window,
    pub leaves: Vec<String>,
    pub warnings: Vec<String>,
    pub unstated: Vec<String>,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(super) struct Changes {
    pub cutter: Option<String>,
    pub collet: Option<String>,
    pub nut: Option<String>,
    pub holder: Option<String>,
    pub stick_out: Option<Quantity>,
    pub nut_torque: Option<Quantity>,
    pub operations: Vec<Depth>,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(super) struct Depth {
    pub operation: String,
    pub reach: Quantity,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(super) struct Quantity {
    pub value: f64,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(super) struct Part {
    pub kind: String,
    pub id: Option<String>,
    pub unresolved: bool,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(super) struct Stated {
    pub property: String,
    pub value: Option<Value>,
}

#[derive(Debug, Deserialize)]
#[serde(untagged)]
pub(super) enum Value {
    Number(f64),
    Text(String),
    Truth(bool),
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(super) struct Window {
    pub min: Option<f64>,
    pub max: Option<f64>,
    pub min_rule: Option<String>,
    pub max_rule: Option<String>,
    pub short_by: Option<f64>,
    pub advised: Option<Ends>,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(super) struct Ends {
    pub min: Option<f64>,
    pub max: Option<f64>,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(super) struct Finding {
    pub rule: String,
    pub level: String,
    pub title: String,
    pub tool_number: Option<String>,
    pub operation: Option<String>,
    pub message: String,
    pub why: String,
    pub advice: String,
    pub caution: String,
    pub basis: String,
    pub missing: Vec<String>,
    pub facts: BTreeMap<String, Fact>,
    pub limits: BTreeMap<String, Limit>,
    pub assumptions: Vec<String>,
    pub accepted: Option<Accepted>,
    pub places: Vec<Place>,
    pub change: Option<Change>,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(super) struct Fact {
    pub value: Option<Value>,
    pub unit: Option<String>,
    pub assumed: bool,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(super) struct Limit {
    pub value: f64,
    pub unit: String,
    pub basis: String,
    pub source: String,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(super) struct Accepted {
    pub reason: String,
    pub by: String,
    pub until: Option<String>,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(super) struct Place {
    pub file: String,
    pub line: usize,
    pub column: usize,
    pub field: String,
    pub text: String,
    pub sheet: Option<String>,
    pub cell: Option<String>,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(super) struct Change {
    pub state: String,
    pub value_before: Option<f64>,
    pub accepted_no_more: bool,
}

impl Changes {
    /// Whether a part is exchanged.
    pub(super) const fn is_part(&self) -> bool {
        self.cutter.is_some()
            || self.collet.is_some()
            || self.nut.is_some()
            || self.holder.is_some()
    }
}

impl Earlier {
    /// Whether its library stands there and is none any more.
    pub(super) fn is_lost(&self) -> bool {
        self.reason.starts_with(LOST)
    }
}

impl Finding {
    /// Whether it is new, worse or accepted no more.
    pub(super) fn is_news(&self) -> bool {
        let change = self.change.as_ref();
        change.is_some_and(|change| {
            change.accepted_no_more || matches!(change.state.as_str(), "new" | "worse")
        })
    }

    /// The word for its level.
    pub(super) fn level_word(&self) -> &str {
        match self.level.as_str() {
            "none" => "not judged",
            level => level,
        }
    }
}

impl Sheet {
    /// What it is called.
    pub(super) fn name(&self) -> String {
        match (&self.tool_number, &self.assembly) {
            (Some(number), _) => format!("tool {number}"),
            (None, Some(id)) => id.clone(),
            (None, None) => format!("line {}", self.line),
        }
    }

    /// The word that a property of it has.
    pub(super) fn word(&self, property: &str) -> Option<&str> {
        let values = self.clampings.iter().flat_map(|one| &one.values);
        let mut own = values.filter(|value| value.property == property);
        match &own.next()?.value {
            Some(Value::Text(text)) => Some(text),
            _ => None,
        }
    }

    /// The number that a property of it has.
    pub(super) fn number(&self, property: &str) -> Option<f64> {
        let values = self.clampings.iter().flat_map(|one| &one.values);
        let mut own = values.filter(|value| value.property == property);
        match &own.next()?.value {
            Some(Value::Number(number)) => Some(*number),
            _ => None,
        }
    }
}
