//! The names that rules may use: facts first, then properties.

use crate::facts::{Fact, FactValue, NameId};
use crate::input::FAULT_KINDS;
use crate::library::{Field, PROPERTIES, Property, Provenance, ValueType};
use crate::rulebook::{Compares, Names, Outside, TraceLike, Type};
use crate::units::Unit;

/// Facts and properties, as rules name them.
#[derive(Clone, Copy, Debug, Default)]
pub struct VocabularyNames;

/// What the rulebook's id of a name stands for; `None` for an id that [`VocabularyNames`] never
/// gave out.
pub(super) fn meant(id: u32) -> Option<NameId> {
    NameId::numbered(usize::try_from(id).ok()?)
}

/// The rulebook's id of a name.
fn id_of(name: NameId) -> u32 {
    u32::try_from(name.number()).unwrap_or(u32::MAX)
}

/// What advice can say of a part to buy.
const BUYS: [(Field, Compares); 7] = [
    (Field::ChipFluteLength, Compares::AtLeast),
    (Field::DepthOfCutMax, Compares::AtLeast),
    (Field::OverallLength, Compares::AtLeast),
    (Field::ShankLength, Compares::AtLeast),
    (Field::NutOuterDiameter, Compares::AtMost),
    (Field::BoreDiameter, Compares::Equals),
    (Field::ColletDriveSquare, Compares::Equals),
];

fn type_of(property: &Property) -> Type {
    match property.value {
        ValueType::Quantity(unit) => Type::Number(unit),
        ValueType::Count | ValueType::Size => Type::Number(Unit::One),
        ValueType::Word(words) => Type::Word(words.iter().map(|word| word.word).collect()),
        ValueType::Flag => Type::Truth,
        ValueType::Thread | ValueType::Text | ValueType::Id | ValueType::Reference(_) => Type::Text,
    }
}

/// Properties by a bare or qualified name.
fn properties(name: &str) -> impl Iterator<Item = &'static Property> {
    let called = move |property: &&Property| property.name == name || property.qualified == name;
    PROPERTIES.iter().filter(called)
}

impl Names for VocabularyNames {
    fn find(&self, name: &str) -> Option<Outside> {
        if let Some(info) = Fact::all().find(|info| info.name == name) {
            return Some(Outside {
                id: id_of(NameId::Fact(info.fact)),
                of_type: match info.value {
                    FactValue::Number(unit) => Type::Number(unit),
                    FactValue::Word(words) => Type::Word(words.to_vec()),
                    FactValue::Truth => Type::Truth,
                },
                of_operation: info.of_operation,
            });
        }
        let mut found = properties(name);
        let property = found.next()?;
        if found.next().is_some() {
            return None;
        }
        Some(Outside {
            id: id_of(NameId::Field(property.field)),
            of_type: type_of(property),
            of_operation: property.kind == crate::library::Kind::Operation,
        })
    }

    fn all(&self) -> Vec<String> {
        let facts = Fact::all().map(|info| info.name);
        let fields = PROPERTIES.iter().map(|property| property.field.short());
        facts.chain(fields).map(str::to_owned).collect()
    }

    fn ambiguous(&self, name: &str) -> Option<String> {
        let all: Vec<&str> = properties(name)
            .map(|property| property.qualified)
            .collect();
        (all.len() > 1).then(|| {
            format!(
                "several records have `{name}`; write one of: {}",
                all.join(", ")
            )
        })
    }

    fn buys(&self, id: u32, compares: Compares) -> bool {
        matches!(meant(id), Some(NameId::Field(field)) if BUYS.contains(&(field, compares)))
    }

    fn fault(&self, kind: &str) -> Option<&'static [&'static str]> {
        FAULT_KINDS
            .iter()
            .find(|(known, _)| *known == kind)
            .map(|(_, words)| *words)
    }
}

impl<P: Provenance> TraceLike for P {
    fn union(self, other: P) -> P {
        Provenance::union(self, other)
    }

    fn presence(self) -> P {
        Provenance::presence(self)
    }
}
