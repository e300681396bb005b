//! Text for a terminal, and plain text for screen readers and logs.

use miette::{
    Diagnostic, GraphicalReportHandler, GraphicalTheme, NarratableReportHandler, Severity,
};

use crate::advice::Plan;
use crate::judge::{Finding, FindingPlace, Report};
use crate::rulebook::Level;
use crate::text::visible;

use super::NOTICE;
use super::blocks::{self, Block};
use super::diagnostic::{Shown, Snippet};
use super::limits::Printed;
use super::plan::plan_text;
use super::sections::{accepted, defaults, not_judged, not_read, notes, unknown_columns, weakened};
use super::show::Show;
use super::summary::summary;
use super::wrap::{WIDTH, name, wrapped};

/// How text looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Look {
    /// Drawn, with colour.
    Colour,
    /// Drawn, without colour.
    Drawn,
    /// Narrated, line by line, for screen readers and logs.
    Plain,
}

/// The whole report of one library.
#[must_use]
pub fn report(report: &Report, plan: &Plan, look: Look, show: Show) -> String {
    told(report, &report.findings, plan, look, show) + &summary(report, show)
}

/// What is said of a few tools of one library, of which `is_of` tells what a finding is about; the
/// counts and the verdict stay the library's.
#[must_use]
pub fn report_of_tools(
    report: &Report,
    numbers: &[&str],
    is_of: &dyn Fn(&Finding, &str) -> bool,
    look: Look,
    show: Show,
) -> String {
    let all = || report.findings.iter();
    let clean = numbers
        .iter()
        .filter(|number| !all().any(|finding| is_of(finding, number)));
    let mut text: String = clean
        .map(|number| {
            let words = format!("tool {}: every rule that was judged is met", name(number));
            wrapped(&words, 0, 4)
        })
        .collect();
    let own = all().filter(|finding| numbers.iter().any(|number| is_of(finding, number)));
    let own: Vec<Finding> = own.cloned().collect();
    text.push_str(&told(report, &own, &Plan::default(), look, show));
    let numbers: Vec<_> = numbers.iter().map(|number| name(number)).collect();
    let (is_shown, own) = match numbers.as_slice() {
        [one] => (format!("tool {one} is"), format!("tool {one}")),
        many => (
            format!("tools {} are", many.join(", ")),
            "these tools".to_owned(),
        ),
    };
    let only = format!(
        "Only {is_shown} shown; counts and verdict are those of the whole library, the exit status is that of {own}."
    );
    text + &wrapped(&only, 0, 0) + &summary(report, show)
}

/// All but the counts.
fn told(report: &Report, findings: &[Finding], plan: &Plan, look: Look, show: Show) -> String {
    let mut text = String::new();
    let mut explained: Vec<&str> = Vec::new();
    let mut printed = Printed::default();
    let wanted = |finding: &Finding| finding.accepted.is_none() && show.takes(finding.level);
    for block in blocks::blocks(findings, wanted) {
        let first = !explained.contains(&block.head.why.as_str());
        explained.push(&block.head.why);
        let of_block = std::iter::once(block.head).chain(block.beside.iter().copied());
        let limits = printed.line(of_block);
        text.push_str(&drawn(&block, first, &limits, look));
        text.push('\n');
    }
    if show.note {
        text.push_str(&notes(findings, &mut printed));
    }
    if show.not_judged {
        text.push_str(&not_judged(findings));
    }
    text.push_str(&plan_text(plan));
    text.push_str(&accepted(findings));
    text.push_str(&weakened(report));
    text.push_str(&defaults(&report.library.defaults));
    let listed = |finding: &Finding| match finding.level {
        Some(Level::Note) => show.note,
        level => show.takes(level),
    };
    text.push_str(&unknown_columns(findings, listed));
    text.push_str(&not_read(report));
    text + &wrapped(NOTICE, 0, 0)
}

fn severity(level: Option<Level>) -> Severity {
    match level {
        Some(Level::Error) => Severity::Error,
        Some(Level::Warning) => Severity::Warning,
        Some(Level::Note) | None => Severity::Advice,
    }
}

/// The subject in front of a message: `tool 12, operation pocket: …`.
fn headline(finding: &Finding) -> String {
    let operation = finding
        .operation
        .as_deref()
        .filter(|operation| finding.tool_number.as_deref() != Some(operation))
        .map(name);
    let subject = match (finding.tool_number.as_deref().map(name), operation) {
        (Some(tool), Some(operation)) => format!("tool {tool}, {operation}: "),
        (Some(tool), None) => format!("tool {tool}: "),
        (None, _) => String::new(),
    };
    visible(&format!("{subject}{}", finding.message)).into_owned()
}

/// One block: what is wrong, where it stands, what to do, why.
fn drawn(block: &Block<'_>, explain: bool, limits: &str, look: Look) -> String {
    let mut message = headline(block.head);
    for beside in &block.beside {
        message.push_str("; and ");
        message.push_str(&visible(&beside.message));
    }
    let mut snippets = snippets(block).into_iter();
    let codes: Vec<&str> = std::iter::once(block.head)
        .chain(block.beside.iter().copied())
        .map(|finding| finding.rule.as_str())
        .collect();
    let level = block.head.level_name();
    let head = Shown {
        message,
        code: Some(format!("{level} {}", codes.join(", "))),
        severity: severity(block.head.level),
        help: None,
        snippet: snippets.next(),
        related: Vec::new(),
    };
    let rest = snippets.map(|snippet| Shown {
        message: "see also".to_owned(),
        code: None,
        severity: severity(block.head.level),
        help: None,
        snippet: Some(snippet),
        related: Vec::new(),
    });
    let mut text = rendered(&head, look);
    for snippet in rest {
        text.push_str(&snippet_only(&rendered(&snippet, look)));
    }
    text.push_str(&what_to_do(block, explain, limits));
    text
}

/// A diagnostic as text.
pub(super) fn rendered(shown: &Shown, look: Look) -> String {
    let mut text = String::new();
    let diagnostic: &dyn Diagnostic = shown;
    // Writing to a String cannot fail.
    let _ = match look {
        Look::Plain => NarratableReportHandler::new().render_report(&mut text, diagnostic),
        Look::Drawn => {
            graphical(GraphicalTheme::unicode_nocolor()).render_report(&mut text, diagnostic)
        }
        Look::Colour => graphical(GraphicalTheme::unicode()).render_report(&mut text, diagnostic),
    };
    text
}

fn graphical(theme: GraphicalTheme) -> GraphicalReportHandler {
    GraphicalReportHandler::new_themed(theme)
        .with_width(WIDTH)
        .with_links(false)
        .with_word_separator(textwrap::WordSeparator::AsciiSpace)
        .with_word_splitter(textwrap::WordSplitter::NoHyphenation)
}

/// A further record of the same block: its snippet without a headline of its own.
fn snippet_only(rendered: &str) -> String {
    let start = rendered
        .lines()
        .position(|line| line.contains("╭─[") || line.starts_with("Begin snippet"));
    let lines = rendered.lines().skip(start.unwrap_or(0));
    lines.fold(String::new(), |text, line| text + line + "\n")
}

/// Snippets of a block, record by record.
fn snippets(block: &Block<'_>) -> Vec<Snippet> {
    let findings = std::iter::once(block.head).chain(block.beside.iter().copied());
    let mut records: Vec<Vec<&FindingPlace>> = Vec::new();
    for place in findings.flat_map(|finding| &finding.places) {
        let same = |record: &&mut Vec<&FindingPlace>| {
            let first = record.first();
            first.is_some_and(|first| (&first.file, first.line) == (&place.file, place.line))
        };
        match records.iter_mut().find(same) {
            Some(record) if record.contains(&place) => {}
            Some(record) => record.push(place),
            None => records.push(vec![place]),
        }
    }
    let snippets = records.iter().flat_map(|record| Snippet::of_record(record));
    snippets.collect()
}

fn what_to_do(block: &Block<'_>, explain: bool, limits: &str) -> String {
    let mut text = String::new();
    let mut say = |label: &str, words: &str| {
        if !words.is_empty() {
            let words = visible(words);
            text.push_str(&wrapped(&format!("{label}{words}"), 2, label.len() + 2));
        }
    };
    // What no stick-out can cure outranks advice to change the stick-out.
    let advising = block.beside.last().copied().unwrap_or(block.head);
    say("do: ", &advising.advice);
    for way in &advising.otherwise {
        say("or: ", way);
    }
    if explain {
        say("why: ", &block.head.why);
    }
    say("limits: ", limits);
    for assumption in &block.head.assumptions {
        say("assumed: ", assumption);
    }
    if block.head.level != Some(block.head.full_level) {
        let full = block.head.full_level.name();
        say(
            "",
            &format!("(lowered from {full}, because it rests on an assumption)"),
        );
    }
    say("caution: ", &advising.caution);
    text
}
