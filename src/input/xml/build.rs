//! Putting a document together from events.

use std::borrow::Cow;
use std::collections::{HashMap, HashSet};

use quick_xml::events::{BytesRef, BytesStart, Event};

use super::{Document, NAMESPACE, ROOT, Refusal, Section, refuse};
use crate::input::{Cell, Column, Fault, Row, Table};
use crate::text::{Place, SourceId, Span};
use crate::units::Decimal;

/// A field whose element is open.
struct Open<'a> {
    column: usize,
    text: Cow<'a, str>,
    /// First and last byte of its text so far.
    span: Option<Span>,
    element: Span,
    unit: Option<(Cow<'a, str>, Place)>,
}

/// Puts a document together, event by event.
pub(super) struct Build<'a, 'f> {
    text: &'a str,
    source: SourceId,
    document: Document<'a>,
    /// Columns of the open section, by name.
    columns: HashMap<String, usize>,
    field: Option<Open<'a>>,
    depth: usize,
    /// How deep inside an element that is not read.
    skipped: usize,
    closed: bool,
    faults: &'f mut Vec<Fault>,
}

impl<'a, 'f> Build<'a, 'f> {
    /// Nothing read yet.
    pub(super) fn new(
        text: &'a str,
        source: SourceId,
        faults: &'f mut Vec<Fault>,
    ) -> Build<'a, 'f> {
        Build {
            text,
            source,
            document: Document::default(),
            columns: HashMap::new(),
            field: None,
            depth: 0,
            skipped: 0,
            closed: false,
            faults,
        }
    }

    fn place(&self, span: Span) -> Place {
        Place {
            source: self.source,
            span,
        }
    }

    /// Takes one event; `own` says that its element is of our namespace.
    pub(super) fn event(
        &mut self,
        own: bool,
        event: &Event<'a>,
        span: Span,
    ) -> Result<(), Refusal> {
        match event {
            Event::Start(start) => self.start(own, start, span),
            Event::End(_) => {
                self.end(span);
                Ok(())
            }
            Event::Text(text) => self.words(Cow::Borrowed(self.slice(text)), span),
            Event::CData(text) => self.words(Cow::Borrowed(self.slice(text)), span),
            Event::GeneralRef(reference) => {
                let word = resolved(reference).ok_or_else(|| {
                    let name = crate::text::visible(reference);
                    let reason = format!("entity `&{name};` is none of XML's own five and is not expanded; write the character itself");
                    refuse(span.range().start, span.range().end, reason)
                })?;
                self.words(Cow::Owned(word), span)
            }
            Event::DocType(_) => Err(refuse(
                span.range().start,
                span.range().end,
                "a document type declaration is not read; delete it",
            )),
            _ => Ok(()),
        }
    }

    /// The same stretch of text, borrowed from the source instead of from the event.
    fn slice(&self, part: &str) -> &'a str {
        let start = (part.as_ptr() as usize).wrapping_sub(self.text.as_ptr() as usize);
        self.text
            .get(start..start.saturating_add(part.len()))
            .unwrap_or("")
    }

    fn span_of(&self, part: &str) -> Span {
        let start = (part.as_ptr() as usize).wrapping_sub(self.text.as_ptr() as usize);
        Span::new(start, start.saturating_add(part.len()))
    }

    fn start(&mut self, own: bool, start: &BytesStart<'a>, span: Span) -> Result<(), Refusal> {
        let name = start.local_name();
        let name: &str = name.as_ref();
        self.depth += 1;
        let attributes = self.attributes(start, span)?;
        if self.depth == 1 {
            return self.root(own, name, attributes, span);
        }
        if self.skipped > 0 || !own || self.depth > 4 {
            if self.skipped == 0 {
                let hint = if own {
                    ""
                } else {
                    "it is of another namespace"
                };
                self.unknown(name, self.parent(self.depth), hint, span);
            }
            self.skipped += 1;
            return Ok(());
        }
        match self.depth {
            2 => self.section(name, span),
            3 => self.record(name, attributes, span),
            _ => self.open(name, attributes, span),
        }
        Ok(())
    }

    fn root(
        &mut self,
        own: bool,
        name: &str,
        attributes: Vec<(String, Cow<'a, str>, Span)>,
        span: Span,
    ) -> Result<(), Refusal> {
        let whole = span.range();
        if self.closed {
            return Err(refuse(
                whole.start,
                whole.end,
                "not well-formed XML: a second root element",
            ));
        }
        if !own || name != ROOT {
            let reason = format!(
                "expected the root element <{ROOT} xmlns=\"{NAMESPACE}\">; this is another document or another namespace"
            );
            return Err(refuse(whole.start, whole.end, reason));
        }
        for (name, value, span) in attributes {
            if name == "units" {
                self.document.units = Some((value, self.place(span)));
            } else {
                self.unknown(&name, ROOT.to_owned(), "", span);
            }
        }
        Ok(())
    }

    /// Name of the element that something at a depth stands in.
    fn parent(&self, depth: usize) -> String {
        let section = self.document.sections.last();
        let name = match depth {
            0..=2 => Some(ROOT.to_owned()),
            3 => section.map(|section| section.name.clone()),
            4 => section.and_then(|section| section.elements.last().cloned()),
            _ => self.field.as_ref().and_then(|field| {
                let column = section?.table.columns.get(field.column)?;
                Some(column.name.clone().into_owned())
            }),
        };
        name.unwrap_or_default()
    }

    fn unknown(&mut self, name: &str, parent: String, hint: &str, span: Span) {
        self.faults.push(
            Fault::new("record/unknown-element", self.place(span), name.to_owned())
                .with("element", name)
                .with("parent", parent)
                .with("hint", hint),
        );
    }

    fn section(&mut self, name: &str, span: Span) {
        self.columns.clear();
        self.document.sections.push(Section {
            name: name.to_owned(),
            place: self.place(span),
            elements: Vec::new(),
            table: Table {
                columns: Vec::new(),
                rows: Vec::new(),
                decimal: Decimal::Point,
            },
        });
    }

    fn column(&mut self, name: &str, span: Span) -> usize {
        let place = self.place(span);
        let Some(section) = self.document.sections.last_mut() else {
            return 0;
        };
        if let Some(column) = self.columns.get(name) {
            return *column;
        }
        let column = section.table.columns.len();
        section.table.columns.push(Column {
            name: Cow::Owned(name.to_owned()),
            place,
        });
        self.columns.insert(name.to_owned(), column);
        column
    }

    fn record(&mut self, name: &str, attributes: Vec<(String, Cow<'a, str>, Span)>, span: Span) {
        let place = self.place(span);
        if let Some(section) = self.document.sections.last_mut() {
            section.elements.push(name.to_owned());
            section.table.rows.push(Row {
                place,
                cells: Vec::new(),
                ragged: false,
            });
        }
        for (name, value, span) in attributes {
            let column = self.column(&name, span);
            self.cell(column, value, span, None);
        }
    }

    fn cell(
        &mut self,
        column: usize,
        text: Cow<'a, str>,
        span: Span,
        unit: Option<(Cow<'a, str>, Place)>,
    ) {
        let text = trimmed(text);
        let place = self.place(span);
        let Some(section) = self.document.sections.last_mut() else {
            return;
        };
        let Some(row) = section.table.rows.last_mut() else {
            return;
        };
        if text.is_empty() {
            return;
        }
        if let Some(first) = row.cells.iter().find(|cell| cell.column == column) {
            let name = section
                .table
                .columns
                .get(column)
                .map_or("", |column| &column.name);
            let fault = Fault::new("record/column-twice", place, name.to_owned())
                .with("column", name)
                .with("first", name)
                .also(first.place, name.to_owned());
            self.faults.push(fault);
            return;
        }
        row.cells.push(Cell {
            column,
            text,
            place,
            unit,
        });
    }

    fn open(&mut self, element: &str, attributes: Vec<(String, Cow<'a, str>, Span)>, span: Span) {
        let column = self.column(element, span);
        let mut unit = None;
        for (name, value, span) in attributes {
            if name == "unit" {
                unit = Some((value, self.place(span)));
            } else {
                self.unknown(&name, element.to_owned(), "", span);
            }
        }
        self.field = Some(Open {
            column,
            text: Cow::Borrowed(""),
            span: None,
            element: span,
            unit,
        });
    }

    fn end(&mut self, span: Span) {
        if self.skipped > 0 {
            self.skipped -= 1;
        } else if let Some(field) = self.field.take() {
            let at = field.span.unwrap_or(Span {
                start: field.element.start,
                end: span.end,
            });
            self.cell(field.column, field.text, at, field.unit);
        }
        self.depth = self.depth.saturating_sub(1);
        self.closed |= self.depth == 0;
    }

    fn words(&mut self, words: Cow<'a, str>, span: Span) -> Result<(), Refusal> {
        let blank = words.trim().is_empty();
        if self.skipped > 0 {
            return Ok(());
        }
        if self.depth == 0 && !blank {
            let at = span.range();
            let reason = "not well-formed XML: text outside the root element";
            return Err(refuse(at.start, at.end, reason));
        }
        let Some(field) = &mut self.field else {
            if !blank {
                self.unknown("text", self.parent(self.depth + 1), "", span);
            }
            return Ok(());
        };
        if !blank {
            let lead = words.len() - words.trim_start().len();
            let tail = words.len() - words.trim_end().len();
            let own = span.range();
            // A reference is shorter in the text than in the source: then its whole span.
            let exact = own.len() == words.len();
            let (lead, tail) = if exact { (lead, tail) } else { (0, 0) };
            let start = field
                .span
                .map_or(own.start + lead, |span| span.range().start);
            field.span = Some(Span::new(start, own.end - tail));
        }
        if field.text.is_empty() {
            field.text = words;
        } else {
            field.text.to_mut().push_str(&words);
        }
        Ok(())
    }

    /// Attributes with their values' places, namespace declarations left out.
    fn attributes(
        &self,
        start: &BytesStart<'a>,
        span: Span,
    ) -> Result<Vec<(String, Cow<'a, str>, Span)>, Refusal> {
        let whole = span.range();
        let wrong = |reason: String| {
            refuse(
                whole.start,
                whole.end,
                format!("not well-formed XML: {reason}"),
            )
        };
        let mut seen = HashSet::new();
        let mut found = Vec::new();
        // The library compares every attribute with all before it; a set does not.
        for attribute in start.attributes().with_checks(false) {
            let attribute = attribute.map_err(|error| wrong(error.to_string()))?;
            let key: &str = attribute.key.as_ref();
            if !seen.insert(key.to_owned()) {
                return Err(wrong(format!("attribute `{key}` stands twice")));
            }
            if attribute.value.contains('<') {
                return Err(wrong("a `<` inside an attribute".to_owned()));
            }
            let raw = self.slice(&attribute.value);
            let value = quick_xml::escape::unescape(raw).map_err(|_| {
                let reason = "an entity that is none of XML's own five, or a broken reference, is not expanded; write the character itself";
                refuse(whole.start, whole.end, reason)
            })?;
            if key != "xmlns" && !key.starts_with("xmlns:") && !key.starts_with("xml:") {
                found.push((key.to_owned(), value, self.span_of(&attribute.value)));
            }
        }
        Ok(found)
    }

    /// The document, once the file has ended.
    pub(super) fn finish(self, end: usize) -> Result<Document<'a>, Refusal> {
        if self.depth > 0 {
            let reason = "not well-formed XML: the file ends inside an element; is it cut short?";
            return Err(refuse(end, end, reason));
        }
        if !self.closed {
            let reason = format!("holds no element; expected <{ROOT} xmlns=\"{NAMESPACE}\">");
            return Err(refuse(0, 0, reason));
        }
        Ok(self.document)
    }
}

/// XML's own five entities, and characters by number.
fn resolved(reference: &BytesRef<'_>) -> Option<String> {
    if let Ok(Some(character)) = reference.resolve_char_ref() {
        return Some(character.to_string());
    }
    quick_xml::escape::resolve_predefined_entity(reference).map(str::to_owned)
}

fn trimmed(text: Cow<'_, str>) -> Cow<'_, str> {
    match text {
        Cow::Borrowed(text) => Cow::Borrowed(text.trim()),
        Cow::Owned(text) => Cow::Owned(text.trim().to_owned()),
    }
}
