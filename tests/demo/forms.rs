//! The demo in the two other forms: one XML document, and one flat table.
//!
//! `fixtures/forms` holds both texts, made from the tables of `fixtures/demo`; a test holds them
//! to what is made here.

use std::collections::HashMap;
use std::fmt::Write as _;
use std::{env, fs};

use shankwise::library::{Kind, fields_of};
use shankwise::units::split_unit;

use super::tables::Table;
use crate::support::fixture;

/// Names that stand as attributes: ids, and what other records are named by.
const NAMES: [&str; 7] = [
    "assembly",
    "tool_number",
    "cutter",
    "collet",
    "nut",
    "holder",
    "operation",
];

/// Units that a cell of the demo carries behind its number.
const UNITS: [&str; 4] = ["mm", "in", "N·m", "lbf·ft"];

fn table(kind: Kind) -> Table {
    Table::read(&fixture("demo"), kind.table().trim_end_matches(".csv"))
}

/// Name, unit and cell of every cell of a row that holds something.
fn cells<'t>(table: &'t Table, row: &'t [String]) -> Vec<(&'t str, Option<&'t str>, &'t str)> {
    let all = table.header.iter().zip(row);
    let stated = all.filter(|(_, cell)| !cell.is_empty());
    let split = stated.map(|(header, cell)| {
        let (name, unit) = split_unit(header);
        (name, unit, cell.as_str())
    });
    split.collect()
}

fn escaped(text: &str) -> String {
    let text = text.replace('&', "&amp;").replace('<', "&lt;");
    text.replace('>', "&gt;").replace('"', "&quot;")
}

/// A number and the unit that it carries, if it carries one.
fn own_unit(cell: &str) -> (&str, Option<&str>) {
    match cell.rsplit_once(' ') {
        Some((number, unit)) if UNITS.contains(&unit) => (number, Some(unit)),
        _ => (cell, None),
    }
}

/// One record: names as attributes, everything else as elements.
fn record(kind: Kind, table: &Table, row: &[String]) -> String {
    // What the crib has are cutters.
    let element = match kind {
        Kind::Stock => Kind::Cutter.name(),
        _ => kind.name(),
    };
    let mut attributes = String::new();
    let mut fields = String::new();
    for (name, unit, cell) in cells(table, row) {
        if NAMES.contains(&name) {
            let name = if name == element { "id" } else { name };
            let name = name.replace('_', "-");
            write!(attributes, " {name}=\"{}\"", escaped(cell)).unwrap();
            continue;
        }
        let name = name.replace('_', "-");
        let (text, own) = own_unit(cell);
        let unit = own.or(unit);
        let unit = unit.map_or(String::new(), |unit| format!(" unit=\"{unit}\""));
        writeln!(fields, "      <{name}{unit}>{}</{name}>", escaped(text)).unwrap();
    }
    format!("    <{element}{attributes}>\n{fields}    </{element}>\n")
}

/// The demo as one XML document.
fn document() -> String {
    let mut text = String::from(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n\
         <!-- Made from fixtures/demo by tests/demo/forms.rs. Invented, no manufacturer's data. -->\n\
         <shankwise xmlns=\"urn:shankwise:library:1\" units=\"mm\">\n",
    );
    for kind in Kind::IN_DOCUMENT {
        let table = table(kind);
        writeln!(text, "  <{}>", kind.section()).unwrap();
        for row in &table.rows {
            text += &record(kind, &table, row);
        }
        writeln!(text, "  </{}>", kind.section()).unwrap();
    }
    text + "</shankwise>\n"
}

/// A table's rows by the cell in the named column; of two with one name the first.
fn by_name<'t>(table: &'t Table, column: &str) -> HashMap<&'t str, &'t Vec<String>> {
    let at = table.header.iter().position(|header| header == column);
    let at = at.expect("the column is there");
    let mut found = HashMap::new();
    for row in &table.rows {
        found.entry(row[at].as_str()).or_insert(row);
    }
    found
}

/// A header as it stands in a flat table: with its record where its bare name would mean
/// another record, or several.
fn flat_header(header: &str, kind: Kind) -> String {
    let (name, _) = split_unit(header);
    let fields = fields_of(name, Kind::Assembly);
    let is_own = fields.len() == 1 && fields[0].kind() == kind;
    let record = if is_own { "" } else { kind.name() };
    format!("{record} {header}").trim_start().to_owned()
}

/// The columns of a joined record that go into the assembly's row.
fn joined(kind: Kind, table: &Table) -> Vec<usize> {
    let is_named = |header: &str| match kind {
        Kind::Operation => header == "tool_number",
        _ => header == kind.name(),
    };
    let all = table.header.iter().enumerate();
    let kept = all.filter(|(_, header)| !is_named(header));
    kept.map(|(at, _)| at).collect()
}

/// The demo as one flat table: each part's properties, and those of the first operation, in the
/// assembly's row.
fn flat() -> String {
    let assemblies = table(Kind::Assembly);
    let mut header = assemblies.header.clone();
    let mut rows = assemblies.rows.clone();
    let others = [
        (Kind::Cutter, "cutter"),
        (Kind::Collet, "collet"),
        (Kind::Nut, "nut"),
        (Kind::Holder, "holder"),
        (Kind::Operation, "tool_number"),
    ];
    for (kind, link) in others {
        let other = table(kind);
        let by_name = by_name(&other, link);
        let columns = joined(kind, &other);
        let own = columns
            .iter()
            .map(|at| flat_header(&other.header[*at], kind));
        header.extend(own);
        let link = assemblies.header.iter().position(|header| header == link);
        let link = link.expect("assemblies name their parts");
        for row in &mut rows {
            let part = by_name.get(row[link].as_str()).copied();
            let cell = |at: &usize| part.map_or(String::new(), |part| part[*at].clone());
            row.extend(columns.iter().map(cell));
        }
    }
    Table { header, rows }.text()
}

/// Rewrite both files with `REWRITE_FORMS=1 cargo test --test all forms` after a change of the
/// demo, and read what changed before it is committed.
#[test]
fn the_forms_are_made_from_the_demo() {
    let shop = fs::read_to_string(fixture("demo/shankwise.toml")).expect("there is a shop file");
    let made = [
        ("forms/demo.xml", document()),
        ("forms/demo-flat.csv", flat()),
        ("forms/shankwise.toml", shop),
    ];
    for (file, text) in made {
        let path = fixture(file);
        if env::var_os("REWRITE_FORMS").is_some() {
            fs::write(&path, &text).expect("it is written");
        }
        let committed = fs::read_to_string(&path).expect("the file is there");
        assert!(
            committed == text,
            "{file} is not what the demo's tables make"
        );
    }
}
