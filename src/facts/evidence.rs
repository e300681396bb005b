//! The evidence: formulas held against values from outside the project.
//!
//! Every row stands in `tests/evidence/*.toml`: which fact it supports, the source and the place
//! in it, a formula by its name with its inputs, what the source gives, the tolerance. Nothing is
//! stored of what the program obtains: it is computed when the evidence is asked for.

use std::collections::BTreeMap;

use include_dir::{Dir, include_dir};
use serde::Deserialize;

use crate::mechanics::{Given, formulas};

static FILES: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/tests/evidence");

/// Widest tolerance that a row may have: that of the socket's model.
pub const WIDEST: f64 = 0.06;

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct EvidenceFile {
    row: Vec<EvidenceRow>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct EvidenceRow {
    fact: String,
    source: String,
    place: String,
    standing: String,
    formula: String,
    inputs: BTreeMap<String, f64>,
    expected: f64,
    tolerance: f64,
}

/// One check against the outside.
#[derive(Clone, Debug, PartialEq)]
pub struct Evidence {
    /// The fact that it supports.
    pub fact: String,
    /// The source.
    pub source: String,
    /// Where in it.
    pub place: String,
    /// `printed`, `second-hand` or `computed`: how the value is known.
    pub standing: String,
    /// The formula.
    pub formula: String,
    /// Its inputs.
    pub inputs: BTreeMap<String, f64>,
    /// What the source gives.
    pub expected: f64,
    /// What the program gives; NaN if there is no such formula or input.
    pub obtained: f64,
    /// Relative deviation; absolute where 0 is expected.
    pub deviation: f64,
    /// What it may be.
    pub tolerance: f64,
}

impl Evidence {
    /// Whether the deviation is within the tolerance.
    #[must_use]
    pub fn agrees(&self) -> bool {
        self.deviation <= self.tolerance
    }
}

/// All rows, computed now.
///
/// # Errors
/// The file and what is wrong with it; the files are part of the program, and a test reads them.
pub fn evidence() -> Result<Vec<Evidence>, String> {
    let mut all = Vec::new();
    let mut files: Vec<_> = FILES.files().collect();
    files.sort_by_key(|file| file.path());
    for file in files {
        let is_table = file
            .path()
            .extension()
            .is_some_and(|ending| ending == "toml");
        if !is_table {
            continue;
        }
        let text = file.contents_utf8().unwrap_or_default();
        let parsed: EvidenceFile =
            toml::from_str(text).map_err(|error| format!("{}: {error}", file.path().display()))?;
        all.extend(parsed.row.into_iter().map(computed));
    }
    Ok(all)
}

/// The names of all formulas that a row can name.
pub fn formula_names() -> impl Iterator<Item = &'static str> {
    formulas().map(|formula| formula.name)
}

/// The value of a formula; `None` if it or one of its inputs is not known.
fn value(name: &str, inputs: &BTreeMap<String, f64>) -> Option<f64> {
    let formula = formulas().find(|formula| formula.name == name)?;
    (formula.reckon)(Given(inputs))
}

fn computed(row: EvidenceRow) -> Evidence {
    let obtained = value(&row.formula, &row.inputs).unwrap_or(f64::NAN);
    let off = (obtained - row.expected).abs();
    let deviation = if row.expected == 0.0 {
        off
    } else {
        off / row.expected.abs()
    };
    Evidence {
        fact: row.fact,
        source: row.source,
        place: row.place,
        standing: row.standing,
        formula: row.formula,
        inputs: row.inputs,
        expected: row.expected,
        obtained,
        deviation,
        tolerance: row.tolerance,
    }
}
