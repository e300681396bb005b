//! What a finding is today, as an entry of a shop file states it.

use crate::library::{Assembly, Field, Form, Kind, Library, Overrides, PROPERTIES, View};
use crate::rulebook::Was;
use crate::units::print::{self, DisplayUnits};
use crate::units::{Scalar, Unit};

use super::super::finding::Finding;
use super::super::shortfall::{Shortfall, Wanted};
use super::super::write_up::field_unit;
use super::since::ids;

/// What is accepted if a finding of an assembly is accepted as it is.
#[must_use]
pub fn was(finding: &Finding, library: &Library, assembly: &Assembly) -> Was {
    let units = library.units;
    let shortfall = finding.shortfall.as_ref();
    let torque = assembly.record.value(Field::NutTorque);
    let torque = torque.and_then(|torque| written(Field::NutTorque, torque, units));
    // A row that states its parts at once names none, and says nothing of them.
    let named = |id: Option<String>| match library.form {
        Form::Flat | Form::Sheet => id,
        Form::Folder | Form::Xml | Form::Workbook => Some(id.unwrap_or_default()),
    };
    Was {
        value: shortfall.map(|now| value(now, units)),
        of: shortfall.map(|now| now.what.clone()),
        ratio: shortfall.and_then(ratio),
        parts: ids(library, assembly).map(named),
        nut_torque: Some(torque.unwrap_or_default()),
        values: values(finding, library, assembly),
    }
}

/// The value, rounded towards worse: what is written must not condemn what it was written for.
fn value(now: &Shortfall, units: DisplayUnits) -> String {
    let way = match now.wanted {
        Wanted::AtLeast => print::Rounding::Down,
        Wanted::Equal if now.value < now.needed => print::Rounding::Down,
        Wanted::AtMost | Wanted::Equal => print::Rounding::Up,
        Wanted::Other => print::Rounding::Nearest,
    };
    print::finely(now.value, now.unit, way, units)
}

/// How much of what is needed it is, rounded towards worse.
fn ratio(now: &Shortfall) -> Option<f64> {
    /// Parts of one that are kept.
    const PARTS: f64 = 1e4;
    let ratio = now.value / now.needed * PARTS;
    let rounded = match now.wanted {
        Wanted::AtLeast => ratio.floor(),
        Wanted::Equal if now.value < now.needed => ratio.floor(),
        Wanted::AtMost | Wanted::Equal => ratio.ceil(),
        Wanted::Other => return None,
    };
    (now.needed > 0.0 && rounded.is_finite()).then_some(rounded / PARTS)
}

/// What the operation of a finding states, free text aside.
fn values(finding: &Finding, library: &Library, assembly: &Assembly) -> Vec<(String, String)> {
    let as_it_is = Overrides::default();
    let view = |operation| -> View<'_> { View::new(library, assembly, Some(operation), &as_it_is) };
    let wanted = finding.operation.as_deref();
    let mut operations = assembly.operations.iter().copied();
    let own = operations.find(|one| view(*one).operation_name() == wanted);
    let Some(own) = own.filter(|_| wanted.is_some()) else {
        return Vec::new();
    };
    let view = view(own);
    let of_operation = PROPERTIES.iter().filter(|one| one.kind == Kind::Operation);
    let stated = of_operation.filter_map(|property| {
        let value = view.entry(property.field)?.value;
        let text = written(property.field, value, library.units)?;
        Some((property.name.to_owned(), text))
    });
    stated.collect()
}

/// A value as an entry writes it; none for free text, which decides nothing.
fn written(field: Field, value: Scalar<&str>, units: DisplayUnits) -> Option<String> {
    match value {
        Scalar::Number(number) => {
            let unit = field_unit(field).unwrap_or(Unit::One);
            Some(print::finely(number, unit, print::Rounding::Nearest, units))
        }
        Scalar::Word(word) => Some(word.word.to_owned()),
        Scalar::Truth(truth) => Some(if truth { "yes" } else { "no" }.to_owned()),
        Scalar::Text(_) => None,
    }
}
