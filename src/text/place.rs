//! Spans, places, and the one conversion from offset to line and column.

use std::borrow::Cow;
use std::sync::Arc;

use super::{SheetPlaces, Source};

/// A stretch of a source's text, in bytes from its start; `end` is one past the last byte.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Span {
    /// First byte.
    pub start: u32,
    /// One past the last byte.
    pub end: u32,
}

impl Span {
    /// No stretch at all: none ends before it starts.
    const NOWHERE: Span = Span { start: 1, end: 0 };

    /// A span from two offsets, which [`Source`] keeps below 4 GiB.
    #[must_use]
    pub fn new(start: usize, end: usize) -> Span {
        let clamp = |offset: usize| u32::try_from(offset).unwrap_or(u32::MAX);
        Span {
            start: clamp(start),
            end: clamp(end),
        }
    }

    /// The span as a range of bytes.
    #[must_use]
    pub fn range(self) -> std::ops::Range<usize> {
        self.start as usize..self.end as usize
    }
}

/// Number of a source within its [`Sources`].
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct SourceId(u32);

/// Where something stands: a source and a span in it, or a source as a whole.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Place {
    /// Which source.
    pub source: SourceId,
    /// Which bytes of it.
    pub span: Span,
}

impl Place {
    /// A file as a whole: what is said of it stands nowhere in it.
    #[must_use]
    pub const fn file(source: SourceId) -> Place {
        Place {
            source,
            span: Span::NOWHERE,
        }
    }

    /// Whether it is a file as a whole.
    #[must_use]
    pub fn is_file(self) -> bool {
        self.span == Span::NOWHERE
    }
}

/// Line and column, both from 1; the column counts characters, and a byte-order mark is none. In a
/// sheet they are the numbers of row and column.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Position {
    /// Line, from 1. LF, CRLF and a lone CR each end a line.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
}

/// All sources of one run, in the order in which they were read.
#[derive(Clone, Debug, Default)]
pub struct Sources(Vec<Arc<Source>>);

impl Sources {
    /// Adds a source and returns its number.
    pub fn add(&mut self, source: Source) -> SourceId {
        let id = SourceId(u32::try_from(self.0.len()).unwrap_or(u32::MAX));
        self.0.push(Arc::new(source));
        id
    }

    /// Adds a source that others hold too, and returns its number.
    pub fn share_in(&mut self, source: &Arc<Source>) -> SourceId {
        let id = SourceId(u32::try_from(self.0.len()).unwrap_or(u32::MAX));
        self.0.push(Arc::clone(source));
        id
    }

    /// The same source, held for itself: records keep it, to work out where their cells stand.
    #[must_use]
    #[expect(
        clippy::indexing_slicing,
        reason = "ids come only from `add` of the same value"
    )]
    pub fn share(&self, id: SourceId) -> Arc<Source> {
        Arc::clone(&self.0[id.0 as usize])
    }

    /// The source with this number.
    ///
    /// # Panics
    /// Never for an id that these sources gave out, and no other can be made.
    #[must_use]
    #[expect(
        clippy::indexing_slicing,
        reason = "ids come only from `add` of the same value"
    )]
    pub fn get(&self, id: SourceId) -> &Source {
        &self.0[id.0 as usize]
    }

    /// Name of the file that a place stands in, as the user gave it.
    #[must_use]
    pub fn name(&self, place: Place) -> &str {
        self.get(place.source).name()
    }

    /// Line and column of a place's start; of a file as a whole its beginning.
    #[must_use]
    pub fn position(&self, place: Place) -> Position {
        if place.is_file() {
            return Position { line: 1, column: 1 };
        }
        self.get(place.source).position(place.span.start as usize)
    }

    /// Line and column behind a place's last character; of a file as a whole its beginning.
    #[must_use]
    pub fn end(&self, place: Place) -> Position {
        if place.is_file() {
            return self.position(place);
        }
        let source = self.get(place.source);
        match source.sheet() {
            // Behind its last cell, as a column is a cell there.
            Some(_) => {
                let last = place.span.end.saturating_sub(1).max(place.span.start);
                let Position { line, column } = source.position(last as usize);
                let column = column + 1;
                Position { line, column }
            }
            None => source.position(place.span.end as usize),
        }
    }

    /// Name of the sheet that a place stands in, if its file is a workbook.
    #[must_use]
    pub fn sheet(&self, place: Place) -> Option<&str> {
        self.get(place.source).sheet().map(SheetPlaces::name)
    }

    /// The text at a place, exactly as it stands in the source; none of a file as a whole.
    #[must_use]
    pub fn text(&self, place: Place) -> &str {
        self.get(place.source).slice(place.span)
    }

    /// The text at a place as a spreadsheet shows it: in a quoted cell, which doubles a quotation
    /// mark, it stands once.
    #[must_use]
    pub fn cell(&self, place: Place) -> Cow<'_, str> {
        let source = self.get(place.source);
        let text = source.slice(place.span);
        let before = source.text().get(..place.span.start as usize);
        let before = before.unwrap_or_default().trim_end_matches([' ', '\t']);
        if text.contains("\"\"") && before.ends_with('"') {
            return Cow::Owned(text.replace("\"\"", "\""));
        }
        Cow::Borrowed(text)
    }
}
