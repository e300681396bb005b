//! Pure formulas, one topic a file. Each states its formula, its units and its source.
//!
//! Nothing here knows a record, a rule or a file: plain numbers in, plain numbers out.

mod arc;
pub mod axial;
mod band;
pub mod bending;
mod by_name;
pub mod clamping;
pub mod cutting;
pub mod drilling;
pub mod mouth;
pub mod reach;
pub mod rotation;
pub mod side;
mod socket_wall;
pub mod square;

pub(crate) use by_name::{Formula, Given};

/// The formulas that rows of evidence name, by topic.
pub(crate) fn formulas() -> impl Iterator<Item = &'static Formula> {
    let topics = [
        axial::FORMULAS,
        bending::FORMULAS,
        clamping::FORMULAS,
        cutting::FORMULAS,
        drilling::FORMULAS,
        mouth::FORMULAS,
        reach::FORMULAS,
        rotation::FORMULAS,
        side::FORMULAS,
        square::FORMULAS,
    ];
    topics.into_iter().flatten()
}
