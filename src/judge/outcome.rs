//! What came of a rule: one of four outcomes, with what it rests on.

use crate::library::{FieldSet, Trace};
use crate::rulebook::Level;

/// What came of one rule on one subject.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// The rule is met.
    Met,
    /// It is not met, at whatever level.
    NotMet,
    /// Something that it needs is not known.
    NotJudged,
    /// It does not apply.
    NotApplicable,
}

impl Outcome {
    /// Its name in JSON.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Outcome::Met => "met",
            Outcome::NotMet => "not met",
            Outcome::NotJudged => "not judged",
            Outcome::NotApplicable => "does not apply",
        }
    }

    /// Whether there is something to say.
    #[must_use]
    pub const fn is_found(self) -> bool {
        matches!(self, Outcome::NotMet | Outcome::NotJudged)
    }
}

/// One rule on one subject.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Judgement {
    /// What came of it.
    pub outcome: Outcome,
    /// What it rests on. Empty where there is nothing to say: then nobody asks.
    pub trace: Trace,
    /// How it is not met.
    pub failing: Option<Failing>,
}

/// How a rule is not met.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Failing {
    /// Its level, lowered where it rests on assumptions.
    pub level: Level,
    /// The level that it has before assumptions lower it.
    pub full_level: Level,
    /// Which milder case it is.
    pub case: Option<usize>,
    /// What it points at: the cells of the condition that failed, and of the case.
    pub shown: Trace,
}

impl Judgement {
    /// A judgement of which there is nothing to say.
    pub(super) fn unremarkable(outcome: Outcome) -> Judgement {
        Judgement {
            outcome,
            trace: Trace::default(),
            failing: None,
        }
    }

    /// One that waits for what a trace says is missing.
    pub(super) const fn waiting(trace: Trace) -> Judgement {
        Judgement {
            outcome: Outcome::NotJudged,
            trace,
            failing: None,
        }
    }
}

/// One rule on an assembly or on one of its operations.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ruling {
    /// Number of the rule in the rulebook.
    pub rule: usize,
    /// Which of the assembly's operations, if the rule is on one.
    pub operation: Option<usize>,
    /// What came of it.
    pub outcome: Outcome,
    /// The level of what is not met, lowered where it rests on assumptions.
    pub level: Option<Level>,
    /// The same before assumptions lower it.
    pub full_level: Option<Level>,
    /// What is not stated, so that it is not judged, or does not apply.
    pub lacks: FieldSet,
}

impl Ruling {
    /// Whether it is an error, whatever assumptions make of it.
    #[must_use]
    pub fn is_error(&self) -> bool {
        self.full_level == Some(Level::Error)
    }

    /// Whether it does not apply because something is not stated.
    #[must_use]
    pub fn is_silent(&self) -> bool {
        self.outcome == Outcome::NotApplicable && !self.lacks.is_empty()
    }
}
