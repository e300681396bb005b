//! What makes a document well-formed beyond what the event reader looks at.
//!
//! The bytes decide the encoding, as for tables: UTF-16 with its mark, UTF-8, else Windows-1252.
//! A declaration may name any encoding that agrees; another is refused instead of misread.

use encoding_rs::{Encoding, UTF_8, UTF_16BE, UTF_16LE, WINDOWS_1252};
use quick_xml::events::BytesDecl;

use super::{Refusal, refuse};
use crate::text::{Source, Span};

/// White space between markup; a no-break space is text.
pub(super) fn is_blank(text: &str) -> bool {
    text.bytes()
        .all(|byte| matches!(byte, b' ' | b'\t' | b'\r' | b'\n'))
}

/// Whether a document may hold the character, in itself or by number.
pub(super) fn is_char(c: char) -> bool {
    !matches!(c, '\0'..='\u{8}' | '\u{b}' | '\u{c}' | '\u{e}'..='\u{1f}' | '\u{fffe}' | '\u{ffff}')
}

/// Refuses characters that no document may hold.
pub(in crate::input) fn characters(text: &str) -> Result<(), Refusal> {
    match text.char_indices().find(|(_, c)| !is_char(*c)) {
        None => Ok(()),
        Some((at, c)) => {
            let reason = format!(
                "not well-formed XML: the character U+{:04X} is not allowed in a document",
                u32::from(c)
            );
            Err(refuse(at, at + c.len_utf8(), reason))
        }
    }
}

/// Whether a name is one, with one prefix at most.
pub(super) fn is_name(name: &str) -> bool {
    let mut parts = name.split(':');
    let fine = |part: Option<&str>| part.is_some_and(is_part);
    fine(parts.next()) && parts.next().is_none_or(is_part) && parts.next().is_none()
}

fn is_part(name: &str) -> bool {
    let mut characters = name.chars();
    characters.next().is_some_and(starts_name) && characters.all(continues_name)
}

fn starts_name(c: char) -> bool {
    matches!(c, 'A'..='Z' | 'a'..='z' | '_' | '\u{c0}'..='\u{d6}' | '\u{d8}'..='\u{f6}'
        | '\u{f8}'..='\u{2ff}' | '\u{370}'..='\u{37d}' | '\u{37f}'..='\u{1fff}'
        | '\u{200c}'..='\u{200d}' | '\u{2070}'..='\u{218f}' | '\u{2c00}'..='\u{2fef}'
        | '\u{3001}'..='\u{d7ff}' | '\u{f900}'..='\u{fdcf}' | '\u{fdf0}'..='\u{fffd}'
        | '\u{10000}'..='\u{effff}')
}

fn continues_name(c: char) -> bool {
    starts_name(c)
        || matches!(c, '-' | '.' | '0'..='9' | '\u{b7}' | '\u{300}'..='\u{36f}'
            | '\u{203f}'..='\u{2040}')
}

/// Refuses a processing instruction without a name of its own.
pub(super) fn instruction(target: &str, span: Span) -> Result<(), Refusal> {
    if is_part(target) && !target.eq_ignore_ascii_case("xml") {
        return Ok(());
    }
    let name = crate::text::quoted(target);
    let reason =
        format!("not well-formed XML: `{name}` is not the name of a processing instruction");
    Err(refuse(span.range().start, span.range().end, reason))
}

/// Refuses a declaration that does not open the file, or names an encoding that disagrees.
pub(in crate::input) fn declaration(
    declaration: &BytesDecl<'_>,
    span: Span,
    source: &Source,
) -> Result<(), Refusal> {
    let whole = span.range();
    let wrong = |reason: String| Err(refuse(whole.start, whole.end, reason));
    if whole.start > 0 {
        let reason =
            "not well-formed XML: the XML declaration must open the file; delete what is before it";
        return wrong(reason.to_owned());
    }
    if declaration.version().is_err() {
        return wrong("not well-formed XML: an XML declaration without version".to_owned());
    }
    let label = match declaration.encoding() {
        None => return utf_8(source),
        Some(Ok(label)) => label,
        Some(Err(error)) => return wrong(format!("not well-formed XML: {error}")),
    };
    let encoding = Encoding::for_label(label.as_bytes());
    let label = crate::text::quoted(&label);
    let Some(encoding) = encoding else {
        return wrong(format!(
            "the encoding `{label}` is not known; save the document in UTF-8"
        ));
    };
    if encoding == UTF_8 || encoding == UTF_16LE || encoding == UTF_16BE {
        return utf_8(source);
    }
    if encoding == WINDOWS_1252 || (source.text().is_ascii() && encoding.is_ascii_compatible()) {
        return Ok(());
    }
    wrong(format!(
        "the encoding `{label}` is not read; save the document in UTF-8"
    ))
}

/// Refuses bytes that are no UTF-8, where the document says that they are.
pub(super) fn utf_8(source: &Source) -> Result<(), Refusal> {
    if !source.is_code_page() {
        return Ok(());
    }
    let at = source.text().find(|c: char| !c.is_ascii()).unwrap_or(0);
    let reason = "not well-formed XML: bytes that are not UTF-8; declare the encoding, such as <?xml version=\"1.0\" encoding=\"windows-1252\"?>, or save the document in UTF-8";
    Err(refuse(at, at + 1, reason))
}
