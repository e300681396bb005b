//! The assembly as it is, as far as other parts must suit it.

use crate::facts::Scene;
use crate::library::{Field, Kind, Thread};

use super::crib::{Part, SAME, near};

/// The largest collapse of a collet that any size is made for, mm: only to sort out bores that
/// cannot fit; what fits is judged by the rules.
const COLLAPSE: f64 = 2.0;

/// Parts that would take the place of the present ones.
pub(super) type Exchange<'c, 'a> = Vec<&'c Part<'a>>;

/// What the choice depends on, of the assembly as it is.
pub(super) struct Present<'s, 'v> {
    pub base: &'s Scene<'v>,
    pub shank: Option<f64>,
    pub bore: Option<f64>,
    pub held: bool,
    ids: [Option<&'v str>; Kind::PARTS.len()],
}

impl<'s, 'v> Present<'s, 'v> {
    pub(super) fn of(base: &'s Scene<'v>) -> Present<'s, 'v> {
        let id = |kind| base.view.part(kind)?.text(Field::id_of(kind)?);
        Present {
            base,
            shank: base.field(Field::ShankDiameter).value,
            bore: base.field(Field::BoreDiameter).value,
            held: base.view.held_in_collet().value == Some(true),
            ids: Kind::PARTS.map(id),
        }
    }

    pub(super) fn number(&self, field: Field) -> Option<f64> {
        self.base.field(field).value
    }

    pub(super) fn word(&self, field: Field) -> Option<&str> {
        self.base.view.word(field).value
    }

    pub(super) fn thread(&self, field: Field) -> Option<&Thread> {
        self.base.view.thread(field).value
    }

    pub(super) fn is(&self, part: &Part<'_>) -> bool {
        let mut own = Kind::PARTS.iter().zip(self.ids);
        own.any(|(kind, id)| *kind == part.kind && id == Some(part.id))
    }

    /// The first of equal parts that is not the present one.
    pub(super) fn other<'c, 'a>(&self, alike: &'c [Part<'a>]) -> Option<&'c Part<'a>> {
        alike.iter().find(|part| !self.is(part))
    }
}

/// Whether both are known and one.
pub(super) fn same(a: Option<f64>, b: Option<f64>) -> bool {
    a.zip(b).is_some_and(|(a, b)| near(a, b))
}

/// Whether a bore may take a shank.
pub(super) fn takes(bore: Option<f64>, shank: Option<f64>) -> bool {
    bore.zip(shank)
        .is_some_and(|(bore, shank)| shank <= bore + SAME && bore - shank <= COLLAPSE)
}

/// Whether two threads are one; one that is not stated may be any.
pub(super) fn agree(a: Option<&Thread>, b: Option<&Thread>) -> bool {
    a.zip(b).is_none_or(|(a, b)| a == b)
}
