//! Messages with their values, in the library's units.

use crate::library::{SettingSet, Trace};
use crate::rulebook::{Checked, Compared, Environment, Piece, Template, Values};
use crate::text::visible;
use crate::units::Scalar;
use crate::units::print::{self, DisplayUnits, Rounding};

use super::estimate::is_estimate;

/// What stands beside an estimate.
const ESTIMATED: &str = " (estimated)";

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
) -> String {
    let mut text = String::new();
    for part in &template.parts {
        match part {
            Piece::Text(plain) => text.push_str(plain),
            Piece::Value(checked) => text.push_str(&value(checked, environment, manner)),
            Piece::Percent(checked) => text.push_str(&percent(checked, environment)),
        }
    }
    text
}

fn value<'v, V: Values<'v, Trace = Trace>>(
    checked: &'v Checked,
    environment: &Environment<'_, V>,
    manner: &Manner<'_>,
) -> String {
    let units = manner.units;
    let found = checked.evaluate(environment);
    let estimated = is_estimate(found.trace, manner.guessed);
    let mark = if estimated { ESTIMATED } else { "" };
    for pair in manner.compared {
        let [x, y] = pair.values;
        let of = |x, y| {
            if estimated {
                print::estimate_against(x, y, pair.unit, units)
            } else {
                print::pair(x, y, pair.unit, units).0
            }
        };
        match &pair.sides {
            [side, _] if *side == checked.text => return of(x, y) + mark,
            [_, side] if *side == checked.text => return of(y, x) + mark,
            [a, b] if is_difference(&checked.text, a, b) => {
                return print::difference(x, y, pair.unit, units) + mark;
            }
            [a, b] if is_difference(&checked.text, b, a) => {
                return print::difference(y, x, pair.unit, units) + mark;
            }
            _ => {}
        }
    }
    match found.value {
        None => "not known".to_owned(),
        Some(Scalar::Truth(truth)) => if truth { "yes" } else { "no" }.to_owned(),
        Some(Scalar::Word(word)) => word.word.to_owned(),
        Some(Scalar::Text(text)) => visible(text).into_owned(),
        Some(Scalar::Number(number)) => match checked.unit() {
            Some(unit) if estimated => {
                print::estimate(number / unit.coherent(), unit, units) + mark
            }
            Some(unit) => print::value(number / unit.coherent(), unit, units),
            None => format!("{number}"),
        },
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
fn percent<'v, V: Values<'v>>(checked: &'v Checked, environment: &Environment<'_, V>) -> String {
    match checked.evaluate(environment).value {
        Some(Scalar::Number(ratio)) if checked.is_limit() => print::percent(ratio, Rounding::Up),
        Some(Scalar::Number(ratio)) => print::percent(ratio, Rounding::Down),
        _ => "not known".to_owned(),
    }
}
