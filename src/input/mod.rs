//! Sources become raw records: names, cells, places. Nothing here knows what a name means.

pub mod assets;
pub mod csv;
mod fault;
mod faults;
mod pool;
mod raw;
pub mod sheet;
pub mod unnamed;
pub mod xml;

pub use fault::{Arg, Fault, FaultPlace, KINDS as FAULT_KINDS, kind as fault_kind};
pub use faults::{Faults, Kept};
pub use raw::{Cell, Column, Manner, Row, Table};
