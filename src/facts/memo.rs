//! What was worked out before. A scene is made for every stick-out that is tried, and few of its
//! facts and fields are asked for: so it keeps only those, and its making costs next to nothing.

use crate::units::Scalar;
use std::cell::{Cell, RefCell};

use crate::library::{Provenance, Reckoned};

use super::name::NameId;

/// Set where a value came from reading what is watched for.
const SEEN: u16 = 1 << 15;

/// What is known of each fact and field.
pub(super) struct Memo<'a, P> {
    /// Where its value is, counted from 1, with [`SEEN`]; 0 where it was not worked out.
    at: [Cell<u16>; NameId::COUNT],
    values: RefCell<Vec<Reckoned<Scalar<&'a str>, P>>>,
}

impl<'a, P: Provenance> Memo<'a, P> {
    pub(super) fn new() -> Memo<'a, P> {
        Memo {
            at: [const { Cell::new(0) }; NameId::COUNT],
            values: RefCell::new(Vec::new()),
        }
    }

    /// A value worked out before; `seen` is set where what is watched for was read for it.
    fn get(&self, key: NameId, seen: Option<&Cell<bool>>) -> Option<Reckoned<Scalar<&'a str>, P>> {
        let at = self.at.get(key.number())?.get();
        let number = usize::from(at & !SEEN).checked_sub(1)?;
        if let Some(seen) = seen.filter(|_| at & SEEN != 0) {
            seen.set(true);
        }
        self.values.borrow().get(number).copied()
    }

    fn set(&self, key: NameId, found: Reckoned<Scalar<&'a str>, P>, seen: bool) {
        let mut values = self.values.borrow_mut();
        values.push(found);
        let at = u16::try_from(values.len());
        if let (Ok(at), Some(own)) = (at, self.at.get(key.number())) {
            own.set(if seen { at | SEEN } else { at });
        }
    }

    /// A value, worked out if it was not before. `seen` is set, and stays so, where working it
    /// out read what is watched for.
    pub(super) fn recall(
        &self,
        key: NameId,
        seen: Option<&Cell<bool>>,
        reckon: impl FnOnce() -> Reckoned<Scalar<&'a str>, P>,
    ) -> Reckoned<Scalar<&'a str>, P> {
        if let Some(known) = self.get(key, seen) {
            return known;
        }
        let before = seen.is_some_and(|seen| seen.replace(false));
        let found = reckon();
        let own = seen.is_some_and(Cell::get);
        if let Some(seen) = seen {
            seen.set(before || own);
        }
        self.set(key, found, own);
        found
    }
}
