//! One XML document: ids and references as attributes, everything else as elements. Numbers are
//! decimals, and words those of their lists, as the strict schema has them.

use std::borrow::Cow;
use std::collections::HashSet;
use std::io::{self, Write};

use super::book::{Book, BookCell, BookRow};
use super::decimals::decimal;
use super::told::Told;
use crate::library::{Field, Form, Kind, Library, Property, Says, Thread, ValueType, header_of};

/// A document that is being written.
pub(super) struct Document<'t, 'w> {
    /// The unit of its lengths.
    units: &'static str,
    comments: std::vec::IntoIter<(u32, String)>,
    waiting: Option<(u32, String)>,
    told: &'t mut Told,
    to: &'w mut dyn Write,
}

/// Writes a book as a document.
///
/// # Errors
/// If that fails.
pub(super) fn write(
    book: &Book<'_>,
    library: &Library,
    told: &mut Told,
    to: &mut dyn Write,
) -> io::Result<()> {
    let mut comments = book.written.comments.clone().into_iter();
    let units = library.units.length();
    let mut document = Document {
        units,
        waiting: comments.next(),
        comments,
        told,
        to,
    };
    writeln!(document.to, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>")?;
    let mut sections = Kind::IN_DOCUMENT;
    if library.form == Form::Xml {
        let begins = |kind: &Kind| book.rows(*kind).first().map_or(u32::MAX, |row| row.at);
        sections.sort_by_key(begins);
    }
    writeln!(
        document.to,
        "<shankwise xmlns=\"urn:shankwise:library:1\" units=\"{units}\">"
    )?;
    for kind in sections {
        document.section(kind, book.rows(kind))?;
    }
    document.comments_before(u32::MAX, "  ")?;
    writeln!(document.to, "</shankwise>")
}

impl Document<'_, '_> {
    fn comments_before(&mut self, at: u32, indent: &str) -> io::Result<()> {
        while let Some((begins, comment)) = self.waiting.take() {
            if begins >= at {
                self.waiting = Some((begins, comment));
                break;
            }
            writeln!(self.to, "{indent}<!--{comment}-->")?;
            self.waiting = self.comments.next();
        }
        Ok(())
    }

    fn section(&mut self, kind: Kind, rows: &[BookRow<'_>]) -> io::Result<()> {
        if rows.is_empty() {
            return Ok(());
        }
        writeln!(self.to, "  <{}>", kind.section())?;
        for row in rows {
            self.comments_before(row.at, "    ")?;
            self.record(kind, row)?;
        }
        writeln!(self.to, "  </{}>", kind.section())
    }

    fn record(&mut self, kind: Kind, row: &BookRow<'_>) -> io::Result<()> {
        let element = if kind == Kind::Stock {
            row.element.unwrap_or_else(|| stocked(row))
        } else {
            kind
        };
        let mut attributes: HashSet<&str> = HashSet::new();
        let mut elements: Vec<(Cow<'static, str>, &BookCell<'_>)> = Vec::new();
        write!(self.to, "    <{}", element.name())?;
        for cell in &row.cells {
            let Some(name) = self.name(cell, (kind, element)) else {
                continue;
            };
            let mut is_first = || attributes.insert(attribute_of(cell));
            let field = cell.states.fields().first();
            let own = field.filter(|field| field.kind() == element);
            if own.is_some_and(|field| is_attribute(field.property())) && is_first() {
                let text = self.escaped(&cell.text, true);
                write!(self.to, " {}=\"{text}\"", attribute_of(cell))?;
            } else {
                elements.push((name, cell));
            }
        }
        if elements.is_empty() {
            return writeln!(self.to, "/>");
        }
        writeln!(self.to, ">")?;
        for (name, cell) in elements {
            self.element(&name, cell)?;
        }
        writeln!(self.to, "    </{}>", element.name())
    }

    /// The name of a cell's element; none, which is told, where a document has no place for it.
    fn name(
        &mut self,
        cell: &BookCell<'_>,
        (kind, element): (Kind, Kind),
    ) -> Option<Cow<'static, str>> {
        let fields = cell.states.fields();
        if let super::book::States::Name(name) = cell.states {
            self.told.stray(name);
            return None;
        }
        if kind == Kind::Assembly {
            return assembly_element(fields).map(Cow::Owned);
        }
        let own = |field: &&Field| [kind, element].contains(&field.kind());
        let field = fields.iter().find(own);
        if field.is_none() {
            self.told.other_part += 1;
        }
        Some(Cow::Owned(field?.property().name.replace('_', "-")))
    }

    fn element(&mut self, name: &str, cell: &BookCell<'_>) -> io::Result<()> {
        let (text, unit) = self.value(cell);
        let text = self.escaped(&text, false);
        match unit {
            Some(unit) => writeln!(self.to, "      <{name} unit=\"{unit}\">{text}</{name}>"),
            None => writeln!(self.to, "      <{name}>{text}</{name}>"),
        }
    }

    /// What an element says, and its unit where it needs one.
    fn value<'c>(&mut self, cell: &'c BookCell<'_>) -> (Cow<'c, str>, Option<&'static str>) {
        let value = cell
            .states
            .fields()
            .first()
            .map(|field| field.property().value);
        let own = Cow::Borrowed(cell.text.as_ref());
        let (text, unit) = match (cell.says, value) {
            (Says::Number(number), Some(ValueType::Quantity(wanted))) => {
                decimal(cell, number, wanted)
            }
            (Says::Number(number), _) => (plain(cell, number), None),
            (Says::Word(word), _) => (Cow::Borrowed(word), None),
            (Says::Flag(flag), _) => (Cow::Borrowed(if flag { "yes" } else { "no" }), None),
            (Says::Unitless, _) => return (self.unitless(cell), None),
            (Says::Doubtful, _) => {
                self.told.doubtful += 1;
                return (own, None);
            }
            (Says::Unread, _) => (own, cell.unit),
            (Says::Text, Some(ValueType::Thread)) => match Thread::read(&cell.text) {
                Some(thread) => (Cow::Owned(thread.written().to_owned()), None),
                None => (own, None),
            },
            (Says::Text | Says::Stray, _) => (own, None),
        };
        if text != cell.text {
            let is = unit.map_or_else(|| text.to_string(), |unit| format!("{text} {unit}"));
            self.told.rewritten(&cell.text, is);
        }
        (text, unit.filter(|unit| *unit != self.units))
    }

    /// A torque in a document of inches needs its unit: there it is told again.
    fn unitless<'c>(&mut self, cell: &'c BookCell<'_>) -> Cow<'c, str> {
        if self.units == "in" {
            return Cow::Borrowed(cell.text.as_ref());
        }
        self.told.unitless += 1;
        Cow::Owned(format!("{} ?", cell.text))
    }

    fn escaped(&mut self, text: &str, in_attribute: bool) -> String {
        let mut escaped = String::with_capacity(text.len());
        for c in text.chars() {
            match c {
                '&' => escaped.push_str("&amp;"),
                '<' => escaped.push_str("&lt;"),
                '>' => escaped.push_str("&gt;"),
                '"' => escaped.push_str("&quot;"),
                '\r' => escaped.push_str("&#13;"),
                '\n' if in_attribute => escaped.push_str("&#10;"),
                '\t' if in_attribute => escaped.push_str("&#9;"),
                '\0'..='\u{8}'
                | '\u{b}'
                | '\u{c}'
                | '\u{e}'..='\u{1f}'
                | '\u{fffe}'
                | '\u{ffff}' => {
                    self.told.characters += 1;
                    escaped.push('\u{fffd}');
                }
                other => escaped.push(other),
            }
        }
        escaped
    }
}

/// What the stock has: a cutter, unless its row speaks of a collet.
fn stocked(row: &BookRow<'_>) -> Kind {
    let speaks = |kind: Kind, id: bool| {
        row.cells.iter().any(|cell| match cell.states.fields() {
            [field] => field.kind() == kind && (!id || Field::id_of(kind) == Some(*field)),
            _ => false,
        })
    };
    let is_collet = speaks(Kind::Collet, true) && !speaks(Kind::Cutter, true)
        || speaks(Kind::Collet, false) && !speaks(Kind::Cutter, false);
    if is_collet {
        Kind::Collet
    } else {
        Kind::Cutter
    }
}

/// Ids, references and the tool number are attributes.
pub(in super::super) fn is_attribute(property: &Property) -> bool {
    let number = matches!(
        property.field,
        Field::ToolNumber | Field::OperationToolNumber
    );
    number || matches!(property.value, ValueType::Id | ValueType::Reference(_))
}

/// The attribute that an id, a reference or a number is.
fn attribute_of(cell: &BookCell<'_>) -> &'static str {
    let property = cell.states.fields().first().map(|field| field.property());
    match property {
        Some(property) if property.field == Field::OperationToolNumber => "tool-number",
        Some(property) if property.field == Field::ToolNumber => "tool-number",
        Some(property) if matches!(property.value, ValueType::Id) => "id",
        Some(property) => property.name,
        None => "",
    }
}

/// The name of the element of an assembly that states these fields.
pub(in super::super) fn assembly_element(fields: &[Field]) -> Option<String> {
    let header = header_of(fields, Kind::Assembly);
    let header = header.or_else(|| header_of(fields.get(..1)?, Kind::Assembly));
    Some(header?.replace(['_', '.'], "-"))
}

/// A number without unit: a count, a size.
fn plain<'c>(cell: &'c BookCell<'_>, number: f64) -> Cow<'c, str> {
    let said = number.to_string();
    if said == cell.text {
        Cow::Borrowed(cell.text.as_ref())
    } else {
        Cow::Owned(said)
    }
}
