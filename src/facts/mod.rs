//! What a tooling engineer would work out about an assembly, each fact once, with its source.
//!
//! A fact is a function of an assembly, an operation, the settings and the overrides. It is
//! computed when first asked for, and carries the fields that it came from.

mod beside;
mod best_setting;
mod clamping;
mod contact;
mod cutting;
mod description;
mod evidence;
mod fit;
mod grip;
mod holding;
mod insertion;
mod makers;
mod memo;
mod name;
mod plausibility;
mod push;
mod reach;
mod registry;
mod regrind;
mod rotating;
mod scene;
mod socket;
mod square;
mod stands;
mod stiffness;
mod torque;
mod worked_once;

pub(crate) use crate::mechanics::clamping::SETTING_ANGLE;
pub(crate) use contact::flats;
pub use evidence::{Evidence, WIDEST, evidence, formula_names};
pub use name::NameId;
pub use registry::{Fact, FactInfo, FactValue};
pub use scene::Scene;
pub use socket::{AlongBore, along_bore, why_not_along};
