//! What has changed since something was accepted.

use crate::library::{Assembly, Field, Kind, Library, Overrides, View};
use crate::rulebook::{Accept, PARTS, Tolerance};
use crate::text::quoted;
use crate::units::print::{self, DisplayUnits};
use crate::units::{self, Decimal, Scalar, Spelling, Unit};

use super::super::outcome::Outcome;
use super::super::shortfall::{Shortfall, Wanted};
use super::super::write_up::field_unit;
use super::then::{property, read};
use super::{AtIssue, Terming};

/// Why an entry no longer counts; empty if it does.
pub(super) fn since(accept: &Accept, subject: &AtIssue<'_>, terming: Terming) -> Vec<String> {
    let mut why = Vec::new();
    why.extend(over(accept, terming));
    why.extend(worse(accept, subject, terming.tolerance));
    why.extend(parts(accept, subject));
    why.extend(torque(accept, subject, terming.tolerance));
    why.extend(values(accept, subject, terming.tolerance));
    why
}

/// That its last day has passed, or is further off than the plant permits.
fn over(accept: &Accept, terming: Terming) -> Option<String> {
    let left = accept.until?.days_after(terming.today);
    if left < 0 {
        return Some("that day has passed".to_owned());
    }
    let longest = terming.terms.longest.filter(|longest| left > *longest)?;
    Some(format!(
        "that is {left} days off, and the plant permits {longest}"
    ))
}

/// The value that was accepted, in the unit of what is measured now.
fn then(accept: &Accept, unit: Unit) -> Option<Result<f64, ()>> {
    let written = accept.was.value.as_ref()?;
    let one = Spelling::find(Unit::One.symbol(), Unit::One);
    let default = one.filter(|_| unit == Unit::One);
    let value = units::read(written, unit, default, Decimal::Point);
    Some(value.map_err(drop))
}

/// What was accepted, for people: `21.0 mm of 26.7 mm`.
pub(super) fn at(accept: &Accept, subject: &AtIssue<'_>) -> Option<String> {
    let units = subject.units();
    let ratio = accept.was.ratio;
    let unit = subject.shortfall.map(|shortfall| shortfall.unit);
    let value = unit.and_then(|unit| Some((then(accept, unit)?.ok()?, unit)));
    match (value, ratio) {
        (Some((value, unit)), Some(ratio)) if ratio > 0.0 => {
            let value_text = print::value(value, unit, units);
            let needed = print::value(value / ratio, unit, units);
            Some(format!("{value_text} of {needed}"))
        }
        (Some((value, unit)), _) => Some(print::value(value, unit, units)),
        (None, _) => accept
            .was
            .value
            .as_ref()
            .map(|text| quoted(text).into_owned()),
    }
}

/// What is worse than it was: the value, or its share of what is needed.
fn worse(accept: &Accept, subject: &AtIssue<'_>, tolerance: Tolerance) -> Option<String> {
    if !accept.was.states_value() {
        return None;
    }
    let Some(now) = subject.shortfall else {
        let why = match subject.outcome {
            Outcome::NotJudged => "it is not judged now",
            _ => "its value is not known now",
        };
        return Some(why.to_owned());
    };
    if let Some(of) = accept.was.of.as_ref().filter(|of| **of != now.what) {
        let of = quoted(of);
        return Some(format!("it is about {} now, not {of}", now.what));
    }
    let units = subject.units();
    let near = near(now, tolerance);
    let then = match then(accept, now.unit) {
        Some(Err(())) => return Some("that does not measure this and accepts nothing".to_owned()),
        Some(Ok(then)) => Some(then),
        None => None,
    };
    if let Some(then) = then.filter(|then| is_worse(now.wanted, *then, now.value, now.needed, near))
    {
        let [_, value] = apart(then, now, units);
        return Some(format!("it is {value} now"));
    }
    let ratio = accept.was.ratio.filter(|_| now.needed > 0.0)?;
    let slack = near / now.needed;
    let worse = is_worse(now.wanted, ratio, now.value / now.needed, 1.0, slack);
    let value = print::value(now.value, now.unit, units);
    let needed = print::value(now.needed, now.unit, units);
    worse.then(|| format!("it is {value} of {needed} now"))
}

/// Whether a value is further from what is wanted than it was.
fn is_worse(wanted: Wanted, then: f64, now: f64, needed: f64, near: f64) -> bool {
    match wanted {
        Wanted::AtLeast => now < then - near,
        Wanted::AtMost => now > then + near,
        Wanted::Equal => (now - needed).abs() > (then - needed).abs() + near,
        // What must differ and does not is as bad as it can be.
        Wanted::Other => false,
    }
}

/// How far two values may lie apart and be equal.
fn near(now: &Shortfall, tolerance: Tolerance) -> f64 {
    match now.unit {
        Unit::Mm => tolerance.length + 1e-9,
        _ => tolerance.relative * now.value.abs().max(now.needed.abs()),
    }
}

/// What was and what is, with as many decimals as keep them apart.
fn apart(then: f64, now: &Shortfall, units: DisplayUnits) -> [String; 2] {
    let plain = [then, now.value].map(|value| print::value(value, now.unit, units));
    if plain.first() != plain.last() {
        return plain;
    }
    let (then, value) = print::pair(then, now.value, now.unit, units);
    [then, value]
}

/// Which parts are others now.
fn parts(accept: &Accept, subject: &AtIssue<'_>) -> Vec<String> {
    let now = ids(subject.library, subject.assembly);
    let each = PARTS.iter().zip(accept.was.parts.iter().zip(&now));
    let exchanged = each.filter_map(|(name, (then, now))| {
        let then = then.as_deref()?;
        let now = now.as_deref().unwrap_or_default();
        (then != now).then(|| replaced(&format!("the {name}"), &tick(then), &tick(now)))
    });
    exchanged.collect()
}

/// Ids of cutter, collet, nut and holder.
pub(super) fn ids(library: &Library, assembly: &Assembly) -> [Option<String>; PARTS.len()] {
    let as_it_is = Overrides::default();
    let view: View<'_> = View::new(library, assembly, None, &as_it_is);
    let named = |field| assembly.record.text(field).map(str::to_owned);
    let [cutter, collet, nut, holder] = Kind::PARTS.map(|kind| {
        let id = Field::id_of(kind)?;
        view.part(kind)?.text(id).map(str::to_owned)
    });
    [
        cutter.or_else(|| named(Field::CutterOf)),
        collet.or_else(|| named(Field::ColletOf)),
        nut.or_else(|| named(Field::NutOf)),
        holder.or_else(|| named(Field::HolderOf)),
    ]
}

fn tick(text: &str) -> String {
    if text.is_empty() {
        String::new()
    } else {
        format!("`{}`", quoted(text))
    }
}

/// `the cutter is `A` now, not `B``; either may be none.
fn replaced(what: &str, then: &str, now: &str) -> String {
    match (then, now) {
        ("", now) => format!("{what} is {now} now; none was stated then"),
        (then, "") => format!("{what} is not stated now; it was {then}"),
        (then, now) => format!("{what} is {now} now, not {then}"),
    }
}

fn torque(accept: &Accept, subject: &AtIssue<'_>, tolerance: Tolerance) -> Option<String> {
    let then = accept.was.nut_torque.as_deref()?;
    let now = subject.assembly.record.value(Field::NutTorque);
    difference(
        "nut_torque",
        "the tightening torque",
        then,
        now,
        subject,
        tolerance,
    )
}

fn values(accept: &Accept, subject: &AtIssue<'_>, tolerance: Tolerance) -> Vec<String> {
    if accept.was.values.is_empty() {
        return Vec::new();
    }
    let as_it_is = Overrides::default();
    let name = subject.operation.or(accept.operation.as_deref());
    let operation = subject.assembly.operations.iter().find(|operation| {
        let view: View<'_> = View::new(
            subject.library,
            subject.assembly,
            Some(**operation),
            &as_it_is,
        );
        view.operation_name() == name
    });
    let view: View<'_> = View::new(
        subject.library,
        subject.assembly,
        operation.copied(),
        &as_it_is,
    );
    let changed = accept.was.values.iter().filter_map(|(name, then)| {
        let now = view.entry(property(name)?.field).map(|entry| entry.value);
        difference(name, name, then, now, subject, tolerance)
    });
    changed.collect()
}

/// Stated values that differ by no more than this part of them are one, in two units.
const SAME: f64 = 0.005;

/// What a value was and is, where that is not the same.
fn difference(
    name: &str,
    called: &str,
    then: &str,
    now: Option<Scalar<&str>>,
    subject: &AtIssue<'_>,
    tolerance: Tolerance,
) -> Option<String> {
    let property = property(name)?;
    let then = (!then.is_empty())
        .then(|| read(property, then).ok())
        .flatten();
    let equal = match (then, now) {
        (None, None) => true,
        (Some(Scalar::Number(then)), Some(Scalar::Number(now))) => {
            let near = SAME * then.abs().max(now.abs());
            let near = match field_unit(property.field) {
                // A feed of a few hundredths is no length to set a tool by.
                Some(Unit::Mm) => near.min(tolerance.length),
                _ => near,
            };
            (then - now).abs() <= near + 1e-9
        }
        (Some(then), Some(now)) => then.is(now),
        (None, Some(_)) | (Some(_), None) => false,
    };
    let shown = |value: Option<Scalar<&str>>| match value {
        None => String::new(),
        Some(Scalar::Number(number)) => {
            let unit = field_unit(property.field).unwrap_or(Unit::One);
            print::value(number, unit, subject.units())
        }
        Some(Scalar::Truth(truth)) => if truth { "yes" } else { "no" }.to_owned(),
        Some(text) => tick(text.text().unwrap_or_default()),
    };
    (!equal).then(|| replaced(called, &shown(then), &shown(now)))
}
