//! What a rule file holds: its keys, as the TOML has them and as its schema describes them.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::Deserialize;
use toml::Spanned;

use super::limit::LimitFile;
use super::words::{Basis, Bound, Consequence, CuredBy, Level};

/// The shared limits: facts use them, or more than one rule does.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "Limits")]
pub(super) struct LimitsFile {
    /// The limits by name.
    #[serde(default)]
    #[schemars(with = "BTreeMap<String, LimitFile>")]
    pub limit: BTreeMap<Spanned<String>, LimitFile>,
}

/// Rules of one kind in one table: each is a whole rule.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "Pairs")]
pub(super) struct PairsFile {
    /// The rules, each under its name in the topic `suits`.
    #[schemars(with = "BTreeMap<String, RuleFile>")]
    pub pair: BTreeMap<Spanned<String>, RuleFile>,
}

/// One rule in a file of its own, `topic/rule-name.toml`.
///
/// Conditions and the braces of texts name facts (`shankwise facts --list`), properties
/// (`shankwise columns`) and limits.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "Rule", title = "A rule of Shankwise")]
pub(super) struct RuleFile {
    /// Names the fault.
    pub title: String,
    /// The level of what is not met.
    pub level: Level,
    /// What the rule rests on.
    pub basis: Basis,
    /// What comes of ignoring it.
    pub consequence: Consequence,
    /// The rule in whose block text shows it, where both speak of one tool.
    #[schemars(with = "Option<String>")]
    pub beside: Option<Spanned<String>>,
    /// The stick-out limits that it takes part in.
    #[serde(default)]
    pub bounds: Vec<Bound>,
    /// A word for what binds there: `grip`.
    pub binds: Option<String>,
    /// Who is judged by it has the grip judged.
    #[schemars(with = "Option<bool>")]
    pub judges_grip: Option<Spanned<bool>>,
    /// Who is judged by it has the reach judged.
    #[schemars(with = "Option<bool>")]
    pub judges_reach: Option<Spanned<bool>>,
    /// Where it is not met the lengths of the record are wrong, and no advice is built on them.
    #[schemars(with = "Option<bool>")]
    pub stops_advice: Option<Spanned<bool>>,
    /// Who meets it fills the whole bore.
    #[schemars(with = "Option<bool>")]
    pub judges_full_grip: Option<Spanned<bool>>,
    /// What does not meet it can be no tool and no job, and no question about it is answered.
    #[schemars(with = "Option<bool>")]
    pub refuses_question: Option<Spanned<bool>>,
    /// What may correct the tool.
    #[serde(default)]
    pub cured_by: Vec<CuredBy>,
    /// What a part to buy must have: `chip_flute_length >= reach`.
    #[serde(default)]
    #[schemars(with = "Vec<String>")]
    pub demands: Vec<Spanned<String>>,
    /// Properties that are doubted where it is not met: they are corrected first, and no part is
    /// sought for them.
    #[serde(default)]
    #[schemars(with = "Vec<String>")]
    pub doubts: Vec<Spanned<String>>,
    /// The condition under which it applies; without it, always.
    #[schemars(with = "Option<String>")]
    pub when: Option<Spanned<String>>,
    /// The condition that must be met. Only the words for a fault of form have none.
    #[schemars(with = "Option<String>")]
    pub expect: Option<Spanned<String>>,
    /// What is wrong, with values in braces.
    #[schemars(with = "String")]
    pub message: Spanned<String>,
    /// Why it matters.
    #[schemars(with = "String")]
    pub why: Spanned<String>,
    /// What to do.
    #[schemars(with = "String")]
    pub advice: Spanned<String>,
    /// What to do where other rules settle the stick-out.
    #[schemars(with = "Option<String>")]
    pub without_moving: Option<Spanned<String>>,
    /// What is said beside any advice that takes the place of the rule's own.
    #[schemars(with = "Option<String>")]
    pub besides: Option<Spanned<String>>,
    /// What to do where no stick-out meets the rule, if that is not a longer tool.
    pub where_none: Option<String>,
    /// What to beware of.
    #[schemars(with = "Option<String>")]
    pub caution: Option<Spanned<String>>,
    /// What to say when it is not judged; else the missing properties are named.
    #[schemars(with = "Option<String>")]
    pub unjudged: Option<Spanned<String>>,
    /// Cases in which it is less bad; the first whose condition is met counts.
    #[serde(default)]
    pub milder: Vec<MilderFile>,
    /// Cases in which an assumption does not lower its level.
    #[serde(default)]
    pub certain: Vec<CertainFile>,
    /// Its own limits by name.
    #[serde(default)]
    #[schemars(with = "BTreeMap<String, LimitFile>")]
    pub limit: BTreeMap<Spanned<String>, LimitFile>,
}

/// A case in which a finding is certain although something is assumed.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "Certain")]
pub(super) struct CertainFile {
    /// The condition, asked at the favourable end of every band.
    #[schemars(with = "String")]
    pub when: Spanned<String>,
    /// The shared limits whose bands it takes.
    #[schemars(with = "Vec<String>")]
    pub despite: Vec<Spanned<String>>,
}

/// A case in which what is not met is less bad, or needs other words.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "Milder")]
pub(super) struct MilderFile {
    /// The condition.
    #[schemars(with = "String")]
    pub when: Spanned<String>,
    /// The level then.
    pub level: Level,
    /// What is wrong then; without it as the rule says.
    #[schemars(with = "Option<String>")]
    pub message: Option<Spanned<String>>,
    /// Why it matters then.
    #[schemars(with = "Option<String>")]
    pub why: Option<Spanned<String>>,
    /// What to do then.
    #[schemars(with = "Option<String>")]
    pub advice: Option<Spanned<String>>,
}
