//! Dimensions as powers of length, force, time and angle.

use std::fmt;
use std::ops::{Div, Mul};

/// Powers of length, force, time and angle. Angle is kept apart, so that degrees are never
/// compared with a ratio.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Dimension {
    pub(super) length: i8,
    pub(super) force: i8,
    pub(super) time: i8,
    pub(super) angle: i8,
}

impl Dimension {
    /// No dimension: ratios, counts.
    pub const NONE: Dimension = Dimension::new(0, 0, 0, 0);
    /// A length.
    pub const LENGTH: Dimension = Dimension::new(1, 0, 0, 0);

    pub(super) const fn new(length: i8, force: i8, time: i8, angle: i8) -> Dimension {
        Dimension {
            length,
            force,
            time,
            angle,
        }
    }
}

impl Mul for Dimension {
    type Output = Dimension;
    fn mul(self, other: Dimension) -> Dimension {
        Dimension {
            length: self.length.saturating_add(other.length),
            force: self.force.saturating_add(other.force),
            time: self.time.saturating_add(other.time),
            angle: self.angle.saturating_add(other.angle),
        }
    }
}

impl Div for Dimension {
    type Output = Dimension;
    fn div(self, other: Dimension) -> Dimension {
        Dimension {
            length: self.length.saturating_sub(other.length),
            force: self.force.saturating_sub(other.force),
            time: self.time.saturating_sub(other.time),
            angle: self.angle.saturating_sub(other.angle),
        }
    }
}

impl fmt::Display for Dimension {
    /// The dimension in words with its article: "a length", "a torque".
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let known = match (self.length, self.force, self.time, self.angle) {
            (0, 0, 0, 0) => "a plain number",
            (1, 0, 0, 0) => "a length",
            (2, 0, 0, 0) => "an area",
            (0, 1, 0, 0) => "a force",
            (1, 1, 0, 0) => "a torque",
            (-2, 1, 0, 0) => "a stress",
            (-1, 1, 0, 0) => "a stiffness",
            (0, 0, -1, 0) => "a speed of rotation or a frequency",
            (1, 0, -1, 0) => "a cutting speed",
            (1, 1, -1, 0) => "a power",
            (-1, 1, 2, 0) => "a mass",
            (0, 1, 2, 0) => "an unbalance",
            (0, 0, 0, 1) => "an angle",
            (length, force, time, angle) => {
                return write!(
                    f,
                    "a quantity in mm^{length} N^{force} s^{time} deg^{angle}"
                );
            }
        };
        f.write_str(known)
    }
}
