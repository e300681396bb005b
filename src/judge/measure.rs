//! A rule as the stick-out window reads it: on which side of its edge, and how far from it. Also
//! [`Judge::look`], which makes the scenes of an assembly.

use crate::facts::{Fact, NameId, Scene};
use crate::library::{
    Assembly, Field, LENGTHS, Library, Marks, OperationRef, Overrides, Provenance, Setting, Trace,
    View, Watch,
};
use crate::rulebook::{Checked, Hinge, Rule, Symbol};

use super::judgement::{Judge, SceneValues};
use super::names::meant;
use super::outcome::Outcome;

/// Whether something rests on how far the tool sticks out, or on how long it is.
pub(super) fn rests_on_length(trace: Trace) -> bool {
    let lengths = LENGTHS.into_iter().chain([Field::OverallLength]);
    lengths.into_iter().any(|field| trace.used.contains(field))
}

/// What clamps a tool, which no stick-out changes.
const WHAT_CLAMPS: [Fact; 4] = [
    Fact::HeldInCollet,
    Fact::HeldByShank,
    Fact::SlottedCollet,
    Fact::HeldInChuck,
];

/// What a rule says of one scene.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measure<P = Trace> {
    /// What comes of it. What does not apply may wait all the same, for what only it could use: a
    /// minimum insertion that a collet's holder need not have.
    pub outcome: Outcome,
    /// What it waits for, where something is not stated.
    pub waits: Option<P>,
    /// Why its model says nothing here, where nothing is missing.
    pub outside: Option<&'static str>,
    /// How far it is from its edge: see [`Checked::slack`]. NaN where it is not known.
    pub slack: f64,
    /// What that rests on.
    pub trace: P,
}

impl Judge<'_> {
    /// Reads rule number `index` on a scene as it is.
    pub(super) fn measure_at<P: Provenance>(
        &self,
        index: usize,
        rule: &Rule,
        scene: &Scene<'_, P>,
    ) -> Measure<P> {
        let values = SceneValues(scene);
        let environment = self.environment(index, &values);
        let asked = self.ask(index, rule, scene);
        let slack = || rule.expect.as_ref()?.slack(&environment);
        let (waits, outside) = match asked.outcome {
            Outcome::Met | Outcome::NotMet => (None, None),
            Outcome::NotApplicable => {
                let condition = rule.when.as_ref();
                silent(
                    rule,
                    scene,
                    condition.and_then(|when| when.waits_for(&environment)),
                )
            }
            Outcome::NotJudged => silent(rule, scene, Some(asked.trace())),
        };
        let slack = match asked.outcome {
            Outcome::Met | Outcome::NotMet => slack().unwrap_or(f64::NAN),
            _ => f64::NAN,
        };
        Measure {
            outcome: asked.outcome,
            waits,
            outside,
            slack,
            trace: asked.trace(),
        }
    }

    /// What of a trace is only assumed: fields and settings, by name.
    #[must_use]
    pub fn assumed(&self, trace: Trace) -> Vec<&'static str> {
        let fields = trace.assumed.iter().map(Field::qualified);
        let settings = trace.settings.common(self.assumed_settings);
        fields.chain(settings.iter().map(Setting::name)).collect()
    }

    /// Whether a finding that rests on these values is lowered by a level.
    #[must_use]
    pub fn lowers(&self, trace: Trace) -> bool {
        let guessed = !trace.settings.common(self.assumed_settings).is_empty();
        (guessed || !trace.assumed.is_empty()) && !self.strict
    }

    /// Every rule that is switched on and bounds the stick-out, by its number.
    pub fn bounding(&self) -> impl Iterator<Item = (usize, &Rule)> {
        let rules = self.book.rules.iter().enumerate();
        rules.filter(|(_, rule)| !rule.off && !rule.is_fault() && !rule.bounds.is_empty())
    }

    /// Whether a rule may change its mind between two stick-outs at which it agrees, unseen in
    /// its slack.
    #[must_use]
    pub fn may_jump(rule: &Rule) -> bool {
        let condition = rule.when.as_ref();
        condition.is_some_and(|when| when.depends(&moves))
            || rule
                .expect
                .as_ref()
                .is_some_and(|expect| expect.may_jump(&moves))
    }

    /// Whether what a rule hangs on tells all of where it may jump; see [`Judge::hinges`].
    #[must_use]
    pub fn is_hinged(rule: &Rule) -> bool {
        let conditions = rule.when.iter().chain(&rule.expect);
        conditions.into_iter().all(|one| one.is_hinged(&moves))
    }

    /// What rule number `index` hangs on in a scene, at every corner of the ranges that it rests on
    /// there.
    #[must_use]
    pub fn hinges(&self, index: usize, rule: &Rule, scene: &Scene<'_, Marks>) -> Vec<Hinge> {
        let mut found = Vec::new();
        let mut add = |scene: &Scene<'_, Marks>| {
            let values = SceneValues(scene);
            let environment = self.environment(index, &values);
            for condition in rule.when.iter().chain(&rule.expect) {
                condition.hinges(&environment, &mut found);
            }
        };
        add(scene);
        scene
            .corners(self.ask(index, rule, scene).trace())
            .for_each(add);
        found
    }

    /// Looks at an assembly, or at one of its operations alone.
    pub fn look_at<R>(
        &self,
        library: &Library,
        assembly: &Assembly,
        overrides: &Overrides<'_>,
        operation: Option<usize>,
        see: impl FnOnce(&Scene<'_>) -> R,
    ) -> R {
        let operation = operation.and_then(|at| assembly.operations.get(at).copied());
        let view = |operation| View {
            unstated: self.unstated,
            ..View::new(library, assembly, operation, overrides)
        };
        let base = Scene::new(view(None), &self.settings);
        match operation {
            Some(_) => see(&base.with_operation(view(operation))),
            None => see(&base),
        }
    }

    /// Looks at an assembly and each of its operations.
    pub fn look<R>(
        &self,
        library: &Library,
        assembly: &Assembly,
        overrides: &Overrides<'_>,
        see: impl for<'v> FnOnce(&Scene<'v>, &[Scene<'v>]) -> R,
    ) -> R {
        self.look_under(library, assembly, overrides, None, see)
    }

    /// The same under a watch.
    pub fn look_under<R>(
        &self,
        library: &Library,
        assembly: &Assembly,
        overrides: &Overrides<'_>,
        watch: Option<Watch<'_>>,
        see: impl for<'v> FnOnce(&Scene<'v>, &[Scene<'v>]) -> R,
    ) -> R {
        let view = |operation: Option<OperationRef>| View {
            unstated: self.unstated,
            watch,
            ..View::new(library, assembly, operation, overrides)
        };
        let base = Scene::new(view(None), &self.settings);
        let operations = assembly.operations.iter();
        let operations: Vec<Scene<'_>> = operations
            .map(|operation| base.with_operation(view(Some(*operation))))
            .collect();
        see(&base, &operations)
    }
}

/// Why a rule says nothing: what it waits for, or that its model ends.
fn silent<P: Provenance>(
    rule: &Rule,
    scene: &Scene<'_, P>,
    waits_for: Option<P>,
) -> (Option<P>, Option<&'static str>) {
    match waits_for {
        Some(trace) if trace.lacks() => (Some(trace), None),
        Some(_) => (None, outside(rule, scene)),
        None => (None, None),
    }
}

/// Why a rule has no result although nothing is missing, where a fact that it names says so.
pub(super) fn outside<P: Provenance>(rule: &Rule, scene: &Scene<'_, P>) -> Option<&'static str> {
    let named = rule.when.iter().chain(&rule.expect);
    named.flat_map(names).find_map(|id| match meant(id) {
        Some(NameId::Fact(fact)) => scene.outside(fact),
        _ => None,
    })
}

/// Whether a name may stand for another value when the tool is pulled out: all facts but what
/// clamps it, and the lengths that state the stick-out.
fn moves(id: u32) -> bool {
    match meant(id) {
        Some(NameId::Fact(fact)) => !WHAT_CLAMPS.contains(&fact),
        Some(NameId::Field(field)) => LENGTHS.contains(&field),
        None => false,
    }
}

/// The facts and properties that a condition names.
fn names(condition: &Checked) -> impl Iterator<Item = u32> {
    let symbols = condition.symbols.iter();
    symbols.filter_map(|(_, symbol)| match symbol {
        Symbol::Outside(id) => Some(*id),
        _ => None,
    })
}
