//! Closing in on the edge between a stick-out at which a subject fails and one at which it does
//! not.

use super::samples::{ON_EDGE, Sample};
use super::spans::Reader;

/// How near an edge is closed in on where no straight line leads to it, mm: well below the
/// 0.01 mm that count as equal.
const CLOSE: f64 = 1e-4;
/// Most steps towards an edge; each at least halves what is left.
const STEPS: usize = 60;

impl Reader<'_, '_, '_> {
    /// The last stick-out at which it does not fail, between one where it does not and one
    /// where it does.
    pub(super) fn edge(&self, good: &Sample, bad: &Sample) -> f64 {
        match self.root(good, bad) {
            Some(root) if !self.fails(&self.sample(root)) => root,
            _ => self.bisected(good.0, bad.0),
        }
    }

    /// The root of the slack, by false position with the Illinois step; for a straight line
    /// that is its closed form. `None` where what counts as equal, and not the slack, decides.
    fn root(&self, good: &Sample, bad: &Sample) -> Option<f64> {
        let (mut a, mut of_a) = (good.0, good.1.slack);
        let (mut b, mut of_b) = (bad.0, bad.1.slack);
        if of_a.abs() <= ON_EDGE {
            return Some(self.end_of_level(a, b));
        }
        if !(of_a > 0.0 && of_b < 0.0 && of_a.is_finite() && of_b.is_finite()) {
            return None;
        }
        for _ in 0..STEPS {
            let at = a + (b - a) * of_a / (of_a - of_b);
            let slack = self.sample(at).1.slack;
            if slack.is_nan() {
                return None;
            }
            if slack.abs() <= ON_EDGE {
                return Some(at);
            }
            if slack > 0.0 {
                (a, of_a) = (at, slack);
                of_b /= 2.0;
            } else {
                (b, of_b) = (at, slack);
                of_a /= 2.0;
            }
            if (b - a).abs() < CLOSE * 1e-3 {
                break;
            }
        }
        Some(a)
    }

    /// The last value on the edge itself: a slack that stays level there has its end further on,
    /// and no false position leads to it.
    fn end_of_level(&self, mut on: f64, mut off: f64) -> f64 {
        for _ in 0..STEPS {
            if (off - on).abs() <= CLOSE * 1e-3 {
                break;
            }
            let middle = f64::midpoint(on, off);
            if self.sample(middle).1.slack.abs() <= ON_EDGE {
                on = middle;
            } else {
                off = middle;
            }
        }
        on
    }

    fn bisected(&self, mut good: f64, mut bad: f64) -> f64 {
        for _ in 0..STEPS {
            if (bad - good).abs() <= CLOSE {
                break;
            }
            let middle = f64::midpoint(good, bad);
            if self.fails(&self.sample(middle)) {
                bad = middle;
            } else {
                good = middle;
            }
        }
        good
    }
}
