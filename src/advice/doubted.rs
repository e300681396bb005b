//! Numbers that another finding of the tool doubts: they are corrected first, and no part is
//! sought for them.

use crate::judge::Brief;
use crate::judge::{Finding, FindingPlace, Judge, Outcome};
use crate::rulebook::Rule;

/// The doubted cells of one tool, each with the rule that doubts it.
#[derive(Default)]
pub(super) struct Doubted(Vec<(String, FindingPlace)>);

impl Doubted {
    /// What the findings of a tool doubt.
    pub(super) fn of(judge: &Judge<'_>, findings: &[Finding]) -> Doubted {
        let mut doubted = Vec::new();
        for finding in findings.iter().filter(|finding| is_open(finding)) {
            let Some(rule) = judge.book.rule(&finding.rule) else {
                continue;
            };
            let named = |place: &&FindingPlace| rule.doubts.contains(&place.field);
            let cells = finding.places.iter().filter(named).cloned();
            doubted.extend(cells.map(|cell| (rule.id.clone(), cell)));
        }
        Doubted(doubted)
    }

    /// The first doubt about what another part would be sought for.
    fn about(&self, finding: &Finding, judge: &Judge<'_>) -> Option<&(String, FindingPlace)> {
        let rule = judge.book.rule(&finding.rule)?;
        if !is_open(finding) || !of_part(rule) || finding.stick_out.is_some() {
            return None;
        }
        self.0.iter().find(|(_, cell)| {
            let mut places = finding.places.iter();
            places.any(|own| own.line_key() == cell.line_key() && own.column == cell.column)
        })
    }

    /// Whether a part would be sought for what is doubted.
    pub(super) fn is_sought(&self, findings: &[Finding], judge: &Judge<'_>) -> bool {
        let mut findings = findings.iter();
        findings.any(|finding| self.about(finding, judge).is_some())
    }

    /// Says of what a part would be sought for that its number comes first.
    pub(super) fn say(&self, findings: &mut [Finding], judge: &Judge<'_>) {
        for finding in findings {
            let Some((rule, cell)) = self.about(finding, judge) else {
                continue;
            };
            let field = &cell.field;
            finding.advice = format!(
                "correct {field} first ({rule}), then rerun the check: no part is sought for a number in doubt"
            ).into();
            // In short, the finding that doubts it says how.
            finding.brief = Brief::default().and_rerun();
            finding.otherwise.clear();
        }
    }
}

fn is_open(finding: &Finding) -> bool {
    finding.outcome == Outcome::NotMet && finding.accepted.is_none()
}

/// Whether another part may correct a rule.
fn of_part(rule: &Rule) -> bool {
    rule.cured_by.iter().any(|by| by.is_part())
}
