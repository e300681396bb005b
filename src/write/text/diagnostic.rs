//! A finding as a miette diagnostic: one protocol, a renderer for eyes and one for screen
//! readers.

use std::fmt;

use miette::{
    Diagnostic, LabeledSpan, MietteError, MietteSpanContents, Severity, SourceCode, SourceSpan,
    SpanContents,
};

use crate::sheet::FindingPlace;
use crate::text::{cut, visible};

use super::super::wrap::{name, spot};

/// Longest text of a cell that a snippet shows, in characters.
const LONGEST: usize = 32;

/// What one record shows of itself: the fields that matter, in one line, each marked.
#[derive(Debug)]
pub(super) struct Snippet {
    name: String,
    /// The whole of where it stands.
    spot: String,
    in_sheet: bool,
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
            spot: spot(place),
            in_sheet: place.sheet.is_some(),
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
    let field = name(&place.field);
    match (place.field.is_empty(), place.unit) {
        (true, _) => text,
        (false, Some(unit)) => format!("{field} [{unit}]: {text}"),
        (false, None) => format!("{field}: {text}"),
    }
}

/// A cell's text, safe and short.
fn cell(text: &str) -> String {
    cut(&visible(text), LONGEST).into_owned()
}

/// The snippets of one block as one source: each is drawn on its own, in their order.
#[derive(Debug, Default)]
pub(super) struct Snippets {
    /// Each with the offset at which it begins.
    pieces: Vec<(usize, Snippet)>,
}

impl Snippets {
    pub(super) fn of(snippets: impl IntoIterator<Item = Snippet>) -> Snippets {
        let mut start = 0;
        let pieces = snippets.into_iter().map(|snippet| {
            let own = start;
            // A byte of no snippet between two: no span that lies in one touches another.
            start += snippet.text.len() + 1;
            (own, snippet)
        });
        Snippets {
            pieces: pieces.collect(),
        }
    }

    /// Whether any stands in a sheet: then each names its place itself, as line and column say
    /// nothing to who looks into a workbook.
    pub(super) fn name_places(&self) -> bool {
        self.pieces.iter().any(|(_, snippet)| snippet.in_sheet)
    }

    fn labels(&self) -> impl Iterator<Item = LabeledSpan> {
        self.pieces.iter().flat_map(|(start, snippet)| {
            snippet.labels.iter().map(move |label| {
                let span = (start + label.offset(), label.len());
                if label.primary() {
                    LabeledSpan::new_primary_with_span(None, span)
                } else {
                    LabeledSpan::new_with_span(None, span)
                }
            })
        })
    }
}

impl SourceCode for Snippets {
    /// The one line of the record in which a span lies, with its true line and column; of two
    /// records there is no line.
    fn read_span<'a>(
        &'a self,
        span: &SourceSpan,
        _before: usize,
        _after: usize,
    ) -> Result<Box<dyn SpanContents<'a> + 'a>, MietteError> {
        let (from, to) = (span.offset(), span.offset() + span.len());
        let mut pieces = self.pieces.iter();
        let piece = pieces.find(|(start, one)| *start <= from && to <= start + one.text.len());
        let (start, snippet) = piece.ok_or(MietteError::OutOfBounds)?;
        Ok(Box::new(MietteSpanContents::new_named(
            if self.name_places() {
                snippet.spot.clone()
            } else {
                snippet.name.clone()
            },
            snippet.text.as_bytes(),
            (*start, snippet.text.len()).into(),
            snippet.line.saturating_sub(1),
            snippet.column.saturating_sub(1),
            1,
        )))
    }
}

/// A block of the report.
#[derive(Debug)]
pub(super) struct ShownBlock {
    pub(super) message: String,
    pub(super) code: Option<String>,
    pub(super) severity: Severity,
    pub(super) snippets: Snippets,
}

impl fmt::Display for ShownBlock {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message)
    }
}

impl std::error::Error for ShownBlock {}

impl Diagnostic for ShownBlock {
    fn code<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        let code = self.code.as_ref()?;
        Some(Box::new(code))
    }

    fn severity(&self) -> Option<Severity> {
        Some(self.severity)
    }

    fn source_code(&self) -> Option<&dyn SourceCode> {
        (!self.snippets.pieces.is_empty()).then_some(&self.snippets)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        (!self.snippets.pieces.is_empty())
            .then(|| Box::new(self.snippets.labels()) as Box<dyn Iterator<Item = LabeledSpan>>)
    }
}
