//! All integration tests, one binary.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test fails by panicking"
)]

mod acceptance;
mod architecture;
mod assets;
mod audit;
mod blanked;
mod cards;
mod clampings;
mod cli;
mod convert;
mod coverage;
mod csv_oracle;
mod demo;
mod drawing;
mod evidence;
mod expressions;
mod json_schema;
mod monotone;
mod mutation;
mod notes;
mod numbers;
mod properties;
mod reading;
mod remedy;
mod report;
mod rule_fixtures;
mod rulebook;
mod sane;
mod sarif;
mod sheets;
mod sheets_in;
mod start;
mod support;
mod unseen;
mod wide;
mod window;
mod words;
mod xml;
