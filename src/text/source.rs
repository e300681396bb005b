//! One input, decoded: its text, its lines.

use std::fmt;
use std::sync::OnceLock;

use super::{Position, SheetPlaces, Span};

/// One decoded input with the name it is shown by.
#[derive(Debug)]
pub struct Source {
    name: String,
    text: String,
    code_page: bool,
    lines: OnceLock<Vec<u32>>,
    blocks: OnceLock<Vec<u32>>,
    sheet: Option<Box<SheetPlaces>>,
}

/// Why bytes could not be read as text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotText {
    /// A NUL or another byte that no text file holds, at this byte offset.
    Binary(usize),
    /// Larger than the 4 GiB that a place can name.
    TooLarge,
}

impl fmt::Display for NotText {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            NotText::Binary(at) => write!(
                f,
                "byte {} does not occur in a text file; expected text in UTF-8, UTF-16 with a byte-order mark, or Windows-1252. Save or export it as text again",
                at + 1
            ),
            NotText::TooLarge => f.write_str("the file is larger than 4 GiB; split the library"),
        }
    }
}

impl Source {
    /// Decodes bytes: UTF-8 with or without mark, UTF-16 with a mark, else Windows-1252.
    ///
    /// Offsets count in the decoded text, which for UTF-8 is the file less its mark.
    pub fn from_bytes(name: impl Into<String>, bytes: Vec<u8>) -> Result<Source, NotText> {
        let (text, code_page) = decode(bytes)?;
        Source::new(name.into(), text, code_page, None)
    }

    /// The rows of a sheet as lines of text, with the cell that each stretch is. `name` is that of
    /// the workbook.
    pub fn of_sheet(
        name: impl Into<String>,
        text: String,
        places: SheetPlaces,
    ) -> Result<Source, NotText> {
        Source::new(name.into(), text, false, Some(Box::new(places)))
    }

    fn new(
        name: String,
        text: String,
        code_page: bool,
        sheet: Option<Box<SheetPlaces>>,
    ) -> Result<Source, NotText> {
        if u32::try_from(text.len()).is_err() {
            return Err(NotText::TooLarge);
        }
        Ok(Source {
            name,
            text,
            code_page,
            lines: OnceLock::new(),
            blocks: OnceLock::new(),
            sheet,
        })
    }

    /// Which cells of a sheet it is, if it is one.
    #[must_use]
    pub fn sheet(&self) -> Option<&SheetPlaces> {
        self.sheet.as_deref()
    }

    /// The name it is shown by.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The whole text.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.text
    }

    /// Whether its bytes were neither UTF-8 nor UTF-16 and were read as Windows-1252.
    #[must_use]
    pub fn is_code_page(&self) -> bool {
        self.code_page
    }

    /// The text of a span; empty if the span is none of this source's.
    #[must_use]
    pub fn slice(&self, span: Span) -> &str {
        self.text.get(span.range()).unwrap_or("")
    }

    /// Line and column of an offset; an offset past the end is the end.
    #[must_use]
    pub fn position(&self, offset: usize) -> Position {
        if let Some(sheet) = &self.sheet {
            return sheet.position(&self.text, offset);
        }
        let lines = self.lines.get_or_init(|| line_starts(&self.text));
        let offset = floor_char(&self.text, offset);
        let line = lines.partition_point(|&start| start as usize <= offset);
        let start = lines.get(line.wrapping_sub(1)).map_or(0, |&s| s as usize);
        Position {
            line: line.max(1),
            column: self.characters(offset) - self.characters(start) + 1,
        }
    }

    /// How many characters stand before an offset. A document may be one line of many
    /// megabytes with a finding in every record, so nothing is counted from the line's start.
    fn characters(&self, offset: usize) -> usize {
        let blocks = self.blocks.get_or_init(|| blocks(&self.text));
        let block = offset / BLOCK;
        let before = blocks.get(block).map_or(0, |&count| count as usize);
        let rest = self.text.as_bytes().get(block * BLOCK..offset);
        before + rest.map_or(0, starts)
    }
}

/// Bytes between two counts of characters.
const BLOCK: usize = 1024;

/// How many characters start in a stretch of bytes, wherever it is cut.
fn starts(bytes: &[u8]) -> usize {
    bytes.iter().filter(|&byte| byte & 0xc0 != 0x80).count()
}

/// How many characters start before each block.
fn blocks(text: &str) -> Vec<u32> {
    let mut counted = 0;
    let count = |block: &[u8]| {
        let before = counted;
        counted += starts(block);
        // `new` keeps the text below 4 GiB.
        u32::try_from(before).unwrap_or(u32::MAX)
    };
    let mut all: Vec<u32> = text.as_bytes().chunks(BLOCK).map(count).collect();
    // The end of a text that fills its last block.
    all.push(u32::try_from(counted).unwrap_or(u32::MAX));
    all
}

fn floor_char(text: &str, offset: usize) -> usize {
    let mut offset = offset.min(text.len());
    while !text.is_char_boundary(offset) {
        offset -= 1;
    }
    offset
}

fn line_starts(text: &str) -> Vec<u32> {
    let bytes = text.as_bytes();
    let ends = bytes.iter().enumerate().filter(|&(at, &byte)| {
        byte == b'\n' || (byte == b'\r' && bytes.get(at + 1) != Some(&b'\n'))
    });
    // `new` keeps the text below 4 GiB.
    let starts = ends.map(|(at, _)| u32::try_from(at + 1).unwrap_or(u32::MAX));
    std::iter::once(0).chain(starts).collect()
}

/// The text, and whether it was read in the code page.
fn decode(bytes: Vec<u8>) -> Result<(String, bool), NotText> {
    if let Some((encoding, mark)) = encoding_rs::Encoding::for_bom(&bytes)
        && encoding != encoding_rs::UTF_8
    {
        let body = bytes.get(mark..).unwrap_or_default();
        let (text, broken) = encoding.decode_without_bom_handling(body);
        return if broken || text.contains('\0') {
            Err(NotText::Binary(mark))
        } else {
            Ok((text.into_owned(), false))
        };
    }
    if let Some(at) = bytes.iter().position(|&byte| byte == 0) {
        return Err(NotText::Binary(at));
    }
    match String::from_utf8(bytes) {
        Ok(mut text) => {
            if text.starts_with('\u{feff}') {
                text.drain(..'\u{feff}'.len_utf8());
            }
            Ok((text, false))
        }
        Err(error) => decode_windows_1252(&error.into_bytes()).map(|text| (text, true)),
    }
}

/// A spreadsheet's "CSV" without UTF-8. The five bytes that the code page leaves open, and
/// control bytes other than white space and escape, speak for a binary file.
fn decode_windows_1252(bytes: &[u8]) -> Result<String, NotText> {
    let odd = |byte: u8| {
        matches!(byte, 0x81 | 0x8d | 0x8f | 0x90 | 0x9d)
            || (byte < 0x20 && !matches!(byte, b'\t' | b'\n' | b'\r' | 0x0c | 0x1b))
    };
    if let Some(at) = bytes.iter().position(|&byte| odd(byte)) {
        return Err(NotText::Binary(at));
    }
    let (text, _) = encoding_rs::WINDOWS_1252.decode_without_bom_handling(bytes);
    Ok(text.into_owned())
}
