//! Every text that people read: rules, the words in the source, the program's help and output,
//! and the two documents.

use std::collections::BTreeSet;
use std::fs;
use std::sync::LazyLock;

use shankwise::advice::Plan;
use shankwise::facts::Fact;
use shankwise::library::PROPERTIES;
use shankwise::rulebook::{Limit, Template};
use shankwise::write::{Look, Show, report};

use crate::architecture::sources;
use crate::rule_fixtures::cases::{CASES, SETUP};
use crate::support::{COMMANDS, built_in, fixture, options, root, run};

use super::literals::literals;

/// A text, and where it is.
pub struct Text {
    /// File, rule or command, with the line if there is one.
    pub place: String,
    /// The text, names taken out of it.
    pub words: String,
}

impl Text {
    fn new(place: impl Into<String>, words: &str) -> Text {
        Text {
            place: place.into(),
            words: plain(words),
        }
    }
}

/// Names that rules, tables and JSON are read by: no words for people.
static NAMES: LazyLock<BTreeSet<String>> = LazyLock::new(|| {
    let book = built_in().book;
    let rules = book.rules.iter().map(|rule| rule.id.clone());
    let facts = Fact::all().map(|fact| fact.name.to_owned());
    let properties = PROPERTIES.iter().map(|property| property.name.to_owned());
    rules
        .chain(facts)
        .chain(properties)
        .filter(|name| name.contains(['_', '/']))
        .collect()
});

/// A text without what stands in backticks, and without names.
fn plain(text: &str) -> String {
    let mut words = String::new();
    for (at, part) in text.split('`').enumerate() {
        words.push_str(if at % 2 == 0 { part } else { "X" });
    }
    let words = words.split_whitespace().map(|word| {
        let bare = word.trim_matches(|c: char| !c.is_alphanumeric() && c != '_');
        let is_path = bare.matches('/').count() > 1;
        let is_name = is_path || bare.contains('_') || NAMES.contains(bare);
        if is_name && !bare.is_empty() {
            word.replace(bare, "X")
        } else {
            word.to_owned()
        }
    });
    words.collect::<Vec<_>>().join(" ")
}

/// A message of a rule with its longest words in place of each of its conditions.
fn longest(template: &str) -> String {
    each_hole(template, |hole| {
        let said = said_in(hole).into_iter().max_by_key(|words| words.len());
        said.map_or_else(|| "X".to_owned(), str::to_owned)
    })
}

/// A message of a rule and all that its conditions may say.
fn everything(template: &str) -> String {
    each_hole(template, |hole| match said_in(hole).as_slice() {
        [] => "X".to_owned(),
        said => said.join(" "),
    })
}

fn each_hole(template: &str, say: impl Fn(&str) -> String) -> String {
    let mut parts = template.split('{');
    let mut text = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        let (hole, behind) = part.split_once('}').unwrap_or((part, ""));
        text.push_str(&say(hole));
        text.push_str(behind);
    }
    text
}

/// The words that a condition puts into a message: `a ? 'these' : 'or these'`.
fn said_in(hole: &str) -> Vec<&str> {
    let pieces: Vec<&str> = hole.split('\'').collect();
    let quoted = (1..pieces.len()).step_by(2);
    let said = quoted.filter(|at| pieces[at - 1].trim_end().ends_with(['?', ':']));
    said.map(|at| pieces[at]).collect()
}

fn limits(owner: &str, limits: &[Limit], found: &mut Vec<Text>) {
    for limit in limits {
        found.push(Text::new(
            format!("{owner}: {}: reason", limit.name),
            &limit.reason,
        ));
    }
}

/// All texts of all rules. With `whole`, a message counts with every alternative in it, else with
/// the longest.
pub fn rules(whole: bool) -> Vec<Text> {
    let book = built_in().book;
    let mut found = Vec::new();
    for rule in &book.rules {
        let own = [
            ("message", &rule.message),
            ("why", &rule.why),
            ("advice", &rule.advice),
            ("without_moving", &rule.without_moving),
            ("caution", &rule.caution),
            ("unjudged", &rule.unjudged),
            ("besides", &rule.besides),
        ];
        let milder = rule.milder.iter().flat_map(|case| {
            let words = [
                ("milder message", &case.message),
                ("milder why", &case.why),
                ("milder advice", &case.advice),
            ];
            words
                .into_iter()
                .filter_map(|(what, words)| Some((what, words.as_ref()?)))
        });
        let mut say = |what: &str, words: &str| {
            let words = if whole {
                everything(words)
            } else {
                longest(words)
            };
            found.push(Text::new(format!("{}: {what}", rule.id), &words));
        };
        say("title", &rule.title);
        say("where_none", &rule.where_none);
        if !rule.bounds.is_empty() {
            say("binds", &rule.binds);
        }
        for (what, words) in own.into_iter().chain(milder) {
            say(what, &Template::written(words));
        }
        limits(&rule.id, &rule.limits, &mut found);
    }
    limits("tables/limits", &book.limits, &mut found);
    found.extend(materials());
    found
}

/// What the table of materials says of itself.
fn materials() -> Vec<Text> {
    let text = fs::read_to_string(root().join("rules/tables/materials.toml")).unwrap();
    let mut found = Vec::new();
    let table: toml::Table = toml::from_str(&text).unwrap();
    strings("tables/materials", &toml::Value::Table(table), &mut found);
    found
}

fn strings(place: &str, value: &toml::Value, found: &mut Vec<Text>) {
    match value {
        toml::Value::String(text) => found.push(Text::new(place, text)),
        toml::Value::Array(all) => all.iter().for_each(|one| strings(place, one, found)),
        toml::Value::Table(all) => all
            .iter()
            .for_each(|(key, one)| strings(&format!("{place}: {key}"), one, found)),
        _ => {}
    }
}

/// Every string in the source.
pub fn in_source() -> Vec<Text> {
    let mut found = Vec::new();
    for path in sources() {
        let name = path.strip_prefix(root()).unwrap().display().to_string();
        for (line, text) in literals(&fs::read_to_string(&path).unwrap()) {
            found.push(Text::new(
                format!("{name}:{line}"),
                &each_hole(&text, |_| "X".to_owned()),
            ));
        }
    }
    found
}

/// The paragraphs, headings, cells and items of a document; code left out.
pub fn document(name: &str) -> Vec<Text> {
    let text = fs::read_to_string(root().join(name)).unwrap();
    let mut found = Vec::new();
    for (at, line) in text.lines().enumerate() {
        let place = format!("{name}:{}", at + 1);
        if line.starts_with('|') {
            found.extend(line.split('|').map(|cell| Text::new(&place, cell)));
        } else if !line.starts_with("    ") {
            found.push(Text::new(place, &line.replace("**", "")));
        }
    }
    found
}

/// What a command prints, paragraph by paragraph.
fn printed(arguments: &[&str]) -> Vec<Text> {
    let output = run(arguments);
    let text = String::from_utf8_lossy(&output.stdout).into_owned();
    paragraphs(&arguments.join(" "), &text)
}

/// Help of every command.
pub fn help() -> Vec<Text> {
    let mut found = printed(&["--help"]);
    found.extend(
        COMMANDS
            .iter()
            .flat_map(|command| printed(&[command, "--help"])),
    );
    found
}

/// The lists that explain names, line by line.
pub fn lists() -> Vec<Text> {
    [
        &["facts", "--list"][..],
        &["columns"],
        &["facts", "fixtures/demo"],
        &["facts", "--evidence"],
    ]
    .into_iter()
    .flat_map(|arguments| {
        let output = run(arguments);
        let text = String::from_utf8_lossy(&output.stdout).into_owned();
        let place = arguments.join(" ");
        text.lines()
            .map(|line| Text::new(&place, line))
            .collect::<Vec<_>>()
    })
    .collect()
}

/// Lints of the demo, with what the stock offers, and of every fixture of every rule.
pub fn output(look: Look) -> Vec<Text> {
    let form = if look == Look::Plain { "plain" } else { "text" };
    let mut found = Vec::new();
    for library in ["demo", "clean", "clampings", "blanks"] {
        let path = fixture(library).display().to_string();
        found.extend(printed(&["lint", "--as", form, "--show", "all", &path]));
    }
    for case in CASES.iter() {
        let mut judged = case.judged(&SETUP, &options());
        // A fixture's name says what it shows, in fewer words than a text has.
        "library".clone_into(&mut judged.library.name);
        let text = report(&judged, &Plan::default(), look, Show::all());
        found.extend(paragraphs(&case.to_string(), &text));
    }
    found
}

/// A text of wrapped lines as paragraphs: a line goes on the one before it where it is indented
/// deeper than the first of its paragraph. Lines that draw or quote the input are left out.
fn paragraphs(place: &str, text: &str) -> Vec<Text> {
    let mut found: Vec<(usize, String)> = Vec::new();
    let mut open = false;
    for line in text.lines() {
        let bare = line.trim_start();
        let (indent, words) = match bare.strip_prefix("│ ") {
            Some(words) => (usize::MAX, words),
            None => (line.len() - bare.len(), bare),
        };
        if draws(bare) || words.trim().is_empty() {
            open = false;
            continue;
        }
        match found.last_mut() {
            Some((first, paragraph)) if open && indent > *first => {
                paragraph.push(' ');
                paragraph.push_str(words.trim());
            }
            _ => found.push((indent, words.trim().to_owned())),
        }
        // A heading is followed by items, which are no part of it.
        open = !words.trim_end().ends_with(':');
    }
    found
        .into_iter()
        .map(|(_, words)| Text::new(place, &words))
        .collect()
}

/// Whether a line draws, or quotes a cell of the input.
fn draws(line: &str) -> bool {
    let quotes = [
        "snippet",
        "Begin snippet",
        "label at",
        "╭",
        "╰",
        "·",
        "┌",
        "└",
        "├",
        "╱",
        "█",
        "┃",
    ];
    let number = line.trim_start_matches(|c: char| c.is_ascii_digit());
    quotes.iter().any(|start| line.starts_with(start))
        || number.len() < line.len() && number.starts_with(" │")
}
