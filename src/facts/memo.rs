//! What was worked out before. A scene is made for every stick-out that is tried, and few of its
//! facts and fields are asked for: so it keeps only those, and its making costs next to nothing.

use std::cell::{Cell, RefCell};

use crate::library::{Datum, Field, Provenance, Reckoned};

use super::registry::Fact;

/// What a scene is asked for.
#[derive(Clone, Copy)]
pub(super) enum Key {
    Fact(Fact),
    Field(Field),
}

impl Key {
    const COUNT: usize = Fact::COUNT + Field::COUNT;

    const fn number(self) -> usize {
        match self {
            Key::Fact(fact) => fact as usize,
            Key::Field(field) => Fact::COUNT + field as usize,
        }
    }
}

/// What is known of each fact and field.
pub(super) struct Memo<'a, P> {
    /// Where its value is, counted from 1; 0 where it was not worked out.
    at: [Cell<u16>; Key::COUNT],
    values: RefCell<Vec<Reckoned<Datum<'a>, P>>>,
}

impl<'a, P: Provenance> Memo<'a, P> {
    pub(super) fn new() -> Memo<'a, P> {
        Memo {
            at: [const { Cell::new(0) }; Key::COUNT],
            values: RefCell::new(Vec::new()),
        }
    }

    pub(super) fn get(&self, key: Key) -> Option<Reckoned<Datum<'a>, P>> {
        let at = usize::from(self.at.get(key.number())?.get());
        self.values.borrow().get(at.checked_sub(1)?).copied()
    }

    pub(super) fn set(&self, key: Key, found: Reckoned<Datum<'a>, P>) {
        let mut values = self.values.borrow_mut();
        values.push(found);
        let at = u16::try_from(values.len());
        if let (Ok(at), Some(own)) = (at, self.at.get(key.number())) {
            own.set(at);
        }
    }
}
