//! One tool, one way: what is advised of it can be followed at once. Where another part is
//! taken, nobody is told to set the present one; where the stick-out is set for all rules
//! together, no rule pulls the other way by itself.

use crate::judge::{Brief, Finding, Judge, Outcome};
use crate::library::Library;
use crate::rulebook::{CuredBy, Level};

use super::cure::Cure;
use super::empty::NO_WINDOW;
use super::remedy::{Remedies, Remedy, RemedyKind};
use super::remedy_words;

/// What is known of one tool when its findings have said what they would.
pub(super) struct Way<'a> {
    pub judge: &'a Judge<'a>,
    pub library: &'a Library,
    /// Whether no stick-out suits all that bounds it.
    pub empty: bool,
    /// What is to be stated before anybody can say which stick-out suits all that bounds it.
    pub undecided: &'a [&'static str],
    /// The limits, where they leave less than setting a tool needs.
    pub narrow: Option<&'a str>,
    pub cure: Option<&'a Cure>,
    pub remedies: Option<&'a Remedies>,
    /// How many rules that bound the stick-out fail.
    pub failing: usize,
    /// Whether a finding of it says where to set the tool.
    pub cured: bool,
    /// The errors that nothing but another part corrects.
    pub parts: &'a [String],
}

/// Whether a finding is of a rule that bounds the stick-out, and fails.
pub(super) fn bounds(judge: &Judge<'_>, finding: &Finding) -> bool {
    let rule = judge.book.rule(&finding.rule);
    finding.outcome == Outcome::NotMet && rule.is_some_and(|rule| !rule.bounds.is_empty())
}

impl Way<'_> {
    /// Brings the advice of one of the tool's findings into line with the others.
    pub(super) fn agree(&self, finding: &mut Finding) {
        if finding.outcome != Outcome::NotMet || finding.rule == NO_WINDOW {
            return;
        }
        let bounds = bounds(self.judge, finding);
        if self.part_first(finding, bounds) {
            return;
        }
        if finding.stick_out.is_some() {
            self.with_parts(finding);
            self.the_stop(finding);
            return;
        }
        if finding.beside.as_deref() != Some(NO_WINDOW) {
            self.not_cured(finding, bounds);
        }
        if !bounds && finding.level >= Some(Level::Warning) {
            self.another_part(finding);
        }
    }

    /// Where the tool needs another part, nobody is told to move it in the present ones: with the
    /// other part everything is asked anew. A remedy names that part in every block.
    fn part_first(&self, finding: &mut Finding, bounds: bool) -> bool {
        let moved = bounds || finding.stick_out.is_some();
        let explained = finding.beside.as_deref() == Some(NO_WINDOW);
        if self.parts.is_empty() || !moved || explained || self.best().is_some() {
            return false;
        }
        finding.stick_out = None;
        finding.otherwise.clear();
        // What stays wrong in the other part too has words for it: a lighter cut, less torque.
        let stays = finding.level < Some(Level::Error) && !finding.without_moving.is_empty();
        if stays {
            finding.advise(finding.without_moving.clone());
        } else {
            let parts = self.parts.join(" and ");
            let rerun = "then rerun the check for the new stick-out";
            finding.advice = format!("first correct {parts}; {rerun}").into();
            // In short, the part comes before it.
            finding.brief = Brief::default().and_rerun();
        }
        true
    }

    /// The remedy that the tool's blocks name.
    fn best(&self) -> Option<&Remedy> {
        self.remedies?.list.first()
    }

    /// What a stick-out would correct, where the tool needs another part all the same.
    fn with_parts(&self, finding: &mut Finding) {
        let Some(remedies) = self.remedies else {
            return;
        };
        let units = self.library.units;
        match remedies.list.first() {
            Some(best) if best.kind == RemedyKind::StickOut => {}
            Some(best) => {
                let says = remedy_words::remedy(best, units) + &remedy_words::leaves(best);
                finding.advice = says.into();
                finding.brief = remedy_words::brief(best, units);
                finding.stick_out = None;
            }
            None => {
                let rules: Vec<&str> = remedies
                    .nearest
                    .iter()
                    .flat_map(|n| &n.rules)
                    .map(String::as_str)
                    .collect();
                let others: Vec<&str> =
                    rules.into_iter().filter(|id| *id != finding.rule).collect();
                if !others.is_empty() && !self.all_cured(&others) {
                    let others = others.join(", ");
                    let advice = &finding.advice;
                    finding.advice = format!(
                        "with the present parts, {advice}; {others} needs another component; then rerun the check"
                    )
                    .into();
                    let brief = std::mem::take(&mut finding.brief);
                    finding.brief = Brief::of("for the rest, ").then(brief).and_rerun();
                }
            }
        }
    }

    /// A tool that touches its stop was set by it: where nothing else is wrong, the stop is moved
    /// and the tool stays where its program wants it.
    fn the_stop(&self, finding: &mut Finding) {
        let rule = self.judge.book.rule(&finding.rule);
        let of_stop = rule.is_some_and(|rule| rule.is_cured_by(CuredBy::Stop));
        let touches = of_stop && finding.full_level < Level::Error;
        if !touches || self.failing > 1 || finding.without_moving.is_empty() {
            return;
        }
        let set = std::mem::replace(&mut finding.advice, finding.without_moving.clone());
        finding.brief = Brief::of(finding.without_moving.clone());
        finding.otherwise.insert(0, set.to_string());
    }

    fn all_cured(&self, rules: &[&str]) -> bool {
        let Some(cure) = self.cure else {
            return false;
        };
        rules.iter().all(|id| {
            let rule = self.judge.book.rule(id);
            rule.is_some_and(|rule| !rule.bounds.is_empty()) && !cure.fails(id)
        })
    }

    /// What the stick-out does not correct: where that is settled by others, nobody is told to
    /// move the tool for it; nor where several rules ask for it and nobody can say which place
    /// suits them all.
    fn not_cured(&self, finding: &mut Finding, bounds: bool) {
        let settled = self.cured || self.empty || self.remedies.is_some();
        if settled && !finding.without_moving.is_empty() {
            finding.advise(finding.without_moving.clone());
            return;
        }
        if !bounds || self.cured || self.best().is_some() {
            return;
        }
        if let Some(limits) = self.narrow {
            finding.advise(format!(
                "take another cutter or holder: the range left is too narrow for setting; {limits}"
            ));
        } else if self.failing > 1 && !self.undecided.is_empty() {
            let missing = self.undecided.join(", ");
            finding.advise(format!(
                "first state {missing}: without it no stick-out can be given that corrects everything here"
            ));
        }
    }

    /// What no stick-out corrects, beside one that is to be set.
    fn another_part(&self, finding: &mut Finding) {
        let rule = self.judge.book.rule(&finding.rule);
        let of_parts = rule.is_some_and(|rule| rule.cured_by.iter().any(|by| by.is_part()));
        if of_parts && self.cured && self.remedies.is_none() {
            let rerun = "; with another component, rerun the check for the stick-out";
            finding.advice = finding.advice.and(rerun);
            finding.brief = std::mem::take(&mut finding.brief).and_rerun();
        }
    }
}
