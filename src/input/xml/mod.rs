//! XML of the namespace `urn:shankwise:library:1`: sections of records of fields.
//!
//! Nothing here knows which sections, records or fields there are. What is not well-formed, in
//! another namespace, or brings a document type or entities of its own is refused at a place:
//! nothing is expanded, and no other file is touched.

mod asides;
mod attributes;
mod document;
mod records;
mod root;
pub(super) mod well_formed;

use std::borrow::Cow;

use quick_xml::events::Event;
use quick_xml::name::ResolveResult;
use quick_xml::{NsReader, Reader};

use super::{Faults, Table};
use crate::text::{Place, Source, SourceId, Span};

pub use asides::asides;
use document::Build;
pub(super) use document::resolved as reference;
pub use root::{Root, root};

/// The namespace of a tool library.
pub const NAMESPACE: &str = "urn:shankwise:library:1";
/// The root element.
const ROOT: &str = "shankwise";
/// What the root element was called before the format was settled.
const FORMER_ROOT: &str = "tool-library";

/// Why a document is refused.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Refusal {
    /// Where.
    pub span: Span,
    /// What is wrong, what was expected, what to do.
    pub reason: String,
}

/// What a document holds.
#[derive(Debug, Default)]
pub struct Document<'a> {
    /// The root's `units`, if it has them.
    pub units: Option<(Cow<'a, str>, Place)>,
    /// The sections in their order.
    pub sections: Vec<Section<'a>>,
}

/// One section, such as `cutters`.
#[derive(Debug)]
pub struct Section<'a> {
    /// The element's name.
    pub name: String,
    /// Its start tag.
    pub place: Place,
    /// Its records, those of one element together.
    pub groups: Vec<Group<'a>>,
}

/// The records of one element within a section.
#[derive(Debug)]
pub struct Group<'a> {
    /// The element's name.
    pub element: String,
    /// A row for each, the names of their attributes and elements as columns.
    pub table: Table<'a>,
}

/// Reads a document.
///
/// # Errors
/// Where and why it is refused.
pub fn read<'a>(
    source: &'a Source,
    id: SourceId,
    faults: &mut Faults,
) -> Result<Document<'a>, Refusal> {
    let text = source.text();
    well_formed::characters(text)?;
    let mut reader = NsReader::from_str(text);
    reader.config_mut().expand_empty_elements = true;
    reader.config_mut().check_comments = true;
    let mut build = Build::new(text, id, faults);
    loop {
        let from = offset(reader.buffer_position());
        let read = reader.read_resolved_event();
        let to = |reader: &NsReader<_>| offset(reader.buffer_position());
        let (own, event) = match read {
            Ok((ResolveResult::Bound(namespace), event)) => {
                (namespace.as_ref() == NAMESPACE, event)
            }
            Ok((ResolveResult::Unknown(prefix), Event::Start(_))) => {
                return Err(unbound(&prefix, Span::new(from, to(&reader))));
            }
            Ok((_, event)) => (false, event),
            Err(error) => {
                // Not every error says where it is: then what was being read.
                let at = offset(reader.error_position()).max(from);
                let reason = format!("not well-formed XML: {error}");
                return Err(refuse(at, at, reason));
            }
        };
        let span = Span::new(from, to(&reader));
        match &event {
            Event::Eof => return build.finish(offset(reader.buffer_position())),
            Event::Decl(declaration) => well_formed::declaration(declaration, span, source)?,
            // Without a declaration a document is in UTF-8.
            _ if from == 0 => well_formed::utf_8(source)?,
            _ => {}
        }
        if let Event::PI(instruction) = &event {
            well_formed::instruction(instruction.target(), span)?;
        }
        build.event(own, &event, span, reader.resolver())?;
    }
}

/// A prefix that no `xmlns` declares.
fn unbound(prefix: &str, span: Span) -> Refusal {
    let prefix = crate::text::quoted(prefix);
    let whole = span.range();
    let reason = format!("not well-formed XML: the prefix `{prefix}` is not declared");
    refuse(whole.start, whole.end, reason)
}

/// The next event of a document, and where it stands.
///
/// # Errors
/// It is not well-formed.
pub(super) fn next_event<'t>(reader: &mut Reader<&'t [u8]>) -> Result<(Event<'t>, Span), Refusal> {
    let from = offset(reader.buffer_position());
    let event = reader.read_event().map_err(|error| {
        // Not every error says where it is: then what was being read.
        let at = offset(reader.error_position()).max(from);
        refuse(at, at, format!("not well-formed XML: {error}"))
    })?;
    Ok((event, Span::new(from, offset(reader.buffer_position()))))
}

pub(super) fn offset(position: u64) -> usize {
    usize::try_from(position).unwrap_or(usize::MAX)
}

pub(super) fn refuse(from: usize, to: usize, reason: impl Into<String>) -> Refusal {
    Refusal {
        span: Span::new(from, to),
        reason: reason.into(),
    }
}
