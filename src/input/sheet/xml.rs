//! The XML of a workbook's parts, event by event. Names count without their prefix.

use std::borrow::Cow;
use std::io::{BufReader, Read};

use quick_xml::events::attributes::Attribute;
use quick_xml::events::{BytesEnd, BytesRef, BytesStart, Event};
use quick_xml::{Reader, XmlVersion, escape};

/// Bytes that are unpacked at once.
const BUFFER: usize = 1 << 16;

/// A part as it is read.
pub(super) struct Xml<'p> {
    reader: Reader<BufReader<Box<dyn Read + 'p>>>,
    buffer: Vec<u8>,
    /// Elements that are open.
    depth: usize,
}

/// What comes next.
pub(super) enum Node<'x> {
    Open(BytesStart<'x>),
    Close(BytesEnd<'x>),
    Text(Cow<'x, str>),
    /// A comment or the like.
    Other,
    /// The end of the document, where all elements are closed.
    End,
}

impl<'p> Xml<'p> {
    pub fn new(part: impl Read + 'p) -> Xml<'p> {
        let part: Box<dyn Read + 'p> = Box::new(part);
        let mut reader = Reader::from_reader(BufReader::with_capacity(BUFFER, part));
        reader.config_mut().expand_empty_elements = true;
        Xml {
            reader,
            buffer: Vec::new(),
            depth: 0,
        }
    }

    /// How many elements are open.
    pub fn depth(&self) -> usize {
        self.depth
    }

    /// Reads on. A document type is refused: entities of its own may grow without end.
    pub fn next(&mut self) -> Result<Node<'_>, String> {
        self.buffer.clear();
        let event = self.reader.read_event_into(&mut self.buffer);
        Ok(match event.map_err(|why| short(&why))? {
            Event::Start(tag) => {
                self.depth += 1;
                Node::Open(tag)
            }
            Event::End(tag) => {
                self.depth = self.depth.saturating_sub(1);
                Node::Close(tag)
            }
            Event::Text(text) => Node::Text(with_line_ends(text.into_inner())),
            Event::CData(text) => Node::Text(with_line_ends(text.into_inner())),
            Event::GeneralRef(reference) => Node::Text(Cow::Owned(resolved(&reference)?)),
            Event::DocType(_) => return Err("it declares a document type".to_owned()),
            Event::Eof if self.depth > 0 => return Err("it ends too early".to_owned()),
            Event::Eof => Node::End,
            Event::Empty(_) | Event::Comment(_) | Event::Decl(_) | Event::PI(_) => Node::Other,
        })
    }

    /// Reads to the end of the element that was opened last.
    pub fn skip(&mut self) -> Result<(), String> {
        let within = self.depth.saturating_sub(1);
        while self.depth > within {
            if let Node::End = self.next()? {
                break;
            }
        }
        Ok(())
    }

    /// The text up to the end of the element that was opened last, elements in it aside.
    pub fn text(&mut self, into: &mut String) -> Result<(), String> {
        let within = self.depth.saturating_sub(1);
        while self.depth > within {
            match self.next()? {
                Node::Text(text) => into.push_str(&text),
                Node::End => break,
                _ => {}
            }
        }
        Ok(())
    }
}

/// A text with the line ends that XML gives to programs.
fn with_line_ends(text: Cow<'_, str>) -> Cow<'_, str> {
    if text.contains('\r') {
        Cow::Owned(text.replace("\r\n", "\n").replace('\r', "\n"))
    } else {
        text
    }
}

fn short(why: &quick_xml::Error) -> String {
    crate::text::quoted(&why.to_string()).into_owned()
}

/// The character that a reference means: one by number, or one of XML's own five.
fn resolved(reference: &BytesRef<'_>) -> Result<String, String> {
    let unknown = || "it has a reference to no known character".to_owned();
    if reference.is_char_ref() {
        let found = reference.resolve_char_ref().ok().flatten();
        return found.map(String::from).ok_or_else(unknown);
    }
    let name = reference.xml10_content();
    let known = escape::resolve_xml_entity(&name);
    known.map(str::to_owned).ok_or_else(unknown)
}

/// The value of an attribute, by its name without prefix.
pub(super) fn attribute(tag: &BytesStart<'_>, name: &str) -> Option<String> {
    let mut all = tag.attributes();
    let found = all
        .with_checks(false)
        .filter_map(Result::ok)
        .find(|one| one.key.local_name().as_ref() == name)?;
    unescaped(&found)
}

/// The value of an attribute; none if it has a broken reference.
pub(super) fn unescaped(found: &Attribute<'_>) -> Option<String> {
    let value = found.normalized_value(XmlVersion::Implicit1_0).ok()?;
    Some(value.into_owned())
}

/// A whole number that is the value of an attribute.
pub(super) fn number(tag: &BytesStart<'_>, name: &str) -> Option<u32> {
    attribute(tag, name)?.trim().parse().ok()
}

/// Whether an attribute says yes.
pub(super) fn flag(tag: &BytesStart<'_>, name: &str) -> bool {
    attribute(tag, name).is_some_and(|value| matches!(value.trim(), "1" | "true"))
}
