//! A flat row by column, written in millimetres or in inches.

use std::collections::{BTreeMap, BTreeSet};

use super::Units;

/// A cell: a length in mm, a torque in N·m, or what stands there as it is.
#[derive(Clone, Debug)]
pub enum Cell {
    Length(f64),
    Torque(f64),
    Text(String),
}

/// An assembly with its parts and at most one operation, by column.
#[derive(Clone, Debug, Default)]
pub struct Row(pub BTreeMap<&'static str, Cell>);

impl Row {
    pub fn length(&mut self, column: &'static str, value: f64) {
        self.0.insert(column, Cell::Length(value));
    }

    pub fn torque(&mut self, column: &'static str, value: f64) {
        self.0.insert(column, Cell::Torque(value));
    }

    #[expect(
        clippy::needless_pass_by_value,
        reason = "words and numbers are handed in alike"
    )]
    pub fn say(&mut self, column: &'static str, text: impl ToString) {
        self.0.insert(column, Cell::Text(text.to_string()));
    }

    pub fn without(&self, column: &str) -> Row {
        let mut row = self.clone();
        row.0.remove(column);
        row
    }
}

fn rounded(value: f64, digits: f64) -> String {
    format!("{}", (value * digits).round() / digits)
}

fn written(cell: &Cell, units: Units) -> String {
    match (cell, units) {
        (Cell::Text(text), _) => text.clone(),
        (Cell::Length(mm), Units::Metric) => rounded(*mm, 1e2),
        (Cell::Length(mm), Units::Inch) => rounded(mm / 25.4, 1e4),
        (Cell::Torque(nm), _) => format!("{} N·m", rounded(*nm, 1.0)),
    }
}

/// One flat table. Columns that no row has are left out.
pub fn flat(rows: &[Row], units: Units) -> String {
    let columns: BTreeSet<&str> = rows.iter().flat_map(|row| row.0.keys().copied()).collect();
    let mut text = columns.iter().copied().collect::<Vec<_>>().join(",") + "\n";
    for row in rows {
        let cell = |column: &&str| {
            let cell = row.0.get(*column);
            cell.map_or_else(String::new, |cell| written(cell, units))
        };
        text += &columns.iter().map(cell).collect::<Vec<_>>().join(",");
        text.push('\n');
    }
    text
}
