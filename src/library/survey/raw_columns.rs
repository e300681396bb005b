//! The cells of a table by columns, as they are written.

use std::cell::OnceCell;
use std::collections::HashMap;

use crate::input::Manner;
use crate::input::csv::BlankRows;
use crate::text::{Source, SourceId};
use crate::units::{self, Decimal, Unit, split_unit};

use super::super::columns::{keys, normal};
use super::super::framing::{self, Lines};
use super::super::stating::Stating;
use super::super::{Field, Kind, NoRecord, ReadSettings, cell, decimal_marks, hints};
use super::machine_line;
use crate::input::{Cell, Row};

/// Rows that tell what a column means: more of them say the same.
const SAMPLE: usize = 5000;

/// One column as it is written.
pub(super) struct RawColumn {
    /// The header, with its number where it stands several times.
    pub header: String,
    /// The header as it is written.
    pub name: String,
    /// The unit that the header, or the line below it, names.
    pub unit: Option<&'static str>,
    /// Whether that is the line below it.
    pub unit_below: bool,
    /// Row and text of every cell that holds something.
    pub cells: Vec<(usize, String)>,
}

impl RawColumn {
    /// Its cells as far as they are looked at for what the column means.
    pub fn sample(&self) -> &[(usize, String)] {
        let end = self.cells.partition_point(|(row, _)| *row < SAMPLE);
        self.cells.get(..end).unwrap_or(&self.cells)
    }

    /// Its first values, each once.
    pub fn first(&self, most: usize) -> Vec<String> {
        let mut first: Vec<String> = Vec::new();
        for (_, text) in &self.cells {
            if first.len() == most {
                break;
            }
            if !first.contains(text) && !units::is_stand_in(text) {
                first.push(text.clone());
            }
        }
        first
    }

    /// Its values, each once with the number of rows that have it, in the order in which they come.
    pub fn counted(&self) -> Vec<(&str, usize)> {
        let mut at: HashMap<&str, usize> = HashMap::new();
        let mut counted: Vec<(&str, usize)> = Vec::new();
        for (_, text) in &self.cells {
            let next = counted.len();
            let own = *at.entry(text).or_insert(next);
            match counted.get_mut(own) {
                Some((_, many)) => *many += 1,
                None => counted.push((text, 1)),
            }
        }
        counted
    }

    /// Its values, each once, in the order in which they come.
    pub fn distinct(&self) -> Vec<&str> {
        self.counted().into_iter().map(|(text, _)| text).collect()
    }
}

/// A table by columns.
pub(super) struct RawColumns {
    pub columns: Vec<RawColumn>,
    pub rows: usize,
    pub other_lines: Vec<(NoRecord, usize)>,
    /// How many rows hold nothing.
    pub blank_rows: usize,
    /// Machines that other lines name, each once.
    pub machines: Vec<String>,
    pub delimiter: char,
    manner: Manner,
    /// Row and bore, mm, by the names of collets: asked for every column of diameters.
    pub bores: OnceCell<Vec<(usize, f64)>>,
}

impl RawColumns {
    /// Reads a table; `None` if it has no header.
    pub fn read(from: (&Source, SourceId), settings: &ReadSettings) -> Option<RawColumns> {
        let mut table = framing::open(from, Kind::Assembly, settings)?;
        let unit = |at: usize, header: &str| {
            let below = table
                .units
                .get(at)
                .and_then(|unit| framing::unit(&unit.name));
            let own = split_unit(header).1.and_then(units::Spelling::find_any);
            let behind = || hints::unit_behind(header).map(|(_, unit)| unit);
            own.or(below).or_else(behind).map(|unit| unit.name)
        };
        let keys = keys(&table.columns).into_iter();
        let columns = table.columns.iter().enumerate().zip(keys);
        let columns = columns.map(|((at, column), key)| RawColumn {
            name: column.name.to_string(),
            header: key.into_owned(),
            unit: unit(at, &column.name),
            unit_below: !table.units.is_empty(),
            cells: Vec::new(),
        });
        let mut raw = RawColumns {
            columns: columns.collect(),
            rows: 0,
            other_lines: Vec::new(),
            blank_rows: 0,
            machines: Vec::new(),
            delimiter: char::from(table.shape().delimiter),
            manner: table.manner,
            bores: OnceCell::new(),
        };
        let around = [
            (NoRecord::TitleLines, table.above.is_some()),
            (NoRecord::UnitsLine, !table.units.is_empty()),
        ];
        for (line, _) in around.into_iter().filter(|(_, is_there)| *is_there) {
            raw.count(line);
        }
        if let Some(above) = table.above {
            let delimiter = char::from(table.shape().delimiter);
            for line in from.0.slice(above.span).lines() {
                raw.named_machine(line.split(delimiter));
            }
        }
        let headers = (table.columns.as_slice(), table.units.as_slice());
        let lines = Lines::new(
            headers,
            (std::iter::empty(), Kind::Assembly),
            settings.framing,
        );
        let shape = table.shape();
        let mut blank = BlankRows::default();
        while let Some(batch) = table.batch() {
            let found = batch.rows(shape, &mut Vec::new(), |row| {
                match lines.other_line(row) {
                    Some(line) => {
                        raw.count(line);
                        raw.named_machine(row.cells.iter().map(|cell| cell.text.as_ref()));
                    }
                    None => raw.add(row),
                }
                true
            });
            blank = blank.then(found);
        }
        let header = table.columns.first().map(|column| column.place);
        let blank = framing::blank_rows(from.0, header, blank);
        raw.blank_rows = blank.map_or(0, |(_, many)| many);
        Some(raw)
    }

    /// Takes the machine that a line names, if it does.
    fn named_machine<'c>(&mut self, cells: impl Iterator<Item = &'c str>) {
        let machine = machine_line::machine(cells);
        self.machines
            .extend(machine.filter(|machine| !self.machines.contains(machine)));
    }

    fn count(&mut self, line: NoRecord) {
        match self
            .other_lines
            .iter_mut()
            .find(|(known, _)| *known == line)
        {
            Some((_, many)) => *many += 1,
            None => self.other_lines.push((line, 1)),
        }
    }

    fn add(&mut self, row: &Row<'_>) {
        for cell in &row.cells {
            if let Some(column) = self.columns.get_mut(cell.column) {
                column.cells.push((self.rows, cell.text.to_string()));
            }
        }
        self.rows += 1;
    }

    /// What the cells of a column say if they state a field: the number of each row, where it is
    /// one.
    pub fn numbers(&self, at: usize, field: Field, settings: &ReadSettings) -> Vec<Option<f64>> {
        let mut numbers = vec![None; self.rows];
        let Some(column) = self.columns.get(at) else {
            return numbers;
        };
        let wanted = match field.property().value {
            super::super::ValueType::Quantity(unit) => unit,
            _ => Unit::One,
        };
        let target = Stating {
            fields: vec![field],
            unit: column
                .unit
                .and_then(|unit| units::Spelling::find(unit, wanted)),
            ..Stating::default()
        };
        let Some(settled) = cell::Settled::new(&target, settings, self.manner.decimal) else {
            return numbers;
        };
        for (row, text) in column.sample() {
            let cell = Cell {
                column: at,
                text: text.as_str().into(),
                place: crate::text::Place::default(),
                unit: None,
            };
            let seen = &mut decimal_marks::Seen::default();
            let read = cell::read(&cell, &settled, (seen, decimal_marks::Open::default()));
            if let (Ok(stated), Some(number)) = (read, numbers.get_mut(*row)) {
                *number = stated.number();
            }
        }
        numbers
    }

    /// How its numbers are written.
    pub fn decimal(&self) -> Decimal {
        self.manner.decimal
    }

    /// The column of units that names the inch in every row: a document states them once for all.
    pub fn says_inches(&self) -> Option<String> {
        let is_inch = |text: &str| {
            let unit = units::Spelling::find(text.trim(), Unit::Mm);
            unit.is_some_and(|unit| unit.name == "in")
        };
        let mut columns = self.columns.iter();
        let column = columns.find(|column| {
            let last = column.name.rsplit('/').next().unwrap_or_default();
            let is_named = ["unit", "units"].contains(&normal(last).as_str());
            is_named
                && column.cells.len() == self.rows
                && column.cells.iter().all(|(_, text)| is_inch(text))
        });
        column.map(|column| column.header.clone())
    }

    /// Of the cells that look like lengths, how many have an inch mark or a fraction, and all.
    pub fn inches(&self) -> (usize, usize) {
        let mut all = (0, 0);
        let cells = self.columns.iter().flat_map(|column| &column.cells);
        for (_, text) in cells {
            if text.len() > 16 || !text.starts_with(|c: char| c.is_ascii_digit() || c == '.') {
                continue;
            }
            let is_inch = text.ends_with('"') || is_fraction(text);
            all.0 += usize::from(is_inch);
            all.1 += 1;
        }
        all
    }
}

/// `1/2`, `1-3/8`, `1 3/8`: digits, and one stroke between digits.
fn is_fraction(text: &str) -> bool {
    let Some((whole, part)) = text.split_once('/') else {
        return text.contains(['½', '¼', '¾']);
    };
    let is_size = |part: &str| matches!(part, "2" | "4" | "8" | "16" | "32" | "64");
    whole.ends_with(|c: char| c.is_ascii_digit()) && is_size(part)
}
