//! One tool in one block: what it is called, what is wrong, the cells that say so, what to do.

use std::cmp::Reverse;
use std::collections::HashSet;

use crate::sheet::{
    Consequence, Finding, FindingPlace, Group, Heading, Level, Outcome, Sheet, Words, fault_kind,
};
use crate::text::{cut, visible};

use super::super::super::wrap::name;
use super::super::Look;
use super::super::kept::NameList;
use super::block_text::{BlockText, stressed};
use super::is_shown;
use super::steps::{Lined, Steps};

/// Most records whose cells a block shows.
const RECORDS: usize = 1;
/// Most findings that have a line.
const LINES: usize = 2;
/// Longest description in a heading, in characters.
const DESCRIPTION: usize = 24;
/// Columns that the mark of the level takes in front of a heading.
const FRAME: usize = 4;

/// What of a tool is not judged.
#[derive(Clone, Copy, Default)]
pub(super) struct NotJudged {
    /// Its grip, though it is or may be held by a shank.
    pub grip: bool,
    /// Anything.
    pub other: bool,
    /// Its reach.
    pub reach: bool,
}

impl NotJudged {
    fn of(sheet: &Sheet) -> NotJudged {
        let waits =
            |finding: &Finding| finding.accepted.is_none() && finding.outcome == Outcome::NotJudged;
        NotJudged {
            grip: sheet.covered.counts.is_open(),
            other: sheet.findings.iter().any(waits),
            reach: !sheet.covered.counts.reach_judged,
        }
    }
}

/// A tool, as far as its block shows it.
pub(super) struct Tool {
    /// Its number.
    pub number: Option<String>,
    /// The group that it is in; none for a record of no tool.
    pub group: Option<Group>,
    /// What of it is not judged.
    pub open: NotJudged,
    /// Whether nothing holds it by a shank, so that grip is no question.
    pub no_shank: bool,
    /// Which of the library's it is.
    pub at: usize,
    heading: Heading,
    /// Whether another tool has its number.
    twice: bool,
    /// What has a line, the worst first.
    findings: Vec<Finding>,
    /// What has none: what another finding of the tool explains, and the warnings of a tool that
    /// must not be used anyway.
    others: Vec<Finding>,
    /// Further operations of which the same is found.
    same: Vec<String>,
}

impl Tool {
    pub(super) fn of(sheet: Sheet) -> Tool {
        let twice = |finding: &Finding| finding.rule == fault_kind::NUMBER_TAKEN_TWICE;
        let twice = sheet.findings.iter().any(twice);
        let open = NotJudged::of(&sheet);
        let shown: Vec<Finding> = sheet.findings.into_iter().filter(is_shown).collect();
        let Told {
            findings,
            others,
            same,
        } = told(shown);
        Tool {
            twice,
            number: sheet.tool_number,
            group: Some(sheet.group),
            open,
            no_shank: !sheet.covered.counts.by_shank,
            at: sheet.at,
            heading: sheet.heading,
            findings,
            others,
            same,
        }
    }

    /// A fault of a record that belongs to no one tool, number `nth` of these.
    pub(super) fn of_record(fault: Finding, nth: usize) -> Tool {
        Tool {
            number: None,
            group: None,
            open: NotJudged::default(),
            no_shank: false,
            // Behind all tools, in their own order.
            at: usize::MAX / 2 + nth,
            heading: Heading::default(),
            twice: false,
            findings: vec![fault],
            others: Vec::new(),
            same: Vec::new(),
        }
    }

    /// Whether it is a fault of a record that belongs to no one tool.
    pub(super) fn is_record(&self) -> bool {
        self.group.is_none()
    }

    pub(super) fn into_findings(self) -> Vec<Finding> {
        self.findings
    }

    pub(super) fn is_shown(&self) -> bool {
        !self.findings.is_empty()
    }

    /// The level of the worst that is told.
    pub(super) fn level(&self) -> Option<Level> {
        self.findings.first().and_then(|first| first.level)
    }

    pub(super) fn worst(&self) -> (Reverse<Option<Level>>, Consequence) {
        let first = self.findings.first();
        let consequence = first.map_or(Consequence::Tidiness, |first| first.consequence);
        (Reverse(self.level()), consequence)
    }

    pub(super) fn rules(&self) -> impl Iterator<Item = &str> {
        self.findings.iter().map(|finding| finding.rule.as_str())
    }

    pub(super) fn cautions(&self) -> impl Iterator<Item = &Words> {
        let findings = self.findings.iter();
        let cautions = findings.flat_map(|finding| [&finding.caution, &finding.besides]);
        cautions.filter(|caution| !caution.is_empty())
    }

    /// Whether another tool may have its number: the first of two says nothing of it.
    pub(super) fn tell_twice(&mut self, twice: &HashSet<String>) {
        self.twice |= self.number.as_ref().is_some_and(|own| twice.contains(own));
    }

    /// Its number, if another tool before it has it too.
    pub(super) fn doubled(&self) -> Option<&String> {
        self.number.as_ref().filter(|_| self.twice)
    }

    /// Its number; where that is not enough to find it, its line and description too.
    pub(super) fn name(&self) -> String {
        match &self.number {
            Some(number) if !self.twice => name(number).into_owned(),
            _ => self.long_name(),
        }
    }

    /// Its number alone, where it has one.
    pub(super) fn short_name(&self) -> String {
        match &self.number {
            Some(number) => name(number).into_owned(),
            None => self.long_name(),
        }
    }

    /// Its number, what it is, and its line.
    pub(super) fn long_name(&self) -> String {
        let heading = &self.heading;
        let line = format!("line {}", heading.line);
        match &self.number {
            Some(number) => {
                let cutter = heading.ids.iter().flatten().next();
                let what = cutter.or(heading.description.as_ref());
                let what = what.map(|what| format!("{} in ", cut(&visible(what), DESCRIPTION)));
                format!("{} ({}{line})", name(number), what.unwrap_or_default())
            }
            None => {
                let description = self.heading.description.as_deref();
                let description = description.map(|words| format!(" ({})", name(words)));
                line + &description.unwrap_or_default()
            }
        }
    }

    /// What tools must share to share a block: what is said of them and what to do.
    pub(super) fn alike(&self) -> String {
        let mut words = String::new();
        for finding in &self.findings {
            let brief = stressed(&finding.brief, Look::Plain);
            words.extend([&finding.rule, "\0", &finding.message, "\0", &brief, "\0"]);
        }
        for finding in &self.others {
            let brief = stressed(&finding.brief, Look::Plain);
            words.extend([&finding.rule, "\0", &brief, "\0"]);
        }
        words
    }

    /// Who it is.
    fn who(&self) -> String {
        match &self.number {
            Some(number) if self.twice => {
                format!("tool {} (line {})", name(number), self.heading.line)
            }
            Some(_) => format!("tool {}", self.name()),
            None if self.is_record() => {
                let place = self.findings.iter().flat_map(|fault| &fault.places).next();
                place.map_or_else(String::new, |place| {
                    let file = name(&place.file);
                    match &place.sheet {
                        None => format!("line {} of {file}", place.line),
                        Some(sheet) => format!("row {} of {} in {file}", place.line, name(sheet)),
                    }
                })
            }
            None => self.name(),
        }
    }

    /// What it is: pot, description, parts. A long description takes what a line has left.
    fn about(&self, room: usize) -> String {
        let heading = &self.heading;
        let mut words = String::new();
        if let Some(pot) = &heading.pot {
            words.extend([", pot ", &name(pot)]);
        }
        let parts = heading.parts.iter().map(|part| name(part));
        let mut parts = parts.collect::<Vec<_>>().join(" in ");
        if !parts.is_empty() {
            parts.insert_str(0, ", ");
        }
        if let (Some(description), true) = (&heading.description, self.number.is_some()) {
            let beside = words.chars().chain(parts.chars()).count();
            // Behind a colon and a blank, and with the dots where it is cut.
            let left = room.saturating_sub(beside + 3);
            let most = left.max(DESCRIPTION);
            words.extend([": ", &cut(&visible(description), most)]);
        }
        words + &parts
    }

    /// The block; for several tools that say the same, with their names and how many they are.
    pub(super) fn text(
        &self,
        several: Option<(&NameList, usize)>,
        look: Look,
        width: usize,
    ) -> String {
        let (who, about) = match several {
            Some((names, count)) if self.number.is_some() => {
                let listed = names.listed().join(", ");
                (
                    format!("{count} tools: {listed}{}", names.rest()),
                    String::new(),
                )
            }
            Some((_, count)) if self.is_record() => (
                format!("{count} records, the first in {}", self.who()),
                String::new(),
            ),
            Some((_, count)) => (format!("{count} times"), String::new()),
            None => {
                let who = self.who();
                let level = self.level().map_or("", Level::name);
                let before = FRAME + level.len() + ": ".len() + who.chars().count();
                let about = self.about(width.saturating_sub(before));
                (who, about)
            }
        };
        let findings = self.findings.iter().take(LINES);
        let findings = findings.map(|finding| said(finding, self.level()));
        let steps = self.steps();
        let lines = findings.chain(steps.text(look));
        let block = BlockText {
            who,
            about,
            lines: lines.collect(),
            level: self.level(),
        };
        block.text(&self.places(), look, width)
    }

    /// The cells of the records that the findings point at first.
    fn places(&self) -> Vec<&FindingPlace> {
        let mut records: Vec<(&str, Option<&str>, usize)> = Vec::new();
        let mut found: Vec<&FindingPlace> = Vec::new();
        let all = self.findings.iter().flat_map(|finding| &finding.places);
        for place in all {
            let record = place.line_key();
            if !records.contains(&record) {
                if records.len() == RECORDS {
                    continue;
                }
                records.push(record);
            }
            let same =
                |known: &&FindingPlace| known.column == place.column && known.line_key() == record;
            if !found.iter().any(same) {
                found.push(place);
            }
        }
        found
    }

    /// Whether another finding of the tool explains one, so that it has no step of its own, and
    /// whether that other has a line.
    fn explained(&self, finding: &Finding) -> Option<Lined> {
        let beside = finding.beside.as_ref();
        let beside = beside.filter(|rule| **rule != finding.rule)?;
        let stands = |all: &[Finding]| all.iter().any(|one| one.rule == *beside);
        if self
            .findings
            .get(..LINES.min(self.findings.len()))
            .is_some_and(stands)
        {
            return Some(Lined::Yes);
        }
        (stands(&self.findings) || stands(&self.others)).then_some(Lined::No)
    }

    /// What to do, each once: torque before parts and stick-out, as a part that may be cracked must
    /// not be built in again; else the worst first. Then what has no line.
    fn steps(&self) -> Steps<'_> {
        let lined = self.findings.iter().take(LINES);
        let (torque, others): (Vec<&Finding>, Vec<&Finding>) =
            lined.partition(|finding| finding.of_torque);
        let number = self.number.as_deref();
        let more = number.map_or_else(
            || "--full".to_owned(),
            |number| format!("--tool {}", name(number)),
        );
        let mut steps = Steps::of(more);
        for finding in torque.into_iter().chain(others) {
            steps.take(finding, &finding.brief, Lined::Yes);
        }
        for finding in self.findings.iter().skip(LINES).chain(&self.others) {
            if let Some(lined) = self.explained(finding) {
                // Where the other has no line, its step is named by its own title.
                if lined == Lined::Yes {
                    steps.same(finding.title.as_str());
                }
                continue;
            }
            // What is found beside it knows more.
            let warned = |one: &&Finding| {
                one.beside.as_ref() == Some(&finding.rule) && one.level < Some(Level::Error)
            };
            let beside = self.others.iter().rev().find(warned);
            let brief = &beside.unwrap_or(finding).brief;
            steps.take(finding, brief, Lined::No);
        }
        for operation in &self.same {
            steps.same(format!("the same for {}", name(operation)));
        }
        // What waits for a value that is corrected has not been asked yet.
        steps.rerun |= self.open.grip || self.open.other;
        steps
    }
}

/// What of a tool has a line, and what has none.
#[derive(Default)]
struct Told {
    findings: Vec<Finding>,
    others: Vec<Finding>,
    /// Further operations of which the same is found.
    same: Vec<String>,
}

/// The findings that have a line, and the others. Each of a tool's errors has one, also where an
/// assumption makes it a warning; what is explained by another finding has none.
fn told(findings: Vec<Finding>) -> Told {
    let worst = findings.iter().filter_map(|finding| finding.level).max();
    let rules: Vec<String> = findings
        .iter()
        .map(|finding| finding.rule.clone())
        .collect();
    let explained = |finding: &Finding| {
        let beside = finding.beside.as_ref();
        beside.is_some_and(|rule| *rule != finding.rule && rules.contains(rule))
    };
    let mut told = Told::default();
    for finding in findings {
        let is_bad = finding.level == worst || finding.full_level == Level::Error;
        let same = |known: &Finding| known.rule == finding.rule && known.brief == finding.brief;
        if !is_bad || explained(&finding) {
            told.others.push(finding);
        } else if let (Some(operation), true) = (&finding.operation, told.findings.iter().any(same))
        {
            // What holds of several operations has a line for the first.
            told.same.push(operation.clone());
        } else {
            told.findings.push(finding);
        }
    }
    told
}

/// One finding in a line: what, and by which rule; `worst` is the level of the block.
fn said(finding: &Finding, worst: Option<Level>) -> String {
    let operation = finding.operation.as_deref();
    let operation = operation
        .filter(|operation| finding.tool_number.as_deref() != Some(operation))
        .map(|operation| format!("{}: ", name(operation)));
    let level = if finding.level == worst {
        String::new()
    } else {
        format!("{}, as a value is assumed: ", finding.level_name())
    };
    let message = visible(&finding.message);
    let operation = operation.unwrap_or_default();
    format!("{level}{operation}{message}  {}", visible(&finding.rule))
}
