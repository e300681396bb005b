//! The counts of a report, and its verdict: the last lines of every text.

use std::path::Path;

use crate::sheet::{Overview, Summary, Verdict};
use crate::text::{counted, visible};
use crate::units::Unit;
use crate::units::print;

use super::super::wrap::{WIDTH, name, wrapped_to};
use super::coverage;
use super::show::Show;

/// The counts, then the verdict with its coverage: always the last line.
pub(super) fn summary(report: &Overview, show: Show) -> String {
    let name = visible(&report.library.name);
    wrapped_to(WIDTH, &format!("{name}: {}", counts(report, show)), 0, 2)
        + &ranges(report, WIDTH)
        + &coverage::lines(report)
        + &coverage::last(report, &verdict(report))
        + "\n"
}

/// The same without what stands above it in the short text.
pub(super) fn short_summary(report: &Overview, width: usize) -> String {
    wrapped_to(width, &counts(report, Show::all()), 0, 2)
        + &ranges(report, width)
        + &coverage::last(report, &verdict(report))
        + "\n"
}

fn counts(report: &Overview, show: Show) -> String {
    let summary = &report.summary;
    let hidden = |count: usize, shown: bool, name: &str| {
        if count > 0 && !shown {
            format!(" (hidden; --show {name})")
        } else {
            String::new()
        }
    };
    let accepted = match summary.accepted {
        0 => String::new(),
        accepted => format!(", {accepted} accepted"),
    };
    format!(
        "{}{}, {}{}, {}{}, {} not judged{}{accepted}; {} met, {} do not apply",
        counted(summary.error, "error"),
        hidden(summary.error, show.error, "error"),
        counted(summary.warning, "warning"),
        hidden(summary.warning, show.warning, "warning"),
        counted(summary.note, "note"),
        hidden(summary.note, show.note, "note"),
        summary.not_judged,
        hidden(summary.not_judged, show.not_judged, "not-judged"),
        counted(summary.met, "rule"),
        summary.not_applicable,
    )
}

fn verdict(report: &Overview) -> String {
    let summary = &report.summary;
    match summary.verdict {
        Verdict::NothingFound => nothing_found(summary),
        Verdict::Fails => ["fails".to_owned(), unread(report)]
            .into_iter()
            .filter(|words| !words.is_empty())
            .collect::<Vec<_>>()
            .join("; "),
        Verdict::Incomplete if !report.library.unread.is_empty() => {
            format!("incomplete: {}", unread(report))
        }
        Verdict::Incomplete => "incomplete: some rules are not judged".to_owned(),
    }
}

/// What nobody states and is taken as a range, with the number of tools that rest on it: one line.
fn ranges(report: &Overview, width: usize) -> String {
    let all = report.library.ranges.iter().map(|one| {
        format!(
            "{} {} on {}",
            one.field,
            print::ends(one.range, Unit::Mm, report.units),
            counted(one.tools, "tool")
        )
    });
    let all: Vec<String> = all.collect();
    if all.is_empty() {
        return String::new();
    }
    wrapped_to(
        width,
        &format!(
            "Not stated, and taken as a range from memory: {}",
            all.join(", ")
        ),
        0,
        2,
    )
}

/// Most inputs that the last line names.
const MOST_INPUTS: usize = 3;

/// Which inputs were not read, by their names alone; empty if all were.
fn unread(report: &Overview) -> String {
    let inputs = &report.library.unread;
    let names = inputs.iter().take(MOST_INPUTS).map(|input| {
        let path = Path::new(&input.file);
        let own = path.file_name().map(std::ffi::OsStr::to_string_lossy);
        name(own.as_deref().unwrap_or(&input.file)).into_owned()
    });
    let mut names: Vec<String> = names.collect();
    let more = inputs.len().saturating_sub(MOST_INPUTS);
    if more > 0 {
        names.push(format!("{more} more"));
    }
    match names.as_slice() {
        [] => String::new(),
        [one] => format!("{one} was not read"),
        many => format!("{} were not read", many.join(", ")),
    }
}

/// What was found though nothing fails: "nothing found" alone stands only where nothing at any level
/// is open.
fn nothing_found(summary: &Summary) -> String {
    let open = [
        (summary.error, counted(summary.error, "error")),
        (summary.warning, counted(summary.warning, "warning")),
        (summary.note, counted(summary.note, "note")),
        (
            summary.not_judged,
            format!("{} not judged", summary.not_judged),
        ),
        (
            summary.accepted,
            format!("{} accepted by the shop", summary.accepted),
        ),
    ];
    let open = open.into_iter().filter(|(count, _)| *count > 0);
    let open: Vec<String> = open.map(|(_, text)| text).collect();
    if open.is_empty() {
        "nothing found".to_owned()
    } else {
        format!("nothing found except {}", open.join(", "))
    }
}
