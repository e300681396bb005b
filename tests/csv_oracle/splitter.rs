//! The oracle of records and places: one loop over the bytes, without the crates that read.

use shankwise::input::csv::CsvField;
use shankwise::text::Span;

/// One record, which may run over several lines.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CsvRecord {
    /// From its first byte to its line end, which is not in it.
    pub span: Span,
    /// Its fields, at least one.
    pub fields: Vec<CsvField>,
    /// Byte of the first quote that is opened and never closed.
    pub unclosed: Option<usize>,
}

/// Iterates over the records of a text.
#[derive(Clone, Debug)]
pub struct Splitter<'a> {
    bytes: &'a [u8],
    at: usize,
    delimiter: u8,
    fields: usize,
}

impl<'a> Splitter<'a> {
    /// Splits `text` at `delimiter`, an ASCII byte.
    #[must_use]
    pub fn new(text: &'a str, delimiter: u8) -> Splitter<'a> {
        Splitter {
            bytes: text.as_bytes(),
            at: 0,
            delimiter,
            fields: 0,
        }
    }

    fn byte(&self, at: usize) -> Option<u8> {
        self.bytes.get(at).copied()
    }

    fn ends_field(&self, byte: u8) -> bool {
        byte == self.delimiter || byte == b'\n' || byte == b'\r'
    }

    /// First byte from `from` on that ends a bare field, or the end.
    fn bare_end(&self, from: usize) -> usize {
        let rest = self.bytes.get(from..).unwrap_or_default();
        let length = rest.iter().position(|&byte| self.ends_field(byte));
        length.map_or(self.bytes.len(), |length| from + length)
    }

    /// The field at `self.at`, which then stands on what ends the field.
    fn field(&mut self) -> Result<CsvField, usize> {
        if self.byte(self.at) == Some(b'"') {
            return self.quoted();
        }
        let end = self.bare_end(self.at);
        let span = Span::new(self.at, end);
        self.at = end;
        Ok(CsvField {
            span,
            escaped: false,
        })
    }

    /// A quoted field. What stands between the closing quote and the next delimiter belongs
    /// to it, as the `csv` crate has it, and then the quotes are kept as characters. If the
    /// quotes also hold a line end, the closing one is the next inch mark some lines below:
    /// the quotation was never meant, and believing it would swallow the records between.
    fn quoted(&mut self) -> Result<CsvField, usize> {
        let open = self.at;
        let mut at = open + 1;
        let mut escaped = false;
        loop {
            let rest = self.bytes.get(at..).unwrap_or_default();
            let Some(length) = rest.iter().position(|&byte| byte == b'"') else {
                return Err(open);
            };
            at += length;
            if self.byte(at + 1) != Some(b'"') {
                break;
            }
            escaped = true;
            at += 2;
        }
        let end = self.bare_end(at + 1);
        let trailing = self.bytes.get(at + 1..end).unwrap_or_default();
        let span = if trailing.iter().all(u8::is_ascii_whitespace) {
            Span::new(open + 1, at)
        } else if self.holds_line_end(open..at) {
            return Err(open);
        } else {
            Span::new(open, end)
        };
        self.at = end;
        Ok(CsvField { span, escaped })
    }

    fn holds_line_end(&self, range: std::ops::Range<usize>) -> bool {
        let inside = self.bytes.get(range).unwrap_or_default();
        inside.iter().any(|&byte| matches!(byte, b'\n' | b'\r'))
    }

    fn skip_line_end(&mut self) {
        if self.byte(self.at) == Some(b'\r') {
            self.at += 1;
        }
        if self.byte(self.at) == Some(b'\n') {
            self.at += 1;
        }
    }
}

impl Iterator for Splitter<'_> {
    type Item = CsvRecord;

    fn next(&mut self) -> Option<CsvRecord> {
        if self.at >= self.bytes.len() {
            return None;
        }
        let start = self.at;
        let mut fields = Vec::with_capacity(self.fields);
        let mut unclosed = None;
        loop {
            match self.field() {
                Ok(field) => fields.push(field),
                Err(quote) => {
                    // Take the quote as a character and go on behind it, so that one stray
                    // quote does not swallow the rest of the library.
                    unclosed = unclosed.or(Some(quote));
                    let end = self.bare_end(quote);
                    fields.push(CsvField {
                        span: Span::new(quote, end),
                        escaped: false,
                    });
                    self.at = end;
                }
            }
            if self.byte(self.at) != Some(self.delimiter) {
                break;
            }
            self.at += 1;
        }
        let span = Span::new(start, self.at);
        self.skip_line_end();
        self.fields = fields.len();
        Some(CsvRecord {
            span,
            fields,
            unclosed,
        })
    }
}
