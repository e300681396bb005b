//! What became of a finding since an earlier audit.

/// How a finding compares with that of the earlier audit.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Change {
    /// What became of it.
    pub state: State,
    /// How much there was and how much was wanted, where numbers are compared.
    pub before: Option<(f64, f64)>,
    /// Whether the shop accepts it and did not before.
    pub newly_accepted: bool,
}

/// What became of a finding.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum State {
    /// There is nothing to compare with.
    #[default]
    Alone,
    /// It was not there.
    New,
    /// It was there and has become worse.
    Worse,
    /// It was accepted and is not any more, whatever became of its numbers.
    Lapsed,
    /// It was there and has become better.
    Better,
    /// It was there, with other words or numbers that are neither.
    Changed,
    /// It was there as it is.
    Same,
}

impl State {
    /// Those of a comparison.
    pub const COMPARED: [State; 6] = [
        State::New,
        State::Worse,
        State::Lapsed,
        State::Better,
        State::Changed,
        State::Same,
    ];

    /// Its name in data; empty where there is nothing to compare with.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            State::Alone => "",
            State::New => "new",
            State::Worse => "worse",
            State::Lapsed => "accepted no more",
            State::Better => "better",
            State::Changed => "changed",
            State::Same => "same",
        }
    }

    /// Its name in SARIF; none where there is nothing to compare with.
    #[must_use]
    pub const fn baseline(self) -> Option<&'static str> {
        match self {
            State::Alone => None,
            State::New => Some("new"),
            State::Worse | State::Lapsed | State::Better | State::Changed => Some("updated"),
            State::Same => Some("unchanged"),
        }
    }
}

impl Change {
    /// Whether it is to be looked at today: new, worse, or accepted no more.
    #[must_use]
    pub const fn is_news(&self) -> bool {
        matches!(self.state, State::New | State::Worse | State::Lapsed)
    }
}
