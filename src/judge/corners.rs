//! Rules asked at every corner of the ranges that stand for what nobody states.
//!
//! What comes out the same at all corners stands. Where a rule turns inside a range it cannot be
//! judged, for want of the property whose range it is.

use crate::facts::Scene;
use crate::library::{Corner, FieldSet, Marks, Provenance, RANGED, Trace};
use crate::rulebook::{Compared, Level, Rule};
use crate::units::print::{self, DisplayUnits};

use super::judgement::{Judge, SceneValues};
use super::measure::Measure;
use super::outcome::{Judgement, Outcome};

/// What came of a rule at one corner.
type AtCorner = (Corner, Judgement);

impl Judge<'_> {
    /// Judges rule number `index` on a scene, whatever the values are that nobody states.
    pub(super) fn judge(&self, index: usize, rule: &Rule, scene: &Scene<'_>) -> Judgement {
        self.judge_resting(index, rule, scene).0
    }

    /// The same, and the properties whose range it rests on.
    pub(super) fn judge_resting(
        &self,
        index: usize,
        rule: &Rule,
        scene: &Scene<'_>,
    ) -> (Judgement, FieldSet) {
        if let Some((outcome, ranges)) = self.silent(index, rule, scene) {
            return (Judgement::unremarkable(outcome), ranges);
        }
        self.judge_aloud(index, rule, scene)
    }

    /// What comes of a rule that is met or does not apply, whatever the unstated values are, and
    /// the properties whose range it rests on. `None` where there is something to say.
    pub(super) fn silent(
        &self,
        index: usize,
        rule: &Rule,
        scene: &Scene<'_>,
    ) -> Option<(Outcome, FieldSet)> {
        let scene = scene.quick();
        let open = self.ask_surely(index, rule, scene);
        if open.outcome.is_found() {
            return None;
        }
        let mut corners = scene.corners(open.trace());
        let silent =
            |corner: &Scene<'_, Marks>| !self.ask_surely(index, rule, corner).outcome.is_found();
        let ranges = ranges_of(open.trace().ranges());
        corners.all(silent).then_some((open.outcome, ranges))
    }

    /// What comes of a rule of which there is something to say, and the properties whose range it
    /// rests on.
    pub(super) fn judge_aloud(
        &self,
        index: usize,
        rule: &Rule,
        scene: &Scene<'_>,
    ) -> (Judgement, FieldSet) {
        let (open, trace) = self.settled(index, rule, scene);
        if trace.ranged.is_empty() || open.outcome == Outcome::NotJudged {
            return (open, trace.ranged);
        }
        (self.over(index, rule, scene, &open, trace), trace.ranged)
    }

    /// What comes of a rule at all corners, where it can be judged and rests on a range.
    fn over(
        &self,
        index: usize,
        rule: &Rule,
        scene: &Scene<'_>,
        open: &Judgement,
        trace: Trace,
    ) -> Judgement {
        let corners = scene.corners(trace);
        let all: Vec<AtCorner> = corners
            .map(|corner| {
                let end = corner.view.unstated.corner;
                (end, self.settled(index, rule, corner).0)
            })
            .collect();
        let came = |wanted| all.iter().find(move |(_, one)| one.outcome == wanted);
        if let Some((_, waiting)) = came(Outcome::NotJudged) {
            return *waiting;
        }
        if came(Outcome::NotMet).is_none() {
            return *open;
        }
        mildest(&all, trace).unwrap_or_else(|| {
            Judgement::waiting(Trace {
                missing: deciding(&all),
                ..trace
            })
        })
    }

    /// Reads rule number `index` on a scene, at the worst that the unstated values may be.
    /// Assumed values count like stated ones here: who shows the edge says that it rests on them.
    #[must_use]
    pub fn measure<P: Provenance>(
        &self,
        index: usize,
        rule: &Rule,
        scene: &Scene<'_, P>,
    ) -> Measure<P> {
        worst(scene, |corner| self.measure_at(index, rule, corner))
    }

    /// The scene that a finding speaks of: where a rule fails whatever the unstated values are,
    /// the one nearest to its edge, so that no number claims more than is certain.
    pub(super) fn spoken_of<'s, 'a>(
        &self,
        index: usize,
        rule: &Rule,
        scene: &'s Scene<'a>,
        judged: &Judgement,
    ) -> &'s Scene<'a> {
        let (Some(failing), trace) = (judged.failing, judged.trace) else {
            return scene;
        };
        let at = |corner: &Scene<'_>| {
            let own = self.settled(index, rule, corner).0.failing;
            own.is_some_and(|own| own.level == failing.level)
        };
        let slack = |corner: &Scene<'_>| self.measure_at(index, rule, corner).slack;
        let corners = scene.corners(trace).filter(|corner| at(corner));
        let nearest = corners.max_by(|a, b| slack(a).total_cmp(&slack(b)));
        nearest.unwrap_or(scene)
    }

    /// Why a rule that turns inside a range is not judged, with the comparison that turns:
    /// `25.7 to 28.7 mm against 26.7 mm`. `None` where it compares no two numbers.
    pub(super) fn turns(
        &self,
        index: usize,
        rule: &Rule,
        scene: &Scene<'_>,
        trace: Trace,
    ) -> Option<String> {
        let expect = rule.expect.as_ref()?;
        let compared = |corner: &Scene<'_>| {
            let values = SceneValues(corner);
            expect.comparisons(&self.environment(index, &values))
        };
        let failing = scene.corners(trace).find_map(|corner| {
            let values = SceneValues(corner);
            let failing = expect.failing(&self.environment(index, &values));
            failing.into_iter().next()
        })?;
        let all = scene.corners(trace).flat_map(compared);
        let same: Vec<Compared> = all.filter(|one| one.sides == failing.sides).collect();
        Some(both_sides(&same, scene.view.library.units))
    }
}

/// The worst that a subject says at the corners of the ranges that it rests on.
pub fn worst<P: Provenance>(
    scene: &Scene<'_, P>,
    measure: impl Fn(&Scene<'_, P>) -> Measure<P>,
) -> Measure<P> {
    let open = measure(scene);
    let corners = scene.corners(open.trace).map(&measure);
    let worse = corners.reduce(|a, b| {
        let slack = a.slack.min(b.slack);
        let worse = if rank(&b) > rank(&a) { b } else { a };
        Measure { slack, ..worse }
    });
    Measure {
        trace: open.trace,
        ..worse.unwrap_or(open)
    }
}

fn rank<P>(measure: &Measure<P>) -> u8 {
    match measure.outcome {
        Outcome::NotMet => 4,
        Outcome::Met => 1,
        _ if measure.outside.is_some() => 3,
        _ if measure.waits.is_some() => 2,
        _ => 0,
    }
}

/// The mildest way in which a rule is not met, if it is met at no corner; it still rests on what the
/// ranges stand for.
fn mildest(all: &[AtCorner], open: Trace) -> Option<Judgement> {
    let mut found: Option<(Level, Judgement)> = None;
    for (_, judged) in all {
        let level = judged.failing?.level;
        if found.is_none_or(|(least, _)| level < least) {
            found = Some((level, *judged));
        }
    }
    found.map(|(_, judged)| Judgement {
        trace: Trace {
            ranged: open.ranged,
            ..judged.trace
        },
        ..judged
    })
}

/// The properties that have a range, by their bits.
fn ranges_of(bits: u8) -> FieldSet {
    if bits == 0 {
        return FieldSet::NONE;
    }
    let all = RANGED.iter().enumerate();
    let ranged = all.filter(|(at, _)| bits & (1 << at) != 0);
    ranged.fold(FieldSet::NONE, |set, (_, field)| {
        set.union(FieldSet::of(*field))
    })
}

/// The properties whose range alone changes the outcome somewhere.
fn deciding(all: &[AtCorner]) -> FieldSet {
    let at = |wanted: Corner| {
        let mut all = all.iter();
        all.find(|(corner, _)| *corner == wanted)
            .map(|(_, judged)| judged.failing.is_some())
    };
    let decides = |number: usize| {
        all.iter().any(|(corner, judged)| {
            let Corner::At(ends) = corner else {
                return false;
            };
            let mut other = *ends;
            if let Some(end) = other.get_mut(number) {
                *end = !*end;
            }
            at(Corner::At(other)).is_some_and(|fails| fails != judged.failing.is_some())
        })
    };
    let deciding = RANGED.iter().enumerate().filter(|(at, _)| decides(*at));
    deciding.fold(FieldSet::default(), |set, (_, field)| {
        set.union(FieldSet::of(*field))
    })
}

/// Both sides of one comparison over all corners.
fn both_sides(all: &[Compared], units: DisplayUnits) -> String {
    let side = |at: usize| {
        let values = all.iter().filter_map(|one| one.values.get(at).copied());
        let ends = values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
            (low.min(value), high.max(value))
        });
        let unit = all.first().map(|one| one.unit);
        unit.map_or_else(String::new, |unit| print::ends(ends, unit, units))
    };
    format!("{} against {}", side(0), side(1))
}
