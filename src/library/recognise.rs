//! Whether a file is a library, told from its first bytes: what a tree of folders holds besides
//! libraries is not to be read whole.

use std::fs::File;
use std::io::{self, Read as _};
use std::path::Path;

use crate::input::{assets, csv, sheet, xml};
use crate::text::{Source, SourceId, quoted};
use crate::units::split_unit;

use super::OwnColumn;
use super::columns::{fields_of, renamed_to};
use super::workbook::{self, Search};
use super::{Field, Form, Framing, Kind, framing, stray};

/// How much of a file is looked at, bytes: headers of some thousand columns are shorter.
const HEAD: u64 = 1 << 18;
/// Known columns that a table needs before it counts as a library: two may be anything.
const FEWEST: usize = 3;

/// The first columns of a table of findings, which has tool numbers and is no library.
const NOTED: [&str; 4] = ["run", "state", "reason", "value_before"];

/// What a file is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Recognised {
    /// A library of this form.
    Library(Form),
    /// Something else, and why.
    Foreign(String),
}

/// What a shop says of where its libraries have what.
#[derive(Clone, Debug, Default)]
pub struct Headers {
    /// Headers of its own.
    pub own: Vec<OwnColumn>,
    /// The sheet of a workbook that is the library.
    pub sheet: Option<String>,
}

/// Says what a CSV file, a workbook or an XML document is.
///
/// # Errors
/// If the file cannot be read.
pub fn recognise(path: &Path, headers: &Headers) -> io::Result<Recognised> {
    let own = &headers.own;
    let mut bytes = Vec::new();
    let mut file = File::open(path)?;
    file.by_ref().take(HEAD).read_to_end(&mut bytes)?;
    if sheet::is_workbook(&bytes) {
        // What it holds is listed at its end.
        file.read_to_end(&mut bytes)?;
        let search = Search {
            only: None,
            named: headers.sheet.as_deref(),
            own,
        };
        return Ok(workbook::recognise(&bytes, search));
    }
    if bytes.len() as u64 == HEAD {
        cut_at_line(&mut bytes);
    }
    let source = match Source::from_bytes("", bytes) {
        Ok(source) => source,
        Err(why) => return Ok(Recognised::Foreign(why.to_string())),
    };
    Ok(if source.text().trim_start().starts_with('<') {
        document(&source)
    } else {
        table_kind(&source, own)
    })
}

/// Cuts behind the last line's end, so that no character is cut in two.
fn cut_at_line(bytes: &mut Vec<u8>) {
    if let Some(last) = bytes.iter().rposition(|byte| *byte == b'\n') {
        // A line's end in UTF-16 may have its second byte behind it.
        let pair = usize::from(bytes.get(last + 1) == Some(&0));
        bytes.truncate(last + 1 + pair);
    }
}

fn document(source: &Source) -> Recognised {
    match library_root(source.text()) {
        Ok(()) => Recognised::Library(Form::Xml),
        Err(why) => Recognised::Foreign(why),
    }
}

/// Whether a document is a library of the program's own, by its root element.
#[must_use]
pub fn is_own_document(text: &str) -> bool {
    xml::root(text).is_some_and(|root| root.is_library)
}

/// Whether a document is one of assets, by its root element.
#[must_use]
pub fn is_of_assets(text: &str) -> bool {
    assets::is_one(text)
}

/// Whether a document is a library by its root element.
///
/// # Errors
/// Why it is none.
fn library_root(text: &str) -> Result<(), String> {
    match xml::root(text) {
        Some(root) if root.is_library => Ok(()),
        Some(_) if assets::is_one(text) => Ok(()),
        Some(root) => {
            let name = quoted(&root.name);
            Err(format!(
                "is an XML document, and its root element is `{name}`, not `shankwise`"
            ))
        }
        None => Err("is not an XML document with a root element".to_owned()),
    }
}

/// Says what a table is.
pub(super) fn table_kind(source: &Source, own: &[OwnColumn]) -> Recognised {
    let frame = framing::frame_of(source, Kind::Assembly, (own, Framing::default()));
    let Some(table) = csv::Reader::open_in(source, SourceId::default(), frame) else {
        return Recognised::Foreign("is empty".to_owned());
    };
    let mut first = table.columns.iter().map(|column| column.name.as_ref());
    if NOTED.iter().all(|name| first.next() == Some(name)) {
        return Recognised::Foreign("is the table of findings of an audit".to_owned());
    }
    let fields = table.columns.iter().map(|column| {
        let name = renamed_to(&column.name, own);
        let whole = fields_of(name, Kind::Assembly);
        if whole.is_empty() {
            fields_of(split_unit(name).0, Kind::Assembly)
        } else {
            whole
        }
    });
    let fields: Vec<Vec<Field>> = fields.collect();
    let known = fields.iter().filter(|fields| !fields.is_empty()).count();
    let is_set = |field: &Field| stray::is_as_set(*field);
    let names_tools = |field: &Field| is_set(field) || *field == Field::ToolNumber;
    let mut all = fields.iter().flatten();
    if known >= FEWEST && all.any(names_tools) {
        return Recognised::Library(Form::Flat);
    }
    if let Some(kind) = stray::kinds_of(&table.columns).first() {
        return Recognised::Foreign(format!(
            "is a table of {}, and its folder has no {}",
            kind.section(),
            Kind::Assembly.table()
        ));
    }
    Recognised::Foreign(format!(
        "{known} of its {} columns {} known; a library needs {FEWEST}, with a tool number or a stick-out among them",
        fields.len(),
        if known == 1 { "is" } else { "are" }
    ))
}
