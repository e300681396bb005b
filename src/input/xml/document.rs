//! Putting a document together from events.

use crate::input::fault_kind;
use std::borrow::Cow;
use std::collections::HashSet;

use quick_xml::events::{BytesRef, BytesStart, Event};
use quick_xml::name::NamespaceResolver;

use super::attributes::{self, Attribute};
use super::records::Records;
use super::{Document, FORMER_ROOT, NAMESPACE, ROOT, Refusal, refuse, well_formed};
use crate::input::{Cell, Fault, Faults};
use crate::text::{Place, SourceId, Span, closest, quoted};

/// Said of an element that another namespace brings along; `rules/record/unknown-element.toml`
/// knows these words, as nothing is wrong with it.
const FOREIGN: &str = "it is of another namespace";

/// A field whose element is open.
struct OpenField<'a> {
    name: String,
    column: usize,
    /// Whether an element stands in it: then its text is no value.
    broken: bool,
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
    units: Option<(Cow<'a, str>, Place)>,
    records: Records<'a>,
    /// Unknown names of the open section that have been told, with what they stand in.
    told: HashSet<(String, String)>,
    field: Option<OpenField<'a>>,
    depth: usize,
    in_section: bool,
    in_record: bool,
    /// How deep inside an element that is not read.
    skipped: usize,
    closed: bool,
    faults: &'f mut Faults,
}

impl<'a, 'f> Build<'a, 'f> {
    /// Nothing read yet.
    pub(super) fn new(text: &'a str, source: SourceId, faults: &'f mut Faults) -> Build<'a, 'f> {
        Build {
            text,
            source,
            units: None,
            records: Records::default(),
            told: HashSet::new(),
            field: None,
            depth: 0,
            in_section: false,
            in_record: false,
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
        names: &NamespaceResolver,
    ) -> Result<(), Refusal> {
        let outside = self.depth == 0
            && match event {
                Event::Text(text) => !well_formed::is_blank(text),
                Event::CData(_) | Event::GeneralRef(_) => true,
                _ => false,
            };
        if outside {
            let reason = "not well-formed XML: text outside the root element";
            return Err(refuse(span.range().start, span.range().end, reason));
        }
        match event {
            Event::Start(start) => self.start(own, start, span, names),
            Event::End(_) => {
                self.end(span);
                Ok(())
            }
            Event::Text(text) => {
                if let Some(at) = text.find("]]>") {
                    let at = span.range().start + at;
                    let reason = "not well-formed XML: `]]>` in text; write `]]&gt;`";
                    return Err(refuse(at, at + 3, reason));
                }
                self.words(Cow::Borrowed(attributes::slice(self.text, text)), span);
                Ok(())
            }
            Event::CData(text) => {
                let at = attributes::span_of(self.text, text);
                self.words(Cow::Borrowed(attributes::slice(self.text, text)), at);
                Ok(())
            }
            Event::GeneralRef(reference) => {
                let word = resolved(reference).ok_or_else(|| {
                    let name = quoted(reference);
                    let reason = format!("entity `&{name};` is not one of XML's own five, so it is not expanded; write the character itself");
                    refuse(span.range().start, span.range().end, reason)
                })?;
                self.words(Cow::Owned(word), span);
                Ok(())
            }
            Event::DocType(_) => Err(refuse(
                span.range().start,
                span.range().end,
                "a document type declaration is not read; delete it",
            )),
            _ => Ok(()),
        }
    }

    fn start(
        &mut self,
        own: bool,
        start: &BytesStart<'a>,
        span: Span,
        names: &NamespaceResolver,
    ) -> Result<(), Refusal> {
        let attributes = attributes::read(self.text, start, span, names)?;
        let whole = start.name();
        let local = start.local_name();
        let (whole, name): (&str, &str) = (whole.as_ref(), local.as_ref());
        self.depth += 1;
        if self.depth == 1 {
            return self.root(own, name, attributes, span);
        }
        if let Some(field) = &mut self.field {
            field.broken = true;
            if self.skipped == 0 {
                let hint = format!(
                    "a value is text only, so `{}` is not read either",
                    quoted(&field.name)
                );
                self.unknown(whole, span, hint);
            }
            self.skipped += 1;
        } else if self.skipped > 0 || !own {
            if self.skipped == 0 {
                let hint = if own { "" } else { FOREIGN };
                self.unknown(whole, span, hint.to_owned());
            }
            self.skipped += 1;
        } else if self.depth == 2 {
            self.no_units_between(&attributes)?;
            self.section(name, &attributes, span);
        } else if self.depth == 3 {
            self.no_units_between(&attributes)?;
            self.record(name, attributes, span);
        } else {
            self.open(name, attributes, span);
        }
        Ok(())
    }

    fn root(
        &mut self,
        own: bool,
        name: &str,
        attributes: Vec<Attribute<'a>>,
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
            let why = if name == FORMER_ROOT {
                "this is its former name; write the new name in both tags, and this namespace"
            } else {
                "this is another document or another namespace"
            };
            let reason = format!("expected the root element <{ROOT} xmlns=\"{NAMESPACE}\">; {why}");
            return Err(refuse(whole.start, whole.end, reason));
        }
        for attribute in attributes {
            if is_unit(&attribute.name) {
                let first = self.units.as_ref().map(|(first, _)| first);
                if first.is_some_and(|first| *first != attribute.value) {
                    let reason =
                        "the root element says two units; state one, units=\"mm\" or units=\"in\"";
                    return Err(refuse(whole.start, whole.end, reason));
                }
                self.units = Some((attribute.value, self.place(attribute.span)));
            } else {
                self.unknown(
                    &attribute.name,
                    attribute.span,
                    near(&attribute.name, "units"),
                );
            }
        }
        Ok(())
    }

    /// Tells of a name that does not belong where it stands, once a section.
    fn unknown(&mut self, name: &str, span: Span, hint: String) {
        let parent = self.parent();
        if self.told.insert((parent.clone(), name.to_owned())) {
            self.stray(name, &parent, span, hint);
        }
    }

    fn stray(&mut self, name: &str, parent: &str, span: Span, hint: String) {
        self.faults.push(
            Fault::new(
                fault_kind::UNKNOWN_ELEMENT,
                self.place(span),
                name.to_owned(),
            )
            .quoting("element", name)
            .quoting("parent", parent)
            .with("hint", hint),
        );
    }

    /// The innermost open element that is read.
    fn parent(&self) -> String {
        let name = match &self.field {
            Some(field) => Some(&field.name),
            None if self.in_record => self.records.element(),
            None if self.in_section => self.records.section_name(),
            None => None,
        };
        name.map_or_else(|| ROOT.to_owned(), Clone::clone)
    }

    /// Refuses units of a section or a record, which would be passed over, unless they are the
    /// document's own.
    fn no_units_between(&self, attributes: &[Attribute<'a>]) -> Result<(), Refusal> {
        let own = self.units.as_ref().map(|(units, _)| units.trim());
        let other = attributes
            .iter()
            .filter(|attribute| is_unit(&attribute.name))
            .find(|attribute| Some(attribute.value.trim()) != own);
        let Some(other) = other else {
            return Ok(());
        };
        let whole = other.span.range();
        let reason = format!(
            "state units in the root element, <{ROOT} units=\"in\">, or beside one value, unit=\"in\"; on a section or a record they are not read"
        );
        Err(refuse(whole.start, whole.end, reason))
    }

    fn section(&mut self, name: &str, attributes: &[Attribute<'a>], span: Span) {
        self.told.clear();
        self.in_section = true;
        self.records.open_section(name, self.place(span));
        for attribute in attributes {
            self.unknown(&attribute.name, attribute.span, String::new());
        }
    }

    fn record(&mut self, name: &str, attributes: Vec<Attribute<'a>>, span: Span) {
        self.in_record = true;
        self.records.open_record(name, self.place(span));
        for attribute in attributes {
            let place = self.place(attribute.span);
            let column = self.records.column(&attribute.name, place);
            self.cell(column, attribute.value, attribute.span, None);
        }
    }

    fn cell(
        &mut self,
        column: usize,
        text: Cow<'a, str>,
        span: Span,
        unit: Option<(Cow<'a, str>, Place)>,
    ) {
        let cell = Cell {
            column,
            text: trimmed(text),
            place: self.place(span),
            unit: unit.map(Box::new),
        };
        self.faults.extend(self.records.cell(cell));
    }

    fn open(&mut self, name: &str, attributes: Vec<Attribute<'a>>, span: Span) {
        self.field = Some(OpenField {
            name: name.to_owned(),
            column: self.records.column(name, self.place(span)),
            broken: false,
            text: Cow::Borrowed(""),
            span: None,
            element: span,
            unit: None,
        });
        let mut unit: Option<(Cow<'a, str>, Place)> = None;
        for attribute in attributes {
            if is_unit(&attribute.name) {
                // An empty attribute states nothing, as an empty cell does.
                if attribute.value.trim().is_empty() {
                    continue;
                }
                let place = self.place(attribute.span);
                unit = Some(match unit {
                    // Two that differ are no unit.
                    Some((first, place)) if first != attribute.value => (
                        Cow::Owned(format!("{first} and {}", attribute.value)),
                        place,
                    ),
                    _ => (attribute.value, place),
                });
            } else {
                let hint = "only `unit` is allowed there".to_owned();
                self.unknown(&attribute.name, attribute.span, hint);
            }
        }
        if let Some(field) = &mut self.field {
            field.unit = unit;
        }
    }

    fn end(&mut self, span: Span) {
        if self.skipped > 0 {
            self.skipped -= 1;
        } else if let Some(field) = self.field.take() {
            let at = field.span.unwrap_or(Span {
                start: field.element.start,
                end: span.end,
            });
            if !field.broken {
                self.cell(field.column, field.text, at, field.unit);
            }
        } else if self.in_record && self.depth == 3 {
            self.records.close_record(span.end);
        }
        self.in_record &= self.depth > 3;
        self.in_section &= self.depth > 2;
        self.depth = self.depth.saturating_sub(1);
        self.closed |= self.depth == 0;
    }

    fn words(&mut self, words: Cow<'a, str>, span: Span) {
        let blank = words.trim().is_empty();
        if self.skipped > 0 {
            return;
        }
        let Some(field) = &mut self.field else {
            if !blank {
                let own = span.range();
                let lead = words.len() - words.trim_start().len();
                let tail = words.len() - words.trim_end().len();
                let span = Span::new(own.start + lead, own.end.saturating_sub(tail));
                let hint = "put each value in an element of its own".to_owned();
                self.stray("text", &self.parent(), span, hint);
            }
            return;
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
    }

    /// The document, once the file has ended.
    pub(super) fn finish(self, end: usize) -> Result<Document<'a>, Refusal> {
        if self.depth > 0 {
            let reason = "not well-formed XML: the file ends inside an element; is it cut short?";
            return Err(refuse(end, end, reason));
        }
        if !self.closed {
            let reason = format!("has no element; expected <{ROOT} xmlns=\"{NAMESPACE}\">");
            return Err(refuse(0, 0, reason));
        }
        Ok(Document {
            units: self.units,
            sections: self.records.sections,
        })
    }
}

/// XML's own five entities, and characters by number.
pub(in crate::input) fn resolved(reference: &BytesRef<'_>) -> Option<String> {
    if let Ok(Some(character)) = reference.resolve_char_ref() {
        return well_formed::is_char(character).then(|| character.to_string());
    }
    quick_xml::escape::resolve_predefined_entity(reference).map(str::to_owned)
}

/// Whether an attribute says a unit: `unit`, or as the root has it, `units`.
fn is_unit(name: &str) -> bool {
    ["unit", "units"]
        .iter()
        .any(|known| known.eq_ignore_ascii_case(name))
}

fn trimmed(text: Cow<'_, str>) -> Cow<'_, str> {
    match text {
        Cow::Borrowed(text) => Cow::Borrowed(text.trim()),
        Cow::Owned(text) => Cow::Owned(text.trim().to_owned()),
    }
}

fn near(name: &str, known: &'static str) -> String {
    match closest(name, [known]) {
        Some(near) => format!("did you mean `{near}`?"),
        None => String::new(),
    }
}
