//! From "this is wrong" to "do this": the stick-out window, and the remedy from the crib.

mod cure;
mod probe;
mod remedy;
pub mod remedy_words;
mod spans;
mod sweep;
mod window;
pub mod words;

pub use cure::{Advice, advise};
pub use remedy::{
    Changed, Crib, Helps, Kind, Measured, Nearest, Plan, Remedies, Remedy, Split, purchases,
    remedies, remedies_from,
};
pub use window::{Advised, End, Unjudged, Window, window};
pub use words::span;
