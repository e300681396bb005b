//! One field and where it stands: what its quotes mean, and whether they were meant.

use std::ops::Range;

use crate::text::Span;

/// One field: the bytes inside its quotes, if it has any.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CsvField {
    /// Where it stands, without its quotes.
    pub span: Span,
    /// Whether it holds doubled quotes.
    pub escaped: bool,
}

/// The quotation that a field begins with.
struct Quotation {
    /// Byte of the quote that closes it.
    close: usize,
    /// How many quotes in it are doubled.
    doubled: usize,
}

impl CsvField {
    /// A field whose quotes, if it has any, are characters.
    pub(super) fn bare(whole: Range<usize>) -> CsvField {
        CsvField {
            span: Span::new(whole.start, whole.end),
            escaped: false,
        }
    }

    /// The field that stands at `whole`, with its quotes and all that follows them; `None` if
    /// the quote that opens it was never meant.
    ///
    /// Text behind the closing quote belongs to the field, and then the quotes are kept as
    /// characters. If the quotes also hold a line end, the closing one is the next inch mark
    /// some lines below: believing it would swallow the records between.
    pub(super) fn of(bytes: &[u8], whole: Range<usize>) -> Option<CsvField> {
        let part = |range: Range<usize>| bytes.get(range).unwrap_or_default();
        let open = whole.start;
        if bytes.get(open) != Some(&b'"') || whole.is_empty() {
            return Some(CsvField::bare(whole));
        }
        let Quotation { close, doubled } = quotation(part(0..whole.end), open)?;
        let inner = open + 1..close;
        let trailing = part(close + 1..whole.end);
        let kept = if trailing.iter().all(u8::is_ascii_whitespace) {
            inner
        } else if part(inner).iter().any(|byte| matches!(byte, b'\n' | b'\r')) {
            return None;
        } else {
            whole
        };
        Some(CsvField {
            escaped: doubled > 0,
            ..CsvField::bare(kept)
        })
    }
}

/// One past the last byte of a field with its quotes, from its first byte and from how long it
/// is without them; `None` if it opens a quote and does not close it.
pub(super) fn end_of(bytes: &[u8], start: usize, length: usize) -> Option<usize> {
    if bytes.get(start) != Some(&b'"') {
        return Some(start + length);
    }
    let quotation = quotation(bytes, start)?;
    Some(start + length + quotation.doubled + 2)
}

/// The quotation that is opened at `open`; `None` if it has no end.
fn quotation(bytes: &[u8], open: usize) -> Option<Quotation> {
    let mut at = open + 1;
    let mut doubled = 0;
    loop {
        let rest = bytes.get(at..)?;
        let close = at + rest.iter().position(|&byte| byte == b'"')?;
        if bytes.get(close + 1) != Some(&b'"') {
            return Some(Quotation { close, doubled });
        }
        doubled += 1;
        at = close + 2;
    }
}
