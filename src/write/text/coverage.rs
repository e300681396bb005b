//! Who was judged, as the last lines of every text.

use crate::sheet::{Came, Coverage, OfKind, Overview};

use super::super::wrap::{tools, wrapped};

/// Tools that text names before it only counts the rest.
const NAMED: usize = 20;

/// By clamping kind of how many tools the grip was judged, of which it was not, and what came of
/// all of them.
pub(super) fn lines(report: &Overview) -> String {
    let coverage = &report.coverage;
    let held = coverage.kinds(true);
    let held = held.iter().map(|kind| {
        format!(
            "{} {} of {}",
            name(kind),
            kind.grip_judged,
            kind.held_by_shank
        )
    });
    let mut text = said("Grip judged", held);
    text += &said("Grip not judged", names(coverage).into_iter());
    let others = coverage.kinds(false);
    let others = others
        .iter()
        .map(|kind| format!("{} {}", name(kind), kind.held_by_shank));
    text += &said("Not held by a shank", others);
    text + &wrapped(&came(&report.came), 0, 2)
}

fn said(label: &str, items: impl Iterator<Item = String>) -> String {
    let items: Vec<String> = items.collect();
    if items.is_empty() {
        return String::new();
    }
    wrapped(&format!("{label}: {}", items.join(", ")), 0, 2)
}

fn name(kind: &OfKind) -> &str {
    let kind = kind.word();
    kind.unwrap_or("clamping kind not stated")
}

/// The tools of which the grip was not judged; of many the first, and how many there are besides.
fn names(coverage: &Coverage) -> Option<String> {
    let all: Vec<&str> = coverage.grip_not_judged().collect();
    let shown = all.iter().take(NAMED).map(|name| match *name {
        "" => "without a number",
        name => name,
    });
    let shown: Vec<&str> = shown.collect();
    let more = match all.len().saturating_sub(NAMED) {
        0 => String::new(),
        more => format!(" and {more} more"),
    };
    (!all.is_empty()).then(|| tools(&shown) + &more)
}

fn came(came: &Came) -> String {
    let Came {
        fails,
        grip_not_judged,
        warned,
        not_judged,
        nothing_found,
    } = came;
    format!(
        "Assemblies: {fails} fail, {grip_not_judged} grip not judged, {warned} warned, {not_judged} otherwise not judged, {nothing_found} nothing found (notes aside); {} in all",
        came.sum()
    )
}

/// The last line: the verdict and what it covers.
pub(super) fn last(report: &Overview, verdict: &str) -> String {
    let coverage = &report.coverage;
    let not = not_checked(coverage).map(|why| format!("grip NOT checked: {why}"));
    let grip = format!(
        "grip judged on {} of {} tools held by a shank{}",
        coverage.grip_judged(),
        coverage.held_by_shank(),
        wanted(coverage)
    );
    let of = coverage.assemblies();
    let reach = if coverage.reach_stated() == 0 {
        format!("no reach is stated: reach judged on 0 of {of}")
    } else {
        format!("reach judged on {} of {of}", coverage.reach_judged())
    };
    let all = not.into_iter().chain([verdict.to_owned(), grip, reach]);
    all.collect::<Vec<_>>().join("; ")
}

/// Why nobody may take the grip for checked.
fn not_checked(coverage: &Coverage) -> Option<&'static str> {
    if coverage.held_by_shank() == 0 {
        Some("no tool is held by a shank")
    } else if !coverage.grip_rules {
        Some("there is no rule that judges it")
    } else if !coverage.grip_asked() {
        Some("some of its rules were left out")
    } else if coverage.grip_judged() == 0 {
        Some("it was judged on no tool")
    } else {
        None
    }
}

/// That fewer were judged than asked for.
fn wanted(coverage: &Coverage) -> String {
    let wanted = coverage.wanted.filter(|_| !coverage.is_enough());
    wanted.map_or_else(String::new, |share| {
        let percent = format!("{:.1}", share * 100.0);
        let percent = percent.trim_end_matches('0').trim_end_matches('.');
        format!(", fewer than the {percent} % asked for")
    })
}
