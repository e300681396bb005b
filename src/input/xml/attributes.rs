//! The attributes of one start tag: names, values, places.

use std::borrow::Cow;
use std::collections::HashSet;

use quick_xml::events::BytesStart;
use quick_xml::events::attributes::Attribute as Raw;
use quick_xml::name::{NamespaceResolver, ResolveResult};

use super::{Refusal, refuse, unbound, well_formed};
use crate::text::Span;

/// Attributes that tell a validator where its schema is; nothing is fetched.
const SCHEMA_INSTANCE: &str = "http://www.w3.org/2001/XMLSchema-instance";

/// One attribute.
pub(super) struct Attribute<'a> {
    /// The name as written.
    pub name: String,
    /// The value, references resolved.
    pub value: Cow<'a, str>,
    /// The value's place, without surrounding blanks.
    pub span: Span,
}

/// The same stretch of text, borrowed from the source instead of from the event.
pub(super) fn slice<'a>(text: &'a str, part: &str) -> &'a str {
    text.get(span_of(text, part).range()).unwrap_or("")
}

/// Where a part of the text stands.
pub(super) fn span_of(text: &str, part: &str) -> Span {
    let start = (part.as_ptr() as usize).wrapping_sub(text.as_ptr() as usize);
    Span::new(start, start.saturating_add(part.len()))
}

/// Reads the attributes; namespaces and what belongs to XML itself are left out.
pub(super) fn read<'a>(
    text: &'a str,
    start: &BytesStart<'a>,
    span: Span,
    names: &NamespaceResolver,
) -> Result<Vec<Attribute<'a>>, Refusal> {
    let whole = span.range();
    let wrong = |reason: &str| {
        let reason = format!("not well-formed XML: {reason}");
        refuse(whole.start, whole.end, reason)
    };
    let element = start.name();
    let element: &str = element.as_ref();
    if !well_formed::is_name(element) {
        let name = crate::text::quoted(element);
        return Err(wrong(&format!("`{name}` is not an element name")));
    }
    let mut seen = HashSet::new();
    let mut found = Vec::new();
    // The library compares every attribute with all before it; a set does not.
    for attribute in start.attributes().with_checks(false) {
        let attribute = attribute.map_err(|error| wrong(&error.to_string()))?;
        let key: &str = attribute.key.as_ref();
        let name = crate::text::quoted(key);
        let at = span_of(text, key).range().start;
        let before = text.get(..at).unwrap_or("");
        if !before.ends_with([' ', '\t', '\r', '\n']) {
            return Err(wrong(&format!("no blank before the attribute `{name}`")));
        }
        if !well_formed::is_name(key) {
            return Err(wrong(&format!("`{name}` is not an attribute name")));
        }
        if !seen.insert(key.to_owned()) {
            return Err(wrong(&format!("attribute `{name}` is given twice")));
        }
        let (value, span) = value(text, &attribute, span)?;
        if key == "xmlns" || key.starts_with("xmlns:") || key.starts_with("xml:") {
            continue;
        }
        match names.resolve_attribute(attribute.key).0 {
            ResolveResult::Unknown(prefix) => return Err(unbound(&prefix, span)),
            ResolveResult::Bound(namespace) if namespace.as_ref() == SCHEMA_INSTANCE => {}
            _ => found.push(Attribute {
                name: key.to_owned(),
                value,
                span,
            }),
        }
    }
    Ok(found)
}

/// A value and its place; `tag` is the place of the start tag.
fn value<'a>(
    text: &'a str,
    attribute: &Raw<'_>,
    tag: Span,
) -> Result<(Cow<'a, str>, Span), Refusal> {
    let raw = slice(text, &attribute.value);
    let bare = raw.trim();
    let place = if bare.is_empty() { raw } else { bare };
    let span = span_of(text, place);
    let at = if place.is_empty() { tag } else { span }.range();
    let wrong = |reason: &str| Err(refuse(at.start, at.end, reason));
    if raw.contains('<') {
        return wrong("not well-formed XML: a `<` inside an attribute; write `&lt;`");
    }
    match quick_xml::escape::unescape(raw) {
        Ok(value) if value.chars().all(well_formed::is_char) => Ok((value, span)),
        Ok(_) => wrong("not well-formed XML: a reference to a character that XML does not allow"),
        Err(_) => wrong(
            "an entity other than XML's own five is not expanded, nor is a broken reference; write the character itself",
        ),
    }
}
