//! What became of every entry of the shop files: a library is looked through for the tools that
//! they name, before anything is said of it.

use std::collections::{BTreeMap, HashMap};

use rayon::prelude::*;

use crate::input::fault_kind::NO_WINDOW;
use crate::library::{Assembly, Field, Library};
use crate::rulebook::Accept;

use super::super::finding::Finding;
use super::super::run::{Options, Session};
use super::super::setup::{Selection, Setup};
use super::{AtIssue, is_tool, operations, since};

/// What became of an entry.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EntryState {
    /// It accepts a finding.
    Counts,
    /// Its last day has passed.
    Expired,
    /// Its last day is further off than the plant permits.
    TooFar,
    /// What it accepted is worse now, or is of other parts.
    Changed,
    /// Its tool has no such finding.
    Unused,
    /// There is no such library.
    NoLibrary,
    /// No assembly has that number.
    NoTool,
    /// That number has no assembly on this machine.
    NoMachine,
    /// No assembly of that number has such an operation.
    NoOperation,
    /// Its rule is off, or is one that only advice can answer.
    NotAsked,
}

impl EntryState {
    /// Its name in JSON.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            EntryState::Counts => "counts",
            EntryState::Expired => "expired",
            EntryState::TooFar => "too-far-off",
            EntryState::Changed => "changed",
            EntryState::Unused => "unused",
            EntryState::NoLibrary
            | EntryState::NoTool
            | EntryState::NoMachine
            | EntryState::NoOperation => "unmatched",
            EntryState::NotAsked => "not-asked",
        }
    }
}

/// An entry and what became of it.
#[derive(Clone, Debug)]
pub struct Registered<'a> {
    /// The entry.
    pub accept: &'a Accept,
    /// What became of it.
    pub state: EntryState,
    /// Days from today to its last one; none if it has none.
    pub days_left: Option<i64>,
    /// What was accepted, for people.
    pub at: Option<String>,
    /// What has changed since.
    pub why: Vec<String>,
    /// Whether it does not say what was accepted of a finding that has a value, or at all.
    pub is_open: bool,
    /// Numbers of the assemblies that it is about.
    pub assemblies: Vec<usize>,
}

/// What the library and its findings say of the entries.
struct SeenTools<'s, 'a> {
    session: &'s Session<'a>,
    /// The assemblies of each tool number that an entry names.
    tools: HashMap<&'s str, Vec<usize>>,
    /// The findings of these assemblies.
    findings: BTreeMap<usize, Vec<Finding>>,
}

/// All entries that are about a library, and those about none that there is. What becomes of one
/// does not depend on which rules a run asks for.
pub(in super::super) fn register<'a>(
    library: &'a Library,
    setup: &'a Setup,
    options: &Options,
) -> Vec<Registered<'a>> {
    let shop = &setup.shop;
    if shop.accepted.is_empty() && shop.accepted_of_none.is_empty() {
        return Vec::new();
    }
    let options = Options {
        selection: Selection::default(),
        with_facts: false,
        ..options.clone()
    };
    let session = Session::silent(library, setup, &options);
    let seen = SeenTools::of(&session);
    let own = shop.accepted.iter().map(|accept| seen.registered(accept));
    let lost = shop.accepted_of_none.iter().map(|accept| Registered {
        state: EntryState::NoLibrary,
        ..seen.empty(accept)
    });
    own.chain(lost).collect()
}

impl<'s, 'a> SeenTools<'s, 'a> {
    fn of(session: &'s Session<'a>) -> SeenTools<'s, 'a> {
        let accepted = &session.setup.shop.accepted;
        let named = accepted.iter().map(|accept| accept.tool_number.as_str());
        let mut tools: HashMap<&str, Vec<usize>> = named.map(|name| (name, Vec::new())).collect();
        for (at, assembly) in session.library.assemblies.iter().enumerate() {
            let own = assembly
                .tool_number()
                .and_then(|number| tools.get_mut(number));
            if let Some(own) = own {
                own.push(at);
            }
        }
        let asked: Vec<usize> = tools.values().flatten().copied().collect();
        let judged = asked
            .into_par_iter()
            .map(|at| (at, session.assembly(at).findings));
        SeenTools {
            session,
            tools,
            findings: judged.collect(),
        }
    }

    fn empty<'e>(&self, accept: &'e Accept) -> Registered<'e> {
        let today = self.session.options.today;
        Registered {
            accept,
            state: EntryState::Unused,
            days_left: accept.until.map(|until| until.days_after(today)),
            at: None,
            why: Vec::new(),
            is_open: false,
            assemblies: Vec::new(),
        }
    }

    fn assembly(&self, at: usize) -> Option<&'a Assembly> {
        self.session.library.assemblies.get(at)
    }

    fn registered<'e>(&self, accept: &'e Accept) -> Registered<'e> {
        let numbered = self.tools.get(accept.tool_number.as_str());
        let numbered = numbered.map_or(&[][..], Vec::as_slice);
        let is_own = |at: &usize| self.assembly(*at).is_some_and(|own| is_tool(accept, own));
        let assemblies: Vec<usize> = numbered.iter().copied().filter(is_own).collect();
        let mut registered = self.empty(accept);
        if let Some(state) = self.unmatched(accept, numbered, &assemblies) {
            registered.state = state;
            return registered;
        }
        registered.assemblies = assemblies;
        self.settle(&mut registered);
        registered
    }

    /// What of an entry is not there.
    fn unmatched(&self, accept: &Accept, numbered: &[usize], own: &[usize]) -> Option<EntryState> {
        if numbered.is_empty() {
            return Some(EntryState::NoTool);
        }
        if own.is_empty() {
            return Some(EntryState::NoMachine);
        }
        let wanted = accept.operation.as_deref()?;
        let library = self.session.library;
        let assemblies = own.iter().filter_map(|at| self.assembly(*at));
        let mut all = assemblies.flat_map(|assembly| operations(library, assembly));
        (!all.any(|name| name == wanted)).then_some(EntryState::NoOperation)
    }

    /// Holds it against the findings of its tools.
    fn settle(&self, entry: &mut Registered<'_>) {
        let Session { library, setup, .. } = self.session;
        let accept = entry.accept;
        let own = entry
            .assemblies
            .iter()
            .filter_map(|at| self.findings.get(at));
        let subjects = own
            .flatten()
            .filter_map(|finding| AtIssue::of(finding, library));
        let subjects: Vec<AtIssue<'_>> = subjects.filter(|one| one.is_of(accept)).collect();
        let terming = self.session.terming();
        let held = subjects
            .iter()
            .map(|one| (one, since::since(accept, one, terming)));
        let held: Vec<_> = held.collect();
        let is_asked = setup
            .book
            .rule(&accept.rule)
            .is_some_and(|rule| !rule.off && rule.id != NO_WINDOW);
        let counts = held.iter().find(|(_, why)| why.is_empty());
        if let Some((subject, why)) = counts.or(held.first()) {
            entry.at = since::at(accept, subject);
            entry.why.clone_from(why);
        }
        let longest = setup.shop.terms.longest;
        entry.state = match (entry.days_left, longest) {
            (Some(left), _) if left < 0 => EntryState::Expired,
            (Some(left), Some(longest)) if left > longest => EntryState::TooFar,
            _ if counts.is_some() => EntryState::Counts,
            _ if !held.is_empty() => EntryState::Changed,
            _ if is_asked => EntryState::Unused,
            _ => EntryState::NotAsked,
        };
        let measured = subjects.iter().any(|one| one.shortfall.is_some());
        let was = &accept.was;
        entry.is_open = was.is_open() || (measured && !was.states_value());
    }
}

impl Registered<'_> {
    /// The machines on which its tool number is, for who mistyped one.
    pub(super) fn machines<'l>(&self, session: &Session<'l>) -> Vec<&'l str> {
        let library = session.library;
        let own = library
            .assemblies
            .iter()
            .filter(|assembly| assembly.tool_number() == Some(self.accept.tool_number.as_str()));
        own.filter_map(|assembly| assembly.record.text(Field::Machine))
            .collect()
    }

    /// The operations of its tool, for who mistyped one.
    pub(super) fn operations(&self, session: &Session<'_>) -> Vec<String> {
        let library = session.library;
        let own = library
            .assemblies
            .iter()
            .filter(|own| is_tool(self.accept, own));
        own.flat_map(|assembly| operations(library, assembly))
            .collect()
    }
}
