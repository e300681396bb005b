//! What a rule may name, and what a scene keeps: facts first, then properties, in one numbering.

use crate::library::{Field, PROPERTIES};

use super::registry::Fact;

/// A fact or a property, by its place in one numbering.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NameId {
    /// A fact.
    Fact(Fact),
    /// A property.
    Field(Field),
}

impl NameId {
    /// How many there are.
    pub const COUNT: usize = Fact::COUNT + Field::COUNT;

    /// Its number, below [`NameId::COUNT`].
    #[must_use]
    pub const fn number(self) -> usize {
        match self {
            NameId::Fact(fact) => fact as usize,
            NameId::Field(field) => Fact::COUNT + field as usize,
        }
    }

    /// The name of a number; `None` for one that is not below [`NameId::COUNT`].
    #[must_use]
    pub fn numbered(number: usize) -> Option<NameId> {
        match number.checked_sub(Fact::COUNT) {
            None => Fact::all().nth(number).map(|info| NameId::Fact(info.fact)),
            Some(field) => PROPERTIES
                .get(field)
                .map(|property| NameId::Field(property.field)),
        }
    }
}
