//! The closed list of canonical units: what is stored, computed with, and written to JSON.

use super::Dimension;

/// A canonical unit. The list is closed: it is part of the JSON format.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Unit {
    /// Millimetre.
    Mm,
    /// Ratio or count.
    One,
    /// Newton.
    N,
    /// Newton metre.
    Nm,
    /// Megapascal, N/mm².
    MPa,
    /// Newton per millimetre.
    NPerMm,
    /// Hertz.
    Hz,
    /// Degree of angle.
    Deg,
    /// Revolutions per minute.
    PerMin,
    /// Metre per minute.
    MPerMin,
    /// Kilowatt.
    KW,
    /// Kilogram.
    Kg,
    /// Gram millimetre, unbalance.
    GMm,
}

impl Unit {
    /// All of them.
    pub const ALL: [Unit; 13] = [
        Unit::Mm,
        Unit::One,
        Unit::N,
        Unit::Nm,
        Unit::MPa,
        Unit::NPerMm,
        Unit::Hz,
        Unit::Deg,
        Unit::PerMin,
        Unit::MPerMin,
        Unit::KW,
        Unit::Kg,
        Unit::GMm,
    ];

    /// The symbol, as written in JSON and accepted in rule files.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            Unit::Mm => "mm",
            Unit::One => "1",
            Unit::N => "N",
            Unit::Nm => "N·m",
            Unit::MPa => "MPa",
            Unit::NPerMm => "N/mm",
            Unit::Hz => "Hz",
            Unit::Deg => "deg",
            Unit::PerMin => "1/min",
            Unit::MPerMin => "m/min",
            Unit::KW => "kW",
            Unit::Kg => "kg",
            Unit::GMm => "g·mm",
        }
    }

    /// The symbol as people read it.
    #[must_use]
    pub const fn shown(self) -> &'static str {
        match self {
            Unit::PerMin => "rpm",
            other => other.symbol(),
        }
    }

    /// What the unit measures.
    #[must_use]
    pub const fn dimension(self) -> Dimension {
        match self {
            Unit::Mm => Dimension::LENGTH,
            Unit::One => Dimension::NONE,
            Unit::N => Dimension::new(0, 1, 0, 0),
            Unit::Nm => Dimension::new(1, 1, 0, 0),
            Unit::MPa => Dimension::new(-2, 1, 0, 0),
            Unit::NPerMm => Dimension::new(-1, 1, 0, 0),
            Unit::Hz | Unit::PerMin => Dimension::new(0, 0, -1, 0),
            Unit::Deg => Dimension::new(0, 0, 0, 1),
            Unit::MPerMin => Dimension::new(1, 0, -1, 0),
            Unit::KW => Dimension::new(1, 1, -1, 0),
            Unit::Kg => Dimension::new(-1, 1, 2, 0),
            Unit::GMm => Dimension::new(0, 1, 2, 0),
        }
    }

    /// One of this unit in the coherent system mm, N, s, deg, in which rules are evaluated:
    /// there a torque is a force times a length without a hidden factor of 1000.
    #[must_use]
    pub const fn coherent(self) -> f64 {
        match self {
            Unit::Mm | Unit::One | Unit::N | Unit::MPa | Unit::NPerMm | Unit::Hz | Unit::Deg => 1.0,
            Unit::Nm => 1e3,
            Unit::PerMin => 1.0 / 60.0,
            Unit::MPerMin => 1e3 / 60.0,
            Unit::KW => 1e6,
            Unit::Kg => 1e-3,
            Unit::GMm => 1e-6,
        }
    }

    /// The unit to show a computed value of this dimension in; of 1/min and Hz it is 1/min.
    #[must_use]
    pub fn of(dimension: Dimension) -> Option<Unit> {
        let shown = Unit::ALL.into_iter().filter(|unit| *unit != Unit::Hz);
        shown.into_iter().find(|unit| unit.dimension() == dimension)
    }
}
