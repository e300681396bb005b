//! What an audit tells whoever reads it in the morning, gathered while its findings pass by: counts,
//! and of each kind of news the gravest few.

use std::collections::{BTreeMap, BTreeSet};

use crate::audit::{Change, Counts, Ended, Noted, Passed, State, Status};

/// News of one kind that are kept to be named.
const NAMED: usize = 400;

/// A finding that is named, with what became of it.
#[derive(Clone, Debug)]
pub(super) struct Told {
    pub noted: Noted,
    pub change: Change,
    /// Whether it is gone because its tool is.
    pub without_tool: bool,
}

impl Told {
    pub(super) fn is_error(&self) -> bool {
        level(&self.noted) == 0
    }
}

/// News of one kind.
#[derive(Clone, Debug, Default)]
pub(super) struct News {
    /// How many there are: errors, warnings, notes, not judged.
    pub levels: [usize; 4],
    /// The gravest, in their order.
    pub named: Vec<Told>,
    /// Those that share a reason with others of their library.
    pub alike: Vec<Alike>,
}

/// Findings of a library that share a reason.
#[derive(Clone, Debug, Default)]
pub(super) struct Alike {
    pub library: String,
    pub reason: String,
    pub findings: usize,
    pub errors: usize,
}

/// The outcome of a rule that waits for a value.
const NOT_JUDGED: &str = "not judged";

/// What a rule says in all libraries together.
#[derive(Clone, Debug, Default)]
pub(super) struct Cause {
    pub title: String,
    /// What is found; what only waits for a value is counted beside it.
    pub findings: usize,
    pub not_judged: usize,
    pub news: usize,
    pub libraries: BTreeSet<String>,
    /// The least number of its level: 0 for errors.
    pub grave: usize,
}

/// All that is told.
#[derive(Clone, Debug, Default)]
pub(crate) struct Story {
    pub(super) new: News,
    pub(super) worse: News,
    pub(super) lapsed: News,
    pub(super) better: News,
    /// Accepted today, and not at the earlier audit.
    pub(super) accepted: News,
    pub(super) gone: News,
    pub(super) not_compared: News,
    /// Findings that counted again at the earlier audit already.
    pub(super) lapsed_before: usize,
    /// What is said of acceptances: faults of form of their own.
    pub(super) acceptances: News,
    pub(super) causes: BTreeMap<String, Cause>,
    pub(super) counts: Counts,
    pub(super) libraries: usize,
    pub(super) failing: usize,
    /// Libraries of which nothing was read, or not everything, and why.
    pub(super) troubled: Vec<(String, Status, String)>,
    /// Files that should be part of a library and were not read.
    pub(super) unread: Vec<Passed>,
    pub(super) new_libraries: Vec<String>,
    pub(super) gone_libraries: Vec<String>,
    pub(super) moved: Vec<(String, String)>,
}

/// The place of a level in counts.
fn level(noted: &Noted) -> usize {
    match noted.level.as_str() {
        "error" => 0,
        "warning" => 1,
        "note" => 2,
        _ => 3,
    }
}

/// How grave a level is: what is not judged comes before a note.
fn gravity(noted: &Noted) -> usize {
    match noted.level.as_str() {
        "error" => 0,
        "warning" => 1,
        "note" => 3,
        _ => 2,
    }
}

impl News {
    fn add(&mut self, told: Told) {
        if let Some(count) = self.levels.get_mut(level(&told.noted)) {
            *count += 1;
        }
        let grave = gravity(&told.noted);
        let at = self
            .named
            .partition_point(|one| gravity(&one.noted) <= grave);
        if at < NAMED {
            self.named.insert(at, told);
            self.named.truncate(NAMED);
        }
    }

    /// Adds one that is not named by itself.
    fn add_alike(&mut self, noted: &Noted, reason: &str) {
        if let Some(count) = self.levels.get_mut(level(noted)) {
            *count += 1;
        }
        let own = |one: &&mut Alike| one.library == noted.library && one.reason == reason;
        let errors = usize::from(level(noted) == 0);
        // From the end: those of a library mostly follow each other.
        match self.alike.iter_mut().rev().find(own) {
            Some(one) => {
                one.findings += 1;
                one.errors += errors;
            }
            None => self.alike.push(Alike {
                library: noted.library.clone(),
                reason: reason.to_owned(),
                findings: 1,
                errors,
            }),
        }
    }

    /// How many there are.
    pub(super) fn count(&self) -> usize {
        self.levels.iter().sum()
    }
}

impl Story {
    /// Takes a finding of today.
    pub(crate) fn finding(&mut self, noted: &Noted, change: &Change) {
        let told = || Told {
            noted: noted.clone(),
            change: *change,
            without_tool: false,
        };
        if noted.rule.starts_with(ACCEPTANCES) {
            self.acceptances.add(told());
            return;
        }
        if noted.is_accepted() {
            if change.newly_accepted {
                self.accepted.add(told());
            }
            return;
        }
        let cause = match self.causes.get_mut(&noted.rule) {
            Some(cause) => cause,
            None => self.causes.entry(noted.rule.clone()).or_insert(Cause {
                title: noted.title.clone(),
                grave: usize::MAX,
                ..Cause::default()
            }),
        };
        let is_open = noted.outcome == NOT_JUDGED;
        cause.findings += usize::from(!is_open);
        cause.not_judged += usize::from(is_open);
        cause.news += usize::from(change.is_news());
        cause.grave = cause.grave.min(gravity(noted));
        if !cause.libraries.contains(&noted.library) {
            cause.libraries.insert(noted.library.clone());
        }
        let has_lapsed = !noted.accepted_no_more.is_empty();
        match change.state {
            State::New => self.new.add(told()),
            State::Worse => self.worse.add(told()),
            State::Better => self.better.add(told()),
            State::Lapsed => self.lapsed.add(told()),
            State::Alone if has_lapsed => self.lapsed.add(told()),
            State::Changed | State::Same if has_lapsed => self.lapsed_before += 1,
            State::Alone | State::Changed | State::Same => {}
        }
    }

    /// Takes a finding of the earlier audit that is not among today's.
    pub(crate) fn earlier(&mut self, noted: &Noted, is_gone: bool, reason: &str) {
        let told = Told {
            // What is not found any more does not count again.
            noted: Noted {
                accepted_no_more: String::new(),
                ..noted.clone()
            },
            change: Change::default(),
            without_tool: reason == NO_TOOL,
        };
        match (is_gone, reason) {
            (true, NOT_FOUND | NO_TOOL) => self.gone.add(told),
            (true, _) => self.gone.add_alike(noted, reason),
            (false, _) => self.not_compared.add_alike(noted, reason),
        }
    }

    /// Takes what is said of a library as a whole.
    pub(crate) fn library(&mut self, ended: &Ended) {
        self.libraries += 1;
        self.failing += usize::from(ended.counts.fails);
        self.counts.add(&ended.counts);
        let unread = ended.unread.iter().map(|(file, reason)| Passed {
            file: file.clone(),
            reason: reason.clone(),
            ..Passed::default()
        });
        // What could not be read at all is told as such.
        self.unread
            .extend(unread.filter(|_| !ended.status.is_partial()));
        if ended.status.is_partial() {
            let first = ended.unreadable.first();
            let why = first.map(|fault| {
                let fault = fault.told();
                let file = fault.file.unwrap_or_default();
                let at = fault.position;
                let at = at.map_or(String::new(), |at| format!(":{}:{}", at.line, at.column));
                format!("{file}{at}: {}", fault.message)
            });
            let why = why.or_else(|| ended.failed.clone()).unwrap_or_default();
            self.troubled.push((ended.key.clone(), ended.status, why));
        }
    }

    /// Takes a library of the earlier audit that is none today, though something stands there.
    pub(crate) fn lost(&mut self, key: &str, why: &str) {
        self.troubled
            .push((key.to_owned(), Status::Unreadable, why.to_owned()));
    }

    /// Takes down which libraries are new, gone, or stand elsewhere than before.
    pub(crate) fn moves(
        &mut self,
        new: Vec<String>,
        gone: Vec<String>,
        moved: Vec<(String, String)>,
    ) {
        self.new_libraries = new;
        self.gone_libraries = gone;
        self.moved = moved;
    }
}

/// How the reason begins why a library of an earlier audit is none today, though it is there.
pub(crate) const LOST: &str = "its library cannot be read any more";
/// Why a finding is gone that was looked for.
pub(crate) const NOT_FOUND: &str = "not found any more";
/// Why a finding is gone that went with its tool.
pub(crate) const NO_TOOL: &str = "its tool is not in the library any more";
/// How rules on acceptances begin.
pub(super) const ACCEPTANCES: &str = "record/accepted-";
