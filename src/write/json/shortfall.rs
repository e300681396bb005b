//! What a finding measures.

use schemars::JsonSchema;
use serde::Serialize;

use crate::sheet::{Shortfall, Wanted};

use super::notation::{Number, UnitName};

/// What the rule compares and does not find met: how much there is, and how much is wanted.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "Shortfall")]
pub(in crate::write) struct Lacking<'a> {
    /// What is compared, as the rule writes it.
    what: &'a str,
    /// How much there is, in `unit`.
    value: Number,
    /// How much is wanted, in `unit`.
    needed: Number,
    /// The unit of both.
    unit: UnitName,
    /// On which side of `needed` the rule is met.
    #[schemars(extend("enum" = Wanted::ALL.map(Wanted::name)))]
    wanted: &'static str,
}

impl<'a> Lacking<'a> {
    pub(in crate::write) fn of(shortfall: &'a Shortfall) -> Lacking<'a> {
        Lacking {
            what: &shortfall.what,
            value: Number(shortfall.value),
            needed: Number(shortfall.needed),
            unit: UnitName::from(shortfall.unit),
            wanted: shortfall.wanted.name(),
        }
    }
}
