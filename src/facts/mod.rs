//! What a tooling engineer would work out about an assembly, each fact once, with its source.
//!
//! A fact is a function of an assembly, an operation, the settings and the overrides. It is
//! computed when first asked for, and carries the fields that it came from.

mod described;
mod grip;
mod makers;
mod reach;
mod records;
mod registry;
mod scene;
mod shape;
mod spare;
mod torque;

pub use registry::{Fact, FactInfo, FactValue};
pub use scene::Scene;
