//! Where one subject fails along the stick-out, found by sampling and closing in on its edges.

use crate::judge::{Measure, Outcome};
use crate::library::Marks;
use crate::rulebook::Bound;

use super::never::{Never, never};
use super::samples::{Bounding, ON_EDGE, Sample, Subject};

/// Step of the closer look at a rule that is not monotone, mm.
const FINE: f64 = 0.25;
/// Most samples of one closer look.
const SCANNED: u32 = 4000;

/// Where a subject fails: from one edge to another, each the last value at which it does not.
/// Infinite where it fails as far as the tool goes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Span {
    pub from: f64,
    pub to: f64,
}

impl Subject<'_> {
    /// Whether a stretch on which it fails ends towards a side that it bounds, or lies between.
    fn ends(&self, span: Span) -> bool {
        match (span.from.is_finite(), span.to.is_finite()) {
            (true, false) => self.bounds(Bound::StickOutMax),
            (false, true) => self.bounds(Bound::StickOutMin),
            _ => true,
        }
    }
}

/// What a subject says along the whole tool.
pub(super) struct Course {
    /// Where it fails.
    pub spans: Vec<Span>,
    /// Whether it fails from somewhere on towards a side that it does not bound: there no
    /// stick-out keeps it.
    pub stands: bool,
    /// Fails everywhere: ends that its nearest branches, carried on, would have.
    pub never: Option<Never>,
    /// What it waits for somewhere, or everywhere.
    pub waits: Option<Measure>,
}

/// Follows a subject along its samples, which are in order of the stick-out.
pub(super) fn course(
    bounding: &Bounding<'_, '_>,
    subject: &Subject<'_>,
    samples: &[Sample],
) -> Course {
    let samples = &looked_at(bounding, subject, samples);
    let judged = |(_, measure): &&Sample| matches!(measure.outcome, Outcome::Met | Outcome::NotMet);
    let first = |wanted: fn(&Measure<Marks>) -> bool| {
        let mut samples = samples.iter();
        let (at, _) = samples.find(|(_, measure)| wanted(measure))?;
        Some(bounding.in_full(subject, *at))
    };
    let waits = first(|measure| measure.waits.is_some());
    let Some(inside) = samples.iter().find(judged).map(|(at, _)| *at) else {
        let outside = || first(|measure| measure.outside.is_some());
        return Course {
            spans: Vec::new(),
            stands: false,
            never: None,
            waits: waits.or_else(outside),
        };
    };
    let reader = Reader {
        bounding,
        subject,
        inside,
    };
    let samples = settled(&reader.scanned(samples));
    let all = reader.spans(&samples);
    let everywhere = samples.iter().all(|sample| reader.fails(sample));
    let spans: Vec<Span> = all
        .iter()
        .copied()
        .filter(|span| subject.ends(*span))
        .collect();
    Course {
        stands: spans.len() < all.len() && !everywhere,
        spans,
        never: everywhere.then(|| never(subject, &samples)),
        waits,
    }
}

/// The samples; close to each other all along where the subject may jump, for then it may say
/// something between any two that it says at neither. One that waits waits everywhere.
fn looked_at(
    bounding: &Bounding<'_, '_>,
    subject: &Subject<'_>,
    samples: &[Sample],
) -> Vec<Sample> {
    let mut all = samples.to_vec();
    let waits = |(_, measure): &Sample| measure.waits.is_some();
    let ends = samples.first().zip(samples.last());
    if let Some((first, last)) = ends
        && subject.jumps()
        && !samples.iter().all(waits)
    {
        all.extend(between(bounding, subject, (first.0, last.0)));
        all.sort_by(|a, b| a.0.total_cmp(&b.0));
    }
    all
}

/// Samples close to each other. A tool of metres is no tool: they end however long the input
/// says it is.
fn between(
    bounding: &Bounding<'_, '_>,
    subject: &Subject<'_>,
    (from, to): (f64, f64),
) -> impl Iterator<Item = Sample> {
    let at = (1..SCANNED).map(move |step| from + FINE * f64::from(step));
    let at = at.take_while(move |at| *at < to);
    at.map(|at| (at, bounding.one(subject, at)))
}

/// Without samples that hold only as what counts as equal, beside one that holds outright: an
/// edge is where the slack ends, wherever samples happen to lie.
fn settled(samples: &[Sample]) -> Vec<Sample> {
    let holds = |at: Option<usize>| at.and_then(|at| samples.get(at)).copied();
    let outright = |at: Option<usize>| {
        holds(at).is_some_and(|(_, one)| one.outcome == Outcome::Met && one.slack >= -ON_EDGE)
    };
    let kept = samples.iter().enumerate().filter(|(at, (_, one))| {
        let barely = one.outcome == Outcome::Met && one.slack < -ON_EDGE;
        !(barely && (outright(at.checked_sub(1)) || outright(Some(at + 1))))
    });
    kept.map(|(_, sample)| *sample).collect()
}

/// One subject, and the bounding that asks it.
pub(super) struct Reader<'r, 'a, 'v> {
    bounding: &'r Bounding<'a, 'v>,
    subject: &'r Subject<'a>,
    /// A stick-out at which its model is valid.
    inside: f64,
}

impl Reader<'_, '_, '_> {
    /// Where its model ends, towards an end that it bounds, it counts as failing.
    pub(super) fn fails(&self, (at, measure): &Sample) -> bool {
        match measure.outside {
            None => measure.outcome == Outcome::NotMet,
            Some(_) if *at > self.inside => self.subject.bounds(Bound::StickOutMax),
            Some(_) => self.subject.bounds(Bound::StickOutMin),
        }
    }

    pub(super) fn sample(&self, at: f64) -> Sample {
        (at, self.bounding.one(self.subject, at))
    }

    /// Looks closer where the slack turns round towards its edge: between two samples that
    /// agree, a rule that is not monotone may have said something else.
    fn scanned(&self, samples: &[Sample]) -> Vec<Sample> {
        let mut all = samples.to_vec();
        if self.subject.jumps() {
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
            all.extend(between(self.bounding, self.subject, (before.0, after.0)));
        }
        all.sort_by(|a, b| a.0.total_cmp(&b.0));
        all
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
                (false, true) => open = Some(self.edge(a, b)),
                (true, false) => spans.extend(open.take().map(|from| Span {
                    from,
                    to: self.edge(b, a),
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
}
