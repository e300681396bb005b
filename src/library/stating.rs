//! What a column holds, once its header is understood.

use std::ops::Deref;

use super::Field;
use crate::units::Spelling;

/// What a column holds. A file may have a million columns that are not read.
#[derive(Clone, Debug, Default)]
pub(super) struct Target(Option<Box<Stating>>);

/// What a column holds that is read.
#[derive(Clone, Debug, Default)]
pub(super) struct Stating {
    /// The fields that its cells state; several where records share a property.
    pub fields: Vec<Field>,
    /// The unit that its header names.
    pub unit: Option<&'static Spelling>,
    /// Its header names a unit that is none: its bare numbers cannot be read.
    pub broken_unit: bool,
    /// What its cells say in the shop's own words, and what that means.
    pub values: Vec<(String, String)>,
}

static NOTHING: Stating = Stating {
    fields: Vec::new(),
    unit: None,
    broken_unit: false,
    values: Vec::new(),
};

impl From<Stating> for Target {
    fn from(stating: Stating) -> Target {
        Target((!stating.fields.is_empty()).then(|| Box::new(stating)))
    }
}

impl Deref for Target {
    type Target = Stating;

    fn deref(&self) -> &Stating {
        self.0.as_deref().unwrap_or(&NOTHING)
    }
}

impl Stating {
    /// Whether it states a property for several records: `collet_size` beside
    /// `nut collet_size`, which outranks it for the nut.
    pub fn is_shared(&self) -> bool {
        self.fields.len() > 1
    }
}
