//! Where one subject fails along the stick-out, found by sampling and closing in on its edges.

use crate::judge::{Measure, Outcome};
use crate::library::Marks;
use crate::rulebook::{Bound, Hinge};

use super::never::{Never, never};
use super::samples::{Bounding, ON_EDGE, Sample, Subject};

/// Step of the closer look at a rule that is not monotone, mm.
const FINE: f64 = 0.25;
/// Most samples of one closer look.
const SCANNED: u32 = 4000;

/// Where a subject fails: from one edge to another, each the last value at which it does not.
/// Infinite where it fails as far as the tool goes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Stretch {
    pub from: f64,
    pub to: f64,
}

impl Subject<'_> {
    /// Whether a stretch on which it fails ends towards a side that it bounds, or lies between.
    fn ends(&self, span: Stretch) -> bool {
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
    pub spans: Vec<Stretch>,
    /// Whether it fails from somewhere on towards a side that it does not bound: there no
    /// stick-out keeps it.
    pub stands: bool,
    /// Fails everywhere: ends that its nearest branches, carried on, would have.
    pub never: Option<Never>,
    /// What it waits for somewhere, or everywhere.
    pub waits: Option<Measure>,
}

/// Follows a subject along its samples, which are in order of the stick-out, with what it hangs on
/// at each.
pub(super) fn course(
    bounding: &Bounding<'_, '_>,
    subject: &Subject<'_>,
    samples: &[Sample],
    hinges: &[&[Hinge]],
) -> Course {
    let samples = &looked_at(bounding, subject, samples, hinges);
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
    let spans: Vec<Stretch> = all
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

/// The samples; close to each other where the subject may jump, for then it may say something
/// between two that it says at neither. One that waits waits everywhere.
fn looked_at(
    bounding: &Bounding<'_, '_>,
    subject: &Subject<'_>,
    samples: &[Sample],
    hinges: &[&[Hinge]],
) -> Vec<Sample> {
    let mut all = samples.to_vec();
    let waits = |(_, measure): &Sample| measure.waits.is_some();
    if !subject.jumps() || samples.iter().all(waits) {
        return all;
    }
    let fails =
        |(_, measure): &Sample| measure.outcome == Outcome::NotMet || measure.outside.is_some();
    if subject.is_hinged() && !samples.iter().all(fails) {
        for stretch in turning(samples, hinges) {
            all.extend(between(bounding, subject, stretch));
        }
    } else if let Some((first, last)) = samples.first().zip(samples.last()) {
        all.extend(between(bounding, subject, (first.0, last.0)));
    }
    all.sort_by(|a, b| a.0.total_cmp(&b.0));
    all
}

/// The stretches between samples on which something turns over that the subject hangs on, or may
/// have turned over and back.
fn turning(samples: &[Sample], hinges: &[&[Hinge]]) -> Vec<(f64, f64)> {
    let mut found: Vec<(f64, f64)> = Vec::new();
    for (ends, pair) in samples.windows(2).zip(hinges.windows(2)) {
        if let ([from, to], [a, b]) = (ends, pair)
            && !(a.len() == b.len() && a.iter().zip(*b).all(|(a, b)| a.keeps(*b)))
        {
            found.push((from.0, to.0));
        }
    }
    for (ends, three) in samples.windows(3).zip(hinges.windows(3)) {
        let mut hinges = match three {
            [a, b, c] => a.iter().zip(*b).zip(*c),
            _ => continue,
        };
        if let [from, _, to] = ends
            && hinges.any(|((a, b), c)| b.turns_round(*a, *c))
        {
            found.push((from.0, to.0));
        }
    }
    found.sort_by(|a, b| a.0.total_cmp(&b.0));
    found.dedup_by(|next, before| {
        let overlaps = next.0 < before.1;
        if overlaps {
            before.1 = before.1.max(next.1);
        }
        overlaps
    });
    found
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

/// Without samples that hold only as what counts as equal, where the next others hold outright: an
/// edge is where the slack ends, wherever samples happen to lie.
fn settled(samples: &[Sample]) -> Vec<Sample> {
    let met = |(_, one): &Sample| one.outcome == Outcome::Met;
    let barely = |sample: &Sample| met(sample) && sample.1.slack < -ON_EDGE;
    let outright = |sample: &Sample| met(sample) && !barely(sample);
    let kept = samples.iter().enumerate().filter(|(at, sample)| {
        let (before, after) = samples.split_at(*at);
        let next_before = before.iter().rev().find(|other| !barely(other));
        let next_after = after.iter().find(|other| !barely(other));
        let beside = next_before.into_iter().chain(next_after);
        !(barely(sample) && beside.into_iter().any(outright))
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

    fn spans(&self, samples: &[Sample]) -> Vec<Stretch> {
        let mut spans: Vec<Stretch> = Vec::new();
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
                (true, false) => spans.extend(open.take().map(|from| Stretch {
                    from,
                    to: self.edge(b, a),
                })),
                _ => {}
            }
        }
        spans.extend(open.map(|from| Stretch {
            from,
            to: f64::INFINITY,
        }));
        spans
    }
}
