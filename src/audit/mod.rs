//! Many libraries at once, and what became of them since another day: which libraries a tree of
//! folders holds, what an audit notes of each finding, what it compares with, and the order in
//! which the libraries of many threads or machines come together.

mod baseline;
mod change;
pub mod digest;
mod earlier;
mod entries;
mod frame;
mod header;
mod in_log;
mod noted;
mod pairing;
mod pipeline;
mod table;
mod tree;

pub use baseline::{Baseline, Matcher, Rest, Was};
pub use change::{Change, State};
pub use earlier::{Earlier, LOG, NoAudit, TABLE};
pub use frame::{Counts, Ended, Fault, Found, Frame, Status};
pub use noted::Noted;
pub use pairing::{Known, Pairing};
pub use pipeline::{Piece, in_order};
pub use table::{GONE, NOT_COMPARED, Row, Table, rows};
pub use tree::{Candidate, OfFolder, Passed, Seen, Tree, shown, tree};
