//! An assembly: its row, the parts that it names, and what jobs ask of it.

use std::ops::Deref;

use super::{Field, Kind, Record};

/// One assembly: its row and its links.
#[derive(Debug)]
pub struct Assembly {
    /// Its row, which may also describe its parts and one operation.
    pub record: Record,
    pub(super) parts: Parts,
    /// What a document of assets beside its table says of it.
    pub(super) asset: Option<Box<Record>>,
    /// What jobs ask of it.
    pub operations: Operations,
}

/// Which cutter, collet, nut and holder: for each the number of its record, or one of two that no
/// record has. A million assemblies have four million of them.
#[derive(Clone, Copy, Debug)]
pub(super) struct Parts([u32; Kind::PARTS.len()]);

/// No part is named.
const NONE: u32 = u32::MAX;
/// A part is named and nowhere described: nothing of it may be taken for granted.
const LOST: u32 = u32::MAX - 1;

impl Default for Parts {
    fn default() -> Parts {
        Parts([NONE; Kind::PARTS.len()])
    }
}

/// Where an operation is described.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OperationRef {
    /// In the assembly's own row.
    OwnRow,
    /// In this record of the operations.
    Record(usize),
}

/// The operations of an assembly, as a list: mostly none, or the one of its own row.
#[derive(Clone, Debug)]
pub enum Operations {
    /// None, or that of its own row.
    Own(bool),
    /// These.
    Listed(Box<Vec<OperationRef>>),
}

impl Parts {
    fn get(&self, kind: Kind) -> u32 {
        let at = Kind::PARTS.iter().position(|part| *part == kind);
        at.and_then(|at| self.0.get(at).copied()).unwrap_or(NONE)
    }

    fn set(&mut self, kind: Kind, link: u32) {
        let at = Kind::PARTS.iter().position(|part| *part == kind);
        if let Some(slot) = at.and_then(|at| self.0.get_mut(at)) {
            *slot = link;
        }
    }

    /// Links the part of a kind to its record.
    pub(super) fn link(&mut self, kind: Kind, record: usize) {
        let record = u32::try_from(record).ok().filter(|record| *record < LOST);
        self.set(kind, record.unwrap_or(NONE));
    }

    /// Says that the part of a kind is named and nowhere described.
    pub(super) fn lose(&mut self, kind: Kind) {
        self.set(kind, LOST);
    }
}

impl Operations {
    /// Adds one.
    pub(super) fn push(&mut self, operation: OperationRef) {
        if let Operations::Own(_) = self {
            *self = Operations::Listed(Box::new(self.to_vec()));
        }
        if let Operations::Listed(all) = self {
            all.push(operation);
        }
    }
}

impl Deref for Operations {
    type Target = [OperationRef];
    fn deref(&self) -> &[OperationRef] {
        match self {
            Operations::Own(false) => &[],
            Operations::Own(true) => &[OperationRef::OwnRow],
            Operations::Listed(all) => all,
        }
    }
}

impl<'a> IntoIterator for &'a Operations {
    type Item = &'a OperationRef;
    type IntoIter = std::slice::Iter<'a, OperationRef>;
    fn into_iter(self) -> Self::IntoIter {
        self.iter()
    }
}

impl Assembly {
    /// Index of its part of a kind among the records of that kind.
    #[must_use]
    pub fn part(&self, kind: Kind) -> Option<usize> {
        let record = self.parts.get(kind);
        (record < LOST).then_some(record as usize)
    }

    /// Whether its part of a kind is named and nowhere described.
    #[must_use]
    pub fn is_unresolved(&self, kind: Kind) -> bool {
        self.parts.get(kind) == LOST
    }

    /// The number that the program calls, if it is given.
    #[must_use]
    pub fn tool_number(&self) -> Option<&str> {
        self.record.text(Field::ToolNumber)
    }

    /// Its id: the one given, else the tool number.
    #[must_use]
    pub fn id(&self) -> Option<&str> {
        self.record
            .text(Field::Assembly)
            .or_else(|| self.tool_number())
    }
}
