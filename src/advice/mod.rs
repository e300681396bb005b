//! From "this is wrong" to "do this": the stick-out window, and the remedy from the crib.

mod cure;
mod probe;
mod spans;
mod sweep;
mod window;
pub mod words;

pub use cure::{Advice, advise};
pub use window::{Advised, End, Unjudged, Window, window};
pub use words::span;
