//! What to do about a finding: where to set the stick-out, and which other parts would serve.
//!
//! `advise` takes one assembly after another. `window/` finds the stick-outs that the rules leave,
//! `remedy/` the parts; `cure` and `agree` put both into the findings' words, `empty` tells of a
//! window that holds nothing, `stopped` of a record too wrong to be advised on. `remedy_words` has
//! the sentences of a remedy, `window/wording` those of a window.

mod advise;
mod agree;
mod cure;
mod doubted;
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
    Changed, Crib, Helps, How, Measured, Near, Nearest, Plan, Remedies, Remedy, RemedyKind, Split,
    remedies, remedies_from,
};
pub use whole::{Advice, advise};
pub use window::wording::{self, span};
pub use window::{Advised, End, Unjudged, Window, window};
