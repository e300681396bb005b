//! What rules and shop files say, written in one way, and its SHA-256: two runs with the same hash
//! were judged by the same rules, wherever these stand and however they are laid out.
//!
//! Written is the parsed form, rule by rule in the order of their ids. The order of files and keys,
//! comments, white space between the parts of an expression and the names of files leave no mark.

use std::fmt::Write as _;

use serde_json::{Value, json};
use sha2::{Digest as _, Sha256};

use super::Layer;
use super::lexer::{Token, tokens};
use super::limit::{Limit, Sensible};
use super::rule::{Certain, Demand, Milder, Rule, Rulebook, StandsFor};
use super::template::{Piece, Template};
use super::type_check::Checked;

impl Rulebook {
    /// SHA-256 of all rules and shared limits, in hexadecimal digits.
    #[must_use]
    pub fn sha256(&self) -> String {
        let rules = self.rules.iter().map(rule);
        sha256(rules.chain(self.limits.iter().map(limit)))
    }
}

/// SHA-256 of what shop files say, in their order; none where there is no file.
#[must_use]
pub fn layers_sha256(layers: &[Layer]) -> Option<String> {
    (!layers.is_empty()).then(|| sha256(layers.iter().map(Layer::parsed)))
}

/// SHA-256 of values, a line each, in hexadecimal digits.
fn sha256(values: impl Iterator<Item = Value>) -> String {
    let mut hash = Sha256::new();
    for value in values {
        hash.update(value.to_string());
        hash.update("\n");
    }
    let mut hex = String::new();
    for byte in hash.finalize() {
        // Writing to a String cannot fail.
        let _ = write!(hex, "{byte:02x}");
    }
    hex
}

/// One rule. Every field is named, so that none that is added later is forgotten.
fn rule(rule: &Rule) -> Value {
    let Rule {
        id,
        file: _,
        title,
        level,
        basis,
        consequence,
        beside,
        bounds,
        binds,
        when,
        expect,
        message,
        why,
        advice,
        without_moving,
        besides,
        where_none,
        caution,
        unjudged,
        milder,
        certain,
        limits,
        // It follows from the names that the rule uses.
        of_operation: _,
        off,
        stands_for,
        cured_by,
        demands,
        doubts,
    } = rule;
    let texts = [
        message,
        why,
        advice,
        without_moving,
        besides,
        caution,
        unjudged,
    ];
    json!({
        "rule": [id, &**title, level.name(), basis.name(), consequence.name(), beside, off],
        "bounds": bounds.iter().map(|bound| bound.name()).collect::<Vec<_>>(),
        "binds": binds,
        "when": when.as_ref().map(expression),
        "expect": expect.as_ref().map(expression),
        "words": texts.map(words),
        "where_none": where_none,
        "milder": milder.iter().map(case).collect::<Vec<_>>(),
        "certain": certain.iter().map(sure).collect::<Vec<_>>(),
        "limits": limits.iter().map(limit).collect::<Vec<_>>(),
        "stands_for": stands(*stands_for),
        "cured_by": cured_by.iter().map(|by| format!("{by:?}")).collect::<Vec<_>>(),
        "demands": demands.iter().map(demand).collect::<Vec<_>>(),
        "doubts": doubts,
    })
}

fn case(milder: &Milder) -> Value {
    let Milder {
        when,
        level,
        message,
        why,
        advice,
    } = milder;
    let said = [message, why, advice].map(|text| text.as_ref().map(words));
    json!([expression(when), level.name(), said])
}

fn sure(certain: &Certain) -> Value {
    let Certain { when, despite } = certain;
    json!([expression(when), despite])
}

fn demand(demand: &Demand) -> Value {
    let Demand {
        property: _,
        name,
        compares,
        number,
    } = demand;
    json!([name, compares.sign(), expression(number)])
}

fn stands(stands_for: StandsFor) -> Value {
    let StandsFor {
        grip,
        reach,
        stop,
        full_grip,
        nonsense,
    } = stands_for;
    json!([grip, reach, stop, full_grip, nonsense])
}

fn limit(limit: &Limit) -> Value {
    let Limit {
        name,
        value,
        written,
        unit,
        basis,
        reason,
        source,
        stricter,
        range: Sensible { min, max },
    } = limit;
    let stricter = format!("{stricter:?}");
    json!({
        "limit": [name, value, written, unit.symbol(), basis.name(), reason, source, stricter],
        "range": [min, max],
    })
}

/// An expression: its tokens, a space behind each.
fn expression(checked: &Checked) -> String {
    let Ok(tokens) = tokens(&checked.text) else {
        // What was read once can be read again.
        return checked.text.clone();
    };
    let mut written = String::new();
    for (token, _) in tokens {
        // Writing to a String cannot fail.
        let _ = match token {
            Token::Number(value, None) => write!(written, "{value} "),
            Token::Number(value, Some(unit)) => write!(written, "{value} {} ", unit.symbol()),
            Token::Text(text) => write!(written, "{text:?} "),
            Token::Name(name) => write!(written, "{name} "),
            Token::Sign(sign) => write!(written, "{sign} "),
            Token::End => Ok(()),
        };
    }
    written
}

fn words(template: &Template) -> Value {
    let parts = template.parts.iter().map(|part| match part {
        Piece::Text(text) => json!(text),
        Piece::Value(checked) => json!([expression(checked)]),
        Piece::Percent(checked) => json!([expression(checked), "%"]),
    });
    parts.collect()
}
