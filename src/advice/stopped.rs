//! Where the record is wrong: no window, no remedy, and no advice that moves the tool.

use rayon::prelude::*;

use crate::judge::{Finding, Judge};
use crate::library::{Library, Overrides};
use crate::rulebook::Rule;

/// Assembly by assembly the rule that stops all advice, where one fails.
pub(super) struct Stopped(Vec<Option<String>>);

impl Stopped {
    pub(super) fn of(judge: &Judge<'_>, library: &Library) -> Stopped {
        let as_it_is = Overrides::default();
        let each = library.assemblies.par_iter().map(|assembly| {
            let rule = judge.stopper(library, assembly, &as_it_is);
            rule.map(|rule: &Rule| rule.id.clone())
        });
        Stopped(each.collect())
    }

    pub(super) fn by(&self, assembly: usize) -> Option<&str> {
        self.0.get(assembly)?.as_deref()
    }

    /// Says of a finding that rests on the lengths that the record comes first, where it does.
    pub(super) fn say(&self, finding: &mut Finding) {
        let stopper = finding.assembly_index.and_then(|at| self.by(at));
        let Some(stopper) = stopper.filter(|id| *id != finding.rule && finding.on_length) else {
            return;
        };
        finding.advice = format!("correct the record first ({stopper}): it allows no other advice");
        finding.caution = String::new();
        finding.otherwise.clear();
        finding.stick_out = None;
    }
}
