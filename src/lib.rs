//! Shankwise lints tool libraries: is enough of every cutter's shank in its collet?
//!
//! The modules in the order in which data flows through them:
//!
//! bytes → [`text`] with places → [`input`]: raw records → [`library`]: typed, linked parts →
//! [`facts`] (formulas in [`mechanics`]) → [`rulebook`]: rules as data → [`judge`]: outcomes and
//! findings → [`advice`]: window and remedy → [`sheet`]: all that may be shown of one assembly →
//! [`write`](mod@write): text, plain, JSON. [`draw`] turns facts into shapes that are shown too;
//! [`audit`] takes many libraries, and compares with another day.
//! [`units`] and [`text`] serve all; [`cli`] drives them.
//!
//! Other programs call [`check()`].
//!
//! One way: reading never stops at the first fault; facts know nothing of rules; rules know
//! nothing of files; writers judge nothing.

#![forbid(unsafe_code)] // `main.rs` alone has an exception, made by a crate

pub mod text;
pub mod units;

pub mod mechanics;

pub mod input;

pub mod library;

pub mod facts;

pub mod rulebook;

pub mod judge;

pub mod advice;

pub mod draw;

pub mod sheet;

pub mod audit;

pub mod write;

mod check;
pub mod cli;

pub use check::{CheckError, check};
