//! A document element by element, well-formed or refused.

use std::borrow::Cow;

use quick_xml::Reader;
use quick_xml::events::{BytesStart, Event};

use crate::input::xml::{Refusal, next_event, reference, refuse, well_formed};
use crate::text::{Source, quoted};

/// Elements within each other: an export of tools has a few.
const DEEPEST: usize = 64;

/// Takes what a document holds.
pub(super) trait Visit {
    /// An element, its attributes in their order.
    fn open(&mut self, name: &str, attributes: &[Attribute<'_>]) -> Result<(), String>;
    /// Text in the element that was opened last.
    fn text(&mut self, text: &str);
    /// The end of the element that was opened last.
    fn close(&mut self) -> Result<(), String>;
}

/// An attribute: its name without prefix, and its value.
pub(super) type Attribute<'t> = (&'t str, Cow<'t, str>);

/// Goes through a document.
pub(super) fn walk(source: &Source, visit: &mut impl Visit) -> Result<(), Refusal> {
    let text = source.text();
    well_formed::characters(text)?;
    let mut reader = Reader::from_str(text);
    reader.config_mut().expand_empty_elements = true;
    let (mut depth, mut is_closed) = (0_usize, false);
    loop {
        let (event, span) = next_event(&mut reader)?;
        let fails = |reason: &str| refuse(span.range().start, span.range().end, reason);
        match event {
            Event::Eof if depth > 0 => {
                return Err(fails(
                    "not well-formed XML: the file ends inside an element; is it cut short?",
                ));
            }
            Event::Eof => return Ok(()),
            Event::Decl(declaration) => well_formed::declaration(&declaration, span, source)?,
            Event::DocType(_) => {
                return Err(fails("a document type declaration is not read; delete it"));
            }
            Event::Start(_) if is_closed => {
                return Err(fails("not well-formed XML: a second root element"));
            }
            Event::Start(tag) => {
                depth += 1;
                if depth > DEEPEST {
                    return Err(fails(
                        "elements more than 64 deep; an export of tools is flatter",
                    ));
                }
                let attributes = attributes(&tag).map_err(|why| fails(&why))?;
                visit
                    .open(tag.local_name().as_ref(), &attributes)
                    .map_err(|why| fails(&why))?;
            }
            Event::End(_) => {
                depth = depth.saturating_sub(1);
                is_closed |= depth == 0;
                visit.close().map_err(|why| fails(&why))?;
            }
            Event::Text(words) if depth > 0 => visit.text(&words),
            Event::CData(words) if depth > 0 => visit.text(&words),
            Event::GeneralRef(name) if depth > 0 => match reference(&name) {
                Some(character) => visit.text(&character),
                None => {
                    let reason = format!(
                        "entity `&{};` is not one of XML's own five, so it is not expanded; write the character itself",
                        quoted(&name)
                    );
                    return Err(fails(&reason));
                }
            },
            Event::Text(words) if words.trim().is_empty() => {}
            Event::Text(_) | Event::CData(_) | Event::GeneralRef(_) => {
                return Err(fails("not well-formed XML: text outside the root element"));
            }
            Event::Comment(_) | Event::PI(_) | Event::Empty(_) => {}
        }
    }
}

/// The attributes of an element; those that say where names come from aside.
fn attributes<'t>(tag: &'t BytesStart<'_>) -> Result<Vec<Attribute<'t>>, String> {
    let mut found = Vec::new();
    for attribute in tag.attributes() {
        let attribute = attribute.map_err(|why| format!("not well-formed XML: {why}"))?;
        let whole: &'t str = attribute.key.0;
        let (prefix, local) = whole.split_once(':').unwrap_or(("", whole));
        let value = match attribute.value {
            Cow::Borrowed(raw) => quick_xml::escape::unescape(raw).ok().map(Cow::into_owned),
            Cow::Owned(raw) => quick_xml::escape::unescape(&raw).ok().map(Cow::into_owned),
        };
        let value = value.ok_or_else(|| {
            "not well-formed XML: an entity that is not one of XML's own five".to_owned()
        })?;
        if whole != "xmlns" && !["xmlns", "xsi", "xml"].contains(&prefix) {
            found.push((local, Cow::Owned(value)));
        }
    }
    Ok(found)
}
