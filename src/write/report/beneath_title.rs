//! What stands beneath the title of a page: whose libraries they are, and what is not listed.

use super::super::html::escaped;
use super::model::{Audit, Finding};

/// Libraries, and relaxed limits, that are named.
const NAMED: usize = 3;

/// What the libraries are called and which limits they relax, where few do: it colours all that
/// follows.
pub(super) fn named(audit: &Audit) -> String {
    let about = audit
        .libraries
        .iter()
        .filter_map(|one| one.library.as_ref());
    let names: Vec<&str> = about.clone().map(|about| about.name.as_str()).collect();
    let relaxed: Vec<&str> = about
        .flat_map(|about| &about.weakened)
        .map(String::as_str)
        .collect();
    let called = match names.len() {
        1..=NAMED => format!("<p class=\"soft\">{}</p>", escaped(&names.join("; "))),
        _ => String::new(),
    };
    let relaxed = match relaxed.len() {
        0 => String::new(),
        1..=NAMED => format!("<p>Relaxed: {}</p>", escaped(&relaxed.join("; "))),
        many => format!("<p>{many} limits or rules are relaxed: see tool by tool.</p>"),
    };
    called + &relaxed
}

/// How many notes are about tools of which nothing else was found: these have no section.
pub(super) fn notes_alone(audit: &Audit, notes: usize) -> String {
    let is_note = |one: &&Finding| one.level == "note" && one.accepted.is_none();
    let shown = audit.libraries.iter().map(|library| {
        let own = library.sheets.iter().flat_map(|sheet| &sheet.findings);
        let here = own.chain(&library.findings).filter(is_note).count();
        here + library.left_out.values().sum::<usize>()
    });
    match notes.saturating_sub(shown.sum()) {
        0 => String::new(),
        1 => " One note is about a tool of which nothing else was found, and is not listed here."
            .to_owned(),
        more => format!(
            " {more} notes are about tools of which nothing else was found, and are not listed here."
        ),
    }
}
