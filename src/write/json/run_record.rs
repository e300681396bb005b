//! The record of a run.

use schemars::JsonSchema;
use serde::Serialize;

use crate::sheet::{Level, Overview};

use super::notation::Number;

/// By what a library was judged, when, and how much of it there was. With the same record and the
/// same library the output is the same.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "Run")]
pub(in crate::write) struct Record<'a> {
    /// The day by which it was judged, such as `2027-01-31`: `--as-of`, else today.
    #[schemars(extend("pattern" = "^[0-9]{4}-[0-9]{2}-[0-9]{2}$"))]
    day: &'a str,
    /// The version of the program.
    version: &'static str,
    /// SHA-256 of the parsed rules and shared limits, before the shop changes them.
    #[schemars(extend("pattern" = "^[0-9a-f]{64}$"))]
    rules_sha256: &'a str,
    /// SHA-256 of what the shop files say; null if there is none.
    #[schemars(extend("pattern" = "^[0-9a-f]{64}$"))]
    config_sha256: Option<&'a str>,
    /// The options that decide what is judged and what fails.
    options: Asked<'a>,
    /// How much was judged.
    totals: Totals,
}

/// Options of the command line.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "Options")]
struct Asked<'a> {
    /// Whether findings that rest on assumptions keep their level, and incomplete fails.
    strict: bool,
    /// The least level that fails.
    #[schemars(extend("enum" = [Level::Error.name(), Level::Warning.name(), Level::Note.name()]))]
    fail_on: &'static str,
    /// The rules and topics that alone were asked for; all if empty.
    only: &'a [String],
    /// The rules and topics that were left out.
    except: &'a [String],
    /// The share of the tools held by a shank on which the grip must be judged; null: one tool.
    min_coverage: Option<Number>,
}

/// Totals: all counts of the summary together are `judgements` and `faults` together.
#[derive(Serialize, JsonSchema)]
struct Totals {
    /// Rules, those that are switched off among them.
    rules: usize,
    /// Assemblies.
    assemblies: usize,
    /// Judgements: one rule on one assembly, or on one of its operations.
    judgements: usize,
    /// Faults of form.
    faults: usize,
}

impl<'a> Record<'a> {
    pub(in crate::write) fn of(overview: &'a Overview) -> Record<'a> {
        let (run, summary) = (&overview.run, &overview.summary);
        Record {
            day: &run.day,
            version: env!("CARGO_PKG_VERSION"),
            rules_sha256: &run.rules_sha256,
            config_sha256: run.config_sha256.as_deref(),
            options: Asked {
                strict: run.strict,
                fail_on: run.fail_on,
                only: &run.only,
                except: &run.except,
                min_coverage: overview.coverage.wanted.map(Number),
            },
            totals: Totals {
                rules: run.rules,
                assemblies: summary.assemblies,
                judgements: summary.judgements,
                faults: summary.faults,
            },
        }
    }
}
