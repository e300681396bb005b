//! What the bounding rules say of one assembly at any stick-out.

use crate::facts::{Fact, Scene};
use crate::judge::{Judge, Measure, State};
use crate::library::{Assembly, Field, Library, Overrides};
use crate::rulebook::{Bound, Level, Rule};

/// The rule under whose name the end of a full land is shown.
pub(super) const FULL_LAND: &str = "grip/part-grip";

/// Who bounds the stick-out.
#[derive(Clone, Debug)]
pub(super) struct Subject<'a> {
    /// Number of the rule; `None` for the full land, which no rule demands.
    rule: Option<(usize, &'a Rule)>,
    /// Which of the assembly's operations, if the rule is on one.
    operation: Option<usize>,
}

impl Subject<'_> {
    pub(super) fn id(&self) -> &str {
        self.rule.map_or(FULL_LAND, |(_, rule)| &rule.id)
    }

    /// The word for what binds.
    pub(super) fn name(&self) -> &str {
        self.rule.map_or("full land", |(_, rule)| &rule.binds)
    }

    pub(super) fn level(&self) -> Option<Level> {
        self.rule.map(|(_, rule)| rule.level)
    }

    pub(super) fn bounds(&self, bound: Bound) -> bool {
        self.rule
            .is_none_or(|(_, rule)| rule.bounds.contains(&bound))
    }

    pub(super) fn operation(&self) -> Option<usize> {
        self.operation
    }
}

/// One assembly, asked at different stick-outs.
pub(super) struct Probe<'a> {
    pub judge: &'a Judge<'a>,
    pub library: &'a Library,
    pub assembly: &'a Assembly,
    pub overrides: &'a Overrides<'a>,
    pub subjects: Vec<Subject<'a>>,
}

impl<'a> Probe<'a> {
    pub(super) fn new(
        judge: &'a Judge<'a>,
        library: &'a Library,
        assembly: &'a Assembly,
        overrides: &'a Overrides<'a>,
    ) -> Probe<'a> {
        let operations = assembly.operations.len();
        let mut subjects = Vec::new();
        for (index, rule) in judge.bounding() {
            let rule = Some((index, rule));
            if rule.is_some_and(|(_, rule)| !rule.of_operation) {
                let operation = None;
                subjects.push(Subject { rule, operation });
                continue;
            }
            subjects.extend((0..operations).map(|at| Subject {
                rule,
                operation: Some(at),
            }));
        }
        subjects.push(Subject {
            rule: None,
            operation: None,
        });
        Probe {
            judge,
            library,
            assembly,
            overrides,
            subjects,
        }
    }

    /// Looks at the assembly with another stick-out, mm.
    pub(super) fn look<R>(
        &self,
        stick_out: f64,
        see: impl FnOnce(&Scene<'_>, &[Scene<'_>]) -> R,
    ) -> R {
        let mut overrides = self.overrides.clone();
        overrides.numbers.push((Field::StickOut, stick_out));
        self.judge
            .look(self.library, self.assembly, &overrides, see)
    }

    /// What every subject says at a stick-out, mm.
    pub(super) fn all(&self, stick_out: f64) -> Vec<Measure> {
        self.look(stick_out, |base, operations| {
            let subjects = self.subjects.iter();
            subjects
                .map(|subject| self.measure(subject, base, operations))
                .collect()
        })
    }

    /// What one subject says at a stick-out, mm.
    pub(super) fn one(&self, subject: &Subject<'_>, stick_out: f64) -> Measure {
        self.look(stick_out, |base, operations| {
            self.measure(subject, base, operations)
        })
    }

    fn measure(
        &self,
        subject: &Subject<'_>,
        base: &Scene<'_>,
        operations: &[Scene<'_>],
    ) -> Measure {
        let of_operation = subject.operation.and_then(|at| operations.get(at));
        match (subject.rule, of_operation) {
            (Some((index, rule)), Some(scene)) => self.judge.measure(index, rule, scene),
            (Some((index, rule)), None) => self.judge.measure(index, rule, base),
            (None, _) => full_land(base, self.judge.book.tolerance().length),
        }
    }
}

/// Whether the land is filled, within what counts as equal.
fn full_land(scene: &Scene<'_>, tolerance: f64) -> Measure {
    let gripped = scene.number(Fact::GrippedLength);
    let lengths = gripped.zip(scene.field(Field::BoreLength));
    let spare = lengths.map(|(gripped, land)| gripped - land);
    Measure {
        state: match spare.value {
            None => State::Waits(spare.trace),
            Some(spare) if spare >= -tolerance => State::Holds,
            Some(_) => State::Fails,
        },
        slack: spare.value.unwrap_or(f64::NAN),
        trace: spare.trace,
    }
}

/// Stick-outs at which a length along the axis changes its law: where the land's ends meet the
/// shank's. Between them such lengths are straight lines. mm.
pub(super) fn kinks(scene: &Scene<'_>) -> Vec<f64> {
    let length = |found: crate::library::Reckoned<f64>| found.value;
    let overall = length(scene.view.overall_length());
    let shank = length(scene.field(Field::ShankLength));
    let square = length(scene.field(Field::DriveSquareLength)).unwrap_or(0.0);
    let setback = length(scene.number(Fact::BoreSetback));
    let land = length(scene.field(Field::BoreLength));
    let ends = [
        overall.zip(shank).map(|(overall, shank)| overall - shank),
        overall.map(|overall| overall - square),
    ];
    let mut found = Vec::new();
    for (end, setback) in ends.into_iter().flatten().zip(setback.into_iter().cycle()) {
        found.push(end - setback);
        found.extend(land.map(|land| end - setback - land));
    }
    found
}
