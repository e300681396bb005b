//! Sheets become text, plain text or JSON. Writers judge nothing and work nothing out.

pub mod catalogue;
mod evidence;
mod json;
mod lacking;
mod sketch;
mod text;
mod window;
mod wrap;
mod xsd;

pub use evidence::{evidence_json, evidence_text};
pub use json::{Json, Pieces, json, json_with, to_json_line, window_json};
pub use sketch::{SketchLook, sketch};
pub use text::{
    Look, MOST, Show, Text, TextOptions, Trouble, error_text, facts_end, facts_of, not_read, report,
};
pub use window::window_text;
pub use xsd::xsd;

/// What every output says once: the program is an aid.
pub const NOTICE: &str = "Shankwise is an aid, not an approval. Follow the instructions of the manufacturers of holder, collet, nut and machine, and local safety rules; a qualified person decides. A tool with too little shank in its holder can fly out.";
