//! Where a subject that fails at every stick-out would have its ends.

use crate::rulebook::Bound;

use super::samples::{ON_EDGE, Sample, Subject};

/// A subject that fails at every stick-out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Never {
    pub min: Option<f64>,
    pub max: Option<f64>,
    /// Whether it has one end alone, on the tool: the side that such an end leaves free it
    /// fails all the same.
    pub lone: bool,
}

/// The ends that a subject which always fails would have, were its best branch carried on.
pub(super) fn never(subject: &Subject<'_>, samples: &[Sample]) -> Never {
    let best = samples
        .iter()
        .map(|(_, measure)| measure.slack)
        .fold(f64::NEG_INFINITY, f64::max);
    let carried = |mut pairs: Box<dyn Iterator<Item = (Sample, Sample)> + '_>| {
        pairs.find_map(|(near, far)| {
            let (of_near, of_far) = (near.1.slack, far.1.slack);
            let falls = of_near - of_far;
            let starts_at_best = of_near >= best - ON_EDGE;
            (starts_at_best && falls > ON_EDGE && falls.is_finite())
                .then(|| near.0 - of_near * (near.0 - far.0) / (of_near - of_far))
        })
    };
    let forward = samples.windows(2).filter_map(|pair| match pair {
        [a, b] => Some((*a, *b)),
        _ => None,
    });
    let backward = samples.windows(2).rev().filter_map(|pair| match pair {
        [a, b] => Some((*b, *a)),
        _ => None,
    });
    let max = carried(Box::new(forward)).filter(|_| subject.bounds(Bound::StickOutMax));
    let min = carried(Box::new(backward)).filter(|_| subject.bounds(Bound::StickOutMin));
    let ends = samples.first().zip(samples.last());
    let on = |at: &f64| ends.is_some_and(|(first, last)| *at > first.0 && *at < last.0);
    let lone = min.is_some() != max.is_some() && min.or(max).is_some_and(|at| on(&at));
    Never { min, max, lone }
}
