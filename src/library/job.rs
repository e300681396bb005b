//! What a job asks for: tool numbers, one a line, or a table of its operations.

use std::path::Path;

use crate::input::sheet;
use crate::text::{Source, SourceId, Sources};

use super::files::one;
use super::framing::{self, Lines};
use super::own_column::{self, OwnColumn};
use super::workbook::{self, Search};
use super::{Field, Kind, ReadError, ReadSettings, columns};

/// A job: which tools it wants.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Job {
    /// Their numbers, each once, in the order of the file.
    pub numbers: Vec<String>,
    /// Whether the file is a table: it may say what the job asks of them.
    pub is_table: bool,
}

/// What begins a remark in a list.
const REMARK: char = '#';
/// What separates the cells of a table.
const DELIMITERS: [char; 3] = [',', ';', '\t'];

impl Job {
    /// Reads the file of a job, with the shop's headers.
    ///
    /// # Errors
    /// If it cannot be read, names no tool, or is a table without tool numbers.
    pub fn read(path: &Path, settings: &ReadSettings) -> Result<Job, ReadError> {
        let own = &settings.columns;
        let file = one(Kind::Operation, path)?;
        let name = file.name.clone();
        let error = |reason: &str| ReadError::of(name.clone(), reason);
        if sheet::is_workbook(&file.bytes) {
            let search = Search {
                only: Some(Kind::Operation),
                named: None,
                own,
            };
            let read = workbook::open(&file.name, &file.bytes, search);
            let taken = read.map_err(|reason| error(&reason))?.taken;
            let sheet = taken.into_iter().next();
            let job = sheet.map_or_else(Job::default, |sheet| table(sheet.source, settings));
            return job.checked().map_err(error);
        }
        let source = Source::from_bytes(file.name, file.bytes);
        let source = source.map_err(|why| error(&why.to_string()))?;
        let first = source.text().lines().map(str::trim);
        let first = first.clone().find(|line| !line.is_empty()).unwrap_or("");
        let opened = framing::open((&source, SourceId::default()), Kind::Operation, settings);
        let is_header = opened.is_some_and(|table| {
            let mut columns = table.columns.iter();
            columns.any(|column| is_number(&column.name, own))
        });
        let job = if is_header {
            table(source, settings)
        } else if first.contains(DELIMITERS) && !first.starts_with(REMARK) {
            return Err(error(
                "has several columns, and none of them is tool_number; expected one tool number a line, or a table with that column",
            ));
        } else {
            list(source.text())
        };
        job.checked().map_err(error)
    }

    /// The same, if it names any tool; else what is wrong.
    fn checked(self) -> Result<Job, &'static str> {
        match self.numbers.as_slice() {
            [] => Err("names no tool; expected one tool number a line"),
            _ => Ok(self),
        }
    }

    fn add(&mut self, number: &str) {
        if !number.is_empty() && !self.numbers.iter().any(|known| known == number) {
            self.numbers.push(number.to_owned());
        }
    }
}

fn list(text: &str) -> Job {
    let mut job = Job::default();
    for line in text.lines().map(str::trim) {
        // A number may hold the sign; a remark begins the line or follows a blank.
        let remark = line.match_indices(REMARK).map(|(at, _)| at);
        let begins = |at: &usize| {
            let before = line.get(..*at).unwrap_or("");
            before.is_empty() || before.ends_with(char::is_whitespace)
        };
        let end = remark.into_iter().find(begins).unwrap_or(line.len());
        job.add(line.get(..end).unwrap_or(line).trim());
    }
    job
}

fn table(source: Source, settings: &ReadSettings) -> Job {
    let mut sources = Sources::default();
    let id = sources.add(source);
    let mut job = Job {
        is_table: true,
        ..Job::default()
    };
    let opened = framing::open((sources.get(id), id), Kind::Operation, settings);
    let Some(mut table) = opened else {
        return job;
    };
    let numbers = table
        .columns
        .iter()
        .position(|column| is_number(&column.name, &settings.columns));
    let stated = |at: usize| -> &[Field] {
        match numbers {
            Some(own) if own == at => &[Field::OperationToolNumber],
            _ => &[],
        }
    };
    let fields = (0..table.columns.len()).map(stated);
    let headers = (table.columns.as_slice(), table.units.as_slice());
    let lines = Lines::new(headers, (fields, Kind::Operation), settings.framing);
    let shape = table.shape();
    while let Some(batch) = table.batch() {
        // What is wrong with a row is found where it is read as an operation.
        let _ = batch.rows(shape, &mut Vec::new(), |row| {
            if lines.other_line(row).is_none() {
                let cell = row.cells.iter().find(|cell| Some(cell.column) == numbers);
                job.add(cell.map_or("", |cell| &cell.text));
            }
            true
        });
    }
    job
}

/// Whether a header names the tool number.
fn is_number(header: &str, own: &[OwnColumn]) -> bool {
    let entry = own_column::find(own, header);
    let meant = entry.map_or(header, |entry| entry.meant(header));
    columns::fields_of(meant, Kind::Operation).contains(&Field::OperationToolNumber)
}
