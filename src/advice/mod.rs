//! From "this is wrong" to "do this": the stick-out window, and the remedy from the crib.

mod probe;
mod remedy;
mod spans;
mod sweep;
mod window;

pub use remedy::{
    Changed, Helps, Kind, Measured, Nearest, Plan, Remedies, Remedy, Split, purchases, remedies,
};
pub use window::{Advised, End, Unjudged, Window, window};
