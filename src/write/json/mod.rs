//! JSON, format 1: one object a library. Its keys are the fields of the types here, in their order,
//! and its schema is made from the same types.

mod acceptance;
mod coverage;
mod drawing;
mod fact;
mod finding;
mod library;
mod notation;
mod object;
mod plan;
mod remedy;
mod run_record;
mod schema;
mod sheet;
mod shortfall;
mod unreadable;
mod window;

use std::io::{self, Seek as _, SeekFrom, Write};

use serde_json::Value;
use tempfile::SpooledTempFile;

use crate::sheet::{Finding, Item, Overview, Plan, Report, Sheet, Verdict, Window};

use finding::Found;
use object::{Head, Object, Shown, Tail};
use unreadable::Status;

use notation::{piece, put};

pub(super) use acceptance::Lapsed;
pub(super) use coverage::{Counts, Groups, Tally};
pub(super) use drawing::{At, Drawn, Outlined, Span, Stressed, Stretch};
pub(super) use fact::{Facts, Limits};
pub(super) use finding::Found as FoundJson;
pub(super) use library::About;
pub(crate) use notation::Number;
pub(super) use notation::{FieldName, add, fields, name, put_up_to, text};
pub(super) use run_record::Record;
pub(crate) use schema::output_schema;
pub(super) use sheet::Whole;
pub(super) use shortfall::Lacking;
pub(super) use unreadable::Fault;
pub use unreadable::{Input, unreadable_json};

/// The JSON of one library, written while its findings pass by. Where facts are wanted, what is
/// said of the assemblies waits in a temporary file until the findings end, so that memory does
/// not grow with the library.
pub struct Json<W> {
    to: W,
    assemblies: Option<SpooledTempFile>,
    with_remedies: bool,
    findings: bool,
    sheets: bool,
}

/// What the writer needs of one assembly, or of one fault: made on any thread.
pub struct Pieces {
    /// Its findings, with commas between them.
    findings: Vec<u8>,
    assembly: Vec<u8>,
}

/// What is held in memory of the assemblies before it goes to a temporary file, bytes.
const IN_MEMORY: usize = 16 << 20;

impl Pieces {
    /// Of an assembly or of a fault.
    #[must_use]
    pub fn of(item: &Item, with_facts: bool, with_remedies: bool) -> Pieces {
        let mut findings: Vec<&Finding> = item.findings().iter().collect();
        // By rule: the place of a finding in the output does not depend on its level.
        findings.sort_by(|a, b| a.rule.cmp(&b.rule));
        let heading = match item {
            Item::Sheet(sheet) => Some(&sheet.heading),
            Item::Fault(_) => None,
        };
        let mut pieces = Pieces {
            findings: Vec::new(),
            assembly: Vec::new(),
        };
        for finding in findings {
            if !pieces.findings.is_empty() {
                pieces.findings.push(b',');
            }
            add(&Found::of(finding, heading), &mut pieces.findings);
        }
        if let (Item::Sheet(sheet), true) = (item, with_facts) {
            add(&assembly(sheet, with_remedies), &mut pieces.assembly);
        }
        pieces
    }
}

fn assembly(sheet: &Sheet, with_remedies: bool) -> Option<Shown<'_>> {
    let clamping = sheet.clampings.first()?;
    let facts = clamping.facts.as_ref()?;
    let shown = Shown::of(facts, clamping.window.as_ref());
    Some(if with_remedies {
        shown.with(clamping.remedies.as_ref())
    } else {
        shown
    })
}

impl<W: Write> Json<W> {
    /// Begins.
    ///
    /// # Errors
    /// If it cannot be written, here and below.
    pub fn begin(
        mut to: W,
        input: Input<'_>,
        with_facts: bool,
        with_remedies: bool,
    ) -> io::Result<Json<W>> {
        let head = piece(&Head::of(input, Status::of(input)));
        write!(to, "{},\"findings\":[", head.trim_end_matches('}'))?;
        Ok(Json {
            to,
            assemblies: with_facts.then(|| SpooledTempFile::new(IN_MEMORY)),
            with_remedies,
            findings: false,
            sheets: false,
        })
    }

    /// Takes the next assembly or fault.
    pub fn take(&mut self, pieces: &Pieces) -> io::Result<()> {
        next(&mut self.to, &mut self.findings, &pieces.findings)?;
        match &mut self.assemblies {
            Some(all) => next(all, &mut self.sheets, &pieces.assembly),
            None => Ok(()),
        }
    }

    /// Ends with what is said of the library, and whether it fails the run; the writer goes on with
    /// whatever comes next.
    pub fn finish(mut self, overview: &Overview, fails: bool) -> io::Result<W> {
        self.to.write_all(b"],\"assemblies\":")?;
        match self.assemblies.take() {
            None => self.to.write_all(b"null")?,
            Some(mut all) => {
                self.to.write_all(b"[")?;
                all.seek(SeekFrom::Start(0))?;
                io::copy(&mut all, &mut self.to)?;
                self.to.write_all(b"]")?;
            }
        }
        let plan = self.with_remedies.then_some(&overview.plan);
        put(
            &Tail::of(overview, plan, fails),
            &mut GoOn::of(&mut self.to),
        )?;
        self.to.write_all(b"\n")?;
        Ok(self.to)
    }
}

/// Goes on with an object whose first fields are written: its brace becomes a comma.
struct GoOn<'w, W> {
    to: &'w mut W,
    begun: bool,
}

impl<'w, W> GoOn<'w, W> {
    const fn of(to: &'w mut W) -> GoOn<'w, W> {
        GoOn { to, begun: false }
    }
}

impl<W: Write> Write for GoOn<'_, W> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        match bytes {
            [b'{', ..] if !self.begun => {
                self.begun = true;
                self.to.write_all(b",")?;
                Ok(1)
            }
            _ => self.to.write(bytes),
        }
    }

    fn flush(&mut self) -> io::Result<()> {
        self.to.flush()
    }
}

/// Adds to a list, behind a comma unless it is the first.
fn next(to: &mut impl Write, begun: &mut bool, piece: &[u8]) -> io::Result<()> {
    if piece.is_empty() {
        return Ok(());
    }
    if std::mem::replace(begun, true) {
        to.write_all(b",")?;
    }
    to.write_all(piece)
}

/// A report that is in memory whole as a JSON object.
#[must_use]
pub fn json(report: &Report) -> Value {
    let overview = Overview::of(report, &Plan::default());
    let fails = report.summary.verdict == Verdict::Fails;
    // Every key is a text, so that nothing can go wrong.
    serde_json::to_value(Object::of(report, &overview, &[], fails)).unwrap_or_default()
}

/// The same in one line, with the windows of its assemblies in their order, and null where there
/// is none; and whether it fails the run.
#[must_use]
pub fn json_line_with(report: &Report, windows: &[Option<&Window>], fails: bool) -> String {
    let overview = Overview::of(report, &Plan::default());
    piece(&Object::of(report, &overview, windows, fails)) + "\n"
}

/// The object in one line.
#[must_use]
pub fn to_json_line(value: &impl serde::Serialize) -> String {
    piece(value) + "\n"
}
