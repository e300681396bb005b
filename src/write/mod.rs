//! Reports become text, plain text or JSON. Writers judge nothing.

mod blocks;
pub mod catalogue;
mod coverage;
mod diagnostic;
mod evidence;
mod facts_text;
mod json;
mod lacking;
mod limits;
mod plan;
mod remedy_json;
mod sections;
mod show;
mod sketch;
mod summary;
mod text;
mod trouble;
mod window_answer;
mod window_facts;
mod window_front;
mod window_gaps;
mod window_json;
mod window_number;
mod window_reasons;
mod window_text;
mod wrap;
mod xsd;

pub use evidence::{evidence_json, evidence_text};
pub use facts_text::facts;
pub use json::{json, json_with, to_json_line};
pub use plan::{plan_json, plan_text};
pub use remedy_json::add_remedies;
pub use sections::not_read;
pub use show::Show;
pub use sketch::{SketchLook, sketch};
pub use text::{Look, report, report_of_tools};
pub use trouble::{Trouble, error_text};
pub use window_facts::Asked;
pub use window_json::window_json;
pub use window_text::window_text;
pub use xsd::xsd;

/// What every output says once: the program is an aid.
pub const NOTICE: &str = "Shankwise is an aid, not an approval. Follow the instructions of the manufacturers of holder, collet, nut and machine, and local safety rules; a qualified person decides. A tool with too little shank in its holder can fly out.";
