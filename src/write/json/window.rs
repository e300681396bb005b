//! A stick-out window. Lengths are in mm, whatever the library's units.

use schemars::JsonSchema;
use serde::Serialize;

use crate::sheet::{Bound, End, Unjudged, Window};

use super::notation::{FieldName, Number, RuleId, fields};

/// The stick-outs that the rules leave, mm; null where no rule bounds an end.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "Window")]
pub(super) struct Limits<'a> {
    /// The least stick-out that no error-level rule forbids.
    min: Option<Number>,
    /// The greatest; below `min` if nothing is left.
    max: Option<Number>,
    /// The rule that binds the lower end.
    min_rule: Option<RuleId<'a>>,
    /// The rule that binds the upper end.
    max_rule: Option<RuleId<'a>>,
    /// The operation that asks for the lower end, where its rule is on one.
    min_operation: Option<&'a str>,
    /// The operation that asks for the upper end.
    max_operation: Option<&'a str>,
    /// By how much the ends miss each other, if nothing is left.
    short_by: Option<Number>,
    /// Rules that would bound it, were more stated.
    unjudged: Vec<Waiting<'a>>,
    /// Where to set the tool; null while something that decides is not known.
    recommended: Option<Number>,
    /// What warnings leave of it; null if that is nothing.
    advised: Option<Ends<'a>>,
    /// Further stretches that no error-level rule forbids.
    others: Vec<Stretch>,
    /// What would bind each end next.
    next: Ends<'a>,
    /// What each end rests on that is only assumed: properties, and limits from memory.
    assumed: Assumed<'a>,
    /// Why the model of the rule that binds an end says nothing beyond it, where it ends there.
    model_ends: ModelEnds,
}

/// Two ends with the rules that bind them.
#[derive(Serialize, JsonSchema)]
struct Ends<'a> {
    /// The least stick-out, mm.
    min: Option<Number>,
    /// The greatest, mm.
    max: Option<Number>,
    /// The rule that binds the lower end.
    min_rule: Option<RuleId<'a>>,
    /// The rule that binds the upper end.
    max_rule: Option<RuleId<'a>>,
}

/// A rule that would bound an end.
#[derive(Serialize, JsonSchema)]
struct Waiting<'a> {
    /// The rule.
    rule: RuleId<'a>,
    /// The end that it would bound.
    #[schemars(extend("enum" = [Bound::StickOutMin.name(), Bound::StickOutMax.name()]))]
    end: &'static str,
    /// What is missing.
    missing: Vec<FieldName>,
}

/// A stretch of stick-outs, mm.
#[derive(Serialize, JsonSchema)]
struct Stretch {
    min: Number,
    max: Number,
}

/// What the ends rest on that is only assumed.
#[derive(Serialize, JsonSchema)]
struct Assumed<'a> {
    min: &'a [&'static str],
    max: &'a [&'static str],
}

/// Why models end, in words.
#[derive(Serialize, JsonSchema)]
struct ModelEnds {
    min: Option<&'static str>,
    max: Option<&'static str>,
}

impl<'a> Limits<'a> {
    pub(super) fn of(window: &'a Window) -> Limits<'a> {
        let (min, max) = (window.min.as_ref(), window.max.as_ref());
        let advised = window.advised.as_ref();
        let advised = advised.map(|advised| Ends::of(advised.min.as_ref(), advised.max.as_ref()));
        let others = window.others.iter();
        let others = others.map(|(min, max)| Stretch {
            min: Number(*min),
            max: Number(*max),
        });
        Limits {
            min: value(min),
            max: value(max),
            min_rule: rule(min),
            max_rule: rule(max),
            min_operation: operation(min),
            max_operation: operation(max),
            short_by: window.short_by.map(Number),
            unjudged: window.unjudged.iter().map(Waiting::of).collect(),
            recommended: window.recommended.map(Number),
            advised,
            others: others.collect(),
            next: Ends::of(window.next_min.as_ref(), window.next_max.as_ref()),
            assumed: Assumed {
                min: assumed(min),
                max: assumed(max),
            },
            model_ends: ModelEnds {
                min: min.and_then(|end| end.model_ends),
                max: max.and_then(|end| end.model_ends),
            },
        }
    }
}

impl<'a> Ends<'a> {
    fn of(min: Option<&'a End>, max: Option<&'a End>) -> Ends<'a> {
        Ends {
            min: value(min),
            max: value(max),
            min_rule: rule(min),
            max_rule: rule(max),
        }
    }
}

impl<'a> Waiting<'a> {
    fn of(unjudged: &'a Unjudged) -> Waiting<'a> {
        Waiting {
            rule: RuleId(&unjudged.rule),
            end: unjudged.bound.name(),
            missing: fields(&unjudged.missing),
        }
    }
}

fn value(end: Option<&End>) -> Option<Number> {
    end.map(|end| Number(end.value))
}

fn rule(end: Option<&End>) -> Option<RuleId<'_>> {
    end.map(|end| RuleId(&end.rule))
}

fn operation(end: Option<&End>) -> Option<&str> {
    end?.operation.as_deref()
}

fn assumed(end: Option<&End>) -> &[&'static str] {
    end.map_or(&[], |end| &end.assumed)
}
