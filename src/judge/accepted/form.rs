//! What is wrong with the entries themselves: faults of form, at their place in the shop file.

use crate::input::{Fault, fault_kind};
use crate::text::{closest, quoted};

use super::super::fault_finding::of_fault;
use super::super::finding::{Finding, fingerprint};
use super::super::run::Session;
use super::{EntryState, Registered};

/// Days before its last one from which an entry is said to end soon.
const SOON: i64 = 30;

/// The faults of all entries that are asked for, written up.
pub(in super::super) fn told(session: &Session<'_>) -> Vec<Finding> {
    let written = session.register.iter().flat_map(|entry| {
        let faults = faults(session, entry).into_iter();
        faults.filter_map(|fault| written(session, entry, &fault))
    });
    written.collect()
}

/// What is wrong with an entry.
fn faults(session: &Session<'_>, entry: &Registered<'_>) -> Vec<Fault> {
    let (accept, spots) = (entry.accept, &entry.accept.spots);
    let until = accept.until.map_or_else(String::new, |day| day.to_string());
    let left = entry.days_left.unwrap_or_default();
    let about = |kind, place, field: &'static str| {
        Fault::new(kind, place, field)
            .quoting("tool", &accept.tool_number)
            .quoting("rule", &accept.rule)
            .quoting("by", &accept.by)
    };
    let main = match entry.state {
        EntryState::Counts if entry.days_left.is_some_and(|left| left <= SOON) => Some(
            about(fault_kind::ACCEPTED_ENDS_SOON, spots.until, "until")
                .with("until", until)
                .with("days", in_days(left)),
        ),
        EntryState::Counts | EntryState::Changed | EntryState::NotAsked => None,
        EntryState::Expired => {
            Some(about(fault_kind::ACCEPTED_EXPIRED, spots.until, "until").with("until", until))
        }
        EntryState::TooFar => Some(
            about(fault_kind::ACCEPTED_TOO_LONG, spots.until, "until")
                .with("until", until)
                .with("days", left.to_string())
                .with("longest", longest(session)),
        ),
        EntryState::Unused => Some(about(fault_kind::ACCEPTED_UNUSED, spots.rule, "rule")),
        EntryState::NoLibrary
        | EntryState::NoTool
        | EntryState::NoMachine
        | EntryState::NoOperation => {
            let (what, place, field) = missing(session, entry);
            let kind = fault_kind::ACCEPTED_UNMATCHED;
            Some(about(kind, place, field).with("what", what))
        }
    };
    let open = entry.is_open && matches!(entry.state, EntryState::Counts | EntryState::Changed);
    let open = open.then(|| about(fault_kind::ACCEPTED_WHATEVER, spots.rule, "rule"));
    main.into_iter().chain(open).collect()
}

fn longest(session: &Session<'_>) -> String {
    let longest = session.setup.shop.terms.longest;
    longest.map_or_else(String::new, |days| days.to_string())
}

/// `today`, `tomorrow`, `in 12 days`.
fn in_days(left: i64) -> String {
    match left {
        0 => "today".to_owned(),
        1 => "tomorrow".to_owned(),
        left => format!("in {left} days"),
    }
}

/// What of an entry is not there, and where it names it.
fn missing(
    session: &Session<'_>,
    entry: &Registered<'_>,
) -> (String, crate::text::Place, &'static str) {
    let (accept, spots) = (entry.accept, &entry.accept.spots);
    let near = |word: &str, known: Vec<&str>| {
        let near = closest(word, known).map(quoted);
        near.map_or_else(String::new, |near| format!("; did you mean `{near}`?"))
    };
    let tool = quoted(&accept.tool_number);
    match entry.state {
        EntryState::NoMachine => {
            let machine = accept.machine.as_deref().unwrap_or_default();
            let near = near(machine, entry.machines(session));
            let what = format!("tool {tool} is not on machine `{}`{near}", quoted(machine));
            (what, spots.machine, "machine")
        }
        EntryState::NoOperation => {
            let operation = accept.operation.as_deref().unwrap_or_default();
            let known = entry.operations(session);
            let near = near(operation, known.iter().map(String::as_str).collect());
            let what = format!("tool {tool} has no operation `{}`{near}", quoted(operation));
            (what, spots.operation, "operation")
        }
        EntryState::NoLibrary => {
            let named = accept.library.as_ref().map_or("", |named| &named.written);
            let what = format!("there is no library `{}`", quoted(named));
            (what, spots.library, "library")
        }
        _ => {
            let library = quoted(&session.library.name);
            let what = format!("there is no tool {tool} in {library}");
            (what, spots.tool_number, "tool_number")
        }
    }
}

/// Writes up one fault of an entry, if its rule is asked for. It is known by what the entry is
/// about, wherever that stands in the file.
fn written(session: &Session<'_>, entry: &Registered<'_>, fault: &Fault) -> Option<Finding> {
    let rule = session
        .setup
        .book
        .rule(fault.kind)
        .filter(|rule| !rule.off)?;
    if !session.options.selection.takes(fault.kind) {
        return None;
    }
    let accept = entry.accept;
    let sources = &session.setup.shop.sources;
    let text = |text: &Option<String>| text.clone().unwrap_or_default();
    let library = accept.library.as_ref();
    let finding = of_fault(
        (session.library, sources),
        &session.judge,
        rule,
        fault,
        |_| None,
    );
    Some(Finding {
        part_of: entry.assemblies.clone(),
        fingerprint: fingerprint(&[
            fault.kind,
            &accept.rule,
            &accept.tool_number,
            &text(&accept.machine),
            &text(&accept.operation),
            library.map_or("", |library| &library.written),
        ]),
        ..finding
    })
}
