//! The stick-out window: what all bounding rules leave of one assembly.
//!
//! `solve` is the way in. `samples` asks every bounding rule at stick-outs along the tool; `spans`
//! reads from that where each is met, and looks closer where something turns over; `edge` finds the
//! ends between two samples. `never` has the rules that no stick-out meets. `sweep` puts the
//! stretches together, `solver` chooses among what is left, and `ends` says what binds.
//! `stick_out_limits` is the window as plain data, `wording` the same in words.

mod edge;
mod ends;
mod never;
mod samples;
mod solve;
mod solver;
mod spans;
mod stick_out_limits;
mod sweep;
pub mod wording;

pub use solve::{is_empty, window};
pub use stick_out_limits::{Advised, End, Unjudged, Window};
