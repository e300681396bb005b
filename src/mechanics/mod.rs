//! Pure formulas, one topic a file. Each states its formula, its units and its source.
//!
//! Nothing here knows a record, a rule or a file: plain numbers in, plain numbers out.

mod arc;
pub mod axial;
mod band;
pub mod bending;
pub mod clamping;
pub mod cutting;
pub mod drilling;
pub mod mouth;
pub mod reach;
pub mod rotation;
pub mod side;
