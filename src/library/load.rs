//! Loading a library: which files, in which form, into which records.
//!
//! Reading never stops at the first fault. A file that cannot be read at all is reported, and
//! the rest is still judged.

use std::fs;
use std::io;
use std::path::Path;

use crate::input::{Fault, Row, Table, csv};
use crate::text::{Place, Position, Source, SourceId, Sources, Span, closest};
use crate::units::print::DisplayUnits;
use crate::units::{Spelling, Unit};

use super::columns::{self, Target};
use super::{Entry, Field, Kind, Library, Record, ValueType, cell, link};

/// The form a library is kept in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Form {
    /// One CSV file, a row an assembly.
    Flat,
    /// A folder of CSV tables.
    Folder,
}

impl Form {
    /// Its name in JSON.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Form::Flat => "csv",
            Form::Folder => "folder",
        }
    }
}

/// What the shop says about how its files are to be read.
#[derive(Clone, Debug)]
pub struct ReadSettings {
    /// Name of the library, if the shop gives one.
    pub name: Option<String>,
    /// Unit of lengths without unit.
    pub length: &'static Spelling,
    /// Unit of torques without unit, if there is a default.
    pub torque: Option<&'static Spelling>,
    /// Headers of its own and the properties they mean.
    pub columns: Vec<(String, String)>,
}

impl ReadSettings {
    fn is_inch(&self) -> bool {
        self.length.name == "in"
    }

    /// The unit of a bare number. An inch library has no default for torques and cutting
    /// speeds: both are stated in two systems on such floors.
    pub(super) fn default_unit(&self, unit: Unit) -> Option<&'static Spelling> {
        match unit {
            Unit::Mm => Some(self.length),
            Unit::Nm => self.torque,
            Unit::MPerMin if self.is_inch() => None,
            other => Spelling::find(other.symbol(), other),
        }
    }

    fn display(&self) -> DisplayUnits {
        let torque = match self.torque {
            Some(torque) => torque.name,
            None if self.is_inch() => "lbf·ft",
            None => "N·m",
        };
        let length = if self.is_inch() { "in" } else { "mm" };
        DisplayUnits::new(length, torque)
    }
}

/// Where a library comes from.
#[derive(Clone, Copy, Debug)]
pub enum Input<'a> {
    /// A file or folder.
    Path(&'a Path),
    /// Bytes already read, from standard input, and the name they are shown by.
    Bytes(&'a str, &'a [u8]),
}

/// An input that could not be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ReadError {
    /// The file as it is shown.
    pub file: String,
    /// Where in it, if that can be said.
    pub position: Option<Position>,
    /// What is wrong, what was expected, what to do.
    pub reason: String,
}

/// What came of loading.
#[derive(Debug)]
pub struct Loaded {
    /// The library, if there is enough to judge.
    pub library: Option<Library>,
    /// Inputs that could not be read.
    pub errors: Vec<ReadError>,
}

/// Loads a library.
#[must_use]
pub fn load(input: Input<'_>, settings: &ReadSettings) -> Loaded {
    let mut errors = Vec::new();
    let files = match input {
        Input::Bytes(name, bytes) => vec![(Kind::Assembly, name.to_owned(), bytes.to_vec())],
        Input::Path(path) if path.is_dir() => folder(path, &mut errors),
        Input::Path(path) => file(Kind::Assembly, path, &mut errors)
            .into_iter()
            .collect(),
    };
    let (form, path) = match input {
        Input::Path(path) if path.is_dir() => (Form::Folder, path.display().to_string()),
        Input::Path(path) => (Form::Flat, path.display().to_string()),
        Input::Bytes(name, _) => (Form::Flat, name.to_owned()),
    };
    let mut library = Library {
        name: settings.name.clone().unwrap_or_else(|| stem(&path)),
        path,
        form,
        units: settings.display(),
        sources: Sources::default(),
        assemblies: Vec::new(),
        records: Default::default(),
        faults: Vec::new(),
    };
    let mut tables = Vec::new();
    for (kind, name, bytes) in files {
        match Source::from_bytes(name.clone(), bytes) {
            Ok(source) => tables.push((kind, library.sources.add(source))),
            Err(why) => errors.push(error(name, why.to_string())),
        }
    }
    let mut rows = Vec::new();
    for (kind, id) in tables {
        read_table(&mut library, kind, id, settings, &mut rows, &mut errors);
    }
    if let Input::Path(path) = input
        && form == Form::Folder
    {
        stray_tables(path, &mut library);
    }
    library.assemblies = link::link(
        rows,
        &library.records,
        &library.sources,
        &mut library.faults,
    );
    link::completeness(&mut library);
    Loaded {
        library: (!library.assemblies.is_empty()).then_some(library),
        errors,
    }
}

fn stem(path: &str) -> String {
    let stem = Path::new(path).file_stem();
    stem.map_or_else(
        || path.to_owned(),
        |stem| stem.to_string_lossy().into_owned(),
    )
}

fn error(file: String, reason: impl Into<String>) -> ReadError {
    ReadError {
        file,
        position: None,
        reason: reason.into(),
    }
}

fn file(kind: Kind, path: &Path, errors: &mut Vec<ReadError>) -> Option<(Kind, String, Vec<u8>)> {
    let name = path.display().to_string();
    match fs::read(path) {
        Ok(bytes) => Some((kind, name, bytes)),
        Err(why) => {
            errors.push(error(name, format!("cannot be read: {why}")));
            None
        }
    }
}

fn folder(path: &Path, errors: &mut Vec<ReadError>) -> Vec<(Kind, String, Vec<u8>)> {
    if !path.join(Kind::Assembly.table()).is_file() {
        errors.push(error(
            path.display().to_string(),
            "holds no assemblies.csv, so it is not a library; name the folder of one library, or a CSV file",
        ));
        return Vec::new();
    }
    Kind::ALL
        .into_iter()
        .map(|kind| (kind, path.join(kind.table())))
        .filter(|(_, path)| path.symlink_metadata().is_ok())
        .filter_map(|(kind, path)| file(kind, &path, errors))
        .collect()
}

/// A table whose name is a slip of the hand would be left out in silence.
fn stray_tables(path: &Path, library: &mut Library) {
    let Ok(entries) = fs::read_dir(path) else {
        return;
    };
    let mut names: Vec<String> = entries
        .filter_map(io::Result::ok)
        .map(|entry| entry.file_name().to_string_lossy().into_owned())
        .filter(|name| name.to_lowercase().ends_with(".csv"))
        .filter(|name| Kind::ALL.iter().all(|kind| kind.table() != name))
        .collect();
    names.sort();
    for name in names {
        let Some(near) = closest(&name, Kind::ALL.iter().map(|kind| kind.table())) else {
            continue;
        };
        let shown = path.join(&name).display().to_string();
        let Ok(source) = Source::from_bytes(shown, Vec::new()) else {
            continue;
        };
        let place = Place {
            source: library.sources.add(source),
            span: Span::default(),
        };
        library.faults.push(
            Fault::new("record/unknown-table", place, "")
                .with("table", name)
                .with("near", near),
        );
    }
}

/// Reads one table into the library; assemblies' rows are kept for linking.
fn read_table(
    library: &mut Library,
    kind: Kind,
    id: SourceId,
    settings: &ReadSettings,
    assemblies: &mut Vec<Record>,
    errors: &mut Vec<ReadError>,
) {
    let source = library.sources.get(id);
    let name = source.name().to_owned();
    let mut faults = Vec::new();
    let Some(table) = csv::read(source, id, &mut faults) else {
        errors.push(error(
            name,
            "is empty; expected a header line and a line for each record",
        ));
        return;
    };
    let targets = columns::resolve(&table.columns, kind, &settings.columns, &mut faults);
    if targets.iter().all(|target| target.fields.is_empty()) {
        let mut error = error(
            name,
            "no column of this table is known; expected a header such as tool_number, stick_out, overall_length. `shankwise columns` lists all names",
        );
        let header = table.columns.first().map(|column| column.place);
        error.position = header.map(|place| library.sources.position(place));
        errors.push(error);
        return;
    }
    if table.rows.is_empty() && kind == Kind::Assembly {
        errors.push(error(
            name,
            "has a header and no record; expected a line for each assembly",
        ));
        return;
    }
    let records: Vec<Record> = table
        .rows
        .iter()
        .map(|row| record(row, kind, &table, &targets, settings, &mut faults))
        .collect();
    library.faults.append(&mut faults);
    if kind == Kind::Assembly {
        assemblies.extend(records);
    } else if let Some(own) = library.records.get_mut(kind as usize) {
        own.extend(records);
    }
}

fn record(
    row: &Row<'_>,
    kind: Kind,
    table: &Table<'_>,
    targets: &[Target],
    settings: &ReadSettings,
    faults: &mut Vec<Fault>,
) -> Record {
    let mut entries = Vec::with_capacity(row.cells.len());
    // Stated for one record outranks stated for all that have the property.
    let mut shared = Vec::new();
    for cell in &row.cells {
        let Some(target) = targets.get(cell.column) else {
            continue;
        };
        let Some(property) = target.fields.first().map(|field| field.property()) else {
            continue;
        };
        if row.ragged && !is_name(property.field, property.value) {
            continue;
        }
        match cell::read(cell, target, property, settings, table.decimal) {
            Ok(value) => {
                let of_all = if target.is_shared() {
                    &mut shared
                } else {
                    &mut entries
                };
                of_all.extend(target.fields.iter().map(|&field| Entry {
                    field,
                    value: value.clone(),
                    place: cell.place,
                }));
            }
            Err(fault) => faults.push(fault),
        }
    }
    entries.append(&mut shared);
    let mut record = Record::new(kind, row.place, entries);
    record.ragged = row.ragged;
    record
}

fn is_name(field: Field, value: ValueType) -> bool {
    matches!(value, ValueType::Id) || field == Field::ToolNumber
}
