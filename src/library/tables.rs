//! From raw tables to records of typed fields.

mod filling_chunk;

use std::sync::Arc;

use rayon::prelude::*;

use crate::input::csv::{Batch, BlankRows, Reader};
use crate::input::{Cell, Fault, Faults, Manner, Row, Table};
use crate::text::{Source, SourceId, Sources};

use super::as_written::WrittenRow;
use super::cell::Settled;
use super::chunk::HeaderUnits;
use super::decimal_marks::{Open, Seen};
use super::framing::Lines;
use super::odd_cell;
use super::stating::Target;
use super::{Kind, ReadSettings, Record, ValueType};
use filling_chunk::FillingChunk;

/// Records of one chunk, where they are held whole before.
const RECORDS: usize = 1024;
/// Batches that wait for a core while the next ones are read, a core.
const WAITING: usize = 4;

/// How the rows of a table are read.
pub(super) struct Reading {
    kind: Kind,
    manner: Manner,
    /// Of each column; boxed, as most columns of a very wide table state nothing.
    settled: Vec<Option<Box<Settled>>>,
    /// Whether two columns state one field with the same right.
    doubled: bool,
    sources: Sources,
    source: Arc<Source>,
    delimiter: Option<u8>,
    headed: HeaderUnits,
    /// What tells its records from other lines.
    lines: Option<Lines>,
    /// Whether rows are also kept as they were written.
    keeps: bool,
}

/// What was read of some rows.
struct Read {
    records: Vec<Record>,
    /// What is wrong with the form of their rows, and with their cells.
    faults: (Faults, Faults),
    /// Whether a row is ragged.
    ragged: bool,
    seen: Seen,
    written: Vec<WrittenRow>,
    blank: BlankRows,
}

/// The records of a table.
pub(super) struct Records {
    /// In their order.
    pub list: Vec<Record>,
    /// What is wrong with the form of rows, in their order.
    pub rows: Faults,
    /// What is wrong with cells, in the order of the rows; in a table of assemblies each belongs
    /// to the assembly of its row.
    pub cells: Faults,
    /// Whether a row is ragged.
    pub ragged: bool,
    /// The rows as they were written, where they are kept.
    pub written: Vec<WrittenRow>,
    /// Rows that hold nothing.
    pub blank: BlankRows,
}

impl Records {
    fn of(all: Vec<Read>, sources: &Sources) -> Records {
        let mut records = Records {
            list: Vec::with_capacity(all.iter().map(|read| read.records.len()).sum()),
            rows: Faults::of(sources),
            cells: Faults::of(sources),
            ragged: false,
            written: Vec::new(),
            blank: BlankRows::default(),
        };
        for mut read in all {
            let first = records.list.len();
            records.list.append(&mut read.records);
            records.rows.append(&read.faults.0, first);
            records.cells.append(&read.faults.1, first);
            records.ragged |= read.ragged;
            records.written.append(&mut read.written);
            records.blank = records.blank.then(read.blank);
        }
        records
    }
}

impl Reading {
    /// What columns, settings and table say of all cells. `delimiter` is what separates them, if
    /// that is how their places are told.
    pub(super) fn new(
        kind: Kind,
        targets: &[Target],
        settings: &ReadSettings,
        manner: Manner,
        ((sources, id), delimiter): ((&Sources, SourceId), Option<u8>),
    ) -> Reading {
        let settled = targets.iter();
        Reading {
            kind,
            manner,
            settled: settled
                .map(|target| Settled::new(target, settings, manner.decimal).map(Box::new))
                .collect(),
            // A format of elements may state a field twice under one name.
            doubled: delimiter.is_none() || are_doubled(targets),
            sources: sources.clone(),
            source: sources.share(id),
            delimiter,
            headed: targets
                .iter()
                .map(|target| target.unit.map(|unit| unit.name))
                .collect(),
            lines: None,
            keeps: false,
        }
    }

    /// The same for a table in which other lines may stand between the records.
    pub(super) fn of_lines(self, lines: Lines) -> Reading {
        Reading {
            lines: Some(lines),
            ..self
        }
    }

    /// The same, and whether the rows are also kept as they were written.
    pub(super) fn keeping(self, keeps: bool) -> Reading {
        Reading { keeps, ..self }
    }

    /// The unit of the bare numbers of a column that holds quantities.
    pub(super) fn bare_unit(&self, column: usize) -> Option<&'static str> {
        let settled = self.settled.get(column)?.as_deref()?;
        let is_quantity = matches!(settled.property.value, ValueType::Quantity(_));
        settled.bare().filter(|_| is_quantity).map(|unit| unit.name)
    }

    /// The marks that a cell leaves open, of those that its table does; a fault if it is a cell of
    /// a sheet that is not what its text looks like.
    fn open_marks(&self, cell: &Cell<'_>, settled: &Settled, open: Open) -> Result<Open, Fault> {
        let Some(sheet) = self.source.sheet() else {
            return Ok(open);
        };
        let odd = sheet.odd(cell.place.span.start);
        match odd.and_then(|odd| odd_cell::fault(cell, settled, odd)) {
            Some(fault) => Err(fault),
            None if odd.is_none() => Ok(open.of_stored()),
            None => Ok(open),
        }
    }

    /// The records of a table that is held whole.
    pub(super) fn table(&self, table: &Table<'_>) -> Records {
        let chunk = |rows: &&[Row<'_>], open: Open| {
            let mut filling = FillingChunk::new(self, open);
            rows.iter().for_each(|row| filling.row(row));
            filling.read(Vec::new())
        };
        let rows: Vec<&[Row<'_>]> = table.rows.chunks(RECORDS).collect();
        let read = rows.par_iter().map(|rows| chunk(rows, Open::default()));
        let mut read: Vec<Read> = read.collect();
        self.again(&mut read, |at, open| Some(chunk(rows.get(at)?, open)));
        Records::of(read, &self.sources)
    }

    /// The records of a table that is read while its first records are looked at.
    pub(super) fn batches(&self, table: &mut Reader<'_>) -> Records {
        let shape = table.shape();
        let chunk = |batch: &Batch, open: Open| {
            let (mut faults, mut others) = (Vec::new(), Vec::new());
            let mut filling = FillingChunk::new(self, open);
            let lines = self.lines.as_ref();
            let blank = batch.rows(shape, &mut faults, |row| {
                let other = lines.and_then(|lines| lines.no_record(row));
                let is_record = other.is_none();
                if is_record {
                    filling.row(row);
                }
                others.extend(other);
                is_record
            });
            faults.extend(others);
            Read {
                blank,
                ..filling.read(faults)
            }
        };
        let mut read: Vec<Read> = Vec::new();
        // Batches with a number that later rows may leave open are kept until all are read.
        let mut doubtful: Vec<Option<Batch>> = Vec::new();
        let mut waiting = next(table);
        while !waiting.is_empty() {
            let (following, found) = rayon::join(
                || next(table),
                || -> Vec<Read> {
                    let waiting = waiting.par_iter();
                    waiting.map(|batch| chunk(batch, Open::default())).collect()
                },
            );
            let kept = waiting.into_iter().zip(&found);
            doubtful.extend(kept.map(|(batch, read)| read.seen.is_doubtful().then_some(batch)));
            read.extend(found);
            waiting = following;
        }
        self.again(&mut read, |at, open| {
            Some(chunk(doubtful.get(at)?.as_ref()?, open))
        });
        Records::of(read, &self.sources)
    }

    /// Reads again what holds a number that the whole table leaves open.
    fn again(&self, all: &mut [Read], read: impl Fn(usize, Open) -> Option<Read> + Sync) {
        let seen = all.iter().map(|one| one.seen);
        let open = seen.fold(Seen::default(), Seen::with).open(self.manner);
        let all = all.par_iter_mut().enumerate();
        all.filter(|(_, one)| one.seen.meets(open))
            .for_each(|(at, one)| {
                if let Some(found) = read(at, open) {
                    *one = found;
                }
            });
    }
}

/// Some batches: as many as the cores have to do.
fn next(table: &mut Reader<'_>) -> Vec<Batch> {
    let most = WAITING * rayon::current_num_threads();
    std::iter::from_fn(|| table.batch()).take(most).collect()
}

/// Whether two columns state one field with the same right.
fn are_doubled(targets: &[Target]) -> bool {
    let mut known = std::collections::HashSet::new();
    let mut each = targets.iter().flat_map(|target| {
        let fields = target.fields.iter();
        fields.map(|field| (*field, target.is_shared()))
    });
    each.any(|one| !known.insert(one))
}
