//! An element of an asset whose text or attributes are read.

use std::borrow::Cow;

use super::Attribute;
use crate::text::{Place, SourceId, Span};

/// An element, its attributes and its text so far.
pub(super) struct Leaf<'a> {
    /// Its name without prefix.
    pub name: String,
    attributes: Vec<Attribute<'a>>,
    text: Cow<'a, str>,
    span: Option<Span>,
}

/// A text and where it stands.
pub(super) type Said<'a> = (Cow<'a, str>, Place);

impl<'a> Leaf<'a> {
    pub(super) fn new(name: &str, attributes: Vec<Attribute<'a>>) -> Leaf<'a> {
        Leaf {
            name: name.to_owned(),
            attributes,
            text: Cow::Borrowed(""),
            span: None,
        }
    }

    /// Adds to its text.
    pub(super) fn words(&mut self, words: Cow<'a, str>, span: Span) {
        let bare = words.trim();
        if !bare.is_empty() {
            let lead = words.len() - words.trim_start().len();
            let own = span.range();
            // A reference is shorter in the text than in the source: then its whole span.
            let exact = own.len() == words.len();
            let (start, end) = if exact {
                (own.start + lead, own.start + lead + bare.len())
            } else {
                (own.start, own.end)
            };
            let start = self.span.map_or(start, |span| span.range().start);
            self.span = Some(Span::new(start, end));
        }
        if self.text.is_empty() {
            self.text = words;
        } else {
            self.text.to_mut().push_str(&words);
        }
    }

    /// Its text, if it has any.
    pub(super) fn text(&self, source: SourceId) -> Option<Said<'a>> {
        let span = self.span?;
        Some((trimmed(&self.text), Place { source, span }))
    }

    /// One of its attributes, if it says anything.
    pub(super) fn attribute(&self, name: &str, source: SourceId) -> Option<Said<'a>> {
        let mut all = self.attributes.iter();
        let (_, value, span) = all.find(|(own, ..)| own == name)?;
        let place = Place {
            source,
            span: *span,
        };
        (!value.trim().is_empty()).then(|| (trimmed(value), place))
    }
}

fn trimmed<'a>(text: &Cow<'a, str>) -> Cow<'a, str> {
    match text {
        Cow::Borrowed(text) => Cow::Borrowed(text.trim()),
        Cow::Owned(text) => Cow::Owned(text.trim().to_owned()),
    }
}
