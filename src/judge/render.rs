//! The values of a message, each with how it is to be printed.

use crate::library::{SettingSet, Trace};
use crate::rulebook::{Checked, Compared, Environment, Piece, Template, Values};
use crate::text::visible;
use crate::units::Scalar;
use crate::units::print::{DisplayUnits, Rounding};

use super::estimate::is_estimate;
use super::made_words::{ShownValue, Words};

/// How values are printed.
pub(super) struct Manner<'c> {
    /// What the failing condition compared.
    pub compared: &'c [Compared],
    /// The library's units.
    pub units: DisplayUnits,
    /// The settings that are assumed.
    pub guessed: SettingSet,
}

/// Fills in a message. Values that the failing condition compared are printed with as many
/// decimals as keep them apart, and never rounded towards "enough". What rests on an assumed
/// friction or an estimated cut has two significant digits, or as many as keep it apart, and says
/// that it is estimated.
pub(super) fn render<'v, V: Values<'v, Trace = Trace>>(
    template: &'v Template,
    environment: &Environment<'_, V>,
    manner: &Manner<'_>,
) -> Words {
    if let Some(plain) = template.plain() {
        return Words::from(plain);
    }
    let values = template.parts.iter().filter_map(|part| match part {
        Piece::Text(_) => None,
        Piece::Value(checked) => Some(value(checked, environment, manner)),
        Piece::Percent(checked) => Some(percent(checked, environment)),
    });
    Words::filled(template, values.collect(), manner.units)
}

fn value<'v, V: Values<'v, Trace = Trace>>(
    checked: &'v Checked,
    environment: &Environment<'_, V>,
    manner: &Manner<'_>,
) -> ShownValue {
    let found = checked.evaluate(environment);
    let estimated = is_estimate(found.trace, manner.guessed);
    let compared = manner.compared.iter();
    let mut compared = compared.filter_map(|pair| of_pair(pair, &checked.text, estimated));
    if let Some(compared) = compared.next() {
        return compared;
    }
    match found.value {
        None => ShownValue::NotKnown,
        Some(Scalar::Truth(truth)) => ShownValue::Truth(truth),
        Some(Scalar::Word(word)) => ShownValue::Word(word.word),
        Some(Scalar::Text(text)) => ShownValue::Text(visible(text).into()),
        Some(Scalar::Number(number)) => match checked.unit() {
            Some(unit) => ShownValue::Quantity {
                value: number / unit.coherent(),
                unit,
                estimated,
            },
            None => ShownValue::Bare(number),
        },
    }
}

/// An expression as one side of what was compared, or what is between both.
fn of_pair(pair: &Compared, text: &str, estimated: bool) -> Option<ShownValue> {
    let [x, y] = pair.values;
    let unit = pair.unit;
    let against = |value, other| ShownValue::Against {
        value,
        other,
        unit,
        estimated,
    };
    let between = |from, less| ShownValue::Between {
        from,
        less,
        unit,
        estimated,
    };
    match &pair.sides {
        [side, _] if *side == text => Some(against(x, y)),
        [_, side] if *side == text => Some(against(y, x)),
        [a, b] if is_difference(text, a, b) => Some(between(x, y)),
        [a, b] if is_difference(text, b, a) => Some(between(y, x)),
        _ => None,
    }
}

/// Whether an expression is what is between two sides. Of a side of several terms only the first
/// of two may be one, or the second term would change its sign.
fn is_difference(text: &str, from: &str, less: &str) -> bool {
    let one_term = !less.contains([' ', '+', '-']);
    let rest = text.strip_prefix(from);
    one_term && rest.and_then(|rest| rest.strip_prefix(" - ")) == Some(less)
}

/// Never nearer to "enough" than it is: a part that is not the whole must not read "100 %", and
/// what a limit asks for must not read less than it is.
fn percent<'v, V: Values<'v>>(
    checked: &'v Checked,
    environment: &Environment<'_, V>,
) -> ShownValue {
    match checked.evaluate(environment).value {
        Some(Scalar::Number(ratio)) if checked.is_limit() => {
            ShownValue::Percent(ratio, Rounding::Up)
        }
        Some(Scalar::Number(ratio)) => ShownValue::Percent(ratio, Rounding::Down),
        _ => ShownValue::NotKnown,
    }
}
