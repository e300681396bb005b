//! The lists that explain names, as JSON: rules, columns and facts.

use serde_json::{Value, json};

use crate::facts::{Fact, FactValue};
use crate::library::{Kind, PROPERTIES, Property, Range, ValueType};
use crate::rulebook::{Limit, Milder, Rule, Rulebook, Template};

use super::catalogue::{corrections, limits, shared_limits, to_buy};
use super::json::Number;

/// Rules, and the shared limits that they use.
pub(crate) fn rules_json(rules: &[&Rule], book: &Rulebook) -> Value {
    let shared = shared_limits(rules, book);
    json!({
        "format": 1,
        "rules": rules.iter().map(|rule| rule_json(rule, book)).collect::<Vec<_>>(),
        "limits": shared.into_iter().map(limit_json).collect::<Vec<_>>(),
    })
}

fn rule_json(rule: &Rule, book: &Rulebook) -> Value {
    let text = |template: &Template| template.written();
    let bounds = rule.bounds.iter().map(|bound| bound.name());
    let certain = rule
        .certain
        .iter()
        .map(|case| json!({ "when": case.when.text, "despite": case.despite }));
    json!({
        "id": rule.id,
        "title": &*rule.title,
        "level": rule.level.name(),
        "off": rule.off,
        "consequence": rule.consequence.name(),
        "basis": rule.basis.name(),
        "of_operation": rule.of_operation,
        "when": rule.when.as_ref().map(|when| &when.text),
        "expect": rule.expect.as_ref().map(|expect| &expect.text),
        "message": text(&rule.message),
        "why": text(&rule.why),
        "advice": text(&rule.advice),
        "caution": text(&rule.caution),
        "not_judged": text(&rule.unjudged),
        "milder": rule.milder.iter().map(milder_json).collect::<Vec<_>>(),
        "certain": certain.collect::<Vec<_>>(),
        "bounds": bounds.collect::<Vec<_>>(),
        "binds": rule.binds,
        "corrected_by": corrections(rule).collect::<Vec<_>>(),
        "to_buy": to_buy(rule).collect::<Vec<_>>(),
        "doubts": rule.doubts,
        "limits": limits(rule, book).into_iter().map(limit_json).collect::<Vec<_>>(),
        "file": rule.file,
    })
}

fn milder_json(case: &Milder) -> Value {
    json!({
        "when": case.when.text,
        "level": case.level.name(),
        "message": case.message.as_ref().map(Template::written),
    })
}

fn limit_json(limit: &Limit) -> Value {
    let end = |end: &Option<(f64, String)>| end.as_ref().map(|(value, _)| Number(*value));
    json!({
        "name": limit.name,
        "value": Number(limit.value),
        "unit": limit.unit.symbol(),
        "basis": limit.basis.name(),
        "source": limit.source,
        "reason": limit.reason,
        "min": end(&limit.range.min),
        "max": end(&limit.range.max),
    })
}

/// The columns of these records.
pub(crate) fn columns_json(kinds: &[Kind]) -> Value {
    let columns = kinds.iter().flat_map(|kind| {
        let own = PROPERTIES.iter().filter(|property| property.kind == *kind);
        own.map(column_json)
    });
    json!({ "format": 1, "columns": columns.collect::<Vec<_>>() })
}

fn column_json(property: &Property) -> Value {
    let (value, unit, words) = match property.value {
        ValueType::Quantity(unit) => ("quantity", Some(unit.symbol()), None),
        ValueType::Word(words) => ("word", None, Some(words)),
        ValueType::Count => ("whole number", None, None),
        ValueType::Size => ("number", None, None),
        ValueType::Thread => ("thread", None, None),
        ValueType::Flag => ("yes or no", None, None),
        ValueType::Text => ("text", None, None),
        ValueType::Id => ("id", None, None),
        ValueType::Reference(_) => ("id of a part", None, None),
    };
    let refers_to = match property.value {
        ValueType::Reference(kind) => Some(kind.name()),
        _ => None,
    };
    let range = match property.range {
        Range::Positive => "positive",
        Range::NotNegative => "not negative",
        Range::Any => "any",
    };
    let is_number = matches!(
        property.value,
        ValueType::Quantity(_) | ValueType::Count | ValueType::Size
    );
    let words = words.map(|words| words.iter().map(|word| word.word).collect::<Vec<_>>());
    json!({
        "record": property.kind.name(),
        "table": property.kind.table(),
        "name": property.name,
        "symbols": property.symbols,
        "type": value,
        "unit": unit,
        "words": words,
        "refers_to": refers_to,
        "range": is_number.then_some(range),
        "needed": property.starred,
        "meaning": property.meaning,
    })
}

/// All facts.
pub(crate) fn facts_json() -> Value {
    let facts = Fact::all().map(|info| {
        let (value, unit, words) = match info.value {
            FactValue::Number(unit) => ("number", Some(unit.symbol()), None),
            FactValue::Word(words) => ("word", None, Some(words)),
            FactValue::Truth => ("yes or no", None, None),
        };
        json!({
            "name": info.name,
            "type": value,
            "unit": unit,
            "words": words,
            "of_operation": info.of_operation,
            "meaning": info.meaning,
            "source": info.source,
        })
    });
    json!({ "format": 1, "facts": facts.collect::<Vec<_>>() })
}
