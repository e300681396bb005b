//! The JSON Schema of `audit.json`. The file is written while libraries are judged; here its pieces
//! stand as they do in it, and a test holds every output against it.

use schemars::JsonSchema;
use schemars::generate::SchemaSettings;
use serde_json::Value;

use crate::text::described;

use super::super::json::{FoundJson, Whole};
use super::piece::{Point, Tail};
use super::said::{Became, Earlier, LeftOut, Opening, Totals};

/// The schema of an audit's JSON. It takes keys that it does not know: later versions may add some.
#[must_use]
pub(crate) fn audit_schema() -> Value {
    let settings = SchemaSettings::draft2020_12().for_serialize();
    let generator = settings.into_generator();
    described(generator.into_root_schema_for::<Audit<'static>>(), "audit")
}

/// What `audit` writes as `audit.json`: all libraries of a run. A key is always there, and null when
/// there is nothing; the few that are there only at times say so. Later versions may add keys.
#[derive(JsonSchema)]
#[schemars(title = "Shankwise audit, format 1")]
#[expect(dead_code, reason = "it is described, and written piece by piece")]
struct Audit<'a> {
    #[schemars(flatten)]
    opening: Opening<'a>,
    /// The libraries, in the order of their keys.
    libraries: Vec<Library<'a>>,
    /// Findings of the earlier audit that are not among today's.
    earlier: Vec<Earlier<'a>>,
    /// What it comes to.
    totals: Totals,
}

/// A library of the audit.
#[derive(JsonSchema)]
#[schemars(rename = "Judged")]
#[expect(dead_code, reason = "it is described, and written piece by piece")]
struct Library<'a> {
    /// Its path from the folder that was named.
    key: &'a str,
    /// Findings that belong to no one assembly.
    findings: Vec<Changed<'a>>,
    /// The assemblies that fail, are warned of or are not judged.
    sheets: Vec<Shown<'a>>,
    #[schemars(flatten)]
    tail: Tail<'a>,
    /// All assemblies: where each stands among the others.
    points: Vec<Point<'a>>,
    /// Rules of which not every finding is here, each with how many there are.
    left_out: LeftOut<'a>,
}

/// An assembly with its findings.
#[derive(JsonSchema)]
#[schemars(rename = "Sheet")]
#[expect(dead_code, reason = "it is described, and written piece by piece")]
struct Shown<'a> {
    #[schemars(flatten)]
    sheet: Whole<'a>,
    /// What was found of it.
    findings: Vec<Changed<'a>>,
}

/// A finding with what became of it.
#[derive(JsonSchema)]
#[schemars(rename = "Finding")]
#[expect(dead_code, reason = "it is described, and written piece by piece")]
struct Changed<'a> {
    #[schemars(flatten)]
    finding: FoundJson<'a>,
    /// What became of it since the earlier audit; only where there is one.
    #[schemars(skip_serializing_if = "Option::is_none")]
    change: Option<Became>,
}
