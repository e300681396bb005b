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
    let names = about.clone().map(|about| about.name.as_str());
    let names: Vec<&str> = names.filter(|name| !name.is_empty()).collect();
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

/// How many notes are not listed: a tool of which nothing else was found has no section, and of a
/// rule the first thousand findings of a library are here.
pub(super) fn notes_alone(audit: &Audit, notes: usize) -> String {
    let is_note = |one: &&Finding| one.level == "note" && one.accepted.is_none();
    let shown = audit.libraries.iter().map(|library| {
        let own = library.sheets.iter().flat_map(|sheet| &sheet.findings);
        own.chain(&library.findings).filter(is_note).count()
    });
    let is_cut = audit.libraries.iter().any(|one| !one.left_out.is_empty());
    let beyond = if is_cut {
        ", or beyond the first of their rule"
    } else {
        ""
    };
    match notes.saturating_sub(shown.sum()) {
        0 => String::new(),
        1 => format!(
            " One note is not listed here: of a tool of which nothing else was found{beyond}."
        ),
        more => format!(
            " {more} notes are not listed here: of tools of which nothing else was found{beyond}."
        ),
    }
}
