//! What is taken for granted of a value that no record states and that is no single number: a
//! range, whose ends are limits of `rules/tables/limits.toml`.
//!
//! Nobody knows how far behind its face a nut holds the collet, or how much clearance a job
//! keeps. Zero would be a statement. So a rule is asked at both ends of such a range: what comes
//! out the same at both stands, and what does not waits for the value.

use super::{Field, NutStyle, Provenance, View};

/// The properties that are a range where nothing states them.
pub const RANGED: [Field; 3] = [
    Field::FaceSetback,
    Field::HolderBoreRecess,
    Field::Clearance,
];

/// Which end of every range is looked at.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Corner {
    /// None: the value is marked as a range.
    #[default]
    Open,
    /// For each of [`RANGED`], whether it is at its upper end.
    At([bool; RANGED.len()]),
}

impl Corner {
    /// How many corners all ranges together have.
    pub const COUNT: usize = 1 << RANGED.len();

    /// Numbers of the corners of some of the ranges alone, all others at their lower end.
    pub fn over(is_one: impl Fn(Field) -> bool) -> impl Iterator<Item = usize> {
        let bits = RANGED.into_iter().enumerate();
        let bits = bits.filter(|(_, field)| is_one(*field));
        let mask = bits.fold(0, |mask, (at, _)| mask | 1 << at);
        (0..Corner::COUNT).filter(move |number| number & !mask == 0)
    }

    /// The corner of a number below [`Corner::COUNT`].
    #[must_use]
    pub fn numbered(number: usize) -> Corner {
        Corner::At(std::array::from_fn(|at| number & (1 << at) != 0))
    }
}

/// The ends of the ranges, mm; all 0 until the rules say otherwise.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Ranges {
    /// A collet behind the face of a standard nut.
    standard: (f64, f64),
    /// The same of a sealing or bearing nut.
    sealing: (f64, f64),
    /// Where a chuck's own bore begins to grip.
    chuck: (f64, f64),
    /// Clearance of a job.
    clearance: (f64, f64),
}

/// What a view takes for granted of what nobody states.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Unstated {
    /// The ranges.
    pub ranges: Ranges,
    /// Which end of them is looked at.
    pub corner: Corner,
}

impl Ranges {
    /// The ranges by a function that knows each limit, mm.
    #[must_use]
    pub fn new(limit: impl Fn(&str) -> f64) -> Ranges {
        // A shop may have set one end beyond the other.
        let range = |low: f64, high: &str| {
            let high = limit(high);
            (low.min(high), high.max(low))
        };
        let proud = limit("face_setback_low");
        Ranges {
            standard: range(proud, "face_setback_high"),
            sealing: range(proud, "face_setback_sealing_high"),
            chuck: range(0.0, "chuck_recess_high"),
            clearance: range(0.0, "clearance_high"),
        }
    }

    /// The range of a property that a view does not state, mm; `None` if it has none.
    #[must_use]
    pub fn of<P: Provenance>(&self, view: &View<'_, P>, field: Field) -> Option<(f64, f64)> {
        match field {
            Field::FaceSetback => {
                let style = view.listed::<NutStyle>().value;
                let deep = matches!(style, Some(NutStyle::Sealing | NutStyle::Bearing));
                Some(if deep { self.sealing } else { self.standard })
            }
            Field::HolderBoreRecess => Some(self.chuck),
            Field::Clearance => Some(self.clearance),
            _ => None,
        }
    }
}

impl<P: Provenance> View<'_, P> {
    /// The range that stands for a property here, mm: `None` where it is stated, where the shop
    /// has a value of its own, or where it has no range.
    #[must_use]
    pub fn range(&self, field: Field) -> Option<(f64, f64)> {
        let open = self.at(Corner::Open);
        let ranged = open.datum(field).trace.ranges_over(field);
        ranged
            .then(|| self.unstated.ranges.of(self, field))
            .flatten()
    }

    /// The same view at another corner of the ranges.
    #[must_use]
    pub fn at(&self, corner: Corner) -> Self {
        let unstated = Unstated {
            corner,
            ..self.unstated
        };
        View { unstated, ..*self }
    }

    /// The end of a range that this view looks at, mm; where it looks at none, what in it is
    /// nearest to 0.
    pub(super) fn end_of(&self, field: Field, (low, high): (f64, f64)) -> f64 {
        let at = RANGED.iter().position(|ranged| *ranged == field);
        match (self.unstated.corner, at) {
            (Corner::At(ends), Some(at)) if ends.get(at) == Some(&true) => high,
            (Corner::At(_), Some(_)) => low,
            _ => 0.0_f64.clamp(low, high),
        }
    }
}
