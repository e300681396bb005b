//! One tool, one way: what is advised of it can be followed at once. Where another part is
//! taken, nobody is told to set the present one; where the stick-out is set for all rules
//! together, no rule pulls the other way by itself.

use crate::judge::{Finding, Judge, Outcome};
use crate::library::Library;
use crate::rulebook::Level;

use super::cure::Cure;
use super::empty::NO_WINDOW;
use super::remedy::{Kind, Remedies};
use super::remedy_words;
use super::window::Window;

/// The rule about what stops the tool from going in.
const STOP: &str = "grip/tail-on-stop";

/// Topics in which a finding that no stick-out corrects may ask for another part.
const OF_PARTS: [&str; 3] = ["grip/", "holding/", "suits/"];

/// What is known of one tool when its findings have said what they would.
pub(super) struct Way<'a> {
    pub judge: &'a Judge<'a>,
    pub library: &'a Library,
    pub window: Option<&'a Window>,
    pub cure: Option<&'a Cure>,
    pub remedies: Option<&'a Remedies>,
    /// How many rules that bound the stick-out fail.
    pub failing: usize,
    /// Whether a finding of it says where to set the tool.
    pub cured: bool,
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
        if finding.stick_out.is_some() {
            self.with_parts(finding);
            self.the_stop(finding);
            return;
        }
        if finding.beside.as_deref() != Some(NO_WINDOW) {
            self.not_cured(finding, bounds);
        }
        if !bounds {
            self.another_part(finding);
        }
    }

    /// What a stick-out would correct, where the tool needs another part all the same.
    fn with_parts(&self, finding: &mut Finding) {
        let Some(remedies) = self.remedies else {
            return;
        };
        let units = self.library.units;
        match remedies.list.first() {
            Some(best) if best.kind == Kind::StickOut => {}
            Some(best) => {
                finding.advice = remedy_words::remedy(best, units) + &remedy_words::leaves(best);
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
                    finding.advice = format!(
                        "with the parts as they are, {}; {} wants another part, and with that ask again",
                        finding.advice,
                        others.join(", ")
                    );
                }
            }
        }
    }

    /// A tool that touches its stop was set by it: where nothing else is wrong, the stop is moved
    /// and the tool stays where its program wants it.
    fn the_stop(&self, finding: &mut Finding) {
        let touches = finding.rule == STOP && finding.full_level < Level::Error;
        if !touches || self.failing > 1 || finding.without_moving.is_empty() {
            return;
        }
        let set = std::mem::replace(&mut finding.advice, finding.without_moving.clone());
        finding.otherwise.insert(0, set);
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
    /// move the tool for it.
    fn not_cured(&self, finding: &mut Finding, bounds: bool) {
        let settled = self.settled();
        if settled && !finding.without_moving.is_empty() {
            finding.advice.clone_from(&finding.without_moving);
            return;
        }
        let Some(window) = self.window.filter(|_| bounds && !settled) else {
            return;
        };
        if !window.undecided.is_empty() && self.failing > 1 {
            let missing = window.undecided.join(", ");
            finding.advice = format!(
                "first state {missing}: until then nobody can say which stick-out suits all that is wrong here"
            );
        }
    }

    /// Whether others say where the tool is to be set, or that it cannot be.
    fn settled(&self) -> bool {
        let empty = self.window.is_some_and(Window::is_empty);
        self.cured || empty || self.remedies.is_some()
    }

    /// What no stick-out corrects, beside one that is to be set.
    fn another_part(&self, finding: &mut Finding) {
        let of_parts = OF_PARTS.iter().any(|topic| finding.rule.starts_with(topic));
        if of_parts
            && self.cured
            && self.remedies.is_none()
            && finding.level >= Some(Level::Warning)
        {
            finding.advice += "; with another part ask again where to set it";
        }
    }
}
