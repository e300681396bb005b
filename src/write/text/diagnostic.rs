//! A finding as a miette diagnostic: one protocol, a renderer for eyes and one for screen
//! readers.

use std::fmt;

use miette::{
    Diagnostic, LabeledSpan, MietteError, MietteSpanContents, Severity, SourceCode, SourceSpan,
    SpanContents,
};

use crate::sheet::FindingPlace;
use crate::text::{cut, visible};

use super::super::wrap::name;

/// Longest text of a cell that a snippet shows, in characters.
const LONGEST: usize = 32;

/// Longest line of a rule file that is shown, in characters.
const LONGEST_LINE: usize = 200;

/// What one record shows of itself: the fields that matter, in one line, each marked.
#[derive(Debug)]
pub(super) struct Snippet {
    name: String,
    line: usize,
    column: usize,
    text: String,
    labels: Vec<LabeledSpan>,
}

/// Widest line of a snippet, so that with its frame it fits a terminal.
const WIDEST: usize = 72;

impl Snippet {
    /// Snippets of the places that stand in one record: as many fields in one as fit a line,
    /// each snippet with the line and column of its first field.
    pub(super) fn of_record(places: &[&FindingPlace]) -> Vec<Snippet> {
        let mut snippets: Vec<Snippet> = Vec::new();
        for place in places {
            let words = words(place);
            let fits = |snippet: &&mut Snippet| {
                snippet.text.chars().count() + GAP.len() + words.chars().count() <= WIDEST
            };
            match snippets.last_mut().filter(fits) {
                Some(snippet) => snippet.push(&words),
                None => snippets.push(Snippet::starting(place, &words)),
            }
        }
        snippets
    }

    fn starting(place: &FindingPlace, words: &str) -> Snippet {
        let mut snippet = Snippet {
            name: visible(&place.file).into_owned(),
            line: place.line,
            column: place.column,
            text: name(&place.record).into_owned(),
            labels: Vec::new(),
        };
        snippet.push(words);
        if let Some(label) = snippet.labels.first_mut() {
            *label = LabeledSpan::new_primary_with_span(None, *label.inner());
        }
        snippet
    }

    fn push(&mut self, words: &str) {
        if !self.text.is_empty() {
            self.text.push_str(GAP);
        }
        let start = self.text.len();
        self.text.push_str(words);
        self.labels.push(LabeledSpan::new(None, start, words.len()));
    }
}

/// Between the fields of a snippet.
const GAP: &str = "   ";

/// A field and its cell, as a snippet shows them.
fn words(place: &FindingPlace) -> String {
    let text = if place.absent {
        "not stated".to_owned()
    } else {
        cell(&place.text)
    };
    if place.field.is_empty() {
        text
    } else {
        format!("{}: {text}", name(&place.field))
    }
}

impl Snippet {
    /// A snippet of a line as it stands, marked from a place's column on.
    pub(super) fn of_line(place: &FindingPlace, line: &str) -> Option<Snippet> {
        if line.trim().is_empty() {
            return None;
        }
        let text: String = visible(line).chars().take(LONGEST_LINE).collect();
        let before = place.column.saturating_sub(1);
        let start: usize = text.chars().take(before).map(char::len_utf8).sum();
        let marked = text.get(start..).map_or(0, |rest| {
            let end = rest.find(|c: char| !(c.is_alphanumeric() || matches!(c, '_' | '.' | '-')));
            end.unwrap_or(rest.len()).max(1).min(rest.len())
        });
        Some(Snippet {
            name: visible(&place.file).into_owned(),
            line: place.line,
            column: place.column,
            labels: vec![LabeledSpan::new_primary_with_span(None, (start, marked))],
            text,
        })
    }
}

/// A cell's text, safe and short.
fn cell(text: &str) -> String {
    cut(&visible(text), LONGEST).into_owned()
}

impl SourceCode for Snippet {
    /// The record's one line, whatever part is asked for, with its true line and column.
    fn read_span<'a>(
        &'a self,
        span: &SourceSpan,
        _before: usize,
        _after: usize,
    ) -> Result<Box<dyn SpanContents<'a> + 'a>, MietteError> {
        if span.offset() + span.len() > self.text.len() {
            return Err(MietteError::OutOfBounds);
        }
        Ok(Box::new(MietteSpanContents::new_named(
            self.name.clone(),
            self.text.as_bytes(),
            (0, self.text.len()).into(),
            self.line.saturating_sub(1),
            self.column.saturating_sub(1),
            1,
        )))
    }
}

/// A block of the report.
#[derive(Debug)]
pub(super) struct Shown {
    pub(super) message: String,
    pub(super) code: Option<String>,
    pub(super) severity: Severity,
    pub(super) help: Option<String>,
    pub(super) snippet: Option<Snippet>,
    pub(super) related: Vec<Shown>,
}

impl fmt::Display for Shown {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message)
    }
}

impl std::error::Error for Shown {}

impl Diagnostic for Shown {
    fn code<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        let code = self.code.as_ref()?;
        Some(Box::new(code))
    }

    fn severity(&self) -> Option<Severity> {
        Some(self.severity)
    }

    fn help<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        let help = self.help.as_ref()?;
        Some(Box::new(help))
    }

    fn source_code(&self) -> Option<&dyn SourceCode> {
        let snippet = self.snippet.as_ref()?;
        Some(snippet)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        let snippet = self.snippet.as_ref()?;
        Some(Box::new(snippet.labels.iter().cloned()))
    }

    fn related<'a>(&'a self) -> Option<Box<dyn Iterator<Item = &'a dyn Diagnostic> + 'a>> {
        if self.related.is_empty() {
            return None;
        }
        let related = self.related.iter().map(|shown| shown as &dyn Diagnostic);
        Some(Box::new(related))
    }
}
