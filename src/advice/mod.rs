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

pub use advise::{Advisor, Counsel};
pub use empty::NO_WINDOW;
pub use lengths_needed::{
    insertion_needed, insertion_possible, setting_tolerance, shank_needed, stick_out_needed,
};
pub use remedy::{
    Changed, Crib, Helps, How, Kind, Measured, Near, Nearest, Plan, PlanTable, Remedies, Remedy,
    Split, remedies, remedies_from,
};
pub use whole::{Advice, advise};
pub use window::wording::{self, span};
pub use window::{Advised, End, Unjudged, Window, window};
