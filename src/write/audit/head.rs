//! What is known of an audit before its first library.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::audit::{Passed, Seen};
use crate::sheet::RuleShown;

use super::super::sarif;

/// What is known of an audit before its first library.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct Head {
    /// Its id: a hash of inputs, rules, configuration, version and day.
    pub id: String,
    /// The day by which it judges, `2027-01-31`.
    pub day: String,
    /// SHA-256 of the rules before any shop changes them.
    pub rules_sha256: String,
    /// The folders that were named.
    pub roots: Vec<String>,
    /// The options that decide what is judged and what fails.
    pub options: Options,
    /// How much was seen.
    pub seen: Seen,
    /// CSV files and XML documents that are no library, and why.
    pub passed_over: Vec<Passed>,
    /// Files and folders that could not be looked at, and why.
    pub unreadable: Vec<Passed>,
    /// Keys of what is ignored.
    pub ignored: Vec<String>,
    /// The keys of the libraries, in their order.
    pub keys: Vec<String>,
    /// The rules before any shop changes them, each as the log describes it.
    pub rules: Vec<(String, String)>,
    /// What it is compared with.
    pub since: Option<Since>,
}

impl Head {
    /// Takes in the rules.
    pub(crate) fn describe(&mut self, rules: &[RuleShown]) {
        let described = rules.iter().map(|rule| {
            // Every piece of it is written as text.
            let text = String::from_utf8(sarif::descriptor(rule));
            (rule.id.clone(), text.unwrap_or_default())
        });
        self.rules = described.collect();
    }
}

/// Options that decide what is judged and what fails.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "AuditOptions")]
pub(crate) struct Options {
    /// Whether findings that rest on assumptions keep their level, and incomplete fails.
    pub strict: bool,
    /// The least level that fails.
    pub fail_on: String,
    /// The rules and topics that alone were asked for; all if empty.
    pub only: Vec<String>,
    /// The rules and topics that were left out.
    pub except: Vec<String>,
    /// The share of the tools held by a shank on which the grip must be judged; null: one tool.
    pub min_coverage: Option<f64>,
    /// Whether remedies were looked for.
    pub remedies: bool,
    /// Whether only what is new or worse fails.
    pub only_new: bool,
}

/// The earlier audit that one is compared with.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
pub(crate) struct Since {
    /// Its id.
    pub id: String,
    /// Its day.
    pub day: String,
}

/// What an audit comes to.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Verdict {
    /// Whether something fails; with `only_new`, something that is news.
    pub fails: bool,
    /// Whether something could not be read, so that it has not passed.
    pub unread: bool,
}
