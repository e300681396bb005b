//! An assembly: its row, the parts that it names, and what jobs ask of it.

use std::ops::Deref;

use super::{Field, Kind, Record};

/// One assembly: its row and its links.
#[derive(Debug)]
pub struct Assembly {
    /// Its row, which may also describe its parts and one operation.
    pub record: Record,
    pub(super) parts: Parts,
    /// What jobs ask of it.
    pub operations: Operations,
}

/// Which cutter, collet, nut and holder.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Parts([Link; Kind::PARTS.len()]);

/// Where a part is described.
#[derive(Clone, Copy, Debug, Default)]
enum Link {
    /// No part is named.
    #[default]
    None,
    /// In this record of its kind.
    To(u32),
    /// Nowhere, though it is named: nothing of it may be taken for granted.
    Lost,
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
    Listed(Vec<OperationRef>),
}

impl Parts {
    fn slot(&mut self, kind: Kind) -> Option<&mut Link> {
        let at = Kind::PARTS.iter().position(|part| *part == kind)?;
        self.0.get_mut(at)
    }

    fn get(&self, kind: Kind) -> Link {
        let at = Kind::PARTS.iter().position(|part| *part == kind);
        at.and_then(|at| self.0.get(at).copied())
            .unwrap_or_default()
    }

    /// Links the part of a kind to its record.
    pub(super) fn link(&mut self, kind: Kind, record: usize) {
        if let (Some(slot), Ok(record)) = (self.slot(kind), u32::try_from(record)) {
            *slot = Link::To(record);
        }
    }

    /// Says that the part of a kind is named and nowhere described.
    pub(super) fn lose(&mut self, kind: Kind) {
        if let Some(slot) = self.slot(kind) {
            *slot = Link::Lost;
        }
    }
}

impl Operations {
    /// Adds one.
    pub(super) fn push(&mut self, operation: OperationRef) {
        if let Operations::Own(_) = self {
            *self = Operations::Listed(self.to_vec());
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
        match self.parts.get(kind) {
            Link::To(record) => Some(record as usize),
            Link::None | Link::Lost => None,
        }
    }

    /// Whether its part of a kind is named and nowhere described.
    #[must_use]
    pub fn is_unresolved(&self, kind: Kind) -> bool {
        matches!(self.parts.get(kind), Link::Lost)
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
