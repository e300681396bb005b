//! Facts that were computed before. A scene is made for every stick-out that is tried, and few of
//! its facts are asked for: so it keeps only those, and its making costs next to nothing.

use std::cell::{Cell, RefCell};

use crate::library::{Datum, Reckoned};

use super::registry::Fact;

/// What is known of each fact, by its number.
pub(super) struct Memo<'a> {
    /// Where the value of a fact is, counted from 1; 0 where it was not computed.
    at: [Cell<u16>; Fact::COUNT],
    values: RefCell<Vec<Reckoned<Datum<'a>>>>,
}

impl<'a> Memo<'a> {
    pub(super) fn new() -> Memo<'a> {
        Memo {
            at: [const { Cell::new(0) }; Fact::COUNT],
            values: RefCell::new(Vec::new()),
        }
    }

    pub(super) fn get(&self, fact: Fact) -> Option<Reckoned<Datum<'a>>> {
        let at = usize::from(self.at.get(fact as usize)?.get());
        self.values.borrow().get(at.checked_sub(1)?).copied()
    }

    pub(super) fn set(&self, fact: Fact, found: Reckoned<Datum<'a>>) {
        let mut values = self.values.borrow_mut();
        values.push(found);
        let at = u16::try_from(values.len());
        if let (Ok(at), Some(own)) = (at, self.at.get(fact as usize)) {
            own.set(at);
        }
    }
}
