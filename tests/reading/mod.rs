//! From bytes to typed, linked records: what is read, from where, and what is said about the
//! rest.

mod cells;
mod collets;
mod columns;
mod does;
mod fallbacks;
mod floor;
mod formats;
mod framing;
mod header_words;
mod headers;
mod links;
mod many;
mod materials;
mod places;
mod ragged;
mod random;
mod shop;
mod two_ways;
mod unreadable;
mod words;

use shankwise::units::Scalar;
use std::borrow::Borrow;
use std::fs;

use shankwise::input::Fault;
use shankwise::judge::Setup;
use shankwise::library::{
    Field, Input, Kind, Library, Loaded, OperationRef, Origin, Overrides, View, load,
};
use tempfile::TempDir;

use crate::support::library;

/// A complete row: nothing is missing, nothing is assumed.
const HEADER: &str = "tool_number,clamping_kind,stick_out,cutting_diameter,shank_diameter,shank_length,overall_length,collet_size,bore_diameter,bore_length";
const ROW: &str = "12,taper collet,33,12,12,45,83,32,12,40";

/// A complete row with one more column.
fn with_column(header: &str, cell: &str) -> String {
    format!("{HEADER},{header}\n{ROW},{cell}\n")
}

/// What is wrong with a library's form, as `kind line:column field`; what is missing or
/// assumed in complete silence of the text is left out.
fn faults(library: &Library) -> Vec<String> {
    let quiet = ["record/field-missing", "record/value-assumed"];
    let told = library.faults().filter(|f| !quiet.contains(&f.kind));
    told.map(|fault| {
        let place = &fault.places[0];
        let at = library.sources.position(place.place);
        let kind = fault.kind.strip_prefix("record/").unwrap();
        format!("{kind} {}:{} {}", at.line, at.column, place.field)
    })
    .collect()
}

fn faults_of(text: &str) -> Vec<String> {
    faults(&library(text))
}

/// A word that a fault hands to its message.
fn word(fault: impl Borrow<Fault>, name: &str) -> String {
    let mut args = fault.borrow().args.iter();
    let found = args.find(|(word, _)| *word == name);
    found.map_or_else(String::new, |(_, value)| value.to_string())
}

/// The only fault of a kind.
fn only(library: &Library, kind: &str) -> Fault {
    let mut all: Vec<Fault> = library.faults().filter(|f| f.kind == kind).collect();
    assert_eq!(all.len(), 1, "{kind}: {all:?}");
    all.remove(0)
}

/// What is stated in the row of the first assembly.
fn stated(library: &Library, field: Field) -> Option<Scalar<&str>> {
    library.assemblies[0].record.value(field)
}

/// A number of the first assembly, however it came about.
fn number(library: &Library, field: Field) -> (Option<f64>, Origin) {
    let overrides = Overrides::default();
    let (found, origin) = view(library, &overrides).with_origin(field);
    let value = found.value.and_then(|datum| match datum {
        Scalar::Number(number) => Some(number),
        _ => None,
    });
    (value, origin)
}

/// The first assembly without operation.
fn view<'l>(library: &'l Library, overrides: &'l Overrides<'l>) -> View<'l> {
    View::new(library, &library.assemblies[0], None, overrides)
}

/// Ids of the operations of an assembly.
fn operations(library: &Library, assembly: usize) -> Vec<&str> {
    let all = library.assemblies[assembly].operations.iter();
    all.map(|operation| match operation {
        OperationRef::OwnRow => "own row",
        OperationRef::Record(at) => library.records(Kind::Operation)[*at]
            .text(Field::Operation)
            .unwrap_or(""),
    })
    .collect()
}

/// A folder of files that is deleted after the test.
fn folder(files: &[(&str, &str)]) -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    for (name, text) in files {
        fs::write(folder.path().join(name), text).unwrap();
    }
    folder
}

/// Loads a folder as the program does, its own shop file included.
fn load_folder(folder: &TempDir) -> Loaded {
    let setup = Setup::load(Some(folder.path()), None, &[], true).expect("the setup loads");
    load(Input::Path(folder.path()), &setup.read_settings())
}

/// A folder that can be read to the end.
fn folder_library(files: &[(&str, &str)]) -> Library {
    let loaded = load_folder(&folder(files));
    assert_eq!(loaded.errors, []);
    loaded.library.expect("there is a library")
}
