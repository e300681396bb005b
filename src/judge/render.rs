//! Messages with their values, in the library's units.

use crate::rulebook::{Checked, Compared, Environment, Part, Scalar, Template, Values};
use crate::text::visible;
use crate::units::print::{self, DisplayUnits, Rounding};

/// Fills in a message. Values that the failing condition compared are printed with as many
/// decimals as keep them apart, and never rounded towards "enough".
pub(super) fn render<'v, V: Values<'v>>(
    template: &'v Template,
    environment: &Environment<'_, V>,
    compared: &[Compared],
    units: DisplayUnits,
) -> String {
    let mut text = String::new();
    for part in &template.parts {
        match part {
            Part::Text(plain) => text.push_str(plain),
            Part::Value(checked) => text.push_str(&value(checked, environment, compared, units)),
            Part::Percent(checked) => text.push_str(&percent(checked, environment)),
        }
    }
    text
}

fn value<'v, V: Values<'v>>(
    checked: &'v Checked,
    environment: &Environment<'_, V>,
    compared: &[Compared],
    units: DisplayUnits,
) -> String {
    for pair in compared {
        let [x, y] = pair.values;
        let (left, right) = print::pair(x, y, pair.unit, units);
        match &pair.sides {
            [side, _] if *side == checked.text => return left,
            [_, side] if *side == checked.text => return right,
            _ => {}
        }
    }
    match checked.evaluate(environment).value {
        None => "not known".to_owned(),
        Some(Scalar::Truth(truth)) => if truth { "yes" } else { "no" }.to_owned(),
        Some(Scalar::Text(text)) => visible(text).into_owned(),
        Some(Scalar::Number(number)) => match checked.unit() {
            Some(unit) => print::value(number / unit.coherent(), unit, units),
            None => format!("{number}"),
        },
    }
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
