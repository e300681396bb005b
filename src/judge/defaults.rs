//! What of a library rests on the shop's own values for what no record states.

use std::collections::{BTreeMap, BTreeSet};

use crate::library::{DEFAULTED, Field, Library, OperationRef, Overrides, ValueType, View};
use crate::units::{Scalar, Unit, print};

/// Every value that a shop's `[default]` stands in for, with how many assemblies rest on it:
/// `operation.clearance 1.0 mm on 9 tools`. In a fixed order.
#[must_use]
pub fn defaults_in_use(library: &Library) -> Vec<String> {
    if library.own.defaults.is_empty() {
        return Vec::new();
    }
    let mut counts: BTreeMap<(Field, String), usize> = BTreeMap::new();
    for at in 0..library.assemblies.len() {
        for one in of_assembly(library, at) {
            *counts.entry(one).or_default() += 1;
        }
    }
    let shown = counts.into_iter().map(|((field, value), count)| {
        let tools = if count == 1 { "tool" } else { "tools" };
        format!("{} {value} on {count} {tools}", field.qualified())
    });
    shown.collect()
}

/// Fields of one assembly and its operations that rest on a default, with its value.
fn of_assembly(library: &Library, at: usize) -> BTreeSet<(Field, String)> {
    let mut found = BTreeSet::new();
    let Some(assembly) = library.assemblies.get(at) else {
        return found;
    };
    let overrides = Overrides::default();
    let jobs = assembly.operations.iter().copied();
    let jobs: Vec<Option<OperationRef>> = jobs.map(Some).chain([None]).collect();
    for operation in jobs {
        let view = View::new(library, assembly, operation, &overrides);
        let constants = library.own.defaults.constants.iter();
        let constants = constants.map(|constant| constant.field);
        for field in DEFAULTED.into_iter().chain(constants) {
            if let Some(value) = view.shop_default(field).and_then(|found| found.value) {
                found.insert((field, shown(field, value, library)));
            }
        }
    }
    found
}

fn shown(field: Field, value: Scalar<&str>, library: &Library) -> String {
    match (value, field.property().value) {
        (Scalar::Number(number), ValueType::Quantity(unit)) => {
            print::value(number, unit, library.units)
        }
        (Scalar::Number(number), _) => print::value(number, Unit::One, library.units),
        (Scalar::Word(word), _) => word.word.to_owned(),
        (Scalar::Text(text), _) => text.to_owned(),
        (Scalar::Truth(truth), _) => if truth { "yes" } else { "no" }.to_owned(),
    }
}
