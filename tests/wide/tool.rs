//! A tool as a library states it, written into one flat table or a folder of tables.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

use shankwise::library::{Field, Kind, ValueType};
use shankwise::units::Unit;

/// What stands in a cell.
#[derive(Clone, Debug, PartialEq)]
pub enum Cell {
    /// A number in the canonical unit of its property.
    Number(f64),
    /// Anything else, written as it stands.
    Text(String),
}

/// An assembly with its parts and at most one operation, by property.
#[derive(Clone, Debug, Default)]
pub struct Tool(pub BTreeMap<Field, Cell>);

/// In what a library is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Units {
    /// Millimetres, N·m, m/min.
    Metric,
    /// Inches, lbf·ft, ft/min.
    Inch,
}

impl Tool {
    pub fn set(&mut self, field: Field, number: f64) {
        self.0.insert(field, Cell::Number(number));
    }

    pub fn say(&mut self, field: Field, text: &str) {
        self.0.insert(field, Cell::Text(text.to_owned()));
    }

    pub fn forget(&mut self, fields: &[Field]) {
        for field in fields {
            self.0.remove(field);
        }
    }

    pub fn number(&self, field: Field) -> Option<f64> {
        match self.0.get(&field)? {
            Cell::Number(number) => Some(*number),
            Cell::Text(_) => None,
        }
    }

    pub fn text(&self, field: Field) -> &str {
        match self.0.get(&field) {
            Some(Cell::Text(text)) => text,
            _ => "",
        }
    }

    /// The overall length that judges.
    pub fn length_now(&self) -> f64 {
        let now = self.number(Field::OverallLengthActual);
        now.or(self.number(Field::OverallLength)).unwrap()
    }

    /// What is stated of one kind of record.
    fn of(&self, kind: Kind) -> Tool {
        let own = self.0.iter().filter(|(field, _)| field.kind() == kind);
        Tool(own.map(|(field, cell)| (*field, cell.clone())).collect())
    }
}

fn header(field: Field, name: &str, units: Units) -> String {
    let unit = match (units, field.property().value) {
        (Units::Inch, ValueType::Quantity(Unit::Nm)) => " [lbf·ft]",
        (Units::Inch, ValueType::Quantity(Unit::MPerMin)) => " [sfm]",
        _ => "",
    };
    format!("{name}{unit}")
}

fn written(field: Field, cell: &Cell, units: Units) -> String {
    let number = match cell {
        Cell::Text(text) => return text.clone(),
        Cell::Number(number) => *number,
    };
    let factor = match (units, field.property().value) {
        (Units::Inch, ValueType::Quantity(Unit::Mm)) => 25.4,
        (Units::Inch, ValueType::Quantity(Unit::Nm)) => 1.355_817_948_331_400_4,
        (Units::Inch, ValueType::Quantity(Unit::MPerMin)) => 0.3048,
        _ => 1.0,
    };
    let digits = if factor == 1.0 { 1e3 } else { 1e5 };
    format!("{}", (number / factor * digits).round() / digits)
}

/// A table of some tools' cells; `name` gives the header of a property.
fn table(tools: &[Tool], units: Units, name: impl Fn(Field) -> String) -> String {
    let fields: BTreeSet<Field> = tools
        .iter()
        .flat_map(|tool| tool.0.keys().copied())
        .collect();
    let headers: Vec<String> = fields
        .iter()
        .map(|field| header(*field, &name(*field), units))
        .collect();
    let mut text = headers.join(",") + "\n";
    for tool in tools {
        let cell = |field| {
            let cell = tool.0.get(field);
            cell.map_or_else(String::new, |cell| written(*field, cell, units))
        };
        text += &fields.iter().map(cell).collect::<Vec<_>>().join(",");
        text += "\n";
    }
    text
}

/// One row an assembly.
pub fn flat(tools: &[Tool], units: Units) -> String {
    table(tools, units, |field| field.short().to_owned())
}

/// The tables of a folder by file name. Parts that are alike are one record.
pub fn tables(tools: &[Tool], units: Units) -> Vec<(&'static str, String)> {
    let references = [
        (Field::CutterOf, Kind::Cutter, Field::Cutter),
        (Field::ColletOf, Kind::Collet, Field::Collet),
        (Field::NutOf, Kind::Nut, Field::Nut),
        (Field::HolderOf, Kind::Holder, Field::Holder),
    ];
    let mut assemblies: Vec<Tool> = tools.iter().map(|tool| tool.of(Kind::Assembly)).collect();
    let mut files = Vec::new();
    for (reference, kind, id) in references {
        let mut records: Vec<Tool> = Vec::new();
        for (assembly, tool) in assemblies.iter_mut().zip(tools) {
            let part = tool.of(kind);
            if part.0.is_empty() {
                continue;
            }
            let known = records.iter().position(|record| record.0 == part.0);
            let at = known.unwrap_or_else(|| {
                records.push(part);
                records.len() - 1
            });
            assembly.say(reference, &format!("{}-{at}", kind.name()));
        }
        for (at, record) in records.iter_mut().enumerate() {
            record.say(id, &format!("{}-{at}", kind.name()));
        }
        files.push((kind.table(), bare(&records, units)));
    }
    let operations = tools.iter().map(|tool| {
        let mut operation = tool.of(Kind::Operation);
        if !operation.0.is_empty() {
            operation.say(Field::OperationToolNumber, tool.text(Field::ToolNumber));
        }
        operation
    });
    let operations: Vec<Tool> = operations.filter(|tool| !tool.0.is_empty()).collect();
    files.push((Kind::Operation.table(), bare(&operations, units)));
    files.push((Kind::Assembly.table(), bare(&assemblies, units)));
    files
}

fn bare(records: &[Tool], units: Units) -> String {
    table(records, units, |field| field.property().name.to_owned())
}

/// Writes the tables into a folder, with the shop file that says in what they are.
pub fn write_folder(folder: &Path, files: &[(&str, String)], units: Units) {
    for (name, text) in files {
        if text.lines().count() > 1 {
            fs::write(folder.join(name), text).unwrap();
        }
    }
    if units == Units::Inch {
        fs::write(folder.join("shankwise.toml"), INCH).unwrap();
    }
}

/// What a shop that works in inches says.
pub const INCH: &str = "[units]\nlength = \"in\"\n";
