//! Where the record is wrong: no window, no remedy, and no advice that moves the tool.

use crate::judge::{Finding, Judge, Outcome, Words};
use crate::library::{Assembly, Library, Overrides};

/// Says of the findings of an assembly that rest on the lengths that the record comes first, where
/// it does. Whether something of it waits for what is not stated: of a record that is wrong
/// nothing does.
pub(super) fn say(
    judge: &Judge<'_>,
    library: &Library,
    assembly: &Assembly,
    findings: &mut [Finding],
) -> bool {
    let Some(stopper) = judge.stopper(library, assembly, &Overrides::default()) else {
        let mut findings = findings.iter();
        return findings.any(|finding| finding.outcome == Outcome::NotJudged);
    };
    let stopper = &stopper.id;
    for finding in findings {
        if *stopper == finding.rule {
            finding.brief = std::mem::take(&mut finding.brief).and_rerun();
        }
        if *stopper == finding.rule || !finding.on_length {
            continue;
        }
        finding.advise(format!(
            "correct the record first ({stopper}): it allows no other advice"
        ));
        finding.caution = Words::default();
        finding.otherwise.clear();
        finding.stick_out = None;
    }
    false
}
