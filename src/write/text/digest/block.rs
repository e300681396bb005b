//! One tool in one block: what it is called, what is wrong, the cells that say so, what to do.

use std::cmp::Reverse;
use std::collections::HashSet;

use crate::sheet::{
    Brief, Consequence, Finding, FindingPlace, Group, Heading, Level, Outcome, Sheet, fault_kind,
};
use crate::text::{cut, visible};

use super::super::super::wrap::name;
use super::super::Look;
use super::super::kept::Names;
use super::is_shown;
use super::words::{Words, bold, stressed};

/// Most records whose cells a block shows.
const RECORDS: usize = 1;
/// Most findings that have a line.
const LINES: usize = 2;
/// What a frame and the word before them take of a line with titles.
const FRAMED: usize = 12;
/// Longest description in a heading, in characters.
const DESCRIPTION: usize = 24;

/// What of a tool is not judged.
#[derive(Clone, Copy, Default)]
pub(super) struct Open {
    /// Its grip, though it is or may be held by a shank.
    pub grip: bool,
    /// Anything.
    pub other: bool,
}

impl Open {
    fn of(sheet: &Sheet) -> Open {
        let waits =
            |finding: &Finding| finding.accepted.is_none() && finding.outcome == Outcome::NotJudged;
        Open {
            grip: sheet.covered.counts.is_open(),
            other: sheet.findings.iter().any(waits),
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
    pub open: Open,
    /// Which of the library's it is.
    pub at: usize,
    heading: Heading,
    /// Whether another tool has its number.
    twice: bool,
    /// What has a line, the worst first.
    findings: Vec<Finding>,
    /// Titles of what is only named: what another finding of the tool explains, and the warnings of
    /// a tool that must not be used anyway.
    also: Vec<String>,
}

impl Tool {
    pub(super) fn of(sheet: Sheet) -> Tool {
        let twice = |finding: &Finding| finding.rule == fault_kind::NUMBER_TAKEN_TWICE;
        let twice = sheet.findings.iter().any(twice);
        let open = Open::of(&sheet);
        let shown: Vec<Finding> = sheet.findings.into_iter().filter(is_shown).collect();
        let (findings, also) = told(shown);
        Tool {
            twice,
            number: sheet.tool_number,
            group: Some(sheet.group),
            open,
            at: sheet.at,
            heading: sheet.heading,
            findings,
            also,
        }
    }

    /// A fault of a record that belongs to no one tool, number `nth` of these.
    pub(super) fn of_record(fault: Finding, nth: usize) -> Tool {
        Tool {
            number: None,
            group: None,
            open: Open::default(),
            // Behind all tools, in their own order.
            at: usize::MAX / 2 + nth,
            heading: Heading::default(),
            twice: false,
            findings: vec![fault],
            also: Vec::new(),
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

    pub(super) fn cautions(&self) -> impl Iterator<Item = &String> {
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

    /// Its number and its line.
    pub(super) fn long_name(&self) -> String {
        let line = format!("line {}", self.heading.line);
        match &self.number {
            Some(number) => format!("{} ({line})", name(number)),
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
        words
    }

    /// Who it is.
    fn who(&self) -> String {
        match &self.number {
            Some(_) => format!("tool {}", self.name()),
            None if self.is_record() => {
                let place = self.findings.iter().flat_map(|fault| &fault.places).next();
                place.map_or_else(String::new, |place| {
                    format!("line {} of {}", place.line, name(&place.file))
                })
            }
            None => self.name(),
        }
    }

    /// What it is: pot, description, parts.
    fn about(&self) -> String {
        let heading = &self.heading;
        let mut words = String::new();
        if let Some(pot) = &heading.pot {
            words.extend([", pot ", &name(pot)]);
        }
        if let (Some(description), true) = (&heading.description, self.number.is_some()) {
            words.extend([": ", &cut(&visible(description), DESCRIPTION)]);
        }
        let parts = heading.parts.iter().map(|part| name(part));
        let parts = parts.collect::<Vec<_>>().join(" in ");
        if !parts.is_empty() {
            words.extend([", ", &parts]);
        }
        words
    }

    /// The block; for several tools that say the same, with their names and how many they are.
    pub(super) fn text(
        &self,
        several: Option<(&Names, usize)>,
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
            Some((_, count)) => (format!("{count} times"), String::new()),
            None => (self.who(), self.about()),
        };
        let findings = self.findings.iter().take(LINES).map(said);
        let lines = findings.chain(self.also(width)).chain(self.to_do(look));
        let block = Words {
            who,
            about,
            lines: lines.collect(),
            level: self.level(),
        };
        block.text(&self.places(), look, width)
    }

    /// What to do, all of it: `do: 1) … 2) …`.
    fn to_do(&self, look: Look) -> Option<String> {
        let briefs: Vec<String> = self
            .briefs()
            .into_iter()
            .map(|brief| stressed(brief, look))
            .collect();
        let briefs = numbered(&briefs);
        let label = match look {
            Look::Colour => bold("do:"),
            Look::Plain | Look::Drawn => "do:".to_owned(),
        };
        (!briefs.is_empty()).then(|| format!("{label} {briefs}"))
    }

    /// What is only named, as much as fits a line.
    fn also(&self, width: usize) -> Option<String> {
        let beyond = self.findings.iter().skip(LINES);
        let beyond = beyond.map(|finding| &finding.title);
        let all: Vec<&str> = beyond.chain(&self.also).map(String::as_str).collect();
        let listed = (1..=all.len()).rev().find_map(|count| {
            let shown = visible(&all.get(..count)?.join(", ")).into_owned();
            let words = match all.len() - count {
                0 => shown,
                more => format!("{shown} and {more} more"),
            };
            let fits = count == 1 || words.chars().count() + FRAMED <= width;
            fits.then_some(words)
        });
        listed.map(|listed| format!("also: {listed}"))
    }

    /// The cells of the records that the findings point at first.
    fn places(&self) -> Vec<&FindingPlace> {
        let mut records: Vec<(&str, usize)> = Vec::new();
        let mut found: Vec<&FindingPlace> = Vec::new();
        let all = self.findings.iter().flat_map(|finding| &finding.places);
        for place in all {
            let record = (place.file.as_str(), place.line);
            if !records.contains(&record) {
                if records.len() == RECORDS {
                    continue;
                }
                records.push(record);
            }
            let same =
                |known: &&FindingPlace| known.column == place.column && known.line == place.line;
            if !found.iter().any(same) {
                found.push(place);
            }
        }
        found
    }

    /// What to do, each once: torque before parts and stick-out, as a part that may be cracked must
    /// not be built in again; else the worst first.
    fn briefs(&self) -> Vec<&Brief> {
        let (torque, others): (Vec<&Finding>, Vec<&Finding>) =
            self.findings.iter().partition(|finding| finding.of_torque);
        let mut found: Vec<&Brief> = Vec::new();
        for finding in torque.into_iter().chain(others) {
            let brief = &finding.brief;
            if !brief.is_empty() && !found.contains(&brief) {
                found.push(brief);
            }
        }
        found
    }
}

/// Several steps with their numbers: `1) … 2) …`.
fn numbered(steps: &[String]) -> String {
    if let [one] = steps {
        return one.clone();
    }
    let steps = steps.iter().enumerate();
    let steps = steps.map(|(at, step)| format!("{}) {step}", at + 1));
    steps.collect::<Vec<_>>().join("  ")
}

/// The findings that have a line, and the titles of the others, each once.
fn told(findings: Vec<Finding>) -> (Vec<Finding>, Vec<String>) {
    let worst = findings.iter().filter_map(|finding| finding.level).max();
    let rules: Vec<String> = findings
        .iter()
        .map(|finding| finding.rule.clone())
        .collect();
    let explained = |finding: &Finding| {
        let beside = finding.beside.as_ref();
        beside.is_some_and(|rule| *rule != finding.rule && rules.contains(rule))
    };
    let (worst, named): (Vec<Finding>, Vec<Finding>) = findings
        .into_iter()
        .partition(|finding| finding.level == worst && !explained(finding));
    let mut told: Vec<Finding> = Vec::new();
    let mut also: Vec<String> = Vec::new();
    for finding in worst {
        let same = |known: &Finding| known.rule == finding.rule && known.brief == finding.brief;
        match &finding.operation {
            // What holds of several operations has a line for the first.
            Some(operation) if told.iter().any(same) => {
                also.push(format!("the same for {}", name(operation)));
            }
            _ => told.push(finding),
        }
    }
    for finding in named {
        if !also.contains(&finding.title) {
            also.push(finding.title);
        }
    }
    (told, also)
}

/// One finding in a line: what, and by which rule.
fn said(finding: &Finding) -> String {
    let operation = finding.operation.as_deref();
    let operation = operation
        .filter(|operation| finding.tool_number.as_deref() != Some(operation))
        .map(|operation| format!("{}: ", name(operation)));
    let message = visible(&finding.message);
    let operation = operation.unwrap_or_default();
    format!("{operation}{message}  {}", visible(&finding.rule))
}
