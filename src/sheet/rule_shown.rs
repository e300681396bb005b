//! The rules that a library is judged by, as plain data.

use crate::judge::Setup;
use crate::rulebook::{Basis, Consequence, Level};

/// What may be shown of a rule, whatever it finds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RuleShown {
    /// Topic and name: `grip/short-grip`.
    pub id: String,
    /// Names the fault.
    pub title: String,
    /// Why it matters, with the names of its values in braces.
    pub why: String,
    /// What to do, in the same way.
    pub advice: String,
    /// Its level with this library's shop files.
    pub level: Level,
    /// Whether the shop has switched it off.
    pub off: bool,
    /// What it rests on.
    pub basis: Basis,
    /// What comes of ignoring it.
    pub consequence: Consequence,
}

impl RuleShown {
    /// All rules of a setup, in its order.
    #[must_use]
    pub fn all(setup: &Setup) -> Vec<RuleShown> {
        let rules = setup.book.rules.iter().map(|rule| RuleShown {
            id: rule.id.clone(),
            title: rule.title.to_string(),
            why: rule.why.written(),
            advice: rule.advice.written(),
            level: rule.level,
            off: rule.off,
            basis: rule.basis,
            consequence: rule.consequence,
        });
        rules.collect()
    }
}
