//! What the shop files of a library accept, entry by entry, and what became of each.

use crate::judge::{Options, Session, Setup};
use crate::library::Library;
use crate::rulebook::Accept;

pub use crate::judge::EntryState;

/// An entry of a shop file.
#[derive(Clone, Debug, PartialEq)]
pub struct Entered {
    /// The shop file as shown.
    pub file: String,
    /// The line in which it names its rule.
    pub line: usize,
    /// The library as the entry names it, if it does.
    pub library: Option<String>,
    /// The rule.
    pub rule: String,
    /// The tool.
    pub tool_number: String,
    /// The machine, if only the tool of one is meant.
    pub machine: Option<String>,
    /// The operation, if only one is meant.
    pub operation: Option<String>,
    /// What was accepted, for people.
    pub at: Option<String>,
    /// Why.
    pub reason: String,
    /// Who.
    pub by: String,
    /// The last day, `2027-01-31`.
    pub until: Option<String>,
    /// Days from today to that day; below 0 if it has passed.
    pub days_left: Option<i64>,
    /// What became of it.
    pub state: EntryState,
    /// What has changed since.
    pub why: Vec<String>,
    /// Whether it does not say what was accepted.
    pub is_open: bool,
}

impl Entered {
    /// Whether it is about a library that is not there: every library below its file sees it.
    #[must_use]
    pub fn is_of_none(&self) -> bool {
        self.state == EntryState::NoLibrary
    }
}

/// The entries that are about a library, and those about none that there is.
#[must_use]
pub fn register(library: &Library, setup: &Setup, options: &Options) -> Vec<Entered> {
    let session = Session::new(library, setup, options);
    let sources = &setup.shop.sources;
    let entered = session.register.iter().map(|entry| {
        let accept: &Accept = entry.accept;
        let place = accept.spots.rule;
        Entered {
            file: sources.name(place).to_owned(),
            line: sources.position(place).line,
            library: accept.library.as_ref().map(|named| named.written.clone()),
            rule: accept.rule.clone(),
            tool_number: accept.tool_number.clone(),
            machine: accept.machine.clone(),
            operation: accept.operation.clone(),
            at: entry.at.clone(),
            reason: accept.reason.clone(),
            by: accept.by.clone(),
            until: accept.until.map(|day| day.to_string()),
            days_left: entry.days_left,
            state: entry.state,
            why: entry.why.clone(),
            is_open: entry.is_open,
        }
    });
    entered.collect()
}
