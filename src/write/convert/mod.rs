//! A library in another form: one flat table, a folder of tables, one XML document.
//!
//! What is read again is the same: a cell keeps its text where the new form reads it so, and one
//! that is no value stays as it is, so that it is told again. What a form has no place for is told
//! in lines; nothing is lost in silence.

mod book;
mod csv_text;
mod decimals;
mod into_parts;
mod into_rows;

mod told;
mod xml_text;

use std::collections::HashSet;
use std::io::{self, Write};

use crate::library::{Field, Form, Kind, Library, PassedOver, Written};

use book::{Book, BookRow, ColumnKey};

use told::Told;
pub(crate) use told::counted;
pub(super) use xml_text::{assembly_element, is_attribute};

/// A library, sorted out for the form that it is to be written in.
pub(crate) struct Conversion<'a> {
    library: &'a Library,
    book: Book<'a>,
    to: Form,
    told: Told,
    /// Whether its tables are those of the source, with their empty columns.
    keeps_columns: bool,
}

/// Gives a record to each part that a row names and describes itself: a document refers to nothing
/// that is not in it.
fn with_names<'a>(library: &'a Library, mut book: Book<'a>) -> Book<'a> {
    for kind in Kind::PARTS {
        let (Some(named), Some(own)) = (Field::naming(kind), Field::id_of(kind)) else {
            continue;
        };
        let mut known: HashSet<&str> = HashSet::new();
        for assembly in &library.assemblies {
            let linked = assembly.part(kind).is_some() || assembly.is_unresolved(kind);
            let id = assembly.record.text(named).filter(|_| !linked);
            if let Some(id) = id.filter(|id| known.insert(id)) {
                let row = BookRow {
                    cells: vec![book::name(ColumnKey::First(own), own, id)],
                    ..BookRow::default()
                };
                book.rows_mut(kind).push(row);
            }
        }
    }
    book
}

impl<'a> Conversion<'a> {
    /// Sorts a library out. `shop` is what there is to say of shop files.
    pub(crate) fn of(
        library: &'a Library,
        written: &'a Written,
        to: Form,
        shop: Vec<String>,
    ) -> Conversion<'a> {
        let mut told = Told::default();
        told.shop = shop;
        let mut others = Kind::ALL.into_iter().filter(|kind| *kind != Kind::Assembly);
        let is_flat = others.all(|kind| library.records(kind).is_empty());
        let book = match (is_flat, to) {
            (true, Form::Flat) | (false, Form::Folder) => Book::as_it_is(written),
            (true, _) => into_parts::split(library, written, &mut told),
            (false, Form::Xml) => with_names(library, Book::as_it_is(written)),
            (false, _) => into_rows::join(library, written, &mut told),
        };
        let mut conversion = Conversion {
            library,
            book,
            to,
            told,
            keeps_columns: library.form != Form::Xml && is_flat == (to == Form::Flat),
        };
        conversion.of_source(written);
        conversion
    }

    /// What of the source has no place in any form, or none in this one.
    fn of_source(&mut self, written: &Written) {
        let kept: Vec<&str> = match self.to {
            Form::Xml => Vec::new(),
            _ => written
                .columns()
                .iter()
                .map(|column| column.name.as_str())
                .collect(),
        };
        for over in self.library.passed_over() {
            match over {
                PassedOver::Table(name) => self.told.table(&name),
                PassedOver::Line(what) => self.told.line(&what),
                PassedOver::Element(name) if kept.contains(&name.as_str()) => {}
                PassedOver::Element(name) => self.told.foreign(&name),
            }
        }
        if self.to != Form::Xml {
            self.told.comments = written.comments.len();
        }
        self.told.instructions = written.instructions;
        let sources = &self.library.sources;
        let rows = Kind::ALL.into_iter().flat_map(|kind| written.rows(kind));
        for row in rows.filter(|row| row.is_ragged) {
            let line = sources.position(row.place).line;
            let file = crate::text::visible(sources.name(row.place)).into_owned();
            self.told.ragged.push(format!("{file}:{line}"));
        }
    }

    /// How many records of each kind there are, where there are any.
    pub(crate) fn counts(&self) -> Vec<(Kind, usize)> {
        let all = Kind::ALL.into_iter();
        let all = all.map(|kind| (kind, self.book.rows(kind).len()));
        all.filter(|(_, count)| *count > 0).collect()
    }

    /// The kinds that have a table of their own in a folder.
    pub(crate) fn tables(&self) -> impl Iterator<Item = Kind> {
        let kinds = Kind::ALL.into_iter();
        kinds.filter(|kind| !self.book.rows(*kind).is_empty())
    }

    /// Writes the one file that it is: a document, or a row for each tool.
    ///
    /// # Errors
    /// If that fails.
    pub(crate) fn write(&mut self, to: &mut dyn Write) -> io::Result<()> {
        match self.to {
            Form::Xml => xml_text::write(&self.book, self.library, &mut self.told, to),
            _ => self.table(Kind::Assembly, to),
        }
    }

    /// Writes the table of one kind.
    ///
    /// # Errors
    /// If that fails.
    pub(crate) fn table(&mut self, kind: Kind, to: &mut dyn Write) -> io::Result<()> {
        let sheet = csv_text::Sheet::of(&self.book, kind, self.keeps_columns, &mut self.told);
        match sheet {
            Some(sheet) => sheet.write(&mut self.told, to),
            None => Ok(()),
        }
    }

    /// What is not the same in the new form, in lines; once all is written.
    pub(crate) fn told(&self) -> Vec<String> {
        self.told.lines()
    }
}
