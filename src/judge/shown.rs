//! Facts and properties as they are shown.

use crate::facts::{Fact, FactInfo, FactValue, Scene};
use crate::library::{Field, Reckoned, SettingSet, Trace};
use crate::units::{Scalar, Unit};

use super::estimate::is_estimate;
use super::finding::FactShown;
use super::not_known::unlisted;
use super::report::{AssemblyFacts, OperationFacts};

/// All facts of an assembly and its operations.
pub(super) fn all_facts(
    base: &Scene<'_>,
    operations: &[Scene<'_>],
    guessed: SettingSet,
) -> AssemblyFacts {
    let of = |scene: &Scene<'_>, wanted: bool| {
        let facts = Fact::all().filter(|info| info.of_operation == wanted);
        facts.map(|info| fact_shown(info, scene, guessed)).collect()
    };
    AssemblyFacts {
        tool_number: base.view.assembly.tool_number().map(str::to_owned),
        assembly: base.view.assembly.id().map(str::to_owned),
        facts: of(base, false),
        operations: operations
            .iter()
            .map(|scene| OperationFacts {
                operation: scene.view.operation_name().unwrap_or("").to_owned(),
                facts: of(scene, true),
            })
            .collect(),
    }
}

pub(super) fn fact_shown(info: &FactInfo, scene: &Scene<'_>, guessed: SettingSet) -> FactShown {
    let unit = match info.value {
        FactValue::Number(unit) => Some(unit),
        _ => None,
    };
    let found = scene.fact(info.fact);
    let unlisted = if found.is_known() {
        Vec::new()
    } else {
        unlisted(&scene.view, found.trace.missing)
    };
    let shown = FactShown {
        unlisted,
        outside: scene.outside(info.fact),
        ..shown(info.name, unit, found, guessed)
    };
    shown.over(scene.range(info.fact), found.trace)
}

/// A property as it is shown.
pub(super) fn field_shown(
    name: &str,
    unit: Option<Unit>,
    field: Field,
    scene: &Scene<'_>,
    guessed: SettingSet,
) -> FactShown {
    let found = scene.view.datum(field);
    shown(name, unit, found, guessed).over(scene.view.range(field), found.trace)
}

impl FactShown {
    /// The same as a range, where what nobody states makes it one.
    fn over(self, range: Option<(f64, f64)>, trace: Trace) -> FactShown {
        let Some((low, high)) = range.filter(|(low, high)| low < high) else {
            return self;
        };
        FactShown {
            value: None,
            range: Some((low, high)),
            assumed: true,
            missing: trace.ranged.iter().map(Field::qualified).collect(),
            ..self
        }
    }
}

/// A value with its name, its unit and what it rests on; `guessed` are the settings from memory.
fn shown(
    name: &str,
    unit: Option<Unit>,
    found: Reckoned<Scalar<&str>>,
    guessed: SettingSet,
) -> FactShown {
    let missing = found.trace.missing.iter().map(Field::qualified);
    FactShown {
        estimated: is_estimate(found.trace, guessed),
        name: name.to_owned(),
        value: found.value.map(Scalar::owned),
        range: None,
        unit,
        assumed: !found.trace.assumed.is_empty()
            || !found.trace.settings.common(guessed).is_empty(),
        from: found.trace.used.iter().map(Field::short).collect(),
        missing: if found.is_known() {
            Vec::new()
        } else {
            missing.collect()
        },
        unlisted: Vec::new(),
        outside: None,
    }
}
