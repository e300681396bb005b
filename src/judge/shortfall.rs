//! What a finding measures: how much there is, how much is wanted, and whether that has become
//! better or worse since another day.

use crate::rulebook::{Compared, Comparison};
use crate::units::Unit;

/// On which side of the value that is wanted a rule is met.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wanted {
    /// As much, or more.
    AtLeast,
    /// As much, or less.
    AtMost,
    /// Just as much.
    Equal,
    /// Anything else.
    Other,
}

impl Wanted {
    /// All of them.
    pub const ALL: [Wanted; 4] = [
        Wanted::AtLeast,
        Wanted::AtMost,
        Wanted::Equal,
        Wanted::Other,
    ];

    /// Its name in data.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Wanted::AtLeast => "at least",
            Wanted::AtMost => "at most",
            Wanted::Equal => "equal",
            Wanted::Other => "other than",
        }
    }
}

/// How much there is of what a rule compares, and how much it wants.
#[derive(Clone, Debug, PartialEq)]
pub struct Shortfall {
    /// What is compared, as the rule writes it: `gripped_length`.
    pub what: String,
    /// How much there is, in `unit`.
    pub value: f64,
    /// How much is wanted, in `unit`.
    pub needed: f64,
    /// The unit of both.
    pub unit: Unit,
    /// On which side of `needed` the rule is met.
    pub wanted: Wanted,
}

/// What became of a value.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Trend {
    /// It is nearer to what is wanted.
    Better,
    /// It is as it was.
    Same,
    /// It is further away, in itself or as a part of what is wanted.
    Worse,
}

/// Values that differ by no more than this part of them count as the same: they have been
/// written with nine digits.
const SAME: f64 = 1e-8;

impl Shortfall {
    /// Of a comparison that a rule makes: the left side is measured against the right one.
    pub(super) fn of(compared: &Compared) -> Shortfall {
        let [what, _] = &compared.sides;
        let [value, needed] = compared.values;
        Shortfall {
            what: what.clone(),
            value,
            needed,
            unit: compared.unit,
            wanted: match compared.comparison {
                Comparison::Greater | Comparison::GreaterOrEqual => Wanted::AtLeast,
                Comparison::Less | Comparison::LessOrEqual => Wanted::AtMost,
                Comparison::Equal => Wanted::Equal,
                Comparison::NotEqual => Wanted::Other,
            },
        }
    }

    /// What became of it since `(value, needed)`: worse if the value is worse, or what it is of
    /// the needed.
    ///
    /// 18 mm of 24 mm is worse than 20 mm of 24 mm, and so is 20 mm of 30 mm.
    #[must_use]
    pub fn since(&self, (value, needed): (f64, f64)) -> Trend {
        let own = self.wanted.trend(value, self.value, needed);
        let part = |value: f64, needed: f64| match self.wanted {
            Wanted::AtLeast | Wanted::AtMost if needed > 0.0 => value / needed,
            Wanted::AtLeast | Wanted::AtMost => value - needed,
            Wanted::Equal | Wanted::Other => (value - needed).abs(),
        };
        let (before, now) = (part(value, needed), part(self.value, self.needed));
        let part = match self.wanted {
            Wanted::Equal => Wanted::AtMost.trend(before, now, 0.0),
            Wanted::Other => Wanted::AtLeast.trend(before, now, 0.0),
            wanted => wanted.trend(before, now, 0.0),
        };
        match (own, part) {
            (Trend::Worse, _) | (_, Trend::Worse) => Trend::Worse,
            (Trend::Better, _) | (_, Trend::Better) => Trend::Better,
            _ => Trend::Same,
        }
    }
}

impl Wanted {
    fn trend(self, before: f64, now: f64, needed: f64) -> Trend {
        if (now - before).abs() <= SAME * now.abs().max(before.abs()) {
            return Trend::Same;
        }
        let is_better = match self {
            Wanted::AtLeast => now > before,
            Wanted::AtMost => now < before,
            Wanted::Equal => (now - needed).abs() < (before - needed).abs(),
            Wanted::Other => (now - needed).abs() > (before - needed).abs(),
        };
        if is_better {
            Trend::Better
        } else {
            Trend::Worse
        }
    }
}
