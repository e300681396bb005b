//! What stands below the blocks: notes, gaps, what is accepted, what is weakened.

use crate::sheet::{
    Acceptance, Finding, FindingPlace, LibraryShown, ShopFile, Weakened, fault_kind,
};
use crate::text::visible;

use super::super::wrap::{list, tools, wrapped, wrapped_to};
use super::kept::{Kept, Left, Order};
use super::lines::Lines;
use super::not_judged::Waiting;
use super::rule_limits::Printed;

/// Notes, one line for all that say the same.
pub(super) fn notes(notes: Lines, printed: &mut Printed) -> String {
    let mut text = String::new();
    let (lines, left) = notes.finish();
    for line in lines {
        let listed = tools(&line.tools.listed());
        let subject = if listed.is_empty() {
            String::new()
        } else {
            format!("{listed}{}: ", line.tools.rest())
        };
        let block = &line.first;
        let rules: Vec<&str> = block.rules().map(|(rule, _)| rule).collect();
        let messages = block.findings().map(|finding| visible(&finding.message));
        let messages: Vec<_> = messages.collect();
        let words = format!(
            "note {}: {subject}{}",
            rules.join(", "),
            messages.join("; and ")
        );
        text.push_str(&wrapped(&words, 0, 2));
        text.push_str(&wrapped(&format!("at: {}", line.places()), 2, 6));
        let advice = visible(&block.head.advice);
        text.push_str(&wrapped(&format!("do: {advice}"), 2, 6));
        let limits = printed.line(block.findings());
        if !limits.is_empty() {
            let limits = visible(&limits);
            text.push_str(&wrapped(&format!("limits: {limits}"), 2, 10));
        }
        for assumption in &block.head.assumptions {
            let assumption = visible(assumption);
            text.push_str(&wrapped(&format!("assumed: {assumption}"), 2, 11));
        }
    }
    if let Some(words) = left.words(["note", "notes"]) {
        text.push_str(&wrapped(&words, 0, 2));
    }
    if !text.is_empty() {
        text.push('\n');
    }
    text
}

/// What no field that could be filled in would decide, in the rule's own words.
fn never_judged(never: Lines) -> String {
    let (lines, left) = never.finish();
    let lines = lines.map(|line| {
        let message = visible(&line.first.head.message);
        let listed = tools(&line.tools.listed());
        let rest = line.tools.rest();
        let words = format!("{} {listed}{rest}: {message}", line.places());
        wrapped(&words, 2, 6)
    });
    let lines: String = lines.collect();
    let left = left.words(["line", "lines"]);
    lines + &left.map_or_else(String::new, |words| wrapped(&words, 2, 6))
}

/// What could not be judged, by the value that is missing.
pub(super) fn not_judged(gaps: Waiting, never: Lines) -> String {
    let text = gaps.text() + &never_judged(never);
    if text.is_empty() {
        return text;
    }
    format!("Not judged, because a value is missing. Nothing here has passed:\n{text}\n")
}

/// What the shop accepts, in a line: it is not hidden, somebody has to look at it again.
pub(super) fn accepted_line(finding: &Finding, accepted: &Acceptance) -> String {
    let until = accepted.until.as_deref();
    let until = until.map_or_else(String::new, |day| format!(", until {day}"));
    let tool = finding.tool_number.as_deref().into_iter();
    let at = accepted.at.as_deref();
    let at = at.map_or_else(String::new, |at| format!(" at {}", visible(at)));
    let words = format!(
        "{} {}{at}: {} ({}{until})",
        tools(&tool.collect::<Vec<_>>()),
        finding.rule,
        visible(&accepted.reason),
        visible(&accepted.by),
    );
    wrapped(&words, 2, 6)
}

/// All that the shop accepts.
pub(super) fn accepted(lines: Kept<(String, String)>, left: &Left) -> String {
    let lines = lines.into_values().map(|(_, line)| line);
    let mut text: String = lines.collect();
    if text.is_empty() {
        return text;
    }
    if let Some(words) = left.words(["finding", "findings"]) {
        text.push_str(&wrapped(&words, 2, 6));
    }
    format!("Accepted by the shop:\n{text}\n")
}

/// Most unknown columns that are listed one by one.
const MOST_COLUMNS: usize = 30;

/// Columns and elements that are not read, of one level, with their file.
pub(super) struct Columns {
    first: Kept<(String, String)>,
    count: usize,
}

impl Columns {
    pub(super) const fn none() -> Columns {
        Columns {
            first: Kept::of(MOST_COLUMNS),
            count: 0,
        }
    }

    pub(super) fn add(&mut self, at: Order, place: &FindingPlace) {
        self.count += 1;
        self.first
            .put(at, (place.file.clone(), place.field.clone()));
    }
}

/// Whether a finding is of a column or an element that is not read.
pub(super) fn is_column(finding: &Finding) -> bool {
    let kinds = [fault_kind::UNKNOWN_COLUMN, fault_kind::UNKNOWN_ELEMENT];
    kinds.contains(&finding.rule.as_str())
}

/// Columns and elements that are not read, in one line, where their notes are not shown: what
/// stands in them may be a demand under another name.
pub(super) fn unknown_columns(hidden: impl Iterator<Item = Columns>) -> String {
    let mut count = 0;
    let mut first: Vec<(String, String)> = Vec::new();
    for columns in hidden {
        count += columns.count;
        first.extend(columns.first.into_values());
    }
    first.truncate(MOST_COLUMNS);
    let mut files: Vec<(&str, Vec<&str>)> = Vec::new();
    for (file, field) in &first {
        let column = match field.as_str() {
            "" => "(no name)",
            field => field,
        };
        match files.iter_mut().find(|(known, _)| known == file) {
            Some((_, columns)) => columns.push(column),
            None => files.push((file, vec![column])),
        }
    }
    if files.is_empty() {
        return String::new();
    }
    let mut all: Vec<String> = files
        .iter()
        .map(|(file, columns)| format!("{} of {}", list(columns), visible(file)))
        .collect();
    let more = count - first.len();
    if more > 0 {
        all.push(format!("{more} more"));
    }
    let words = format!("Columns not read: {}", all.join("; "));
    wrapped(&words, 0, 2) + "\n"
}

/// Inputs that were not read, and files that were passed over.
#[must_use]
pub fn not_read(library: &LibraryShown) -> String {
    let mut text = String::new();
    let kinds = [
        ("Not read, so nothing in it was judged:", &library.unread),
        ("Ignored:", &library.passed_over),
    ];
    for (title, inputs) in kinds {
        if inputs.is_empty() {
            continue;
        }
        text.push_str(title);
        text.push('\n');
        for input in inputs {
            let words = format!("{} {}", visible(&input.file), visible(&input.reason));
            text.push_str(&wrapped(&words, 2, 6));
        }
        text.push('\n');
    }
    text
}

/// Which shop files were used, in a line of their own.
#[must_use]
pub fn shop_files_line(files: &[ShopFile]) -> String {
    let named = shop_files_named(files);
    named.map_or_else(String::new, |words| wrapped(&words, 0, 2))
}

fn shop_files_named(files: &[ShopFile]) -> Option<String> {
    let names: Vec<String> = files.iter().map(ShopFile::name).collect();
    let names: Vec<_> = names.iter().map(|name| visible(name)).collect();
    match names.as_slice() {
        [] => None,
        [one] => Some(format!("Shop file: {one}")),
        many => Some(format!(
            "Shop files: {}; of what several say, the last counts",
            many.join(", ")
        )),
    }
}

/// The same in lines of so many columns.
pub(super) fn shop_files_to(width: usize, library: &LibraryShown) -> String {
    let named = shop_files_named(&library.shop_files);
    named.map_or_else(String::new, |words| wrapped_to(width, &words, 0, 2))
}

/// Which shop files were used, and what they weaken.
#[must_use]
pub fn shop_files(library: &LibraryShown) -> String {
    let mut text = shop_files_line(&library.shop_files);
    if !text.is_empty() {
        text.push('\n');
    }
    text + &weakened(&library.weakened)
}

/// Who relaxes a rule or a limit.
pub(super) fn relaxer(weakened: &Weakened) -> String {
    match &weakened.plant {
        None => "the library's own shankwise.toml".to_owned(),
        Some(file) => format!("the plant's {}", visible(file)),
    }
}

/// What shop files weaken, file by file.
fn weakened(weakened: &[Weakened]) -> String {
    let mut text = String::new();
    for of_file in weakened.chunk_by(|a, b| a.plant == b.plant) {
        for (nth, change) in of_file.iter().enumerate() {
            if nth == 0 {
                let title = format!("Relaxed by {}:", relaxer(change));
                text.push_str(&wrapped(&title, 0, 0));
            }
            text.push_str(&wrapped(&visible(&change.text), 2, 6));
        }
        text.push('\n');
    }
    text
}

/// The shop's own values that stand in for what no record states.
pub(super) fn defaults(defaults: &[String]) -> String {
    if defaults.is_empty() {
        return String::new();
    }
    let mut text = "The shop's defaults, used where no record states a value:\n".to_owned();
    for default in defaults {
        text.push_str(&wrapped(&visible(default), 2, 6));
    }
    text.push('\n');
    text
}
