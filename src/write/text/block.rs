//! One block as text: what is wrong, where it stands, what to do, why.

use miette::{
    Diagnostic, GraphicalReportHandler, GraphicalTheme, NarratableReportHandler, Severity,
};

use crate::sheet::{Finding, FindingPlace, Level};
use crate::text::visible;

use super::super::wrap::{WIDTH, name, wrapped};
use super::Look;
use super::blocks::Block;
use super::colours::theme;
use super::diagnostic::{ShownBlock, Snippet, Snippets};

pub(super) fn severity(level: Option<Level>) -> Severity {
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
pub(super) fn drawn(block: &Block, explain: bool, limits: &str, look: Look) -> String {
    let mut message = headline(&block.head);
    for beside in &block.beside {
        message.push_str("; and ");
        message.push_str(&visible(&beside.message));
    }
    let codes: Vec<&str> = block.rules().map(|(rule, _)| rule).collect();
    let level = block.head.level_name();
    let head = ShownBlock {
        message,
        code: Some(format!("{level} {}", codes.join(", "))),
        severity: severity(block.head.level),
        snippets: Snippets::of(snippets(block)),
    };
    rendered(&head, look) + &what_to_do(block, explain, limits)
}

/// A diagnostic as text.
pub(super) fn rendered(shown: &ShownBlock, look: Look) -> String {
    rendered_to(WIDTH, shown, look)
}

/// The same in lines of so many columns.
pub(super) fn rendered_to(width: usize, shown: &ShownBlock, look: Look) -> String {
    let mut text = String::new();
    let diagnostic: &dyn Diagnostic = shown;
    let graphical = |theme| {
        let handler = graphical(width, theme);
        if shown.snippets.name_places() {
            handler.without_primary_span_start()
        } else {
            handler
        }
    };
    // Writing to a String cannot fail.
    let _ = match look {
        Look::Plain => NarratableReportHandler::new().render_report(&mut text, diagnostic),
        Look::Drawn => {
            graphical(GraphicalTheme::unicode_nocolor()).render_report(&mut text, diagnostic)
        }
        Look::Colour => graphical(theme()).render_report(&mut text, diagnostic),
    };
    text
}

fn graphical(width: usize, theme: GraphicalTheme) -> GraphicalReportHandler {
    GraphicalReportHandler::new_themed(theme)
        .with_width(width)
        .with_links(false)
        .with_word_separator(textwrap::WordSeparator::AsciiSpace)
        .with_word_splitter(textwrap::WordSplitter::NoHyphenation)
}

/// Snippets of a block, record by record.
fn snippets(block: &Block) -> Vec<Snippet> {
    let findings = block.findings();
    let mut records: Vec<Vec<&FindingPlace>> = Vec::new();
    for place in findings.flat_map(|finding| &finding.places) {
        let same = |record: &&mut Vec<&FindingPlace>| {
            let first = record.first();
            first.is_some_and(|first| first.line_key() == place.line_key())
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

fn what_to_do(block: &Block, explain: bool, limits: &str) -> String {
    let mut text = String::new();
    let mut say = |label: &str, words: &str| {
        if !words.is_empty() {
            let words = visible(words);
            text.push_str(&wrapped(&format!("{label}{words}"), 2, label.len() + 2));
        }
    };
    // What no stick-out can cure outranks advice to change the stick-out.
    let advising = block.beside.last().unwrap_or(&block.head);
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
    // Whoever accepts a finding names it so.
    let prints = block.findings().filter(|one| one.tool_number.is_some());
    let prints = prints.map(|one| format!("{} {}", one.rule, one.fingerprint));
    let prints: Vec<String> = prints.collect();
    say("fingerprint: ", &prints.join(", "));
    text
}
