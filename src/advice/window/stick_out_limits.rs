//! The stick-out window as plain data: what all bounding rules leave.

use crate::rulebook::{Bound, Level};

/// One end of a window.
#[derive(Clone, Debug, PartialEq)]
pub struct End {
    /// Stick-out, mm.
    pub value: f64,
    /// The rule that binds it.
    pub rule: String,
    /// A word for what binds.
    pub name: String,
    /// The operation that asks for it, if the rule is on one.
    pub operation: Option<String>,
    /// What it rests on that is only assumed, by name.
    pub assumed: Vec<&'static str>,
    /// The same with value and reason, for people.
    pub assumptions: Vec<String>,
    /// What to do where no stick-out meets the rule, if that is not a longer tool.
    pub where_none: String,
    /// Why the rule's model says nothing beyond, where it ends there.
    pub model_ends: Option<&'static str>,
}

/// A rule that would bound the stick-out, were something more stated.
#[derive(Clone, Debug, PartialEq)]
pub struct Unjudged {
    /// The rule.
    pub rule: String,
    /// A word for what would bind.
    pub name: String,
    /// The end that it would bound.
    pub bound: Bound,
    /// What is missing.
    pub missing: Vec<&'static str>,
    /// Those of them that are stated and in no table, each with what is to be said.
    pub unlisted: Vec<(&'static str, String)>,
    /// Why its model says nothing, where nothing is missing.
    pub outside: Option<&'static str>,
    /// The level of the rule.
    pub level: Level,
    /// Whether its answer is the grip's.
    pub of_grip: bool,
    /// Whether it is about the stop behind the tool.
    pub of_stop: bool,
    /// Whether it is about the tool as it is built, whatever it is used for.
    pub of_tool: bool,
}

/// The part of a window that is advised.
#[derive(Clone, Debug, PartialEq)]
pub struct Advised {
    /// Its least stick-out; `None` if nothing binds it.
    pub min: Option<End>,
    /// Its greatest stick-out; `None` if nothing binds it.
    pub max: Option<End>,
}

/// Where the stick-out may be.
#[derive(Clone, Debug, PartialEq)]
pub struct Window {
    /// The least stick-out that no error-level rule forbids; `None` if none bounds it.
    pub min: Option<End>,
    /// The greatest; `None` if no error-level rule bounds it. Below `min` if nothing is left.
    pub max: Option<End>,
    /// What would bind the lower end next.
    pub next_min: Option<End>,
    /// What would bind the upper end next.
    pub next_max: Option<End>,
    /// By how much the two ends miss each other, mm, if nothing is left.
    pub short_by: Option<f64>,
    /// Further stretches that no error-level rule forbids, least and greatest stick-out, mm.
    pub others: Vec<(f64, f64)>,
    /// The advised part; `None` if warnings leave nothing of it.
    pub advised: Option<Advised>,
    /// Where to set it, mm; nothing while `undecided` is not empty, or where nothing known
    /// bounds it below.
    pub recommended: Option<f64>,
    /// What is missing for an error-level rule about grip: while it is, no stick-out is right.
    pub undecided: Vec<&'static str>,
    /// Stick-outs at which the whole land is filled, within the window, mm.
    pub full: Option<(f64, f64)>,
    /// Rules that would bound it, were more stated.
    pub unjudged: Vec<Unjudged>,
    /// Rules that no stick-out can keep, and that therefore bound nothing.
    pub beyond_cure: Vec<String>,
    /// The overall length that judges, mm.
    pub overall_length: f64,
}

impl Window {
    /// Its least and its greatest stick-out, mm: 0 and the tool's length where nothing binds.
    #[must_use]
    pub fn ends(&self) -> (f64, f64) {
        let least = self.min.as_ref().map_or(0.0, |end| end.value);
        let most = self.max.as_ref();
        (least, most.map_or(self.overall_length, |end| end.value))
    }

    /// Whether something is left, and less of it than setting a tool needs.
    #[must_use]
    pub fn is_narrow(&self) -> bool {
        let bounded = self.min.is_some() && self.max.is_some() && !self.is_empty();
        bounded && self.recommended.is_none() && self.undecided.is_empty()
    }

    /// Whether nothing is left.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.short_by.is_some()
    }
}
