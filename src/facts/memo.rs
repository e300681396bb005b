//! What was worked out before. A scene is made for every stick-out that is tried, and few of its
//! facts and fields are asked for: so it keeps only those, and its making costs next to nothing.

use crate::units::Scalar;
use std::cell::{Cell, RefCell};

use crate::library::{Provenance, Reckoned};

use super::name::NameId;

/// Set where a value came from reading how far the tool sticks out.
const MOVED: u16 = 1 << 15;

/// What is known of each fact and field.
pub(super) struct Memo<'a, P> {
    /// Where its value is, counted from 1, with [`MOVED`]; 0 where it was not worked out.
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

    /// A value worked out before; `moved` is set where it was moved by the stick-out.
    fn get(&self, key: NameId, moved: Option<&Cell<bool>>) -> Option<Reckoned<Scalar<&'a str>, P>> {
        let at = self.at.get(key.number())?.get();
        let number = usize::from(at & !MOVED).checked_sub(1)?;
        if let Some(moved) = moved.filter(|_| at & MOVED != 0) {
            moved.set(true);
        }
        self.values.borrow().get(number).copied()
    }

    fn set(&self, key: NameId, found: Reckoned<Scalar<&'a str>, P>, moved: bool) {
        let mut values = self.values.borrow_mut();
        values.push(found);
        let at = u16::try_from(values.len());
        if let (Ok(at), Some(own)) = (at, self.at.get(key.number())) {
            own.set(if moved { at | MOVED } else { at });
        }
    }

    /// A value, worked out if it was not before. `moved` is set, and stays so, where working it
    /// out read how far the tool sticks out.
    pub(super) fn recall(
        &self,
        key: NameId,
        moved: Option<&Cell<bool>>,
        reckon: impl FnOnce() -> Reckoned<Scalar<&'a str>, P>,
    ) -> Reckoned<Scalar<&'a str>, P> {
        if let Some(known) = self.get(key, moved) {
            return known;
        }
        let before = moved.is_some_and(|moved| moved.replace(false));
        let found = reckon();
        let own = moved.is_some_and(Cell::get);
        if let Some(moved) = moved {
            moved.set(before || own);
        }
        self.set(key, found, own);
        found
    }
}
