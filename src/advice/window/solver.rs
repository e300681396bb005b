//! Puts a window together from the stretches on which each rule is not met: which stretch is left,
//! its ends, and the stick-out that is recommended.

use crate::judge::Outcome;
use crate::rulebook::Level;

use super::super::lengths_needed::setting_tolerance;
use super::never::Never;
use super::samples::{Bounding, Subject};
use super::spans::{Course, Stretch};
use super::stick_out_limits::{Advised, Window};
use super::sweep::{Bound, Free, Owned, choose, clash, free};

/// An edge is not known more nearly than this where no straight line leads to it, mm.
const EDGE: f64 = 1e-3;
/// Room for the rounding of a sum and a quotient.
const ROUNDING: f64 = 1e-9;
/// A recommended stick-out is a whole number of these, mm.
const STEP: f64 = 0.5;

/// All that a window is put together from.
pub(super) struct Solver<'s, 'a, 'v> {
    pub(super) bounding: &'s Bounding<'a, 'v>,
    pub(super) courses: Vec<Course>,
    length: f64,
    present: Option<f64>,
    pub(super) tolerance: f64,
    /// Whether ends count that a rule which always fails has on one side alone.
    lone: bool,
}

impl<'s, 'a, 'v> Solver<'s, 'a, 'v> {
    /// From the subjects of a bounding, each followed along a tool of a length, mm, that sticks out
    /// as it does at present.
    pub(super) fn new(
        bounding: &'s Bounding<'a, 'v>,
        courses: Vec<Course>,
        length: f64,
        present: Option<f64>,
    ) -> Solver<'s, 'a, 'v> {
        let solver = Solver {
            bounding,
            courses,
            length,
            present,
            tolerance: bounding.judge.book.tolerance().length,
            lone: true,
        };
        let lone = solver.lone_clash();
        Solver { lone, ..solver }
    }

    pub(super) fn subject(&self, at: usize) -> Option<&Subject<'_>> {
        self.bounding.subjects.get(at)
    }

    fn clash(&self, limits: &[Owned]) -> (Bound, Bound) {
        let bounds = |by: usize, side| {
            let subject = self.subject(by);
            subject.is_some_and(|subject| subject.bounds(side))
        };
        clash(limits, &bounds)
    }

    /// Whether lone ends clash with others: then they are what leaves nothing. Else the rule is
    /// one that no stick-out keeps.
    fn lone_clash(&self) -> bool {
        let (min, max) = self.clash(&self.spans(|level| level == Some(Level::Error)));
        min.zip(max)
            .is_some_and(|(min, max)| min.0 > max.0 + self.tolerance)
    }

    /// Whether no stick-out keeps a subject, at least where it bounds nothing.
    pub(super) fn beyond(&self, course: &Course) -> bool {
        course.stands || self.never(course)
    }

    /// The same of one that fails at every stick-out.
    fn never(&self, course: &Course) -> bool {
        course.never.is_some_and(|never| {
            never.min.is_none() && never.max.is_none() || never.lone && !self.lone
        })
    }

    /// Where subjects of these levels fail; those that no stick-out can cure are left out.
    fn spans(&self, wanted: impl Fn(Option<Level>) -> bool) -> Vec<Owned> {
        let subjects = self.bounding.subjects.iter().zip(&self.courses).enumerate();
        let wanted = subjects.filter(|(_, (subject, _))| wanted(subject.level()));
        let of = |(at, (_, course)): (usize, (&Subject<'_>, &Course))| {
            let spans = match course.never {
                None => course.spans.clone(),
                Some(_) if self.never(course) => Vec::new(),
                Some(never) => never_spans(never),
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
                both.any(|subject| self.bounding.one(subject, at).outcome == Outcome::NotMet)
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

    pub(super) fn window(&self) -> Window {
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
        window.full = self.filled(&limits, &chosen);
        let advised = self.advised(&limits, &chosen);
        let room = setting_tolerance(self.bounding.judge);
        // A sliver without warnings in which nobody can set a tool is no advice either, where the
        // limits leave more.
        let narrow = |free: &Free| free.width() < 2.0 * room - EDGE - ROUNDING;
        let within = match advised {
            Some(advised) if !narrow(&advised) || narrow(&chosen) => advised,
            _ => chosen,
        };
        // Where nothing known bounds it below, the shortest would be next to nothing; and a grip
        // that nobody can judge is none to be set by.
        let sound = within.min_by.is_some() && window.undecided.is_empty();
        window.recommended = match self.bounding.flat {
            // A clamp screw meets its flat at one stick-out, and nobody is told another.
            Some(flat) => (sound && chosen.holds(flat, self.tolerance)).then_some(flat),
            None => sound.then(|| recommended(&within, room)),
        };
        window.advised = advised.map(|free| Advised {
            min: free.min_by.and_then(|by| self.end(free.min, by)),
            max: free.max_by.and_then(|by| self.end(free.max, by)),
        });
        window
    }

    fn fill_empty(&self, window: &mut Window, limits: &[Owned]) {
        let (min, max) = self.clash(limits);
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

    /// What these subjects leave of the chosen stretch, one interval of it.
    fn within(&self, spans: &[Owned], chosen: &Free) -> Option<Free> {
        let mut all = self.free(spans);
        all.retain(|free| {
            free.min >= chosen.min - self.tolerance && free.max <= chosen.max + self.tolerance
        });
        choose(&all, self.present, self.tolerance)
    }

    /// Where in the chosen stretch the whole land is filled.
    fn filled(&self, limits: &[Owned], chosen: &Free) -> Option<(f64, f64)> {
        let mut spans = limits.to_vec();
        spans.extend(self.spans(|level| level.is_none()));
        let found = self.land_is_known().then(|| self.within(&spans, chosen));
        found.flatten().map(|free| (free.min, free.max))
    }

    /// Whether the last subject, the full land, can be asked.
    fn land_is_known(&self) -> bool {
        let land = self.courses.last();
        land.is_some_and(|course| course.waits.is_none())
    }

    /// What warnings leave of the chosen stretch; of that, where the whole land is filled, if
    /// that is anywhere and leaves room for setting.
    fn advised(&self, limits: &[Owned], chosen: &Free) -> Option<Free> {
        let mut spans = limits.to_vec();
        spans.extend(self.spans(|level| level == Some(Level::Warning)));
        let warned = self.within(&spans, chosen);
        spans.extend(self.spans(|level| level.is_none()));
        let filled = self.land_is_known().then(|| self.within(&spans, chosen));
        // A sliver in which nobody can set a tool is no advice.
        let room = 2.0 * setting_tolerance(self.bounding.judge) - EDGE;
        let filled = filled.flatten().filter(|free| free.width() >= room);
        filled.or(warned)
    }
}

/// Where a rule that always fails would bind, were its branches carried on; nothing is left
/// between them.
fn never_spans(never: Never) -> Vec<Stretch> {
    let (from, to) = (f64::NEG_INFINITY, f64::INFINITY);
    let lower = never.min.map(|min| Stretch { from, to: min });
    let upper = never.max.map(|max| Stretch { from: max, to });
    let both = never.min.is_some() && never.max.is_some();
    let between = (both || never.lone).then_some(Stretch { from, to });
    [lower, upper, between].into_iter().flatten().collect()
}

/// The shortest value that leaves room to both ends, rounded inwards; the middle of what is
/// narrower. mm.
fn recommended(free: &Free, room: f64) -> f64 {
    let least = free.min + room;
    let most = free.max - room;
    let middle = f64::midpoint(free.min, free.max);
    let rounded = ((least - EDGE) / STEP - ROUNDING).ceil() * STEP;
    if rounded <= most + EDGE {
        rounded
    } else {
        middle
    }
}
