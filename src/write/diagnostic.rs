//! A finding as a miette diagnostic: one protocol, a renderer for eyes and one for screen
//! readers.

use std::fmt;

use miette::{
    Diagnostic, LabeledSpan, MietteError, MietteSpanContents, Severity, SourceCode, SourceSpan,
    SpanContents,
};

use crate::judge::FindingPlace;
use crate::text::visible;

/// Longest text of a cell that a snippet shows, in characters.
const LONGEST: usize = 32;

/// What one record shows of itself: the fields that matter, in one line, each marked.
#[derive(Debug)]
pub(super) struct Snippet {
    name: String,
    line: usize,
    column: usize,
    text: String,
    labels: Vec<LabeledSpan>,
}

impl Snippet {
    /// A snippet of the places that stand in one record; the first gives line and column.
    pub(super) fn new(places: &[&FindingPlace]) -> Option<Snippet> {
        let first = places.first()?;
        let mut text = String::new();
        let mut labels = Vec::new();
        if !first.record.is_empty() {
            text.push_str(&visible(&first.record));
        }
        for place in places {
            if !text.is_empty() {
                text.push_str("  │  ");
            }
            let start = text.len();
            if place.field.is_empty() {
                text.push_str(&cell(&place.text));
            } else {
                text.push_str(&visible(&place.field));
                text.push_str(": ");
                text.push_str(&if place.absent {
                    "not stated".to_owned()
                } else {
                    cell(&place.text)
                });
            }
            labels.push(LabeledSpan::new(None, start, text.len() - start));
        }
        if let Some(label) = labels.first_mut() {
            *label = LabeledSpan::new_primary_with_span(None, *label.inner());
        }
        Some(Snippet {
            name: visible(&first.file).into_owned(),
            line: first.line,
            column: first.column,
            text,
            labels,
        })
    }
}

impl Snippet {
    /// A snippet of a line as it stands, marked from a place's column on.
    pub(super) fn of_line(place: &FindingPlace, line: &str) -> Option<Snippet> {
        if line.trim().is_empty() {
            return None;
        }
        let text: String = visible(line).chars().take(200).collect();
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

/// A cell's text, safe and short, with quotes where it is empty.
fn cell(text: &str) -> String {
    let mut cut: String = visible(text).chars().take(LONGEST + 1).collect();
    if cut.chars().count() > LONGEST {
        cut.pop();
        cut.push('…');
    }
    cut
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
