//! The register of what is accepted, as text and as JSON.

use serde::Serialize;

use crate::sheet::{Entered, EntryState};
use crate::text::visible;

use super::json::to_json_line;
use super::wrap::{name, wrapped, wrapped_to};

/// Columns of a line of the register.
const WIDTH: usize = 100;

/// What is accepted of one library.
pub struct OfLibrary {
    /// The library, as it was named.
    pub library: String,
    /// The entries about it.
    pub entries: Vec<Entered>,
}

/// As text: a line of an entry, and below it why and who.
#[must_use]
pub fn register_text(libraries: &[OfLibrary]) -> String {
    let mut text = String::new();
    for of in libraries.iter().filter(|of| !of.entries.is_empty()) {
        text.push_str(&wrapped_to(WIDTH, &of.library, 0, 2));
        for entry in &of.entries {
            text.push_str(&wrapped_to(WIDTH, &line(entry), 2, 6));
            let said = format!(
                "{} ({}) {}:{}",
                entry.reason, entry.by, entry.file, entry.line
            );
            text.push_str(&wrapped_to(WIDTH, &said, 6, 6));
        }
        text.push('\n');
    }
    text + &wrapped(&counted(libraries), 0, 2)
}

/// `tool 12 grip/short-grip at 18.0 mm of 26.7 mm, until 2027-01-31: counts, 62 days left`.
fn line(entry: &Entered) -> String {
    let on = |what: &str, value: &Option<String>| {
        let value = value.as_ref();
        value.map_or_else(String::new, |value| format!(", {what} {}", name(value)))
    };
    let at = entry.at.as_ref();
    let at = at.map_or_else(String::new, |at| format!(" at {}", visible(at)));
    let until = match &entry.until {
        Some(day) => format!("until {day}"),
        None => "no last day".to_owned(),
    };
    format!(
        "tool {}{}{}: {}{at}, {until}: {}",
        name(&entry.tool_number),
        on("machine", &entry.machine),
        on("operation", &entry.operation),
        entry.rule,
        state(entry)
    )
}

/// What became of an entry, in words.
fn state(entry: &Entered) -> String {
    let words = match (entry.state, entry.days_left) {
        (EntryState::Counts, None) => "counts".to_owned(),
        (EntryState::Counts, Some(0)) => "counts, ends today".to_owned(),
        (EntryState::Counts, Some(1)) => "counts, ends tomorrow".to_owned(),
        (EntryState::Counts, Some(days)) => format!("counts, {days} days left"),
        (EntryState::Expired, _) => "EXPIRED".to_owned(),
        (EntryState::TooFar, _) => "does not count, its last day is too far off".to_owned(),
        (EntryState::Changed, _) => format!("CHANGED: {}", entry.why.join("; ")),
        (EntryState::Unused, _) => "unused, there is no such finding".to_owned(),
        (EntryState::NoLibrary, _) => format!(
            "unmatched, there is no library `{}`",
            name(entry.library.as_deref().unwrap_or_default())
        ),
        (EntryState::NoTool, _) => "unmatched, there is no such tool".to_owned(),
        (EntryState::NoMachine, _) => "unmatched, the tool is not on this machine".to_owned(),
        (EntryState::NoOperation, _) => "unmatched, the tool has no such operation".to_owned(),
        (EntryState::NotAsked, _) => "not asked".to_owned(),
    };
    if entry.is_open {
        return format!("{words}; does not say what was accepted");
    }
    words
}

/// `5 entries: 3 counts, 1 expired, 1 unused`.
fn counted(libraries: &[OfLibrary]) -> String {
    let all = || libraries.iter().flat_map(|of| &of.entries);
    let count = all().count();
    let mut states: Vec<(&str, usize)> = Vec::new();
    for entry in all() {
        let word = entry.state.name();
        match states.iter_mut().find(|(known, _)| *known == word) {
            Some((_, count)) => *count += 1,
            None => states.push((word, 1)),
        }
    }
    states.sort_unstable();
    let states: Vec<String> = states
        .into_iter()
        .map(|(word, count)| format!("{count} {word}"))
        .collect();
    match count {
        0 => "nothing is accepted".to_owned(),
        1 => format!("1 entry: {}", states.join(", ")),
        _ => format!("{count} entries: {}", states.join(", ")),
    }
}

/// The register as one JSON object.
#[derive(Serialize)]
struct Register<'a> {
    format: u8,
    as_of: &'a str,
    entries: Vec<EntryLine<'a>>,
}

#[derive(Serialize)]
struct EntryLine<'a> {
    library: &'a str,
    tool_number: &'a str,
    machine: Option<&'a str>,
    operation: Option<&'a str>,
    rule: &'a str,
    at: Option<&'a str>,
    reason: &'a str,
    by: &'a str,
    until: Option<&'a str>,
    days_left: Option<i64>,
    state: &'static str,
    why: &'a [String],
    says_what: bool,
    file: &'a str,
    line: usize,
}

/// As JSON, with the day on which it was asked.
#[must_use]
pub fn register_json(libraries: &[OfLibrary], as_of: &str) -> String {
    let each = libraries.iter().flat_map(|of| {
        let entries = of.entries.iter();
        entries.map(|entry| EntryLine {
            library: &of.library,
            tool_number: &entry.tool_number,
            machine: entry.machine.as_deref(),
            operation: entry.operation.as_deref(),
            rule: &entry.rule,
            at: entry.at.as_deref(),
            reason: &entry.reason,
            by: &entry.by,
            until: entry.until.as_deref(),
            days_left: entry.days_left,
            state: entry.state.name(),
            why: &entry.why,
            says_what: !entry.is_open,
            file: &entry.file,
            line: entry.line,
        })
    });
    to_json_line(&Register {
        format: 1,
        as_of,
        entries: each.collect(),
    })
}
