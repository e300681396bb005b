//! From "this is wrong" to "do this": the stick-out window, and the remedy from the crib.

mod advise;
mod agree;
mod cure;
mod empty;
mod lengths_needed;
mod remedy;
pub mod remedy_words;
mod stopped;
mod whole;
mod window;

pub(crate) use advise::{Advisor, Counsel};
pub use empty::NO_WINDOW;
pub use lengths_needed::insertion_possible;
pub(crate) use lengths_needed::{
    insertion_needed, setting_tolerance, shank_needed, stick_out_needed,
};
pub(crate) use remedy::PlanTable;
pub use remedy::{
    Changed, Crib, Helps, How, Kind, Measured, Near, Nearest, Plan, Remedies, Remedy, Split,
    remedies, remedies_from,
};
pub use whole::{Advice, advise};
pub use window::wording::{self, span};
pub use window::{Advised, End, Unjudged, Window, window};
