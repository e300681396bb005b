//! Rows become records: their cells fill the columns of a chunk.

use std::sync::Arc;

use crate::input::csv::BlankRows;
use crate::input::{Cell, Fault, Faults, Row};
use crate::units::Scalar;

use super::super::as_written::{self, WrittenRow};
use super::super::cell::{self, Settled};
use super::super::chunk::{Chunk, Stated};
use super::super::decimal_marks::{Open, Seen};
use super::super::twice::{self, Said};
use super::super::two_sizes;
use super::super::{Field, Kind, Record};
use super::{Read, Reading};

/// A chunk that fills.
pub(super) struct FillingChunk<'f, 't> {
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
    pub(super) fn new(reading: &'f Reading, open: Open) -> FillingChunk<'f, 't> {
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

    pub(super) fn row(&mut self, row: &Row<'t>) {
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
        if let Some((radius, cell, fault)) = self.radius.take() {
            self.corner_radius((radius, cell), fault, row);
        }
        if self.reading.kind == Kind::Assembly && self.faults.len() > before {
            self.belong(before);
        }
    }

    /// States the corner radius that stands beside a diameter, and says so. Where a column of its own
    /// states one, both must agree.
    fn corner_radius(&mut self, (radius, cell): (f64, usize), fault: Fault, row: &Row<'t>) {
        let field = Field::CornerRadius;
        let said = |radius, cell| Said {
            field,
            value: Stated::Number(radius),
            cell,
        };
        let Some(own) = self.chunk.last(field).and_then(Scalar::number) else {
            self.state(&said(radius, cell), row);
            self.faults.push(fault);
            return;
        };
        let is_own = |cell: &Cell<'_>| {
            let settled = self.reading.settled.get(cell.column);
            settled.is_some_and(|settled| {
                settled
                    .as_ref()
                    .is_some_and(|one| one.fields.contains(&field))
            })
        };
        if let Some(column) = row.cells.iter().position(is_own) {
            let mut both = [said(own, column), said(radius, cell)];
            let two_ways = twice::settle(&mut both, &row.cells, &mut self.faults);
            if !two_ways.is_empty() {
                self.chunk.forget(field);
            }
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
            && self.chunk.last(said.field).is_none()
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
    pub(super) fn read(mut self, rows: Vec<Fault>) -> Read {
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
