//! The arc of a milling cut, with the chips of all teeth summed along it.

use std::f64::consts::TAU;

use super::cutting::{Cut, engagement_angle};

/// Cells over which the chip's powers are summed along the arc.
const CELLS: u16 = 128;
/// Instants of a tooth period at which a peak is sought.
const INSTANTS: u16 = 48;
/// Parts of an edge in the cut over which an effect of the height is taken as one.
const PARTS: u16 = 8;
/// An edge that trails by less, in radians, is straight.
const STRAIGHT: f64 = 1e-6;

/// The arc of the cut, with integrals from its entry of sin^(1 − m) φ, by itself and times cos φ
/// and sin φ: for one turned through φ they are the parts of its force across and along.
pub(super) struct Arc {
    pub(super) engaged: f64,
    exponent: f64,
    sums: Vec<[f64; 3]>,
}

impl Arc {
    pub(super) fn new(cut: Cut, exponent: f64) -> Arc {
        let engaged = engagement_angle(cut.width, cut.diameter);
        let cell = engaged / f64::from(CELLS);
        let mut sum = [0.0; 3];
        let mut sums = vec![sum];
        sums.extend((0..CELLS).map(|at| {
            let (sin, cos) = ((f64::from(at) + 0.5) * cell).sin_cos();
            let chip = sin.powf(exponent) * cell;
            let [plain, x, y] = sum;
            sum = [plain + chip, x + chip * cos, y + chip * sin];
            sum
        }));
        Arc {
            engaged,
            exponent,
            sums,
        }
    }

    /// Where the foremost point of the first edge stands at each instant of a tooth period. The
    /// first is that at which a tooth is about to leave: there the thickest chip jumps to none,
    /// and no grid of angles would meet it by itself.
    pub(super) fn instants(&self, pitch: f64) -> impl Iterator<Item = f64> {
        let leaving = self.engaged;
        (0..INSTANTS).map(move |at| {
            let turned = f64::from(at) / f64::from(INSTANTS) * pitch;
            (leaving + turned).rem_euclid(pitch)
        })
    }

    /// The integrals from the entry to an angle; nothing is cut before and behind the arc.
    fn all_up_to(&self, angle: f64) -> [f64; 3] {
        let cells = (angle / self.engaged).clamp(0.0, 1.0) * f64::from(CELLS);
        let whole = cells.floor().min(f64::from(CELLS - 1));
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "between none and all cells"
        )]
        let mut ends = self.sums.iter().skip(whole as usize);
        let (Some(from), Some(to)) = (ends.next(), ends.next()) else {
            return [f64::NAN; 3];
        };
        let mut both = from.iter().zip(to);
        let part = cells - whole;
        std::array::from_fn(|_| {
            both.next()
                .map_or(f64::NAN, |(from, to)| from + (to - from) * part)
        })
    }

    /// The integral of sin^(1 − m) from the entry to an angle.
    pub(super) fn up_to(&self, angle: f64) -> f64 {
        let [alone, ..] = self.all_up_to(angle);
        alone
    }

    /// Sum over all teeth of the mean of sin^(1 − m) along each edge; `first` is the angle of the
    /// foremost point of the first edge, and each edge trails by `lag`.
    pub(super) fn under_teeth(&self, first: f64, pitch: f64, lag: f64) -> f64 {
        let mut angle = first;
        let mut sum = 0.0;
        if lag < STRAIGHT {
            while angle <= self.engaged + 1e-9 {
                sum += angle.min(self.engaged).sin().powf(self.exponent);
                angle += pitch;
            }
            return sum;
        }
        while angle < self.engaged + lag {
            let spans = angle >= self.engaged && angle < lag;
            // All edges that span the arc at once: a steep helix has as many as it likes.
            let edges = if spans {
                ((lag - angle) / pitch).ceil()
            } else {
                1.0
            };
            sum += edges * (self.up_to(angle) - self.up_to(angle - lag));
            angle += edges * pitch;
        }
        sum / lag
    }

    /// What every slice of every edge in the cut pushes, at an instant.
    pub(super) fn slices(&self, first: f64, pitch: f64, lag: f64) -> Vec<Slice> {
        let mut found = Vec::new();
        let mut angle = first;
        if lag < STRAIGHT {
            while angle <= self.engaged + 1e-9 {
                let (sin, cos) = angle.min(self.engaged).sin_cos();
                let chip = sin.powf(self.exponent);
                found.push(Slice {
                    height: None,
                    across: chip * cos,
                    along: chip * sin,
                });
                angle += pitch;
            }
        } else {
            while angle < self.engaged + lag {
                self.edge(angle, lag, &mut found);
                angle += pitch;
            }
        }
        found
    }

    /// What of one edge, its foremost point at this angle, is in the cut.
    fn edge(&self, angle: f64, lag: f64, found: &mut Vec<Slice>) {
        let (from, to) = ((angle - lag).max(0.0), angle.min(self.engaged));
        if from >= to {
            return;
        }
        let part = (to - from) / f64::from(PARTS);
        let [_, mut x, mut y] = self.all_up_to(from);
        for at in 0..PARTS {
            let start = from + f64::from(at) * part;
            let [_, next_x, next_y] = self.all_up_to(start + part);
            found.push(Slice {
                height: Some((angle - start - part / 2.0) / lag),
                across: (next_x - x) / lag,
                along: (next_y - y) / lag,
            });
            (x, y) = (next_x, next_y);
        }
    }

    /// The mean over a tooth period of what all slices push together.
    pub(super) fn mean(&self, flutes: f64) -> [f64; 2] {
        let [_, across, along] = self.all_up_to(self.engaged);
        [across, along].map(|sum| sum * flutes / TAU)
    }
}

/// A slice of an edge in the cut: the parts of its force across and along, for the thickest chip.
pub(super) struct Slice {
    /// Height of its middle, a part of the depth from the tip up; `None` for a straight edge,
    /// which is one slice over the whole depth.
    height: Option<f64>,
    across: f64,
    along: f64,
}

impl Slice {
    /// Its force times what an effect says of its height; over the whole depth that is `mean`.
    pub(super) fn weighed(&self, effect: &impl Fn(f64) -> f64, mean: f64) -> [f64; 2] {
        let weight = self.height.map_or(mean, effect);
        [self.across * weight, self.along * weight]
    }
}

/// The mean of an effect over the depth.
pub(super) fn mean_of(effect: &impl Fn(f64) -> f64) -> f64 {
    let parts = (0..PARTS).map(|at| effect((f64::from(at) + 0.5) / f64::from(PARTS)));
    parts.sum::<f64>() / f64::from(PARTS)
}
