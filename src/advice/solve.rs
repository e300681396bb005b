//! Solving a window: rules read along the tool, and what they leave.

use crate::judge::{Judge, Measure, State};
use crate::library::{Assembly, Field, Library, Overrides};
use crate::rulebook::Level;

use super::probe::{Probe, Subject, kinks};
use super::spans::{Course, Span, course};
use super::sweep::{Free, Owned, choose, clash, free};
use super::window::{Advised, Window};

/// Parts into which a tool is cut before rules are read along it.
const PARTS: u32 = 16;
/// A recommended stick-out is a whole number of these, mm.
const STEP: f64 = 0.5;
/// The least stick-out that is looked at, mm: one above 0.
const LEAST: f64 = 0.01;

/// Solves an assembly's window; `None` if its overall length is not known, or if the tool
/// sticks out further than it is long, as on an arbor: that is no question of the shank.
#[must_use]
pub fn window(
    judge: &Judge<'_>,
    library: &Library,
    assembly: &Assembly,
    overrides: &Overrides<'_>,
) -> Option<Window> {
    let probe = Probe::new(judge, library, assembly, overrides);
    let (overall, present, kinks) = judge.look(library, assembly, overrides, |base, _| {
        let present = base.field(Field::StickOut).value;
        (base.view.overall_length().value, present, kinks(base))
    });
    let length = overall.filter(|length| length.is_finite() && *length > LEAST)?;
    if present.is_some_and(|present| present > length) {
        return None;
    }
    let samples = sampled(&probe, length, present, kinks);
    let courses: Vec<Course> = probe
        .subjects
        .iter()
        .enumerate()
        .map(|(at, subject)| {
            let own = samples.iter();
            let own = own.filter_map(|(p, all)| Some((*p, *all.get(at)?)));
            course(&probe, subject, &own.collect::<Vec<_>>())
        })
        .collect();
    let solver = Solver {
        probe: &probe,
        courses,
        length,
        present,
        tolerance: judge.book.tolerance().length,
    };
    Some(solver.window())
}

/// All subjects at stick-outs along the tool.
fn sampled(
    probe: &Probe<'_>,
    length: f64,
    present: Option<f64>,
    kinks: Vec<f64>,
) -> Vec<(f64, Vec<Measure>)> {
    let even =
        (0..=PARTS).map(|part| LEAST + (length - LEAST) * f64::from(part) / f64::from(PARTS));
    let mut at: Vec<f64> = even.chain(kinks).chain(present).collect();
    at.retain(|p| *p >= LEAST && *p <= length);
    at.sort_by(f64::total_cmp);
    at.dedup();
    at.into_iter().map(|p| (p, probe.all(p))).collect()
}

/// All that a window is put together from.
pub(super) struct Solver<'s, 'a> {
    pub(super) probe: &'s Probe<'a>,
    pub(super) courses: Vec<Course>,
    length: f64,
    present: Option<f64>,
    pub(super) tolerance: f64,
}

impl Solver<'_, '_> {
    pub(super) fn subject(&self, at: usize) -> Option<&Subject<'_>> {
        self.probe.subjects.get(at)
    }

    /// Where subjects of these levels fail; those that no stick-out can cure are left out.
    fn spans(&self, wanted: impl Fn(Option<Level>) -> bool) -> Vec<Owned> {
        let subjects = self.probe.subjects.iter().zip(&self.courses).enumerate();
        let wanted = subjects.filter(|(_, (subject, _))| wanted(subject.level()));
        let of = |(at, (_, course)): (usize, (&Subject<'_>, &Course))| {
            let spans = match course.never {
                None => course.spans.clone(),
                Some(never) => never_spans(never.min, never.max),
            };
            spans
                .into_iter()
                .map(move |span| (span, at))
                .collect::<Vec<_>>()
        };
        wanted.flat_map(of).collect()
    }

    /// What is left of the tool. Where ends only just miss each other, one value is left only if
    /// neither of those who bind there fails at it: not every rule takes a hundredth of a
    /// millimetre for nothing.
    fn free(&self, spans: &[Owned]) -> Vec<Free> {
        let all = free(spans, self.length, self.tolerance).into_iter();
        let settled = all.filter_map(|one| {
            if one.min < one.max {
                return Some(one);
            }
            let half = self.tolerance / 2.0;
            let near = [one.min, one.min - half, one.min + half];
            let fails = |at: f64| {
                let both = [one.min_by, one.max_by].into_iter().flatten();
                let mut both = both.filter_map(|by| self.subject(by));
                both.any(|subject| self.probe.one(subject, at).state == State::Fails)
            };
            let at = near.into_iter().find(|at| !fails(*at))?;
            Some(Free {
                min: at,
                max: at,
                ..one
            })
        });
        settled.collect()
    }

    fn window(&self) -> Window {
        let limits = self.spans(|level| level == Some(Level::Error));
        let all = self.free(&limits);
        let mut window = Window {
            min: None,
            max: None,
            next_min: None,
            next_max: None,
            short_by: None,
            others: Vec::new(),
            advised: None,
            recommended: None,
            undecided: self.undecided(),
            full: None,
            unjudged: self.unjudged(),
            beyond_cure: self.beyond_cure(),
            overall_length: self.length,
        };
        let Some(chosen) = choose(&all, self.present, self.tolerance) else {
            self.fill_empty(&mut window, &limits);
            return window;
        };
        window.min = chosen.min_by.and_then(|by| self.end(chosen.min, by));
        window.max = chosen.max_by.and_then(|by| self.end(chosen.max, by));
        self.fill_next(&mut window, &limits, &chosen);
        let others = all.iter().filter(|free| **free != chosen);
        window.others = others.map(|free| (free.min, free.max)).collect();
        let advised = self.advised(&limits, &chosen);
        let room = self.setting_tolerance();
        window.full = advised.and_then(|(_, full)| full);
        let within = advised.map_or(chosen, |(free, _)| free);
        // Where nothing known bounds it below, the shortest would be next to nothing; and a grip
        // that nobody can judge is none to be set by.
        let sound = within.min_by.is_some() && window.undecided.is_empty();
        window.recommended = sound.then(|| recommended(&within, room));
        window.advised = advised.map(|(free, _)| Advised {
            min: free.min_by.and_then(|by| self.end(free.min, by)),
            max: free.max_by.and_then(|by| self.end(free.max, by)),
        });
        window
    }

    fn fill_empty(&self, window: &mut Window, limits: &[Owned]) {
        let (min, max) = clash(limits);
        let (min, max) = match (min, max) {
            // One rule alone leaves nothing: its two branches miss each other the other way.
            (Some(min), Some(max)) if min.0 < max.0 => (Some(max), Some(min)),
            ends => ends,
        };
        let least = min.map_or(0.0, |(at, _)| at);
        let most = max.map_or(self.length, |(at, _)| at);
        window.short_by = Some((least - most).max(0.0));
        window.min = min.and_then(|(at, by)| self.end(at, by));
        window.max = max.and_then(|(at, by)| self.end(at, by));
    }

    /// The ends of other rules that would bind next.
    fn fill_next(&self, window: &mut Window, limits: &[Owned], chosen: &Free) {
        let id = |by: usize| self.subject(by).map(|subject| subject.id().to_owned());
        let other = |by: usize, binding: Option<usize>| {
            binding.is_some_and(|binding| id(by) != id(binding))
        };
        let below = limits
            .iter()
            .filter(|(span, by)| {
                span.to.is_finite()
                    && span.to <= chosen.min + self.tolerance
                    && other(*by, chosen.min_by)
            })
            .max_by(|a, b| a.0.to.total_cmp(&b.0.to));
        let above = limits
            .iter()
            .filter(|(span, by)| {
                span.from.is_finite()
                    && span.from >= chosen.max - self.tolerance
                    && other(*by, chosen.max_by)
            })
            .min_by(|a, b| a.0.from.total_cmp(&b.0.from));
        window.next_min = below.and_then(|(span, by)| self.end(span.to, *by));
        window.next_max = above.and_then(|(span, by)| self.end(span.from, *by));
    }

    /// What warnings leave of the chosen stretch, and where in it the whole land is filled; if
    /// that is anywhere, only there.
    fn advised(&self, limits: &[Owned], chosen: &Free) -> Option<(Free, Option<(f64, f64)>)> {
        let mut spans = limits.to_vec();
        spans.extend(self.spans(|level| level == Some(Level::Warning)));
        let within = |spans: &[Owned]| -> Vec<Free> {
            let all = self.free(spans).into_iter();
            let inside = |free: &Free| {
                free.min >= chosen.min - self.tolerance && free.max <= chosen.max + self.tolerance
            };
            all.filter(inside).collect()
        };
        let warned = within(&spans);
        spans.extend(self.spans(|level| level.is_none()));
        let known = self
            .courses
            .last()
            .is_some_and(|course| course.waits.is_none());
        let filled = if known { within(&spans) } else { Vec::new() };
        if let Some(full) = choose(&filled, self.present, self.tolerance) {
            return Some((full, Some((full.min, full.max))));
        }
        choose(&warned, self.present, self.tolerance).map(|free| (free, None))
    }

    fn setting_tolerance(&self) -> f64 {
        let limit = self.probe.judge.book.limit("setting_tolerance");
        limit.map_or(0.0, |limit| limit.value)
    }
}

/// Where a rule that always fails would bind, were its branches carried on; nothing is left
/// between them.
fn never_spans(min: Option<f64>, max: Option<f64>) -> Vec<Span> {
    let (from, to) = (f64::NEG_INFINITY, f64::INFINITY);
    match (min, max) {
        (None, None) => Vec::new(),
        (Some(min), None) => vec![Span { from, to: min }],
        (None, Some(max)) => vec![Span { from: max, to }],
        (Some(min), Some(max)) => vec![
            Span { from, to: min },
            Span { from: max, to },
            Span { from, to },
        ],
    }
}

/// The shortest value that leaves room to both ends, rounded inwards; the middle of what is
/// narrower. mm.
fn recommended(free: &Free, room: f64) -> f64 {
    let least = free.min + room;
    let most = free.max - room;
    let middle = f64::midpoint(free.min, free.max);
    let rounded = (least / STEP - 1e-9).ceil() * STEP;
    if rounded <= most + 1e-9 {
        rounded
    } else {
        middle
    }
}
