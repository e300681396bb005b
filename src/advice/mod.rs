//! From "this is wrong" to "do this": the stick-out window, and the remedy from the crib.

mod advise;
mod agree;
mod cure;
mod edge;
mod empty;
mod ends;
mod needs;
mod never;
mod probe;
mod remedy;
pub mod remedy_words;
mod solve;
mod solver;
mod spans;
mod stopped;
mod sweep;
mod window;
pub mod words;

pub use advise::{Advice, advise};
pub use empty::NO_WINDOW;
pub use needs::{
    insertion_needed, insertion_possible, setting_tolerance, shank_needed, stick_out_needed,
};
pub use remedy::{
    Changed, Crib, Helps, How, Kind, Measured, Near, Nearest, Plan, Remedies, Remedy, Split, plan,
    remedies, remedies_from,
};
pub use solve::window;
pub use window::{Advised, End, Unjudged, Window};
pub use words::span;
