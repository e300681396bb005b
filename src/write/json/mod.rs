//! JSON, format 1: one object a library.

mod coverage;
mod plan;
mod remedy;
mod unreadable;
mod window;

use std::borrow::Cow;
use std::fmt;
use std::io::{self, Seek as _, SeekFrom, Write};

use serde_json::{Map, Value, json};
use tempfile::SpooledTempFile;

use crate::sheet::{
    AssemblyFacts, FactShown, Finding, FindingPlace, Item, LibraryShown, LimitShown, Overview,
    Plan, RangeShown, Report, Sheet, ShopFile, Verdict, Weakened,
};
use crate::text::{Unread, cut};
use crate::units::{Scalar, Unit};

use super::NOTICE;
use coverage::{came_json, coverage_json, write_summary};
use plan::plan_json;
use remedy::remedies;
use unreadable::{faults, status};

pub use unreadable::{Input, unreadable_json};
pub use window::window_json;

/// The program with its version.
const PROGRAM: &str = concat!("shankwise ", env!("CARGO_PKG_VERSION"));
/// Digits of a number in JSON.
const SIGNIFICANT: usize = 9;
/// Longest name or cell from input, in characters: each stands in many findings.
const LONGEST_NAME: usize = 200;
/// Longest text of any other kind, in characters.
const LONGEST_TEXT: usize = 2000;

/// The JSON of one library, written while its findings pass by. Where facts are wanted, what is
/// said of the assemblies waits in a temporary file until the findings end, so that memory does
/// not grow with the library.
pub struct Json<W> {
    to: W,
    assemblies: Option<SpooledTempFile>,
    with_remedies: bool,
    findings: usize,
    sheets: usize,
}

/// What the writer needs of one assembly, or of one fault: made on any thread.
pub struct Pieces {
    findings: Vec<String>,
    assembly: Option<String>,
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
        let assembly = match item {
            Item::Sheet(sheet) if with_facts => Some(assembly(sheet, with_remedies)),
            _ => None,
        };
        Pieces {
            findings: findings
                .into_iter()
                .map(|one| piece(&finding(one)))
                .collect(),
            assembly: assembly.as_ref().map(piece),
        }
    }
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
        let program = piece(&json!(PROGRAM));
        let notice = piece(&json!(NOTICE));
        let name = piece(&json!(input.name));
        let status = piece(&json!(status(input.unreadable, true)));
        let unreadable = piece(&faults(input.unreadable));
        write!(
            to,
            "{{\"format\":1,\"program\":{program},\"notice\":{notice},\"input\":{name},\"status\":{status},\"unreadable\":{unreadable},\"findings\":["
        )?;
        Ok(Json {
            to,
            assemblies: with_facts.then(|| SpooledTempFile::new(IN_MEMORY)),
            with_remedies,
            findings: 0,
            sheets: 0,
        })
    }

    /// Takes the next assembly or fault.
    pub fn take(&mut self, pieces: &Pieces) -> io::Result<()> {
        for finding in &pieces.findings {
            let comma = if self.findings == 0 { "" } else { "," };
            self.findings += 1;
            write!(self.to, "{comma}{finding}")?;
        }
        if let (Some(all), Some(one)) = (&mut self.assemblies, &pieces.assembly) {
            let comma = if self.sheets == 0 { "" } else { "," };
            self.sheets += 1;
            write!(all, "{comma}{one}")?;
        }
        Ok(())
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
        let library = piece(&library(&overview.library));
        write!(self.to, ",\"library\":{library},\"summary\":")?;
        write_summary(&mut self.to, overview)?;
        if self.with_remedies {
            write!(self.to, ",\"plan\":{}", piece(&plan_json(&overview.plan)))?;
        }
        writeln!(self.to, ",\"fails\":{fails}}}")?;
        Ok(self.to)
    }
}

/// A report that is in memory whole as a JSON object.
#[must_use]
pub fn json(report: &Report) -> Value {
    let fails = report.summary.verdict == Verdict::Fails;
    json_with(report, &[], fails)
}

/// The same with the windows of its assemblies in their order, as [`window_json`] gives them, and
/// null where there is none; and whether it fails the run.
#[must_use]
pub fn json_with(report: &Report, windows: &[Option<Value>], fails: bool) -> Value {
    let overview = Overview::of(report, &Plan::default());
    let names: Vec<&str> = overview.coverage.grip_not_judged().collect();
    let windows = windows.iter().chain(std::iter::repeat(&None));
    let assemblies = report.assemblies.as_ref().map(|all| {
        let all = all.iter().zip(windows);
        let all = all.map(|(one, window)| facts_of(one, window.as_ref()));
        all.collect::<Vec<_>>()
    });
    json!({
        "format": 1,
        "program": PROGRAM,
        "notice": NOTICE,
        "input": report.library.path,
        "status": status(&[], true),
        "unreadable": [],
        "findings": report.findings.iter().map(finding).collect::<Vec<_>>(),
        "assemblies": assemblies,
        "library": library(&overview.library),
        "summary": summary(&overview, &json!(names)),
        "fails": fails,
    })
}

fn library(library: &LibraryShown) -> Value {
    json!({
        "name": name(&library.name),
        "path": library.path,
        "form": library.form,
        "units": library.units,
        "config": library.shop_files.last().map(ShopFile::name),
        "shop_files": library.shop_files.iter().map(shop_file).collect::<Vec<_>>(),
        "ranges": library.ranges.iter().map(range).collect::<Vec<_>>(),
        "weakened": library.weakened.iter().map(Weakened::told).collect::<Vec<_>>(),
        "defaults": library.defaults,
        "unread": library.unread.iter().map(unread).collect::<Vec<_>>(),
        "passed_over": library.passed_over.iter().map(unread).collect::<Vec<_>>(),
    })
}

/// The object in one line.
#[must_use]
pub fn to_json_line(value: &Value) -> String {
    piece(value) + "\n"
}

/// A value as it stands in a line. Characters that a terminal acts on are escaped: inside JSON
/// they can only stand in texts.
fn piece(value: &Value) -> String {
    let raw = bounded(value).to_string();
    if raw.is_ascii() && !raw.contains('\u{7f}') {
        return raw;
    }
    let mut line = String::with_capacity(raw.len());
    for c in raw.chars() {
        if matches!(c, '\u{61c}' | '\u{7f}'..='\u{9f}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}')
        {
            // Writing to a String cannot fail.
            let _ = fmt::Write::write_fmt(&mut line, format_args!("\\u{:04x}", u32::from(c)));
        } else {
            line.push(c);
        }
    }
    line
}

fn shop_file(file: &ShopFile) -> Value {
    let of = if file.own { "library" } else { "plant" };
    json!({ "file": file.name(), "of": of })
}

fn unread(input: &Unread) -> Value {
    json!({ "file": input.file, "reason": input.reason })
}

/// The value with no text in it longer than any message.
fn bounded(value: &Value) -> Cow<'_, Value> {
    fn is_long(value: &Value) -> bool {
        match value {
            Value::String(text) => text.len() > LONGEST_TEXT,
            Value::Array(items) => items.iter().any(is_long),
            Value::Object(fields) => fields.values().any(is_long),
            _ => false,
        }
    }
    fn shorten(value: &mut Value) {
        match value {
            Value::String(text) if text.len() > LONGEST_TEXT => {
                *text = cut(text, LONGEST_TEXT).into_owned();
            }
            Value::Array(items) => items.iter_mut().for_each(shorten),
            Value::Object(fields) => fields.values_mut().for_each(shorten),
            _ => {}
        }
    }
    if !is_long(value) {
        return Cow::Borrowed(value);
    }
    let mut value = value.clone();
    shorten(&mut value);
    Cow::Owned(value)
}

/// A name or a cell from input.
fn name(text: &str) -> Cow<'_, str> {
    cut(text, LONGEST_NAME)
}

/// The summary, with the names of the tools whose grip was not judged.
fn summary(overview: &Overview, names: &Value) -> Value {
    let summary = &overview.summary;
    json!({
        "verdict": summary.verdict.name(),
        "error": summary.error,
        "warning": summary.warning,
        "note": summary.note,
        "not_judged": summary.not_judged,
        "not_applicable": summary.not_applicable,
        "met": summary.met,
        "accepted": summary.accepted,
        "grip_judged": summary.grip_judged,
        "held_in_collets": summary.held_in_collets,
        "held_by_shank": summary.held_by_shank,
        "coverage": coverage_json(&overview.coverage, names),
        "assemblies": came_json(&overview.came),
    })
}

fn finding(finding: &Finding) -> Value {
    let limits: Map<String, Value> = finding
        .limits
        .iter()
        .map(|limit| (limit.name.clone(), limit_shown(limit)))
        .collect();
    json!({
        "rule": finding.rule,
        "level": finding.level_name(),
        "outcome": finding.outcome.name(),
        "tool_number": finding.tool_number.as_deref().map(name),
        "assembly": finding.assembly.as_deref().map(name),
        "operation": finding.operation.as_deref().map(name),
        "message": finding.message,
        "missing": finding.missing,
        "facts": facts(&finding.facts),
        "limits": limits,
        "assumptions": finding.assumptions,
        "accepted": finding.accepted.as_ref().map(|accepted| json!({
            "reason": accepted.reason,
            "by": accepted.by,
            "until": accepted.until,
        })),
        "places": finding.places.iter().map(place).collect::<Vec<_>>(),
        "fingerprint": finding.fingerprint,
    })
}

fn range(range: &RangeShown) -> Value {
    json!({
        "field": range.field,
        "range": [number(range.range.0), number(range.range.1)],
        "unit": Unit::Mm.symbol(),
        "assemblies": range.tools,
    })
}

fn limit_shown(limit: &LimitShown) -> Value {
    json!({
        "value": number(limit.value),
        "unit": limit.unit.symbol(),
        "basis": limit.basis,
        "source": limit.source,
    })
}

fn place(place: &FindingPlace) -> Value {
    json!({
        "file": place.file,
        "line": place.line,
        "column": place.column,
        "field": place.field,
        "text": name(&place.text),
    })
}

pub(super) fn facts(facts: &[FactShown]) -> Map<String, Value> {
    facts
        .iter()
        .map(|fact| (fact.name.clone(), fact_shown(fact)))
        .collect()
}

fn fact_shown(fact: &FactShown) -> Value {
    let value = match &fact.value {
        None => Value::Null,
        Some(Scalar::Number(value)) => number(*value),
        Some(Scalar::Word(word)) => json!(word.word),
        Some(Scalar::Text(text)) => json!(name(text)),
        Some(Scalar::Truth(truth)) => json!(truth),
    };
    let mut shown = json!({
        "value": value,
        "unit": fact.unit.map(crate::units::Unit::symbol),
        "assumed": fact.assumed,
        "from": fact.from,
    });
    if let (None, Some(object)) = (&fact.value, shown.as_object_mut()) {
        object.insert("missing".to_owned(), json!(fact.missing));
        if let Some((low, high)) = fact.range {
            object.insert("range".to_owned(), json!([number(low), number(high)]));
        }
    }
    shown
}

fn assembly(sheet: &Sheet, with_remedies: bool) -> Value {
    let Some(clamping) = sheet.clampings.first() else {
        return Value::Null;
    };
    let Some(facts) = &clamping.facts else {
        return Value::Null;
    };
    let mut shown = facts_of(facts, clamping.window.as_ref().map(window_json).as_ref());
    if let (true, Some(shown)) = (with_remedies, shown.as_object_mut()) {
        remedies(shown, clamping.remedies.as_ref());
    }
    shown
}

fn facts_of(assembly: &AssemblyFacts, window: Option<&Value>) -> Value {
    let operations = assembly.operations.iter().map(
        |operation| json!({ "operation": name(&operation.operation), "facts": facts(&operation.facts) }),
    );
    json!({
        "tool_number": assembly.tool_number.as_deref().map(name),
        "assembly": assembly.assembly.as_deref().map(name),
        "facts": facts(&assembly.facts),
        "operations": operations.collect::<Vec<_>>(),
        "window": window,
    })
}

/// A number with nine significant digits; never NaN.
pub(super) fn number(value: f64) -> Value {
    let rounded = format!("{value:.*e}", SIGNIFICANT - 1).parse::<f64>();
    match rounded {
        Ok(rounded) if rounded.is_finite() => json!(rounded),
        _ => Value::Null,
    }
}
