//! Records read field by field, as `csv-core` tells the end of each: what a stray quote needs,
//! so that it costs its own line and no other.

use std::cell::Cell;

use csv_core::{ReadFieldResult, Reader, ReaderBuilder};

use super::field::CsvField;
use super::records::CsvRecord;

/// Reads fields one by one. It cannot be copied: the copy of a `csv-core` reader has lost what
/// its delimiter is.
#[derive(Debug)]
pub(super) struct OneByOne {
    reader: Reader,
    delimiter: u8,
}

thread_local! {
    /// The reader that was last used: to make one takes longer than to read a hundred records.
    static LAST: Cell<Option<OneByOne>> = const { Cell::new(None) };
}

/// Reads the fields of one record again, which begins at `start`.
pub(super) fn read_again(bytes: &[u8], start: usize, delimiter: u8, record: &mut CsvRecord) {
    let last = LAST.take().filter(|last| last.delimiter == delimiter);
    let mut reader = last.unwrap_or_else(|| OneByOne::new(delimiter));
    reader.restart_behind(b'\n');
    reader.read(bytes, start, record);
    LAST.set(Some(reader));
}

impl OneByOne {
    pub fn new(delimiter: u8) -> OneByOne {
        let reader = ReaderBuilder::new().delimiter(delimiter).build();
        let mut one = OneByOne { reader, delimiter };
        one.restart_behind(b'\n');
        one
    }

    /// Reads the fields of the record that begins at `start`, and returns its end.
    ///
    /// A stray quote is taken as a character. What it holds is looked through once: the next
    /// quote that could close it is the next that could be stray.
    pub fn read(&mut self, bytes: &[u8], start: usize, record: &mut CsvRecord) -> usize {
        let mut at = start;
        loop {
            let (mut end, mut is_last) = self.field(bytes, at);
            let field = CsvField::of(bytes, at..end).unwrap_or_else(|| {
                record.unclosed = record.unclosed.or(Some(at));
                end = self.end_of_bare(bytes, at);
                is_last = bytes.get(end) != Some(&self.delimiter);
                self.restart_behind(if is_last { b'\n' } else { self.delimiter });
                CsvField::bare(at..end)
            });
            record.fields.push(field);
            if is_last {
                return end;
            }
            at = end + 1;
        }
    }

    /// One past the last byte of the field that begins at `at`, and whether it ends a record.
    fn field(&mut self, bytes: &[u8], at: usize) -> (usize, bool) {
        // Where a field ends is wanted, not what it holds.
        let mut scratch = [0; 256];
        let mut end = at;
        loop {
            let rest = bytes.get(end..).unwrap_or_default();
            if rest.is_empty() {
                return (end, true);
            }
            let (result, read, _) = self.reader.read_field(rest, &mut scratch);
            end += read;
            match result {
                ReadFieldResult::Field { record_end } => return (end - 1, record_end),
                ReadFieldResult::InputEmpty | ReadFieldResult::OutputFull => {}
                ReadFieldResult::End => return (end, true),
            }
        }
    }

    /// First byte from `at` on that ends a field without quotes, or the end.
    fn end_of_bare(&self, bytes: &[u8], at: usize) -> usize {
        let ends = |byte: &u8| *byte == self.delimiter || matches!(byte, b'\n' | b'\r');
        let rest = bytes.get(at..).unwrap_or_default();
        rest.iter().position(ends).map_or(bytes.len(), |n| at + n)
    }

    /// Forgets what was read, and goes on as behind a delimiter or a line end.
    fn restart_behind(&mut self, byte: u8) {
        self.reader.reset();
        // Its result, an empty field or none, says nothing.
        let _ = self.reader.read_field(&[byte], &mut [0]);
    }
}
