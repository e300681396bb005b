//! What a reviewer decides on first: which tools must not be used and what to do with each, and what
//! was not checked.

use std::fmt::Write as _;

use super::super::html::escaped;
use super::model::{Audit, Library, Sheet};
use super::teller::strong;

/// Tools that are listed.
const MOST: usize = 100;

/// Tools of one group, and what of them is listed.
struct List {
    group: &'static str,
    level: &'static str,
    id: &'static str,
    title: &'static str,
}

/// The tools that must not be used as recorded, each with what to do; then those to be checked.
pub(super) fn list(audit: &Audit, page: &mut String) {
    let lists = [
        List {
            group: "fails",
            level: "error",
            id: "do",
            title: "What to do before these tools are used",
        },
        List {
            group: "warned",
            level: "warning",
            id: "check",
            title: "What to check before these tools are used",
        },
    ];
    for one in lists {
        section(audit, &one, page);
    }
}

fn section(audit: &Audit, list: &List, page: &mut String) {
    let listed: Vec<(String, &Library, &Sheet)> = sheets(audit)
        .filter(|(_, _, sheet)| sheet.group == list.group)
        .collect();
    if listed.is_empty() {
        return;
    }
    let List {
        id, title, level, ..
    } = list;
    // Writing to a String cannot fail, here and below.
    let _ = write!(
        page,
        "<section aria-labelledby=\"{id}\"><h2 id=\"{id}\">{title}</h2><ul class=\"todo to-{id}\">"
    );
    for (link, library, sheet) in listed.iter().take(MOST) {
        let machine = sheet.machine.as_ref();
        let machine = machine.map_or(String::new(), |own| format!(", {own}"));
        let file = match audit.libraries.len() {
            1 => String::new(),
            _ => format!(", {}", library.input),
        };
        let _ = write!(
            page,
            "<li><a href=\"#{link}\">{}</a>{}<ul>{}</ul></li>",
            escaped(&sheet.name()),
            escaped(&format!("{machine}{file}")),
            what(sheet, level)
        );
    }
    *page += "</ul>";
    if listed.len() > MOST {
        let _ = write!(
            page,
            "<p>and {} more tools: choose the level {level} among all findings.</p>",
            listed.len() - MOST
        );
    }
    *page += "</section>\n";
}

/// What is wrong with a tool, and what to do: each advice once.
fn what(sheet: &Sheet, level: &str) -> String {
    let own = sheet.findings.iter();
    let errors = own.filter(|one| one.level == level && one.accepted.is_none());
    let mut advised: Vec<(&str, Vec<&str>)> = Vec::new();
    for error in errors {
        match advised
            .iter_mut()
            .find(|(advice, _)| *advice == error.advice)
        {
            Some((_, titles)) if titles.contains(&error.title.as_str()) => {}
            Some((_, titles)) => titles.push(&error.title),
            None => advised.push((&error.advice, vec![&error.title])),
        }
    }
    let all = advised.iter().map(|(advice, titles)| {
        let titles = escaped(&titles.join("; "));
        match *advice {
            "" => format!("<li>{titles}</li>"),
            advice => format!("<li>{titles}: {}</li>", strong(advice)),
        }
    });
    all.collect()
}

/// The tools of which something that decides was not judged.
pub(super) fn unchecked(audit: &Audit, page: &mut String) {
    let open = |sheet: &Sheet| !matches!(sheet.group.as_str(), "fails" | "warned");
    let all: Vec<String> = sheets(audit)
        .filter(|(_, _, sheet)| open(sheet))
        .map(|(link, library, sheet)| {
            let file = match audit.libraries.len() {
                1 => String::new(),
                _ => format!(" ({})", library.input),
            };
            format!(
                "<a href=\"#{link}\">{}</a>{}",
                escaped(&sheet.name()),
                escaped(&file)
            )
        })
        .collect();
    if all.is_empty() {
        return;
    }
    let more = match all.len().saturating_sub(MOST) {
        0 => String::new(),
        more => format!(" and {more} more"),
    };
    let shown: Vec<&str> = all.iter().take(MOST).map(String::as_str).collect();
    let _ = write!(
        page,
        "<p>Nothing speaks against these tools, but a rule that decides is not judged: {}{more}.</p>",
        shown.join(", ")
    );
}

/// All sheets, each with the fragment of its section.
fn sheets(audit: &Audit) -> impl Iterator<Item = (String, &Library, &Sheet)> {
    let libraries = audit.libraries.iter().enumerate();
    libraries.flat_map(|(at, library)| {
        let own = library.sheets.iter().enumerate();
        own.map(move |(number, sheet)| (format!("t{at}-{number}"), library, sheet))
    })
}
