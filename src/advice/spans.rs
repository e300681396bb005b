//! Where one subject fails along the stick-out, found by sampling and closing in on its edges.

use crate::judge::{Measure, State};
use crate::rulebook::Bound;

use super::probe::{Probe, Subject};

/// Step of the closer look at a rule that is not monotone, mm.
const FINE: f64 = 0.25;
/// How near an edge is closed in on where no straight line leads to it, mm: well below the
/// 0.01 mm that count as equal.
const CLOSE: f64 = 1e-4;
/// A slack nearer to 0 than this is on the edge.
const ON_EDGE: f64 = 1e-9;
/// Most steps towards an edge; each at least halves what is left.
const STEPS: usize = 60;
/// Most samples of one closer look.
const SCANNED: u32 = 4000;

/// One subject at one stick-out.
pub(super) type Sample = (f64, Measure);

/// Where a subject fails: from one edge to another, each the last value at which it does not.
/// Infinite where it fails as far as the tool goes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Span {
    pub from: f64,
    pub to: f64,
}

/// What a subject says along the whole tool.
pub(super) struct Course {
    /// Where it fails.
    pub spans: Vec<Span>,
    /// Fails everywhere: ends that its nearest branches, carried on, would have.
    pub never: Option<Never>,
    /// What it waits for somewhere, or everywhere.
    pub waits: Option<Measure>,
}

/// A subject that fails at every stick-out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Never {
    pub min: Option<f64>,
    pub max: Option<f64>,
    /// Whether it has one end alone, on the tool: the side that such an end leaves free it
    /// fails all the same.
    pub lone: bool,
}

/// Follows a subject along its samples, which are in order of the stick-out.
pub(super) fn course(probe: &Probe<'_>, subject: &Subject<'_>, samples: &[Sample]) -> Course {
    let judged = |(_, measure): &&Sample| matches!(measure.state, State::Holds | State::Fails);
    let waits = samples.iter().find_map(|(_, measure)| match measure.state {
        State::Waits(_) => Some(*measure),
        _ => None,
    });
    let Some(inside) = samples.iter().find(judged).map(|(at, _)| *at) else {
        let outside = samples.iter().find_map(|(_, measure)| match measure.state {
            State::Outside(_) => Some(*measure),
            _ => None,
        });
        return Course {
            spans: Vec::new(),
            never: None,
            waits: waits.or(outside),
        };
    };
    let reader = Reader {
        probe,
        subject,
        inside,
    };
    let samples = settled(&reader.scanned(samples));
    let spans = reader.spans(&samples);
    let everywhere = samples.iter().all(|sample| reader.fails(sample));
    Course {
        spans,
        never: everywhere.then(|| never(subject, &samples)),
        waits,
    }
}

/// Without samples that hold only as what counts as equal, beside one that holds outright: an
/// edge is where the slack ends, wherever samples happen to lie.
fn settled(samples: &[Sample]) -> Vec<Sample> {
    let holds = |at: Option<usize>| at.and_then(|at| samples.get(at)).copied();
    let outright = |at: Option<usize>| {
        holds(at).is_some_and(|(_, one)| one.state == State::Holds && one.slack >= -ON_EDGE)
    };
    let kept = samples.iter().enumerate().filter(|(at, (_, one))| {
        let barely = one.state == State::Holds && one.slack < -ON_EDGE;
        !(barely && (outright(at.checked_sub(1)) || outright(Some(at + 1))))
    });
    kept.map(|(_, sample)| *sample).collect()
}

struct Reader<'r, 'a> {
    probe: &'r Probe<'a>,
    subject: &'r Subject<'a>,
    /// A stick-out at which its model is valid.
    inside: f64,
}

impl Reader<'_, '_> {
    /// Where its model ends, towards an end that it bounds, it counts as failing.
    fn fails(&self, (at, measure): &Sample) -> bool {
        match measure.state {
            State::Fails => true,
            State::Outside(_) if *at > self.inside => self.subject.bounds(Bound::StickOutMax),
            State::Outside(_) => self.subject.bounds(Bound::StickOutMin),
            State::Holds | State::Silent | State::Waits(_) => false,
        }
    }

    fn sample(&self, at: f64) -> Sample {
        (at, self.probe.one(self.subject, at))
    }

    /// Looks closer where the slack turns round towards its edge: between two samples that
    /// agree, a rule that is not monotone may have said something else. One that may jump is
    /// looked at closely all along.
    fn scanned(&self, samples: &[Sample]) -> Vec<Sample> {
        let mut all = samples.to_vec();
        if self.subject.jumps() {
            let ends = samples.first().zip(samples.last());
            all.extend(ends.into_iter().flat_map(|(a, b)| self.between(a.0, b.0)));
            all.sort_by(|a, b| a.0.total_cmp(&b.0));
            return all;
        }
        for three in samples.windows(3) {
            let [before, here, after] = three else {
                continue;
            };
            let fails = self.fails(here);
            let alike = self.fails(before) == fails && self.fails(after) == fails;
            let sign = if fails { 1.0 } else { -1.0 };
            let turns = |other: &Sample| sign * (here.1.slack - other.1.slack) > ON_EDGE;
            if !alike || !turns(before) || !turns(after) {
                continue;
            }
            all.extend(self.between(before.0, after.0));
        }
        all.sort_by(|a, b| a.0.total_cmp(&b.0));
        all
    }

    /// Samples close to each other. A tool of metres is no tool: they end however long the input
    /// says it is.
    fn between(&self, from: f64, to: f64) -> impl Iterator<Item = Sample> {
        let at = (1..SCANNED).map(move |step| from + FINE * f64::from(step));
        at.take_while(move |at| *at < to).map(|at| self.sample(at))
    }

    fn spans(&self, samples: &[Sample]) -> Vec<Span> {
        let mut spans: Vec<Span> = Vec::new();
        let mut open = samples
            .first()
            .filter(|first| self.fails(first))
            .map(|_| f64::NEG_INFINITY);
        for pair in samples.windows(2) {
            let [a, b] = pair else {
                continue;
            };
            match (self.fails(a), self.fails(b)) {
                (false, true) => open = Some(self.edge(*a, *b)),
                (true, false) => spans.extend(open.take().map(|from| Span {
                    from,
                    to: self.edge(*b, *a),
                })),
                _ => {}
            }
        }
        spans.extend(open.map(|from| Span {
            from,
            to: f64::INFINITY,
        }));
        spans
    }

    /// The last stick-out at which it does not fail, between one where it does not and one
    /// where it does.
    fn edge(&self, good: Sample, bad: Sample) -> f64 {
        match self.root(good, bad) {
            Some(root) if !self.fails(&self.sample(root)) => root,
            _ => self.bisected(good.0, bad.0),
        }
    }

    /// The root of the slack, by false position with the Illinois step; for a straight line
    /// that is its closed form. `None` where what counts as equal, and not the slack, decides.
    fn root(&self, good: Sample, bad: Sample) -> Option<f64> {
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

/// The ends that a subject which always fails would have, were its best branch carried on.
fn never(subject: &Subject<'_>, samples: &[Sample]) -> Never {
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
