//! What a rule demands of a part to buy, as a number.

use crate::facts::{NameId, Scene};
use crate::library::{Field, Reckoned};
use crate::rulebook::{Compares, Demand};
use crate::units::{Scalar, Unit};

use super::judgement::{Judge, SceneValues};
use super::names::meant;

impl Judge<'_> {
    /// What rule number `index` demands on a scene, and of which property, in the property's
    /// unit; whatever lies in the ranges of what nobody states. `None` where it is not known.
    #[must_use]
    pub fn demanded(
        &self,
        index: usize,
        demand: &Demand,
        scene: &Scene<'_>,
    ) -> Option<(Field, f64)> {
        let Some(NameId::Field(field)) = meant(demand.property) else {
            return None;
        };
        let number = |scene: &Scene<'_>| {
            let values = SceneValues(scene);
            let environment = self.environment(index, &values);
            let found = demand.number.evaluate(&environment);
            let unit = demand.number.unit().map_or(1.0, Unit::coherent);
            let value = match found.value {
                Some(Scalar::Number(number)) => Some(number / unit),
                _ => None,
            };
            Reckoned {
                value,
                trace: found.trace,
            }
        };
        let found = match demand.compares {
            Compares::AtMost => scene.at_least(number),
            Compares::AtLeast | Compares::Equals => scene.at_most(number),
        };
        Some((field, found.value?))
    }
}
