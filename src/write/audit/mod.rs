//! What an audit writes, library after library: SARIF, JSON, a table of findings, a comment of at
//! most sixty lines, and a report for build servers. All of one run have its id, and what one of
//! them counts the others count too.

mod gone_lines;
mod head;
mod junit;
mod markdown;
mod news_lines;
mod piece;
mod said;
mod schema;
mod story;

use std::borrow::Cow;
use std::collections::BTreeMap;
use std::io::{self, Write};

use crate::audit::{Change, Ended, Found, GONE, NOT_COMPARED, Noted, Row, State, Table};
use crate::text::{Unread, Unreadable};

use super::NOTICE;
use super::json::add;
use super::sarif::{self, Log, OfAudit};
pub(crate) use head::{Head, Options, Since, Verdict};
use junit::Junit;
pub(crate) use piece::{
    Input as LibraryInput, OfLibrary, Pieces as LibraryPieces, Rules, ended, ended_without,
};
use said::{Became, Earlier, File, Kept, LeftOut, Opening, Properties, Totals};
pub(crate) use schema::audit_schema;
pub(crate) use story::{LOST, NO_TOOL, NOT_FOUND, Story};

/// Where each output goes.
pub(crate) struct Places<W> {
    pub sarif: W,
    pub json: W,
    pub table: W,
    pub junit: Option<W>,
}

/// The outputs of an audit while they are written.
pub(crate) struct Outputs<W: Write> {
    head: Head,
    log: Log,
    sarif: W,
    json: W,
    table: Table<W>,
    junit: Option<Junit<W>>,
    story: Story,
    libraries: Vec<Kept>,
    /// Findings of each rule in the present library, or in an earlier one.
    counts: BTreeMap<String, usize>,
    /// Where the next object of JSON stands.
    open: Open,
    /// Where the assemblies of the present library stand, with commas between them.
    points: Vec<u8>,
}

/// What of the present library's JSON is open.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
struct Open {
    libraries: usize,
    findings: usize,
    sheets: usize,
    in_sheet: bool,
}

impl<W: Write> Outputs<W> {
    /// Begins.
    ///
    /// # Errors
    /// If it cannot be written, here and below.
    pub(crate) fn begin(head: Head, places: Places<W>) -> io::Result<Outputs<W>> {
        let Places {
            mut sarif,
            mut json,
            table,
            junit,
        } = places;
        Log::head(&mut sarif)?;
        let mut log = Log::default();
        for (id, rule) in &head.rules {
            log.rule(id, rule.as_bytes());
        }
        for one in &head.unreadable {
            log.not_readable(&Unreadable {
                file: Some(one.file.clone()),
                position: None,
                message: one.reason.clone(),
            });
        }
        let opening = Opening {
            format: 1,
            program: concat!("shankwise ", env!("CARGO_PKG_VERSION")),
            notice: NOTICE,
            audit: Properties::of(&head, &[]),
            passed_over: head.passed_over.iter().map(File::of).collect(),
            unreadable: head.unreadable.iter().map(File::of).collect(),
        };
        let mut line = Vec::new();
        add(&opening, &mut line);
        line.pop();
        json.write_all(&line)?;
        json.write_all(b",\n\"libraries\":[")?;
        let junit = junit.map(|to| Junit::begin(to, &head.options.fail_on));
        Ok(Outputs {
            junit: junit.transpose()?,
            table: Table::begin(table)?,
            head,
            log,
            sarif,
            json,
            story: Story::default(),
            libraries: Vec::new(),
            counts: BTreeMap::new(),
            open: Open::default(),
            points: Vec::new(),
        })
    }

    /// Begins a library.
    pub(crate) fn library(&mut self, key: &str) -> io::Result<()> {
        let comma = if self.open.libraries > 0 { ",\n" } else { "\n" };
        self.open = Open {
            libraries: self.open.libraries + 1,
            ..Open::default()
        };
        self.counts.clear();
        let mut line = Vec::new();
        add(&key, &mut line);
        self.json.write_all(comma.as_bytes())?;
        self.json.write_all(b"{\"key\":")?;
        self.json.write_all(&line)?;
        self.json.write_all(b",\"findings\":[")
    }

    /// Takes where an assembly stands among all others.
    pub(crate) fn point(&mut self, point: &[u8]) {
        if !self.points.is_empty() {
            self.points.extend(b",\n");
        }
        self.points.extend(point);
    }

    /// Begins the sheet of an assembly; the findings behind it are its own.
    pub(crate) fn sheet(&mut self, sheet: &[u8]) -> io::Result<()> {
        self.end_sheet()?;
        self.json.write_all(if self.open.sheets == 0 {
            b"],\"sheets\":[\n"
        } else {
            b",\n"
        })?;
        self.open.sheets += 1;
        self.open.findings = 0;
        self.open.in_sheet = true;
        self.json.write_all(sheet)?;
        self.json.write_all(b",\"findings\":[")
    }

    fn end_sheet(&mut self) -> io::Result<()> {
        if std::mem::take(&mut self.open.in_sheet) {
            self.json.write_all(b"]}")?;
        }
        Ok(())
    }

    /// Takes a finding, with what became of it.
    pub(crate) fn finding(&mut self, found: &Found, change: &Change) -> io::Result<()> {
        *self.counts.entry(found.noted.rule.clone()).or_default() += 1;
        let noted = counting_again(&found.noted, change);
        self.story.finding(&noted, change);
        if let Some(junit) = &mut self.junit {
            junit.finding(found);
        }
        self.table.add(&Row {
            run: self.head.id.clone(),
            state: change.state.name().to_owned(),
            reason: String::new(),
            value_before: change.before.map(|(value, _)| value),
            needed_before: change.before.map(|(_, needed)| needed),
            noted: noted.into_owned(),
        })?;
        if !found.sarif.is_empty() {
            let result = in_log(&found.sarif, change);
            self.log.put(&result, &mut self.sarif)?;
        }
        if !found.json.is_empty() {
            let comma = self.open.findings > 0;
            self.open.findings += 1;
            self.json.write_all(if comma { b"," } else { b"" })?;
            self.json.write_all(&with_change(&found.json, change, 1))?;
        }
        Ok(())
    }

    /// Ends a library.
    pub(crate) fn end(&mut self, ended: &Ended) -> io::Result<()> {
        self.end_sheet()?;
        if self.open.sheets == 0 {
            self.json.write_all(b"],\"sheets\":[")?;
        }
        self.json.write_all(b"],")?;
        self.json.write_all(ended.json.as_bytes())?;
        let cut: Vec<(String, usize)> = std::mem::take(&mut self.counts)
            .into_iter()
            .filter(|(_, count)| *count > sarif::MOST)
            .collect();
        let mut line = Vec::new();
        add(&LeftOut(&cut), &mut line);
        self.json.write_all(b",\"points\":[")?;
        self.json.write_all(&std::mem::take(&mut self.points))?;
        self.json.write_all(b"],\"left_out\":")?;
        self.json.write_all(&line)?;
        self.json.write_all(b"}")?;
        for (id, rule) in &ended.rules {
            self.log.rule(id, rule.as_bytes());
        }
        self.log.about(ended.sarif.as_bytes());
        for fault in &ended.unreadable {
            self.log.not_readable(&fault.told());
        }
        for (file, reason) in &ended.unread {
            self.log.not_read(&Unread::new(file, reason));
        }
        if let Some(why) = &ended.failed {
            self.log.refused(&failed(&ended.input, why));
        }
        for (rule, count) in &cut {
            self.log.left_out(&ended.input, rule, *count);
        }
        if let Some(junit) = &mut self.junit {
            junit.library(ended)?;
        }
        self.story.library(ended);
        self.libraries.push(Kept {
            key: ended.key.clone(),
            name: ended.name.clone(),
            status: ended.status.name(),
            cut: cut.into_iter().map(|(rule, _)| rule).collect(),
        });
        Ok(())
    }

    /// Begins the findings of the earlier audit that are not among today's.
    pub(crate) fn begin_earlier(&mut self) -> io::Result<()> {
        self.open.findings = 0;
        self.counts.clear();
        self.json.write_all(b"],\n\"earlier\":[")
    }

    /// Takes one of them: gone, or not looked for.
    pub(crate) fn earlier(&mut self, noted: &Noted, is_gone: bool, reason: &str) -> io::Result<()> {
        let change = if is_gone { GONE } else { NOT_COMPARED };
        self.story.earlier(noted, is_gone, reason);
        let of = format!("{}\n{}", noted.library, noted.rule);
        let count = self.counts.entry(of).or_default();
        *count += 1;
        if *count <= sarif::MOST {
            let result = sarif::earlier(noted, is_gone, (change, reason));
            self.log.put(&result, &mut self.sarif)?;
            let comma = std::mem::replace(&mut self.open.findings, 1) > 0;
            let mut line = Vec::new();
            add(
                &Earlier {
                    change,
                    reason,
                    finding: noted,
                },
                &mut line,
            );
            self.json.write_all(if comma { b",\n" } else { b"\n" })?;
            self.json.write_all(&line)?;
        }
        self.table.add(&Row {
            run: self.head.id.clone(),
            state: change.to_owned(),
            reason: reason.to_owned(),
            noted: noted.clone(),
            ..Row::default()
        })
    }

    /// What is known before any library.
    pub(crate) const fn head(&self) -> &Head {
        &self.head
    }

    /// What is told so far, to be completed.
    pub(crate) const fn story(&mut self) -> &mut Story {
        &mut self.story
    }

    /// Ends with the exit status and what it means; the comment, and where the outputs went.
    pub(crate) fn finish(
        mut self,
        status: (u8, bool, &'static str),
        verdict: Verdict,
    ) -> io::Result<(String, Places<W>)> {
        let comment = markdown::markdown(&self.head, &self.story, verdict);
        let mut line = Vec::new();
        add(&Properties::of(&self.head, &self.libraries), &mut line);
        let automation = format!("shankwise audit/{}", self.head.id);
        let audit = OfAudit {
            automation: &automation,
            properties: &line,
        };
        self.log.finish(status, Some(audit), &mut self.sarif)?;
        let mut totals = Vec::new();
        add(
            &Totals::of(&self.story, status.0, verdict.fails),
            &mut totals,
        );
        self.json.write_all(b"],\n\"totals\":")?;
        self.json.write_all(&totals)?;
        self.json.write_all(b"}\n")?;
        Ok((
            comment,
            Places {
                sarif: self.sarif,
                json: self.json,
                table: self.table.finish()?,
                junit: self.junit.map(Junit::finish).transpose()?,
            },
        ))
    }
}

/// What is said of a finding that was accepted and of which no entry speaks any more.
const NO_ENTRY: &str = "accepted before; no entry accepts it any more";

/// A finding that always says why it is accepted no more.
fn counting_again<'n>(noted: &'n Noted, change: &Change) -> Cow<'n, Noted> {
    if change.state != State::Lapsed || !noted.accepted_no_more.is_empty() {
        return Cow::Borrowed(noted);
    }
    Cow::Owned(Noted {
        accepted_no_more: NO_ENTRY.to_owned(),
        ..noted.clone()
    })
}

/// What is said of a library on which the program failed.
pub(crate) fn failed(library: &str, why: &str) -> String {
    format!("{library}: the program failed on this library, and judged nothing of it: {why}")
}

/// A result with what became of it; its properties stand last in it.
fn in_log(result: &[u8], change: &Change) -> Vec<u8> {
    let mut line = with_change(result, change, 2);
    if let Some(state) = change.state.baseline() {
        line.pop();
        line.extend(b",\"baselineState\":");
        add(&state, &mut line);
        line.push(b'}');
    }
    line
}

/// An object with what became of it, put into the object that ends so many braces before its end.
fn with_change(object: &[u8], change: &Change, braces: usize) -> Vec<u8> {
    let mut line = object.to_vec();
    if change.state == State::Alone {
        return line;
    }
    line.truncate(object.len() - braces.min(object.len()));
    line.extend(b",\"change\":");
    add(&Became::of(change), &mut line);
    line.extend(std::iter::repeat_n(b'}', braces));
    line
}
