//! From where subjects fail to where none of them does.

use crate::rulebook::Bound as Side;

use super::spans::Stretch;

/// Room for the rounding of sums, mm.
const ROUNDING: f64 = 1e-9;

/// A span, and whose it is.
pub(super) type Owned = (Stretch, usize);

/// Stick-outs that no subject forbids, and who binds each end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Free {
    pub min: f64,
    pub min_by: Option<usize>,
    pub max: f64,
    pub max_by: Option<usize>,
}

impl Free {
    pub(super) fn width(&self) -> f64 {
        self.max - self.min
    }

    pub(super) fn holds(&self, at: f64, tolerance: f64) -> bool {
        at >= self.min - tolerance && at <= self.max + tolerance
    }
}

/// What is left of 0 to `length` (mm) outside of all spans, in order. Ends that meet within
/// `tolerance` leave one value.
pub(super) fn free(spans: &[Owned], length: f64, tolerance: f64) -> Vec<Free> {
    let starts = std::iter::once((0.0, None));
    let ends = spans
        .iter()
        .filter(|(span, _)| span.to.is_finite())
        .map(|(span, by)| (span.to, Some(*by)));
    let mut lower: Vec<(f64, Option<usize>)> = starts.chain(ends).collect();
    lower.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut found: Vec<Free> = Vec::new();
    for (min, min_by) in lower {
        let inside = |(span, _): &&Owned| span.from < min - tolerance && min < span.to - tolerance;
        if min < 0.0 || spans.iter().find(inside).is_some() {
            continue;
        }
        let next = spans
            .iter()
            .filter(|(span, _)| span.from >= min - tolerance)
            .min_by(|a, b| a.0.from.total_cmp(&b.0.from));
        let (max, max_by) = next.map_or((length, None), |(span, by)| (span.from, Some(*by)));
        if max > length + tolerance && max_by.is_none() || min > length {
            continue;
        }
        let (min, max) = if max < min {
            let both = f64::midpoint(min, max);
            (both, both)
        } else {
            (min, max)
        };
        let one = Free {
            min,
            min_by,
            max,
            max_by,
        };
        match found.last_mut() {
            // Of two lower ends that meet, the greater binds.
            Some(last) if one.min - last.min <= tolerance + ROUNDING => *last = one,
            _ => found.push(one),
        }
    }
    found
}

/// The one that holds `present`, else the widest.
pub(super) fn choose(all: &[Free], present: Option<f64>, tolerance: f64) -> Option<Free> {
    let holding = present.and_then(|at| all.iter().find(|free| free.holds(at, tolerance)));
    let widest = || all.iter().max_by(|a, b| a.width().total_cmp(&b.width()));
    holding.or_else(widest).copied()
}

/// A value that a subject asks for, and whose it is.
pub(super) type Bound = Option<(f64, usize)>;

/// The least and the greatest that subjects ask for, where nothing is left between them; `bounds`
/// says which sides a subject bounds.
pub(super) fn clash(spans: &[Owned], bounds: &dyn Fn(usize, Side) -> bool) -> (Bound, Bound) {
    let lower = spans.iter().filter(|(span, _)| span.from.is_infinite());
    let min = lower
        .filter(|(span, _)| span.to.is_finite())
        .map(|(span, by)| (span.to, *by))
        .max_by(|a, b| a.0.total_cmp(&b.0));
    let upper = spans.iter().filter(|(span, _)| span.to.is_infinite());
    let max = upper
        .filter(|(span, _)| span.from.is_finite())
        .map(|(span, by)| (span.from, *by))
        .min_by(|a, b| a.0.total_cmp(&b.0));
    let (mut least, mut most) = (min, max);
    // A forbidden stretch between the two counts towards the side that its rule bounds; if that
    // is both, towards the nearer of them.
    let middle = spans
        .iter()
        .filter(|(span, _)| span.from.is_finite() && span.to.is_finite());
    for (span, by) in middle {
        let (low, high) = (
            least.map_or(0.0, |end| end.0),
            most.map_or(f64::INFINITY, |end| end.0),
        );
        if span.from > high || span.to < low || low > high {
            continue;
        }
        let nearer = span.to - high < low - span.from;
        let below = bounds(*by, Side::StickOutMin) && (nearer || !bounds(*by, Side::StickOutMax));
        if below {
            least = Some((span.to, *by));
        } else {
            most = Some((span.from, *by));
        }
    }
    (least, most)
}
