//! Records with the place of every field.
//!
//! The `csv` crate reads a record: where it ends, and how long its fields are without their
//! quotes. The fields stand one behind the other, so that their places follow. Where a quote is
//! found that nobody meant, because nothing closes it or only an inch mark some lines below, the
//! crate has taken lines for one cell. From that record on each field is read by itself, the
//! stray quote is a character, and its record ends with its line.

use super::field::{CsvField, end_of};
use super::one_by_one::OneByOne;
use crate::text::Span;

/// One record, which may run over several lines.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct CsvRecord {
    /// From its first byte to its line end, which is not in it.
    pub span: Span,
    /// Its fields, at least one.
    pub fields: Vec<CsvField>,
    /// Byte of the first quote that is opened and never closed.
    pub unclosed: Option<usize>,
    /// Whether none of its fields begins with a quote.
    pub plain: bool,
}

/// Reads the records of a text one after the other.
#[derive(Debug)]
pub struct Records<'a> {
    bytes: &'a [u8],
    at: usize,
    /// Reads whole records, until there is a stray quote.
    whole: Option<csv::Reader<&'a [u8]>>,
    read: csv::ByteRecord,
    one_by_one: OneByOne,
    record: CsvRecord,
}

impl<'a> Records<'a> {
    /// The records of `text`, whose fields are separated by `delimiter`, an ASCII byte.
    #[must_use]
    pub fn new(text: &'a str, delimiter: u8) -> Records<'a> {
        // The text has lost its byte-order mark; the crate would take away a second one.
        let marked = text.starts_with('\u{feff}');
        let bytes = text.as_bytes();
        let whole = (!marked).then(|| {
            csv::ReaderBuilder::new()
                .has_headers(false)
                .flexible(true)
                .delimiter(delimiter)
                .from_reader(bytes)
        });
        Records {
            bytes,
            at: 0,
            whole,
            read: csv::ByteRecord::new(),
            one_by_one: OneByOne::new(delimiter),
            record: CsvRecord::default(),
        }
    }

    /// The next record; lines without any character are none.
    pub fn read(&mut self) -> Option<&CsvRecord> {
        let rest = self.bytes.get(self.at..)?;
        let skipped = rest.iter().position(|byte| !matches!(byte, b'\n' | b'\r'));
        let start = self.at + skipped?;
        self.record.fields.clear();
        self.record.unclosed = None;
        let end = match self.read_whole(start) {
            Some(end) => end,
            None => {
                self.whole = None;
                self.record.fields.clear();
                self.record.plain = false;
                self.at = self.one_by_one.read(self.bytes, start, &mut self.record);
                self.at
            }
        };
        self.record.span = Span::new(start, end);
        Some(&self.record)
    }

    /// The record that was read last; `None` before the first.
    pub fn last(&self) -> Option<&CsvRecord> {
        (!self.record.fields.is_empty()).then_some(&self.record)
    }

    /// Reads a whole record and returns its end; `None` if that cannot be believed.
    fn read_whole(&mut self, start: usize) -> Option<usize> {
        let reader = self.whole.as_mut()?;
        // Nothing can fail where bytes in memory are read into records of any length.
        reader.read_byte_record(&mut self.read).ok()?;
        self.at = usize::try_from(reader.position().byte()).ok()?;
        let between = self.read.len().checked_sub(1)?;
        let end = start + self.read.as_slice().len() + between;
        // One line end is read with its record. At the end of the text there may be none, and a
        // quote may hold it.
        let open_ended = self.at >= self.bytes.len();
        self.record.plain = if open_ended {
            !self.bytes.get(start..)?.contains(&b'"')
        } else {
            self.at == end + 1
        };
        if self.record.plain {
            self.place_plain(start);
            return Some(end);
        }
        self.place_quoted(start)
    }

    /// Fields without quotes: each begins one delimiter behind the last.
    fn place_plain(&mut self, start: usize) {
        let read = &self.read;
        let ranges = (0..read.len()).filter_map(|index| Some((index, read.range(index)?)));
        let fields = ranges.map(|(index, range)| {
            let at = start + index;
            CsvField::bare(at + range.start..at + range.end)
        });
        self.record.fields.extend(fields);
    }

    /// Fields of which some have quotes; `None` if a quote was never meant.
    fn place_quoted(&mut self, start: usize) -> Option<usize> {
        let bytes = self.bytes.get(..self.at)?;
        let mut end = start;
        for (index, content) in self.read.iter().enumerate() {
            let at = end + usize::from(index > 0);
            end = end_of(bytes, at, content.len())?;
            self.record.fields.push(CsvField::of(bytes, at..end)?);
        }
        Some(end)
    }
}
