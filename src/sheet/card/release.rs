//! Whether a tool may be built by its card, and what stops it.

use std::collections::HashMap;

use crate::advice::NO_WINDOW;
use crate::facts::Fact;
use crate::judge::{Finding, Group, OfAssembly, Outcome, Session, fault_kind};
use crate::rulebook::Level;

/// What may be done with a tool.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Release {
    /// Nothing stops it.
    #[default]
    Free,
    /// What would stop it, the shop has accepted.
    Accepted,
    /// Whether it is held, or its torque, is not judged.
    NotReleased,
    /// It is wrong as recorded.
    DoNotBuild,
}

/// A finding in a few words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Reason {
    /// The rule; empty where something was not read.
    pub rule: String,
    /// What the fault is called.
    pub title: String,
    /// What is wrong, where that speaks of no other stick-out than the recorded one.
    pub message: Option<String>,
    /// What is to be done with parts on which a wrong torque may have been applied.
    pub caution: Option<String>,
}

/// What the shop has accepted of a tool.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AcceptedShown {
    /// The rule.
    pub rule: String,
    /// What the fault is called.
    pub title: String,
    /// Who.
    pub by: String,
    /// Last day, `2027-01-31`.
    pub until: Option<String>,
    /// Why.
    pub reason: String,
}

/// Whether a tool may be built, and what is to be known of it, the worst first.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Released {
    /// What may be done.
    pub release: Release,
    /// Errors.
    pub stops: Vec<Reason>,
    /// For what is not judged it is not released.
    pub waits: Vec<Reason>,
    /// Warnings.
    pub warns: Vec<Reason>,
    /// Else not judged.
    pub open: Vec<Reason>,
    /// Accepted by the shop.
    pub accepted: Vec<AcceptedShown>,
}

/// What is wrong with records of parts, by the assemblies that they belong to.
#[derive(Default)]
pub(in super::super) struct OfParts(HashMap<usize, Vec<Finding>>);

impl OfParts {
    /// Takes faults of no one assembly; of what is no more than a note nobody asks.
    pub(in super::super) fn take(&mut self, faults: &[Finding]) {
        for fault in faults {
            let matters = fault.accepted.is_some() || fault.level != Some(Level::Note);
            if !matters {
                continue;
            }
            for at in &fault.part_of {
                self.0.entry(*at).or_default().push(fault.clone());
            }
        }
    }
}

/// Facts that are a stick-out: what names one of them speaks of another than the recorded.
const STICK_OUTS: [Fact; 4] = [
    Fact::ReachNeeded,
    Fact::ReachAdvised,
    Fact::LeastStickOut,
    Fact::FlatStickOut,
];

impl Released {
    pub(super) fn of(session: &Session<'_>, checked: &OfAssembly, of_parts: &OfParts) -> Released {
        let mut released = Released::default();
        let of_parts = of_parts.0.get(&checked.at).into_iter().flatten();
        for finding in checked.findings.iter().chain(of_parts) {
            released.take(finding);
        }
        if released.stops.is_empty() && checked.group(Level::Error) == Group::Fails {
            released.stops.push(Reason::of_twin(session));
        }
        // That no stick-out is left follows from what else is wrong.
        released.stops.sort_by_key(|one| one.rule == NO_WINDOW);
        if checked.covered.counts.is_open() {
            released.grip_is_open();
        }
        let unread = session.library.unread.iter().chain(&session.setup.unread);
        released.waits.splice(0..0, unread.map(Reason::unread));
        released.release = if !released.stops.is_empty() {
            Release::DoNotBuild
        } else if !released.waits.is_empty() {
            Release::NotReleased
        } else if !released.accepted.is_empty() {
            Release::Accepted
        } else {
            Release::Free
        };
        released
    }

    /// The grip is not judged: what waits for it comes first.
    fn grip_is_open(&mut self) {
        let open = std::mem::take(&mut self.open);
        let (grip, open): (Vec<Reason>, Vec<Reason>) =
            open.into_iter().partition(Reason::is_of_grip);
        self.open = open;
        let own = if grip.is_empty() {
            vec![Reason::grip()]
        } else {
            grip
        };
        self.waits.splice(0..0, own);
    }

    fn take(&mut self, finding: &Finding) {
        let level = finding.level.unwrap_or(finding.full_level);
        match (&finding.accepted, finding.outcome) {
            (Some(accepted), _) if level >= Level::Warning => {
                self.accepted.push(AcceptedShown {
                    rule: finding.rule.clone(),
                    title: finding.title.to_string(),
                    by: accepted.by.clone(),
                    until: accepted.until.clone(),
                    reason: accepted.reason.clone(),
                });
            }
            (None, Outcome::NotMet) => match level {
                Level::Error => self.stops.push(Reason::of(finding)),
                Level::Warning => self.warns.push(Reason::of(finding)),
                Level::Note => {}
            },
            // A torque that is not stated is a field to fill in. A rule that waits for another value
            // leaves open whether the stated one is right.
            (None, Outcome::NotJudged) if topic(&finding.rule) == TORQUE => {
                self.waits.push(Reason::of(finding));
            }
            (None, Outcome::NotJudged) => self.open.push(Reason::of(finding)),
            _ => {}
        }
    }
}

/// The topics of rules whose silence stops a release.
const TORQUE: &str = "torque";
const GRIP: &str = "grip";

fn topic(rule: &str) -> &str {
    rule.split_once('/').map_or(rule, |(topic, _)| topic)
}

impl Reason {
    fn of(finding: &Finding) -> Reason {
        let moves = finding.facts.iter().any(|fact| {
            let of_stick_out = |one: &Fact| one.info().name == fact.name;
            STICK_OUTS.iter().any(of_stick_out)
        });
        let is_of_setting = moves || finding.rule == NO_WINDOW;
        // What is not judged says its title again.
        let again = format!("not judged ({}): ", finding.title);
        let message = finding.message.strip_prefix(&again);
        let message = message.unwrap_or(&finding.message).to_owned();
        Reason {
            rule: finding.rule.clone(),
            title: finding.title.to_string(),
            message: Some(message).filter(|_| !is_of_setting),
            caution: (finding.of_torque && !finding.caution.is_empty())
                .then(|| finding.caution.to_string()),
        }
    }

    fn unread(unread: &crate::text::Unread) -> Reason {
        Reason {
            rule: String::new(),
            title: format!("{} was not read", unread.file),
            message: Some(unread.reason.clone()),
            caution: None,
        }
    }

    /// The finding is the other row's, and speaks of this one too: of two tools of one number nobody
    /// can tell which is meant.
    fn of_twin(session: &Session<'_>) -> Reason {
        let rule = session.judge.book.rule(fault_kind::NUMBER_TAKEN_TWICE);
        Reason {
            rule: fault_kind::NUMBER_TAKEN_TWICE.to_owned(),
            title: rule.map_or_else(String::new, |rule| rule.title.to_string()),
            message: Some("another tool has this number too".to_owned()),
            caution: None,
        }
    }

    /// Where no rule on its grip waits for anything.
    fn grip() -> Reason {
        Reason {
            rule: String::new(),
            title: "the grip is not judged".to_owned(),
            message: None,
            caution: None,
        }
    }

    fn is_of_grip(&self) -> bool {
        topic(&self.rule) == GRIP || self.rule == fault_kind::FIELD_MISSING
    }
}
