//! What comes of one library, in every form that an audit writes: made where it is judged, on any
//! thread, and joined later.

use std::collections::{BTreeMap, HashSet};
use std::io;
use std::sync::{PoisonError, RwLock};

use schemars::JsonSchema;
use serde::Serialize;

use crate::audit::{self, Counts, Ended, Found, Frame, Noted, Piece, Status};
use crate::sheet::{Came, Finding, Group, Heading, Item, Overview, RuleShown, Sheet, Verdict};
use crate::text::Unreadable;

use super::super::json::{About, Counts as Summary, Fault, FoundJson, Record, Whole, add, name};
use super::super::sarif::{self, MOST};

/// A library while it is judged: its findings are made into pieces, and the first of each rule
/// into JSON and SARIF too.
pub(crate) struct OfLibrary<'l> {
    key: &'l str,
    /// The units of its people.
    units: &'static str,
    /// Rules of which enough were seen: no more of them are written out.
    full: RwLock<HashSet<String>>,
}

/// What comes of one item.
pub(crate) struct Pieces(Vec<Frame>);

impl<'l> OfLibrary<'l> {
    /// A library by its key, with the units that its people read.
    pub(crate) fn new(key: &'l str, units: &'static str) -> OfLibrary<'l> {
        OfLibrary {
            key,
            units,
            full: RwLock::default(),
        }
    }

    /// Makes the pieces of an assembly, or of a fault of none; on any thread.
    pub(crate) fn pieces(&self, item: &Item) -> Pieces {
        let mut findings: Vec<&Finding> = item.findings().iter().collect();
        // By rule: the place of a finding in an output does not depend on its level.
        findings.sort_by(|a, b| a.rule.cmp(&b.rule));
        let (sheet, heading) = match item {
            Item::Sheet(sheet) => (is_shown(sheet).then_some(sheet), Some(&sheet.heading)),
            Item::Fault(_) => (None, None),
        };
        // What stands in no sheet is of the library, but for the notes of a tool without a sheet.
        let in_json = sheet.is_some() || heading.is_none();
        let found = findings
            .into_iter()
            .map(|finding| self.found(finding, heading, in_json))
            .collect::<Vec<Frame>>();
        let point = match item {
            Item::Sheet(sheet) => Some(Frame::Point(point(sheet))),
            Item::Fault(_) => None,
        };
        let written = |frame: &Frame| matches!(frame, Frame::Finding(one) if !one.json.is_empty());
        let open = sheet.filter(|_| found.iter().any(written)).map(|sheet| {
            let mut line = Vec::new();
            add(&Whole::of(sheet), &mut line);
            line.pop();
            Frame::Sheet(line)
        });
        Pieces(point.into_iter().chain(open).chain(found).collect())
    }

    fn found(&self, finding: &Finding, heading: Option<&Heading>, in_json: bool) -> Frame {
        let full = self.full.read().unwrap_or_else(PoisonError::into_inner);
        let is_full = full.contains(&finding.rule);
        drop(full);
        let (mut sarif, mut json) = (Vec::new(), Vec::new());
        if !is_full {
            sarif = sarif::result(finding, heading, self.key);
            if in_json {
                add(&FoundJson::of(finding, heading), &mut json);
            }
        }
        Frame::Finding(Box::new(Found {
            noted: Noted::of(finding, heading, (self.key, self.units)),
            open: finding.is_open() && finding.accepted.is_none(),
            sarif,
            json,
        }))
    }

    /// Writes pieces, in the order of the library; `counts` has how many of each rule there were.
    pub(crate) fn write(
        &self,
        pieces: Pieces,
        counts: &mut BTreeMap<String, usize>,
        to: &mut Piece,
    ) -> io::Result<()> {
        let mut sheet = None;
        for mut frame in pieces.0 {
            if matches!(frame, Frame::Sheet(_)) {
                // It is written with the first of its findings that is.
                sheet = Some(frame);
                continue;
            }
            if let Frame::Finding(found) = &mut frame {
                let count = counts.entry(found.noted.rule.clone()).or_default();
                *count += 1;
                if *count > MOST {
                    found.sarif.clear();
                    found.json.clear();
                }
                if *count == MOST {
                    let mut full = self.full.write().unwrap_or_else(PoisonError::into_inner);
                    full.insert(found.noted.rule.clone());
                }
                if let Some(sheet) = sheet.take_if(|_| !found.json.is_empty()) {
                    sheet.write(to)?;
                }
            }
            frame.write(to)?;
        }
        Ok(())
    }
}

/// Where an assembly stands among all others, and what came of it.
#[derive(Serialize, JsonSchema)]
pub(super) struct Point<'a> {
    /// The tool number, or what else names it.
    tool: &'a str,
    /// In which group of the counts it is.
    group: &'static str,
    /// The share of the gripping length that is filled, 1 for all; null where it is not known.
    grip: Option<f64>,
    /// The least that the rules ask of the grip; only where they ask for it.
    #[serde(skip_serializing_if = "Option::is_none")]
    needed: Option<f64>,
    /// By how much it reaches further than its operations ask, mm; null where that is not known.
    reach_margin: Option<f64>,
}

fn point(sheet: &Sheet) -> Vec<u8> {
    let mut line = Vec::new();
    add(
        &Point {
            tool: &name(&sheet.covered.name),
            group: sheet.group.name(),
            grip: sheet.covered.grip,
            needed: sheet.covered.needed,
            reach_margin: sheet.covered.reach_margin,
        },
        &mut line,
    );
    line
}

/// Whether an assembly has anything that a page shows.
fn is_shown(sheet: &Sheet) -> bool {
    !sheet.findings.is_empty() && sheet.group != Group::NothingFound
}

/// What JSON says of a library behind its findings.
#[derive(Serialize, JsonSchema)]
pub(super) struct Tail<'a> {
    /// Its path as it is shown.
    input: &'a str,
    /// The name that it states; null if it states none.
    name: Option<&'a str>,
    /// What came of reading it.
    #[schemars(extend("enum" = Status::ALL.map(Status::name)))]
    status: &'static str,
    /// SHA-256 of its files.
    files_sha256: &'a str,
    /// What of it could not be read.
    unreadable: Vec<Fault<'a>>,
    /// What is said of the library itself; null if nothing of it could be read.
    library: Option<About<'a>>,
    /// The counts; null if nothing of it could be read.
    summary: Option<Summary<'a>>,
    /// Whether it fails by itself, whatever it was before.
    fails: Option<bool>,
    /// By what it was judged, and when.
    run: Option<Record<'a>>,
}

/// A library that is read, or that is not.
pub(crate) struct Input<'a> {
    /// Its key.
    pub key: &'a str,
    /// Its path as it is shown.
    pub shown: &'a str,
    /// The name that it states.
    pub name: Option<&'a str>,
    /// SHA-256 of its files.
    pub digest: &'a str,
    /// What of it could not be read.
    pub unreadable: &'a [Unreadable],
}

/// The rules that a library is judged by, as far as they differ from the built-in ones.
pub(crate) struct Rules<'r> {
    /// Those that are switched off or not asked for.
    pub inactive: Vec<String>,
    /// Those of its own.
    pub own: &'r [RuleShown],
}

/// Ends a library that was judged.
pub(crate) fn ended(
    input: &Input<'_>,
    overview: &Overview,
    rules: Rules<'_>,
    fails: bool,
) -> Ended {
    let status = match input.unreadable {
        [] => Status::Read,
        _ => Status::InPart,
    };
    let unread = overview.library.unread.iter();
    Ended {
        unread: unread
            .map(|one| (one.file.clone(), one.reason.clone()))
            .collect(),
        config: overview.run.config_sha256.clone(),
        inactive: rules.inactive,
        rules: rules
            .own
            .iter()
            .map(|rule| (rule.id.clone(), text(sarif::descriptor(rule))))
            .collect(),
        counts: counts(overview, fails),
        sarif: text(sarif::about(
            input.shown,
            status == Status::InPart,
            overview,
            fails,
        )),
        json: tail(input, status, Some((overview, fails))),
        ..without(input, status)
    }
}

/// Ends a library of which nothing could be read, or on which the program failed.
pub(crate) fn ended_without(input: &Input<'_>, failed: Option<String>) -> Ended {
    let status = if failed.is_some() {
        Status::Failed
    } else {
        Status::Unreadable
    };
    Ended {
        failed,
        sarif: text(sarif::about_unreadable(input.shown)),
        json: tail(input, status, None),
        ..without(input, status)
    }
}

fn without(input: &Input<'_>, status: Status) -> Ended {
    Ended {
        key: input.key.to_owned(),
        input: input.shown.to_owned(),
        name: input.name.map(str::to_owned),
        digest: input.digest.to_owned(),
        status,
        unreadable: input.unreadable.iter().map(audit::Fault::of).collect(),
        ..Ended::default()
    }
}

fn tail(input: &Input<'_>, status: Status, judged: Option<(&Overview, bool)>) -> String {
    let overview = judged.map(|(overview, _)| overview);
    let mut line = Vec::new();
    let tail = Tail {
        input: input.shown,
        name: input.name,
        status: status.name(),
        files_sha256: input.digest,
        unreadable: input.unreadable.iter().map(Fault::of).collect(),
        library: overview.map(|overview| About::of(&overview.library)),
        summary: overview.map(Summary::of),
        fails: judged.map(|(_, fails)| fails),
        run: overview.map(Record::of),
    };
    add(&tail, &mut line);
    let fields = text(line);
    fields
        .trim_start_matches('{')
        .strip_suffix('}')
        .unwrap_or_default()
        .to_owned()
}

fn counts(overview: &Overview, fails: bool) -> Counts {
    let summary = &overview.summary;
    let Came {
        fails: failing,
        grip_not_judged,
        warned,
        not_judged,
        nothing_found,
    } = overview.came;
    Counts {
        levels: [
            summary.error,
            summary.warning,
            summary.note,
            summary.not_judged,
        ],
        accepted: summary.accepted,
        groups: [failing, grip_not_judged, warned, not_judged, nothing_found],
        held_by_shank: overview.coverage.held_by_shank(),
        grip_judged: overview.coverage.grip_judged(),
        fails,
        incomplete: summary.verdict == Verdict::Incomplete,
        too_few: !overview.coverage.is_enough(),
    }
}

fn text(line: Vec<u8>) -> String {
    // Every piece of it is written as text.
    String::from_utf8(line).unwrap_or_default()
}
