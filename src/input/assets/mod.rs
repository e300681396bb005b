//! Assets of MTConnect (ANSI/MTC1.4), versions 1.2 to 2.x: cutting tools as a tool crib or a
//! control writes them. Few such documents keep to their schema, so they are read by local names:
//! with or without envelope, in any version and order, with elements of other namespaces between.
//!
//! An asset becomes a row: its columns have the ISO 13399 symbols of its measurements, and names as
//! a table has them. Where a document has tools, its archetypes become cutters that these refer to.

mod asset;
mod departures;
mod leaf;
mod measurements;

use quick_xml::Reader;
use quick_xml::events::{BytesRef, BytesStart, Event};

use super::xml::{Document, Refusal, next_event, refuse};
use super::{Faults, xml};
use crate::text::{Source, SourceId, Span, quoted};

use asset::Assets;
use departures::Namespaces;

/// What a document of assets may begin with.
const ROOTS: [&str; 4] = ["MTConnectAssets", "Assets", asset::TOOL, asset::ARCHETYPE];

/// Whether a document is one of assets, by its root element.
#[must_use]
pub fn is_one(text: &str) -> bool {
    xml::root(text).is_some_and(|root| ROOTS.contains(&root.name.as_str()))
}

/// Reads a document of assets as the sections of a library; `alone` if no tables lie beside it.
///
/// # Errors
/// Where and why it is refused: it is not well-formed.
pub fn read<'a>(
    source: &'a Source,
    id: SourceId,
    alone: bool,
    faults: &mut Faults,
) -> Result<Document<'a>, Refusal> {
    let text = source.text();
    let mut reader = Reader::from_str(text);
    reader.config_mut().expand_empty_elements = true;
    let mut assets = Assets::new(id);
    let mut names = Namespaces::new(id);
    loop {
        let (event, span) = next_event(&mut reader)?;
        match event {
            Event::Eof if assets.is_open() => {
                let reason =
                    "not well-formed XML: the file ends inside an element; is it cut short?";
                return Err(refuse(span.range().end, span.range().end, reason));
            }
            Event::Eof => {
                faults.extend(names.told());
                return Ok(assets.finish(alone, faults));
            }
            Event::Start(tag) => {
                let attributes = attributes(text, &tag, span)?;
                names.element(tag.name().as_ref(), &attributes, span);
                assets.open(tag.local_name().as_ref(), attributes, span);
            }
            Event::End(_) => assets.close(span),
            Event::Text(words) => {
                let at = span_of(text, &words);
                assets.words(text.get(at.range()).unwrap_or("").into(), at);
            }
            Event::CData(words) => {
                let at = span_of(text, &words);
                assets.words(text.get(at.range()).unwrap_or("").into(), at);
            }
            Event::GeneralRef(reference) => assets.words(resolved(&reference, span)?.into(), span),
            Event::DocType(_) => {
                let reason = "a document type declaration is not read; delete it";
                return Err(refuse(span.range().start, span.range().end, reason));
            }
            _ => {}
        }
    }
}

/// An attribute: its name with prefix, its value, and where that stands.
type Attribute<'a> = (String, std::borrow::Cow<'a, str>, Span);

fn attributes<'a>(
    text: &'a str,
    tag: &BytesStart<'a>,
    span: Span,
) -> Result<Vec<Attribute<'a>>, Refusal> {
    let whole = span.range();
    let wrong = |why: &str| {
        let reason = format!("not well-formed XML: {why}");
        refuse(whole.start, whole.end, reason)
    };
    let mut found = Vec::new();
    for attribute in tag.attributes().with_checks(false) {
        let attribute = attribute.map_err(|error| wrong(&error.to_string()))?;
        let at = span_of(text, &attribute.value);
        let raw = text.get(at.range()).unwrap_or("");
        let value = quick_xml::escape::unescape(raw);
        let value = value.map_err(|_| wrong("an entity that is not one of XML's own five"))?;
        let name: &str = attribute.key.as_ref();
        found.push((name.to_owned(), value, at));
    }
    Ok(found)
}

/// XML's own five entities, and characters by number.
fn resolved(reference: &BytesRef<'_>, span: Span) -> Result<String, Refusal> {
    if let Ok(Some(character)) = reference.resolve_char_ref() {
        return Ok(character.to_string());
    }
    let known = quick_xml::escape::resolve_predefined_entity(reference);
    known.map(str::to_owned).ok_or_else(|| {
        let name = quoted(reference);
        let reason = format!("entity `&{name};` is not one of XML's own five, so it is not expanded; write the character itself");
        refuse(span.range().start, span.range().end, reason)
    })
}

/// Where a part of the text stands.
fn span_of(text: &str, part: &str) -> Span {
    let start = (part.as_ptr() as usize).wrapping_sub(text.as_ptr() as usize);
    Span::new(start, start.saturating_add(part.len()))
}
