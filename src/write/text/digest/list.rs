//! The first lines: which tools must not be used as recorded, which are warned of, and which
//! nobody has judged. A tool that fails and is not judged stands in both.

use std::collections::{BTreeMap, HashSet};

use crate::sheet::{Group, Overview};
use crate::text::{counted, visible};

use super::super::super::wrap::wrapped_to;
use super::key::Key;
use super::tool::Tool;

/// Most tools that one line lists.
const MOST: usize = 200;
/// The same where it is of reach alone: many libraries state it for a few tools only.
const MOST_OF_REACH: usize = 12;

/// The line of tools of which nobody knows whether they reach.
const REACH: &str = "reach not judged";

/// The line of tools whose grip is not judged.
const GRIP: &str = "grip not judged";
/// The line of tools of which there is none to judge.
const NO_SHANK: &str = "grip does not apply, as no shank is held";

/// Whether a tool stands in a line.
type Stands = fn(&Tool) -> bool;

/// The lines, each with its words.
const LISTED: [(Stands, &str); 6] = [
    (
        |tool| tool.group == Some(Group::Fails),
        "do not use as recorded",
    ),
    (|tool| tool.group == Some(Group::Warned), "check before use"),
    (|tool| tool.open.grip, GRIP),
    (|tool| tool.no_shank, NO_SHANK),
    (|tool| tool.open.reach, REACH),
    (
        |tool| tool.open.other && !tool.open.grip,
        "something else not judged",
    ),
];

/// What a tool is called in a list.
struct Name {
    number: Option<String>,
    short: String,
    /// With its line, should another have its number.
    long: String,
}

impl Name {
    fn of(tool: &Tool) -> Name {
        Name {
            number: tool.number.clone(),
            short: tool.name(),
            long: tool.long_name(),
        }
    }

    fn words(&self, twice: &HashSet<String>) -> &str {
        let doubled = self.number.as_ref().is_some_and(|own| twice.contains(own));
        if doubled { &self.long } else { &self.short }
    }
}

/// The tools of each line.
#[derive(Default)]
pub(super) struct List {
    listed: [BTreeMap<Key, Name>; LISTED.len()],
    counts: [usize; LISTED.len()],
    all: usize,
}

impl List {
    pub(super) fn add(&mut self, key: &Key, tool: &Tool) {
        self.all += 1;
        let lines = self.listed.iter_mut().zip(&mut self.counts).zip(LISTED);
        for ((listed, count), (_, words)) in lines.filter(|(_, (stands, _))| stands(tool)) {
            *count += 1;
            listed.insert(key.clone(), Name::of(tool));
            let most = if words == REACH { MOST_OF_REACH } else { MOST };
            if listed.len() > most {
                listed.pop_last();
            }
        }
    }

    /// The lines; `twice` are the numbers that two tools have.
    pub(super) fn text(
        &self,
        overview: &Overview,
        twice: &HashSet<String>,
        width: usize,
    ) -> String {
        let tools = counted(self.all, "tool");
        let sound = match overview.came.nothing_found {
            0 => String::new(),
            sound => format!("; {sound} judged without error or warning"),
        };
        let head = format!("{}: {tools}{sound}", visible(&overview.library.name));
        let mut text = wrapped_to(width, &head, 0, 2);
        let mut lines: Vec<(&str, String)> = Vec::new();
        for ((listed, count), (_, words)) in self.listed.iter().zip(self.counts).zip(LISTED) {
            // Where no reach is stated at all, the last line says so.
            let is_needless = words == REACH && overview.coverage.reach_stated() == 0;
            if count == 0 || is_needless {
                continue;
            }
            let names = listed.values().map(|one| one.words(twice).to_owned());
            let mut names: Vec<String> = names.collect();
            let more = count - names.len();
            if more > 0 {
                names.push(format!("{more} more"));
            }
            let line = format!("{words} ({count}): {}", names.join(", "));
            // Both are about grip, and share a line.
            match lines.last_mut() {
                Some((GRIP, before)) if words == NO_SHANK => {
                    before.push_str("; it");
                    before.push_str(line.trim_start_matches("grip"));
                }
                _ => lines.push((words, line)),
            }
        }
        for (_, line) in lines {
            text.push_str(&wrapped_to(width, &line, 2, 4));
        }
        text + "\n"
    }
}
