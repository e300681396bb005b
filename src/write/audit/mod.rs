//! What an audit writes, library after library: SARIF, JSON, a table of findings, a comment of at
//! most sixty lines, and a report for build servers. All of one run have its id, and what one of
//! them counts the others count too.

mod junit;
mod markdown;
mod piece;
mod story;

use std::collections::BTreeMap;
use std::io::{self, Write};

use serde::{Deserialize, Serialize};

use crate::audit::{Change, Ended, Found, GONE, NOT_COMPARED, Noted, Row, Seen, State, Table};
use crate::sheet::RuleShown;
use crate::text::{Position, Unread, Unreadable};

use super::NOTICE;
use super::json::add;
use super::sarif::{self, Log, OfAudit};
use junit::Junit;
pub(crate) use piece::{
    Input as LibraryInput, OfLibrary, Pieces as LibraryPieces, Rules, ended, ended_without,
};
pub(crate) use story::{NOT_FOUND, Story};

/// What is known of an audit before its first library.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct Head {
    /// Its id: a hash of inputs, rules, configuration, version and day.
    pub id: String,
    /// The day by which it judges, `2027-01-31`.
    pub day: String,
    /// SHA-256 of the rules before any shop changes them.
    pub rules_sha256: String,
    /// The folders that were named.
    pub roots: Vec<String>,
    /// The options that decide what is judged and what fails.
    pub options: Options,
    /// How much was seen.
    pub seen: Seen,
    /// CSV files and XML documents that are no library, and why.
    pub passed_over: Vec<(String, String)>,
    /// Files and folders that could not be looked at, and why.
    pub unreadable: Vec<(String, String)>,
    /// The keys of the libraries, in their order.
    pub keys: Vec<String>,
    /// The rules before any shop changes them, each as the log describes it.
    pub rules: Vec<(String, String)>,
    /// What it is compared with.
    pub since: Option<Since>,
}

impl Head {
    /// Takes in the rules.
    pub(crate) fn describe(&mut self, rules: &[RuleShown]) {
        let described = rules.iter().map(|rule| {
            // Every piece of it is written as text.
            let text = String::from_utf8(sarif::descriptor(rule));
            (rule.id.clone(), text.unwrap_or_default())
        });
        self.rules = described.collect();
    }
}

/// Options that decide what is judged and what fails.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct Options {
    pub strict: bool,
    pub fail_on: String,
    pub only: Vec<String>,
    pub except: Vec<String>,
    pub min_coverage: Option<f64>,
    pub remedies: bool,
    pub only_new: bool,
}

/// The earlier audit that one is compared with.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct Since {
    pub id: String,
    pub day: String,
}

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
}

/// What a later audit asks of a library.
#[derive(Serialize)]
struct Kept {
    key: String,
    name: Option<String>,
    status: &'static str,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    cut: Vec<String>,
}

/// What of the present library's JSON is open.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
struct Open {
    libraries: usize,
    findings: usize,
    sheets: usize,
    in_sheet: bool,
}

#[derive(Serialize)]
struct Properties<'a> {
    id: &'a str,
    day: &'a str,
    rules_sha256: &'a str,
    options: &'a Options,
    roots: &'a [String],
    seen: Counted,
    since: Option<&'a Since>,
    libraries: &'a [Kept],
}

#[derive(Serialize)]
struct Counted {
    files: usize,
    libraries: usize,
    ignored: usize,
    unrecognised: usize,
    unreadable: usize,
}

#[derive(Serialize)]
struct Opening<'a> {
    format: u8,
    program: &'static str,
    notice: &'static str,
    audit: Properties<'a>,
    passed_over: Vec<File<'a>>,
    unreadable: Vec<File<'a>>,
}

#[derive(Serialize)]
struct File<'a> {
    file: &'a str,
    reason: &'a str,
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
        for (file, message) in &head.unreadable {
            log.not_readable(&Unreadable {
                file: Some(file.clone()),
                position: None,
                message: message.clone(),
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
        self.story.finding(found, change);
        if let Some(junit) = &mut self.junit {
            junit.finding(found);
        }
        self.table.add(&Row {
            run: self.head.id.clone(),
            state: change.state.name().to_owned(),
            reason: String::new(),
            value_before: change.before.map(|(value, _)| value),
            needed_before: change.before.map(|(_, needed)| needed),
            noted: found.noted.clone(),
        })?;
        if !found.sarif.is_empty() {
            let result = with_state(&found.sarif, change, Some(change.state.baseline()));
            self.log.put(&result, &mut self.sarif)?;
        }
        if !found.json.is_empty() {
            let comma = self.open.findings > 0;
            self.open.findings += 1;
            self.json.write_all(if comma { b"," } else { b"" })?;
            self.json
                .write_all(&with_state(&found.json, change, None))?;
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
        self.json.write_all(b",\"left_out\":")?;
        self.json.write_all(&line)?;
        self.json.write_all(b"}")?;
        for (id, rule) in &ended.rules {
            self.log.rule(id, rule.as_bytes());
        }
        self.log.about(ended.sarif.as_bytes());
        for (file, at, message) in &ended.unreadable {
            self.log.not_readable(&Unreadable {
                file: file.clone(),
                position: at.map(|(line, column)| Position { line, column }),
                message: message.clone(),
            });
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

    /// What is told so far, to be completed.
    pub(crate) const fn story(&mut self) -> &mut Story {
        &mut self.story
    }

    /// Ends with the exit status and what it means; the comment, and where the outputs went.
    pub(crate) fn finish(
        mut self,
        status: (u8, bool, &'static str),
        fails: bool,
    ) -> io::Result<(String, Places<W>)> {
        let comment = markdown::markdown(&self.head, &self.story, fails);
        let mut line = Vec::new();
        add(&Properties::of(&self.head, &self.libraries), &mut line);
        let automation = format!("shankwise audit/{}", self.head.id);
        let audit = OfAudit {
            automation: &automation,
            properties: &line,
        };
        self.log.finish(status, Some(audit), &mut self.sarif)?;
        let mut totals = Vec::new();
        add(&Totals::of(&self.story, status.0, fails), &mut totals);
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

/// What is said of a library on which the program failed.
pub(crate) fn failed(library: &str, why: &str) -> String {
    format!("{library}: the program failed on this library, and judged nothing of it: {why}")
}

/// An object with what became of it. In SARIF its properties stand last, and are open to more.
fn with_state(object: &[u8], change: &Change, baseline: Option<Option<&str>>) -> Vec<u8> {
    let mut line = object.to_vec();
    if change.state == State::Alone {
        return line;
    }
    line.pop();
    if baseline.is_some() {
        line.pop();
    }
    let mut own = Vec::new();
    add(&Became::of(change), &mut own);
    line.extend(b",\"change\":");
    line.extend(own);
    if let Some(state) = baseline {
        line.extend(b"},\"baselineState\":");
        add(&state, &mut line);
    }
    line.push(b'}');
    line
}

/// What became of a finding.
#[derive(Serialize)]
struct Became {
    state: &'static str,
    value_before: Option<f64>,
    needed_before: Option<f64>,
    /// Whether it was accepted and is not any more.
    accepted_no_more: bool,
}

impl Became {
    fn of(change: &Change) -> Became {
        Became {
            state: change.state.name(),
            value_before: change.before.map(|(value, _)| value),
            needed_before: change.before.map(|(_, needed)| needed),
            accepted_no_more: change.lapsed,
        }
    }
}

#[derive(Serialize)]
struct Earlier<'a> {
    change: &'a str,
    reason: &'a str,
    finding: &'a Noted,
}

/// Of which rules not every finding is here, and how many there are.
struct LeftOut<'a>(&'a [(String, usize)]);

impl Serialize for LeftOut<'_> {
    fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_map(self.0.iter().map(|(rule, count)| (rule, count)))
    }
}

#[derive(Serialize)]
struct Totals {
    exit_status: u8,
    fails: bool,
    libraries: usize,
    assemblies: usize,
    /// Assemblies that fail, whose grip is not judged, to be checked, else not judged, without a
    /// finding.
    groups: [usize; 5],
    /// Errors, warnings, notes, not judged.
    findings: [usize; 4],
    accepted: usize,
    held_by_shank: usize,
    grip_judged: usize,
    new: [usize; 4],
    worse: [usize; 4],
    better: [usize; 4],
    gone: [usize; 4],
    not_compared: [usize; 4],
}

impl Totals {
    fn of(story: &Story, exit_status: u8, fails: bool) -> Totals {
        Totals {
            exit_status,
            fails,
            libraries: story.libraries,
            assemblies: story.counts.assemblies(),
            groups: story.counts.groups,
            findings: story.counts.levels,
            accepted: story.counts.accepted,
            held_by_shank: story.counts.held_by_shank,
            grip_judged: story.counts.grip_judged,
            new: story.new.levels,
            worse: story.worse.levels,
            better: story.better.levels,
            gone: story.gone.levels,
            not_compared: story.not_compared.levels,
        }
    }
}

impl<'a> Properties<'a> {
    fn of(head: &'a Head, kept: &'a [Kept]) -> Properties<'a> {
        Properties {
            id: &head.id,
            day: &head.day,
            rules_sha256: &head.rules_sha256,
            options: &head.options,
            roots: &head.roots,
            seen: Counted {
                files: head.seen.files,
                libraries: head.keys.len(),
                ignored: head.seen.ignored,
                unrecognised: head.seen.unrecognised,
                unreadable: head.seen.unreadable,
            },
            since: head.since.as_ref(),
            libraries: kept,
        }
    }
}

impl<'a> File<'a> {
    fn of((file, reason): &'a (String, String)) -> File<'a> {
        File { file, reason }
    }
}
