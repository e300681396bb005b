//! What stands at the ends of a window, and what would, were more stated.

use crate::judge::State;
use crate::library::Field;
use crate::rulebook::Bound;

use super::probe::Subject;
use super::solve::Solver;
use super::window::{End, Unjudged};

impl Solver<'_, '_> {
    pub(super) fn end(&self, value: f64, by: usize) -> Option<End> {
        let subject = self.subject(by)?;
        let measure = self.probe.one(subject, value);
        let operation = subject.operation();
        let operation = operation.and_then(|at| {
            self.probe.look(value, |_, operations| {
                let scene = operations.get(at)?;
                scene.view.operation_name().map(str::to_owned)
            })
        });
        Some(End {
            value,
            rule: subject.id().to_owned(),
            name: subject.name().to_owned(),
            operation,
            assumed: self.probe.judge.assumed(measure.trace),
            model_ends: self.model_ends(subject, value),
        })
    }

    /// Whether a rule's model, and not the rule, ends just beyond.
    fn model_ends(&self, subject: &Subject<'_>, at: f64) -> Option<&'static str> {
        [at + 5.0 * self.tolerance, at - 5.0 * self.tolerance]
            .into_iter()
            .find_map(|beyond| match self.probe.one(subject, beyond).state {
                State::Outside(why) => Some(why),
                _ => None,
            })
    }

    pub(super) fn unjudged(&self) -> Vec<Unjudged> {
        let mut found: Vec<Unjudged> = Vec::new();
        for (subject, course) in self.probe.subjects.iter().zip(&self.courses) {
            let (Some(waits), Some(_)) = (course.waits, subject.level()) else {
                continue;
            };
            let (missing, outside) = match waits.state {
                State::Waits(trace) => (trace.missing.iter().map(Field::qualified).collect(), None),
                State::Outside(why) => (Vec::new(), Some(why)),
                _ => continue,
            };
            let ends = [Bound::StickOutMin, Bound::StickOutMax];
            for bound in ends.into_iter().filter(|bound| subject.bounds(*bound)) {
                let one = Unjudged {
                    rule: subject.id().to_owned(),
                    name: subject.name().to_owned(),
                    bound,
                    missing: Vec::clone(&missing),
                    outside,
                };
                // Several operations lack the same.
                if !found.contains(&one) {
                    found.push(one);
                }
            }
        }
        found
    }

    pub(super) fn beyond_cure(&self) -> Vec<String> {
        let subjects = self.probe.subjects.iter().zip(&self.courses);
        let mut found: Vec<String> = subjects
            .filter(|(subject, course)| {
                subject.level().is_some()
                    && course
                        .never
                        .is_some_and(|never| never.min.is_none() && never.max.is_none())
            })
            .map(|(subject, _)| subject.id().to_owned())
            .collect();
        found.dedup();
        found
    }
}
