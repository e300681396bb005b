//! The table of findings: a row for each, every one of them, in an order that does not depend on
//! the machine. A spreadsheet that opens it must run nothing of it.

use std::borrow::Cow;
use std::fs::File;
use std::io::{self, Write};
use std::path::Path;

use serde::{Deserialize, Serialize};

use super::noted::Noted;
use crate::text::visible;

/// What begins a formula in a spreadsheet.
const FORMULA: [char; 6] = ['=', '+', '-', '@', '\t', '\r'];
/// What stands before a text that would be one.
const GUARD: char = '\'';

/// A finding with what became of it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Row {
    /// The run that it is of.
    pub run: String,
    /// What became of it since the earlier audit; empty where there is none.
    pub state: String,
    /// Why it is in the table though it is not found today.
    pub reason: String,
    /// How much there was, in its unit.
    pub value_before: Option<f64>,
    /// How much was wanted.
    pub needed_before: Option<f64>,
    /// The finding.
    pub noted: Noted,
}

/// The columns before those of the finding.
#[derive(Serialize, Deserialize)]
struct Front<'a> {
    run: Cow<'a, str>,
    state: Cow<'a, str>,
    reason: Cow<'a, str>,
    value_before: Option<f64>,
    needed_before: Option<f64>,
}

/// The columns, as they are named and in their order.
const COLUMNS: [&str; 32] = [
    "run",
    "state",
    "reason",
    "value_before",
    "needed_before",
    "library",
    "tool_number",
    "assembly",
    "machine",
    "operation",
    "rule",
    "level",
    "outcome",
    "title",
    "units",
    "message",
    "advice",
    "what",
    "value",
    "needed",
    "unit",
    "wanted",
    "file",
    "line",
    "column",
    "field",
    "accepted_by",
    "accepted_until",
    "accepted_no_more",
    "fingerprint",
    "sheet",
    "cell",
];

/// State of a finding that is not there any more.
pub const GONE: &str = "gone";
/// State of a finding that nobody looked for today.
pub const NOT_COMPARED: &str = "not compared";

impl Row {
    /// Whether the finding was gone already.
    #[must_use]
    pub fn is_gone(&self) -> bool {
        self.state == GONE
    }
}

/// Writes the table.
pub struct Table<W: Write>(csv::Writer<W>);

impl<W: Write> Table<W> {
    /// Begins with the header.
    ///
    /// # Errors
    /// If it cannot be written, here and below.
    pub fn begin(to: W) -> io::Result<Table<W>> {
        let mut writer = csv::WriterBuilder::new().has_headers(false).from_writer(to);
        writer.write_record(COLUMNS)?;
        Ok(Table(writer))
    }

    /// Adds a row.
    pub fn add(&mut self, row: &Row) -> io::Result<()> {
        let front = Front {
            run: Cow::Borrowed(&row.run),
            state: Cow::Borrowed(&row.state),
            reason: guarded(&row.reason),
            value_before: row.value_before.map(rounded),
            needed_before: row.needed_before.map(rounded),
        };
        self.0.serialize((front, harmless(&row.noted)))?;
        Ok(())
    }

    /// Ends; the writer goes on with whatever comes next.
    pub fn finish(self) -> io::Result<W> {
        self.0.into_inner().map_err(csv::IntoInnerError::into_error)
    }
}

/// Reads the rows of a table.
///
/// # Errors
/// If the file cannot be opened; each row by itself if it cannot be read.
pub fn rows(path: &Path) -> io::Result<impl Iterator<Item = io::Result<Row>> + use<>> {
    let mut reader = csv::Reader::from_reader(File::open(path)?);
    let headers = reader.headers()?.clone();
    if headers.iter().next() != Some("run") {
        return Err(io::Error::other("is not a table of findings of an audit"));
    }
    Ok(reader.into_records().map(move |record| {
        let record = record?;
        let front: Front<'_> = record.deserialize(Some(&headers))?;
        let noted: Noted = record.deserialize(Some(&headers))?;
        Ok(Row {
            run: front.run.into_owned(),
            state: front.state.into_owned(),
            reason: front.reason.into_owned(),
            value_before: front.value_before,
            needed_before: front.needed_before,
            noted: plain(noted),
        })
    }))
}

/// The same, each text as it may stand in a cell.
fn harmless(noted: &Noted) -> Noted {
    let mut noted = Noted {
        value: noted.value.map(rounded),
        needed: noted.needed.map(rounded),
        ..noted.clone()
    };
    for text in noted.texts() {
        *text = guarded(text).into_owned();
    }
    noted
}

/// The same as it was before it was made harmless.
fn plain(mut noted: Noted) -> Noted {
    for text in noted.texts() {
        let bare = text.strip_prefix(GUARD);
        if let Some(bare) = bare.filter(|bare| bare.starts_with(FORMULA)) {
            *text = bare.to_owned();
        }
    }
    noted
}

/// A text that no spreadsheet takes for a formula, and no terminal acts on.
fn guarded(text: &str) -> Cow<'_, str> {
    let shown = visible(text);
    if shown.starts_with(FORMULA) {
        return Cow::Owned(format!("{GUARD}{shown}"));
    }
    shown
}

/// With nine digits, as everywhere in data.
fn rounded(value: f64) -> f64 {
    format!("{value:.8e}").parse().unwrap_or(value)
}
