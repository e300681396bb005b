//! What stands at the ends of a window, and what would, were more stated.

use crate::judge::{Outcome, unlisted};
use crate::library::{Field, FieldSet, SettingSet};
use crate::rulebook::{Bound, CuredBy, Level};

use super::samples::Subject;
use super::solver::Solver;
use super::stick_out_limits::{End, Unjudged};

/// What tells where the squares of tap and collet lie.
const SQUARE: [Field; 2] = [Field::ColletLength, Field::DriveSquareLength];

impl Solver<'_, '_, '_> {
    pub(super) fn end(&self, value: f64, by: usize) -> Option<End> {
        let subject = self.subject(by)?;
        let judge = self.bounding.judge;
        let trace = self.bounding.in_full(subject, value).trace;
        let (assumptions, operation) = self.bounding.look(subject, value, |scene| {
            let operation = scene.view.operation_name().map(str::to_owned);
            (
                judge.assumptions(scene, trace, SettingSet::default()),
                operation,
            )
        });
        Some(End {
            value,
            rule: subject.id().to_owned(),
            name: subject.name().to_owned(),
            operation: operation.filter(|_| subject.operation().is_some()),
            assumed: judge.assumed(trace),
            assumptions,
            where_none: subject.where_none().to_owned(),
            model_ends: self.model_ends(subject, value),
        })
    }

    /// Whether a rule's model, and not the rule, ends just beyond.
    fn model_ends(&self, subject: &Subject<'_>, at: f64) -> Option<&'static str> {
        [at + 5.0 * self.tolerance, at - 5.0 * self.tolerance]
            .into_iter()
            .find_map(|beyond| self.bounding.one(subject, beyond).outside)
    }

    pub(super) fn unjudged(&self) -> Vec<Unjudged> {
        let mut found: Vec<Unjudged> = Vec::new();
        for (subject, course) in self.bounding.subjects.iter().zip(&self.courses) {
            // A note bounds nothing, stated or not.
            let level = subject.level().filter(|level| *level > Level::Note);
            let (Some(waits), Some(level)) = (course.waits, level) else {
                continue;
            };
            let outside = waits.outside;
            let fields = waits.waits.map_or(FieldSet::NONE, |trace| trace.missing);
            let missing: Vec<&'static str> = fields.iter().map(Field::qualified).collect();
            // What a cell says does not depend on the stick-out.
            let unlisted = self
                .bounding
                .look(subject, 0.0, |scene| unlisted(&scene.view, fields));
            let ends = [Bound::StickOutMin, Bound::StickOutMax];
            for bound in ends.into_iter().filter(|bound| subject.bounds(*bound)) {
                let one = Unjudged {
                    rule: subject.id().to_owned(),
                    name: subject.name().to_owned(),
                    bound,
                    missing: missing.clone(),
                    unlisted: unlisted.clone(),
                    outside,
                    level,
                    of_grip: subject.judges_grip(),
                    of_stop: subject.is_cured_by(CuredBy::Stop),
                    of_tool: subject.operation().is_none(),
                };
                // Several operations lack the same.
                if !found.contains(&one) {
                    found.push(one);
                }
            }
        }
        found
    }

    /// What nobody may be told a stick-out without: all that an error-level rule which judges the
    /// grip waits for, a holder's minimum insertion as much as a bore's length; of the other
    /// error-level rules on the tool, the starred properties, what clamps it, and its square.
    pub(super) fn undecided(&self) -> Vec<&'static str> {
        let mut found: Vec<&'static str> = Vec::new();
        for (subject, course) in self.bounding.subjects.iter().zip(&self.courses) {
            let of_tool = subject.level() == Some(Level::Error) && subject.operation().is_none();
            let Some((trace, outcome)) = course
                .waits
                .and_then(|waits| Some((waits.waits?, waits.outcome)))
            else {
                continue;
            };
            let guarded = outcome == Outcome::NotApplicable;
            // A tap in a collet with a square is held by that; in a plain one nothing is missing.
            let squared = !trace.missing.contains(Field::ColletDriveSquare);
            let decisive = |field: &Field| {
                subject.judges_grip() && !guarded
                    || field.property().starred
                    || *field == Field::ClampingKind
                    || SQUARE.contains(field) && squared
            };
            for name in trace.missing.iter().filter(decisive).map(Field::qualified) {
                if of_tool && !found.contains(&name) {
                    found.push(name);
                }
            }
        }
        found
    }

    pub(super) fn beyond_cure(&self) -> Vec<String> {
        let subjects = self.bounding.subjects.iter().zip(&self.courses);
        let mut found: Vec<String> = subjects
            .filter(|(subject, course)| subject.level().is_some() && self.beyond(course))
            .map(|(subject, _)| subject.id().to_owned())
            .collect();
        found.dedup();
        found
    }
}
