//! From raw tables to records of typed fields.

use std::sync::Arc;

use rayon::prelude::*;

use crate::input::csv::{Batch, BlankRows, Reader};
use crate::input::{Cell, Fault, Faults, Manner, Row, Table};
use crate::text::{Source, SourceId, Sources};

use super::as_written::{self, WrittenRow};
use super::cell::{self, Settled};
use super::chunk::{Chunk, HeaderUnits, Stated};
use super::decimal_marks::{Open, Seen};
use super::framing::Lines;
use super::odd_cell;
use super::stating::Target;
use super::twice::{self, Said};
use super::two_sizes;
use super::{Field, Kind, ReadSettings, Record, ValueType};

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

/// A chunk that fills.
struct FillingChunk<'f, 't> {
    reading: &'f Reading,
    open: Open,
    chunk: Chunk,
    places: Vec<(crate::text::Place, u32)>,
    faults: Vec<Fault>,
    ragged: bool,
    seen: Seen,
    /// What the present row states for one record, and what for all that have the property.
    own: Vec<Said<'t>>,
    shared: Vec<Said<'t>>,
    /// The corner radius that the present row has beside its diameter, mm; of which cell, and what is
    /// said of it.
    radius: Option<(f64, usize, Fault)>,
    written: Vec<WrittenRow>,
}

impl<'f, 't> FillingChunk<'f, 't> {
    fn new(reading: &'f Reading, open: Open) -> FillingChunk<'f, 't> {
        FillingChunk {
            reading,
            open,
            chunk: Chunk::new(
                Arc::clone(&reading.source),
                reading.delimiter,
                Arc::clone(&reading.headed),
            ),
            places: Vec::new(),
            faults: Vec::new(),
            ragged: false,
            seen: Seen::default(),
            own: Vec::new(),
            shared: Vec::new(),
            radius: None,
            written: Vec::new(),
        }
    }

    fn row(&mut self, row: &Row<'t>) {
        self.ragged |= row.ragged;
        if self.reading.keeps {
            let open = |cell: &Cell<'_>, settled: &Settled| {
                self.reading.open_marks(cell, settled, self.open)
            };
            let written = as_written::row(row, &self.reading.settled, open);
            self.written.push(written);
        }
        let before = self.faults.len();
        self.chunk.open();
        self.places.push((row.place, row.end));
        for (at, cell) in row.cells.iter().enumerate() {
            if let Some(Some(settled)) = self.reading.settled.get(cell.column) {
                self.cell(row, (at, cell), settled);
            }
        }
        if self.reading.doubled {
            self.settle(row);
        } else {
            // Stated for one record outranks stated for all.
            let shared = std::mem::take(&mut self.shared);
            for one in &shared {
                self.state(one, row);
            }
            self.shared = shared;
            self.shared.clear();
        }
        if let Some((radius, cell, fault)) = self.radius.take()
            && !self.chunk.has(Field::CornerRadius)
        {
            let field = Field::CornerRadius;
            let value = Stated::Number(radius);
            self.state(&Said { field, value, cell }, row);
            self.faults.push(fault);
        }
        if self.reading.kind == Kind::Assembly && self.faults.len() > before {
            self.belong(before);
        }
    }

    /// Reads a cell of a row.
    fn cell(&mut self, row: &Row<'t>, (at, cell): (usize, &Cell<'t>), settled: &Settled) {
        let property = settled.property;
        if row.ragged && !settled.is_name() {
            if settled.is_number {
                self.seen.look(&cell.text, property.value);
            }
            return;
        }
        if cell.unit.is_some() {
            self.faults.extend(cell::stray_unit(cell, property));
        }
        // Most tables are no sheets, and a fault is large.
        let open = if self.reading.manner.in_sheet {
            match self.reading.open_marks(cell, settled, self.open) {
                Ok(open) => open,
                Err(fault) => return self.faults.push(fault),
            }
        } else {
            self.open
        };
        let value = match cell::read(cell, settled, (&mut self.seen, open)) {
            Ok(value) => value,
            Err(fault) => return self.faults.push(fault),
        };
        if property.field == Field::CuttingDiameter
            && cell.text.contains(['R', 'r'])
            && let Some((radius, fault)) = two_sizes::radius_beside(cell, settled)
        {
            self.radius = Some((radius, at, fault));
        }
        if !settled.is_shared && !self.reading.doubled {
            for field in &settled.fields {
                self.chunk.set(*field, &value, cell.column, cell.place.span);
            }
            return;
        }
        let said = |field: &Field| Said {
            field: *field,
            value: value.clone(),
            cell: at,
        };
        let fields = settled.fields.iter();
        if settled.is_shared {
            self.shared.extend(fields.map(said));
        } else {
            self.own.extend(fields.map(said));
        }
    }

    /// States a field, unless it is stated already.
    fn state(&mut self, said: &Said<'t>, row: &Row<'t>) {
        if let Some(cell) = row.cells.get(said.cell)
            && !self.chunk.has(said.field)
        {
            let span = cell.place.span;
            self.chunk.set(said.field, &said.value, cell.column, span);
        }
    }

    /// What one record states two ways is not known, and what is stated for all is no answer. Of
    /// two that agree the first counts.
    fn settle(&mut self, row: &Row<'t>) {
        let (mut own, mut shared) = (
            std::mem::take(&mut self.own),
            std::mem::take(&mut self.shared),
        );
        let two_ways = twice::settle(&mut own, &row.cells, &mut self.faults);
        let of_all = twice::settle(&mut shared, &row.cells, &mut self.faults);
        shared.retain(|one| !of_all.contains(&one.field));
        for one in own.iter().chain(&shared) {
            if !two_ways.contains(&one.field) {
                self.state(one, row);
            }
        }
        own.clear();
        shared.clear();
        (self.own, self.shared) = (own, shared);
    }

    /// Says of the last record's faults whose they are.
    fn belong(&mut self, before: usize) {
        let own = self.faults.get_mut(before..).unwrap_or_default();
        let Some(row) = self.places.len().checked_sub(1) else {
            return;
        };
        for fault in own {
            fault.of = Some(row);
        }
    }

    /// What was read, `rows` with it.
    fn read(mut self, rows: Vec<Fault>) -> Read {
        self.chunk.shrink();
        let chunk = Arc::new(self.chunk);
        let kind = self.reading.kind;
        let records = self.places.iter().zip(0..);
        let kept = |all: Vec<Fault>| {
            let mut faults = Faults::of(&self.reading.sources);
            faults.extend(all);
            faults
        };
        Read {
            records: records
                .map(|(place, row)| Record::new(kind, *place, Arc::clone(&chunk), row))
                .collect(),
            faults: (kept(rows), kept(self.faults)),
            ragged: self.ragged,
            seen: self.seen,
            written: self.written,
            blank: BlankRows::default(),
        }
    }
}
