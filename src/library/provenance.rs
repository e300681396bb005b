//! What a value rests on, in as much detail as whoever asks needs.
//!
//! Most rules do not apply to a tool, or are met, and nobody asks why: for these it is enough to
//! know whether anything is missing, guessed or a range ([`Marks`], one byte). What is found is
//! asked again in full ([`Trace`]). Each formula is written once, for both.

use std::fmt::Debug;

use super::{Field, FieldSet, PROPERTIES, RANGED, Setting, SettingSet, Trace};

/// What a value rests on.
pub trait Provenance: Copy + Debug + Default + PartialEq + 'static {
    /// Resting on one stated field.
    fn used(field: Field) -> Self;
    /// Resting on one field that is assumed.
    fn assumed(field: Field) -> Self;
    /// Lacking one field.
    fn missing(field: Field) -> Self;
    /// Resting on one field that is a range: this is the value at one place in it.
    fn ranged(field: Field) -> Self;
    /// Resting on one setting.
    fn setting(setting: Setting) -> Self;
    /// Resting on both.
    #[must_use]
    fn union(self, other: Self) -> Self;
    /// Resting only on whether something is there, not on its value.
    #[must_use]
    fn presence(self) -> Self;
    /// The same, though nothing is missing.
    #[must_use]
    fn lacking_nothing(self) -> Self;
    /// The same, though it rests on no absence.
    #[must_use]
    fn absent_nothing(self) -> Self;
    /// The same, though no value in it is a range.
    #[must_use]
    fn ranging_over_nothing(self) -> Self;
    /// Whether anything is missing.
    fn lacks(self) -> bool;
    /// Whether it rests on a range, and which of [`RANGED`]: bit 0 is the first.
    fn ranges(self) -> u8;
    /// Whether a starred field in it is only assumed.
    fn rests_on_assumed_star(self) -> bool;

    /// Whether a field in it is a range.
    fn ranges_over(self, field: Field) -> bool {
        self.ranges() & range_bit(field) != 0
    }
}

/// The starred fields.
const STARRED: FieldSet = {
    let mut set = FieldSet::NONE;
    let mut at = 0;
    while at < PROPERTIES.len() {
        #[expect(clippy::indexing_slicing, reason = "worked out by the compiler")]
        let property = &PROPERTIES[at];
        if property.starred {
            set = set.union(FieldSet::of(property.field));
        }
        at += 1;
    }
    set
};

/// Its bit in [`Provenance::ranges`]; 0 for a field that has no range.
fn range_bit(field: Field) -> u8 {
    let at = RANGED.iter().position(|ranged| *ranged == field);
    at.map_or(0, |at| 1 << at)
}

impl Provenance for Trace {
    fn used(field: Field) -> Trace {
        Trace {
            used: FieldSet::of(field),
            ..Trace::default()
        }
    }

    fn assumed(field: Field) -> Trace {
        Trace {
            assumed: FieldSet::of(field),
            ..Trace::used(field)
        }
    }

    fn missing(field: Field) -> Trace {
        Trace {
            missing: FieldSet::of(field),
            ..Trace::default()
        }
    }

    fn ranged(field: Field) -> Trace {
        Trace {
            ranged: FieldSet::of(field),
            ..Trace::default()
        }
    }

    fn setting(setting: Setting) -> Trace {
        Trace {
            settings: SettingSet::of(setting),
            ..Trace::default()
        }
    }

    fn union(self, other: Trace) -> Trace {
        Trace {
            used: self.used.union(other.used),
            assumed: self.assumed.union(other.assumed),
            missing: self.missing.union(other.missing),
            absent: self.absent.union(other.absent),
            ranged: self.ranged.union(other.ranged),
            settings: self.settings.union(other.settings),
        }
    }

    fn presence(self) -> Trace {
        Trace {
            used: self.used,
            absent: self.absent.union(self.missing),
            settings: self.settings,
            ..Trace::default()
        }
    }

    fn lacking_nothing(self) -> Trace {
        Trace {
            missing: FieldSet::NONE,
            ..self
        }
    }

    fn absent_nothing(self) -> Trace {
        Trace {
            absent: FieldSet::NONE,
            ..self
        }
    }

    fn ranging_over_nothing(self) -> Trace {
        Trace {
            ranged: FieldSet::NONE,
            ..self
        }
    }

    fn lacks(self) -> bool {
        !self.missing.is_empty()
    }

    fn ranges(self) -> u8 {
        let ranged = RANGED.iter().filter(|field| self.ranged.contains(**field));
        ranged.fold(0, |bits, field| bits | range_bit(*field))
    }

    fn rests_on_assumed_star(self) -> bool {
        !self.assumed.common(STARRED).is_empty()
    }
}

/// What decides how a rule comes out, and no more.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Marks(u8);

impl Marks {
    /// The lowest bits tell the ranges.
    const RANGES: u8 = (1 << RANGED.len()) - 1;
    const LACKS: u8 = 1 << 6;
    const STAR: u8 = 1 << 7;
}

impl Provenance for Marks {
    fn used(_: Field) -> Marks {
        Marks(0)
    }

    fn assumed(field: Field) -> Marks {
        Marks(if STARRED.contains(field) {
            Marks::STAR
        } else {
            0
        })
    }

    fn missing(_: Field) -> Marks {
        Marks(Marks::LACKS)
    }

    fn ranged(field: Field) -> Marks {
        Marks(range_bit(field))
    }

    fn setting(_: Setting) -> Marks {
        Marks(0)
    }

    fn union(self, other: Marks) -> Marks {
        Marks(self.0 | other.0)
    }

    fn presence(self) -> Marks {
        Marks(0)
    }

    fn lacking_nothing(self) -> Marks {
        Marks(self.0 & !Marks::LACKS)
    }

    fn absent_nothing(self) -> Marks {
        self
    }

    fn ranging_over_nothing(self) -> Marks {
        Marks(self.0 & !Marks::RANGES)
    }

    fn lacks(self) -> bool {
        self.0 & Marks::LACKS != 0
    }

    fn ranges(self) -> u8 {
        self.0 & Marks::RANGES
    }

    fn rests_on_assumed_star(self) -> bool {
        self.0 & Marks::STAR != 0
    }
}
