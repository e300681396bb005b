//! Findings that say the same of several tools, in one line.

use std::borrow::Cow;
use std::collections::HashMap;

use crate::sheet::{Finding, FindingPlace};
use crate::text::visible;

use super::blocks::Block;
use super::kept::{Kept, Left, NameList, Order};

/// What all say in one line.
pub(super) struct Line {
    /// The first of them.
    pub first: Block,
    /// The tools.
    pub tools: NameList,
    /// Where, file by file.
    places: Vec<(String, NameList)>,
    words: String,
    said: usize,
}

/// One line for all blocks that say the same words.
pub(super) struct Lines {
    most: usize,
    known: HashMap<String, Order>,
    kept: Kept<Line>,
    left: Left,
}

impl Lines {
    pub(super) fn of(most: usize) -> Lines {
        Lines {
            most,
            known: HashMap::new(),
            kept: Kept::of(most),
            left: Left::default(),
        }
    }

    pub(super) fn add(&mut self, at: Order, block: Block) {
        let words = words(&block);
        if let Some(line) = self.known.get(&words).and_then(|at| self.kept.get_mut(*at)) {
            line.add(&block.head, self.most);
            return;
        }
        self.known.insert(words.clone(), at);
        let mut line = Line {
            tools: NameList::of(self.most),
            places: Vec::new(),
            words,
            said: 0,
            first: block,
        };
        line.take_first(self.most);
        if let Some(last) = self.kept.put(at, line) {
            self.known.remove(&last.words);
            let said = last.said;
            self.left
                .add(last.first.rules().map(|(rule, _)| (rule, said)));
        }
    }

    /// The lines in their order, and what was left out.
    pub(super) fn finish(self) -> (impl Iterator<Item = Line>, Left) {
        (self.kept.into_values(), self.left)
    }
}

/// What makes two blocks say the same.
fn words(block: &Block) -> String {
    let mut words = String::new();
    for finding in block.findings() {
        // A byte that no rule and no message holds keeps them apart.
        words.extend([&finding.rule, "\0", &finding.message, "\0"]);
        for assumption in &finding.assumptions {
            words.extend([assumption, "\0"]);
        }
        words.push('\u{1}');
    }
    words
}

impl Line {
    fn take_first(&mut self, most: usize) {
        let (tool, place) = of(&self.first.head);
        let (tool, place) = (tool.map(str::to_owned), place.cloned());
        self.take(tool.as_deref(), place.as_ref(), most);
    }

    fn add(&mut self, finding: &Finding, most: usize) {
        let (tool, place) = of(finding);
        self.take(tool, place, most);
    }

    fn take(&mut self, tool: Option<&str>, place: Option<&FindingPlace>, most: usize) {
        self.said += 1;
        if let Some(tool) = tool {
            self.tools.add(tool);
        }
        let Some(place) = place else {
            return;
        };
        let line = place.line.to_string();
        let file = match &place.sheet {
            None => Cow::Borrowed(&place.file),
            Some(sheet) => Cow::Owned(format!("{}: {sheet}", place.file)),
        };
        match self.places.iter_mut().find(|(known, _)| *known == *file) {
            Some((_, lines)) => lines.add(&line),
            None => {
                let mut lines = NameList::of(most);
                lines.add(&line);
                self.places.push((file.into_owned(), lines));
            }
        }
    }

    /// Where its findings stand, file by file.
    pub(super) fn places(&self) -> String {
        let places = self.places.iter().map(|(file, lines)| {
            let listed = lines.listed().join(", ");
            format!("{}:{listed}{}", visible(file), lines.rest())
        });
        let places: Vec<String> = places.collect();
        places.join("; ")
    }
}

fn of(finding: &Finding) -> (Option<&str>, Option<&FindingPlace>) {
    (finding.tool_number.as_deref(), finding.places.first())
}
