//! SARIF 2.1.0, the OASIS format for results of checks: one log with one run, whatever the number
//! of libraries. Results are written while they are made; what is only known at the end, rules and
//! notices, comes behind them.

mod about;
mod message;
mod notice;
mod past_result;
mod place;
mod result;
mod rule;
mod uri;

use std::collections::BTreeMap;
use std::io::{self, Write};

use serde::Serialize;

use crate::sheet::{Finding, Heading, Item, Overview, RuleShown};
use crate::text::{Unread, Unreadable};

use super::NOTICE;
use super::json::{Input, put_up_to};
use about::About;
use notice::{Count, Described, Notice};
pub(crate) use past_result::earlier;
use result::Found;
use rule::{Descriptor, Numbers, Rules};

/// The schema that the log keeps to, by its own id.
const SCHEMA: &str = "https://raw.githubusercontent.com/oasis-tcs/sarif-spec/master/Schemata/sarif-schema-2.1.0.json";
/// Results of one rule in one library that the log holds: a fault that every row repeats must not
/// drown the rest.
pub(crate) const MOST: usize = 1000;
/// Longest text, in characters: the longest path that a system takes, each byte in percent.
const LONGEST: usize = 20_000;

/// A log while it is written.
#[derive(Default)]
pub(crate) struct Log {
    rules: Rules,
    /// Lists, written, that wait for the results to end.
    notices: Vec<u8>,
    libraries: Vec<u8>,
    /// Results of each rule in the present library.
    counts: BTreeMap<String, usize>,
    /// Whether any result is written.
    begun: bool,
}

/// The results of one assembly, or of one fault, each with its rule: made on any thread.
pub(crate) struct Results(Vec<(String, Vec<u8>)>);

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Invocation {
    execution_successful: bool,
    exit_code: u8,
    exit_code_description: &'static str,
}

impl Results {
    /// Of an assembly or of a fault of a library.
    pub(crate) fn of(item: &Item, numbers: &Numbers, library: &str) -> Results {
        let mut findings: Vec<&Finding> = item.findings().iter().collect();
        // By rule: the place of a result in the log does not depend on its level.
        findings.sort_by(|a, b| a.rule.cmp(&b.rule));
        let heading = match item {
            Item::Sheet(sheet) => Some(&sheet.heading),
            Item::Fault(_) => None,
        };
        let results = findings.into_iter().map(|finding| {
            let number = numbers.of(&finding.rule);
            let mut line = Vec::new();
            put(&Found::of(finding, number, heading, library), &mut line);
            (finding.rule.clone(), line)
        });
        Results(results.collect())
    }
}

/// A finding of a library as a result, an object; its properties stand last in it.
pub(crate) fn result(finding: &Finding, heading: Option<&Heading>, library: &str) -> Vec<u8> {
    let mut line = Vec::new();
    put(&Found::of(finding, None, heading, library), &mut line);
    line
}

/// What the log says of a library that was read, an object.
pub(crate) fn about(name: &str, in_part: bool, overview: &Overview, fails: bool) -> Vec<u8> {
    let mut line = Vec::new();
    put(&About::of(name, in_part, overview, fails), &mut line);
    line
}

/// What the log says of a library that was not read, an object.
pub(crate) fn about_unreadable(name: &str) -> Vec<u8> {
    let mut line = Vec::new();
    put(&About::unreadable(name), &mut line);
    line
}

/// A rule as the log describes it, an object.
pub(crate) fn descriptor(rule: &RuleShown) -> Vec<u8> {
    let mut line = Vec::new();
    put(&Descriptor::of(rule), &mut line);
    line
}

/// What an audit says of itself in its log.
#[derive(Clone, Copy)]
pub(crate) struct OfAudit<'a> {
    /// Its name among all runs: with its id behind a slash.
    pub automation: &'a str,
    /// Its properties, an object.
    pub properties: &'a [u8],
}

impl Log {
    /// Writes a result that is made already.
    pub(crate) fn put(&mut self, result: &[u8], to: &mut impl Write) -> io::Result<()> {
        let comma = std::mem::replace(&mut self.begun, true);
        to.write_all(if comma { b",\n" } else { b"\n" })?;
        to.write_all(result)
    }

    /// Adds a rule that is described already, if it is not there yet.
    pub(crate) fn rule(&mut self, id: &str, descriptor: &[u8]) {
        self.rules.add_written(id, descriptor);
    }

    /// Adds what is said of a library.
    pub(crate) fn about(&mut self, about: &[u8]) {
        if !self.libraries.is_empty() {
            self.libraries.extend(b",\n");
        }
        self.libraries.extend(about);
    }

    /// Tells of a file or folder that could not be read.
    pub(crate) fn not_readable(&mut self, fault: &Unreadable) {
        self.tell(&Notice::unreadable(fault));
    }

    /// Tells of a file that should be part of a library and was not read.
    pub(crate) fn not_read(&mut self, input: &Unread) {
        self.tell(&Notice::not_read(input));
    }

    /// Tells how many results of a rule in a library there are, of which the first are here.
    pub(crate) fn left_out(&mut self, library: &str, rule: &str, results: usize) {
        let count = Count {
            library,
            rule,
            results,
            written: MOST,
        };
        self.tell(&Notice::left_out(count, self.rules.numbers.of(rule)));
    }

    /// Writes what comes before all results.
    pub(crate) fn head(to: &mut impl Write) -> io::Result<()> {
        write!(
            to,
            "{{\"$schema\":\"{SCHEMA}\",\"version\":\"2.1.0\",\"runs\":[{{\
             \"columnKind\":\"unicodeCodePoints\",\"newlineSequences\":[\"\\r\\n\",\"\\n\",\"\\r\"],\
             \"results\":["
        )
    }

    /// Begins a library that was read, judged by these rules; their numbers.
    pub(crate) fn library(&mut self, input: Input<'_>, rules: &[RuleShown]) -> Numbers {
        self.rules.add(rules);
        self.counts.clear();
        self.tell_unreadable(input);
        self.rules.numbers.clone()
    }

    /// Takes the next results of the present library.
    pub(crate) fn take(&mut self, results: &Results, to: &mut impl Write) -> io::Result<()> {
        for (rule, line) in &results.0 {
            let count = match self.counts.get_mut(rule) {
                Some(count) => count,
                None => self.counts.entry(rule.clone()).or_default(),
            };
            *count += 1;
            if *count <= MOST {
                self.put(line, to)?;
            }
        }
        Ok(())
    }

    /// Ends a library, and says whether it fails the run.
    pub(crate) fn end(&mut self, input: Input<'_>, overview: &Overview, fails: bool) {
        for unread in &overview.library.unread {
            self.tell(&Notice::not_read(unread));
        }
        for (rule, results) in std::mem::take(&mut self.counts) {
            if results > MOST {
                self.left_out(input.name, &rule, results);
            }
        }
        let in_part = !input.unreadable.is_empty();
        add(
            &About::of(input.name, in_part, overview, fails),
            &mut self.libraries,
        );
    }

    /// Tells of an input of which nothing could be read.
    pub(crate) fn unreadable(&mut self, input: Input<'_>) {
        self.tell_unreadable(input);
        add(&About::unreadable(input.name), &mut self.libraries);
    }

    /// Tells what went wrong apart from any file.
    pub(crate) fn refused(&mut self, words: &str) {
        self.tell(&Notice::refused(words));
    }

    fn tell_unreadable(&mut self, input: Input<'_>) {
        for fault in input.unreadable {
            self.tell(&Notice::unreadable(fault));
        }
    }

    fn tell(&mut self, notice: &Notice<'_>) {
        add(notice, &mut self.notices);
    }

    /// Ends with the exit status of the run, and with what that means.
    pub(crate) fn finish(
        &self,
        (status, ran, meaning): (u8, bool, &'static str),
        audit: Option<OfAudit<'_>>,
        to: &mut impl Write,
    ) -> io::Result<()> {
        let invocation = Invocation {
            execution_successful: ran,
            exit_code: status,
            exit_code_description: meaning,
        };
        to.write_all(b"],\n\"tool\":{\"driver\":{\"name\":\"shankwise\",\"version\":")?;
        put_up_to(&env!("CARGO_PKG_VERSION"), LONGEST, to)?;
        to.write_all(b",\"rules\":[")?;
        to.write_all(&self.rules.written)?;
        to.write_all(b"],\"notifications\":")?;
        put_up_to(&Described::all(), LONGEST, to)?;
        to.write_all(b"}},\n\"invocations\":[")?;
        let mut written = Vec::new();
        put(&invocation, &mut written);
        to.write_all(written.strip_suffix(b"}").unwrap_or(&written))?;
        to.write_all(b",\"toolExecutionNotifications\":[")?;
        to.write_all(&self.notices)?;
        to.write_all(b"]}],\n")?;
        if let Some(audit) = audit {
            to.write_all(b"\"automationDetails\":{\"id\":")?;
            put_up_to(&audit.automation, LONGEST, to)?;
            to.write_all(b"},\n")?;
        }
        to.write_all(b"\"properties\":{")?;
        if let Some(audit) = audit {
            to.write_all(b"\"audit\":")?;
            to.write_all(audit.properties)?;
            to.write_all(b",\n")?;
        }
        to.write_all(b"\"notice\":")?;
        put_up_to(&NOTICE, LONGEST, to)?;
        to.write_all(b",\"libraries\":[")?;
        to.write_all(&self.libraries)?;
        to.write_all(b"]}}]}\n")
    }
}

/// Adds to a list.
fn add(value: &impl Serialize, list: &mut Vec<u8>) {
    if !list.is_empty() {
        list.extend(b",\n");
    }
    put(value, list);
}

/// Writes to memory, which cannot fail; every key is a text.
fn put(value: &impl Serialize, line: &mut Vec<u8>) {
    let _ = put_up_to(value, LONGEST, line);
}
