//! Sheets become text, plain text, JSON or SARIF. Writers judge nothing and work nothing out.

pub(crate) mod audit;
mod cards;
pub mod catalogue;
mod convert;
mod evidence;
mod html;
mod json;
mod lacking;
mod lists;
mod register;
mod report;
mod sarif;
mod schema;
mod sketch;
mod start;
mod svg;
mod text;
mod window;
mod wrap;
mod xsd;
mod xsd_strict;

pub(crate) use cards::{Cards, CardsForm, OfCards, OneCard};
pub(crate) use convert::{Conversion, counted};
pub(crate) use evidence::{evidence_json, evidence_text};
pub(crate) use json::{Input, Json, json_line_with, output_schema, unreadable_json};
pub use json::{Pieces, json, to_json_line};
pub(crate) use lacking::{lacking_brief, lacking_text};
pub(crate) use lists::{columns_json, facts_json, rules_json};
pub(crate) use register::{OfLibrary, register_json, register_text};
pub(crate) use report::page;
pub(crate) use sarif::{Log, Results};
pub(crate) use schema::shop_schema;
pub use sketch::{SketchLook, sketch};
pub(crate) use start::{
    AssetsStarted, Blank, Refreshed, Started, assets_described, assets_refreshed, assets_started,
    inch_reason, inches_question, is_in_inches, question_text, refreshed_text, started_text,
    survey_text, word_question,
};
pub(crate) use text::{
    Digest, Figure, MOST, Sort, TextOptions, Trouble, brief, error_text, facts_end, not_read,
    parted, shop_files, shop_files_line, unreadable_brief, unreadable_text,
};
pub use text::{Look, Show, Text, facts_of, report};
pub(crate) use window::{SheetPage, window_svg, window_text};
pub use xsd::xsd;
pub use xsd_strict::strict_xsd;

/// What every output says once: the program is an aid.
pub const NOTICE: &str = "Shankwise is an aid, not an approval. Follow the instructions of the manufacturers of holder, collet, nut and machine, and local safety rules; a qualified person decides. A tool with too little shank in its holder can fly out.";
