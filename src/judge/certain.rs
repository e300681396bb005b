//! What is certain is not lowered: assumptions that cannot turn a finding.

use crate::library::{Setting, SettingSet, Trace};
use crate::rulebook::{Certain, Environment, Rule, Values};
use crate::units::Scalar;

use super::judgement::Judge;

impl Judge<'_> {
    /// The settings from memory that cannot turn a failing judgement: those of its rule's
    /// cases that are true. None where such a case itself rests on another assumption.
    pub(super) fn harmless<'v, V: Values<'v, Trace = Trace>>(
        &self,
        rule: &'v Rule,
        environment: &Environment<'_, V>,
    ) -> SettingSet {
        let sure = rule.certain.iter().filter_map(|case| {
            let found = case.when.evaluate(environment);
            let despite = despite(case);
            let rest = without(found.trace, despite);
            let holds = found.value == Some(Scalar::Truth(true));
            (holds && !self.rests_on_guess(rest)).then_some(despite)
        });
        sure.fold(SettingSet::default(), SettingSet::union)
    }

    /// Whether something of a trace is only assumed.
    fn rests_on_guess(&self, trace: Trace) -> bool {
        !trace.assumed.is_empty() || !trace.settings.common(self.assumed_settings).is_empty()
    }
}

/// A trace without some of its settings.
pub(super) fn without(trace: Trace, settings: SettingSet) -> Trace {
    Trace {
        settings: trace.settings.without(settings),
        ..trace
    }
}

/// The settings that a case names.
fn despite(case: &Certain) -> SettingSet {
    let named = Setting::ALL.iter().copied();
    let named = named.filter(|setting| case.despite.iter().any(|name| name == setting.name()));
    named.fold(SettingSet::default(), |set, setting| {
        set.union(SettingSet::of(setting))
    })
}
