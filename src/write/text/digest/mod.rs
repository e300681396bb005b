//! The short text of a library: first which tools must not be used as recorded, then one block a
//! tool, then what is only counted. What stands in no block is shown by `--tool` and `--full`.

mod block_text;
mod counted;
mod key;
mod list;
mod record_faults;
mod steps;
mod tool;

use std::collections::{BTreeMap, HashMap, HashSet};
use std::io::{self, Write};

use crate::sheet::{Finding, Item, Level, Outcome, Overview, Sheet, Weakened, Words};
use crate::text::visible;

use super::super::NOTICE;
use super::super::wrap::wrapped_to;
use super::Look;
use super::below::{self, Columns, not_read};
use super::kept::{Left, NameList, order};
use super::summary::short_summary;
use counted::Counted;
use key::Key;
pub use key::Sort;
use list::List;
use tool::Tool;

/// Most tools that a caution names.
const CAUTIONED: usize = 20;
/// More tools than this that say the same share one block.
const ALIKE: usize = 5;

/// Tools that say the same and are told to do the same.
struct Alike {
    /// The first of them; all of them while they are few.
    tools: Vec<Tool>,
    names: NameList,
    count: usize,
}

/// The short text of one library, put together while its tools pass by.
pub struct Digest {
    look: Look,
    width: usize,
    most: usize,
    sort: Sort,
    list: List,
    blocks: BTreeMap<Key, Alike>,
    /// Where the block of tools that say the same stands.
    known: HashMap<String, Key>,
    left: Left,
    counted: Counted,
    /// Numbers that two tools have.
    twice: HashSet<String>,
    /// What is not read, where that is only a note.
    columns: Columns,
    /// Faults of no assembly so far.
    faults: usize,
    /// Tools of whose records faults speak, by their number in the library.
    concerned: BTreeMap<usize, String>,
}

impl Digest {
    /// Of nothing yet: at most so many blocks, in lines of so many columns.
    #[must_use]
    pub fn of(look: Look, width: usize, most: usize, sort: Sort) -> Digest {
        Digest {
            look,
            width,
            most,
            sort,
            list: List::default(),
            blocks: BTreeMap::new(),
            known: HashMap::new(),
            left: Left::default(),
            counted: Counted::default(),
            twice: HashSet::new(),
            columns: Columns::none(),
            faults: 0,
            concerned: BTreeMap::new(),
        }
    }

    /// Takes an assembly, or a fault of none.
    pub fn take(&mut self, item: Item) {
        match item {
            Item::Fault(fault) => {
                self.counted.take(&fault);
                self.faults += 1;
                if let (true, Some(place)) = (below::is_column(&fault), fault.places.first())
                    && !is_shown(&fault)
                {
                    self.columns.add(order(&fault, self.faults), place);
                }
                if is_shown(&fault) {
                    let tools = fault.part_of.iter().take(record_faults::TOOLS);
                    let tools = tools.map(|at| (*at, String::new()));
                    self.concerned.extend(tools);
                    let tool = Tool::of_record(*fault, self.faults);
                    let at = tool.at;
                    self.put(tool, at);
                }
            }
            Item::Sheet(sheet) => self.sheet(*sheet),
        }
    }

    fn sheet(&mut self, sheet: Sheet) {
        for finding in &sheet.findings {
            self.counted.take(finding);
        }
        let tool = Tool::of(sheet);
        let at = tool.at;
        if let Some(name) = self.concerned.get_mut(&at) {
            *name = tool.name();
        }
        self.twice.extend(tool.doubled().cloned());
        self.list.add(&Key::of(&tool, Sort::Number, at), &tool);
        if tool.is_shown() {
            self.put(tool, at);
        }
    }

    fn put(&mut self, tool: Tool, at: usize) {
        let words = tool.alike();
        if let Some(alike) = self
            .known
            .get(&words)
            .and_then(|key| self.blocks.get_mut(key))
        {
            alike.names.add(&tool.name());
            alike.count += 1;
            if alike.count <= ALIKE {
                alike.tools.push(tool);
            } else {
                // One block stands for all.
                alike.tools.truncate(1);
            }
            return;
        }
        // What is left out is never worse than what is kept.
        let key = Key::of(&tool, Sort::Severity, at);
        let mut names = NameList::of(self.most);
        names.add(&tool.name());
        self.known.insert(words, key.clone());
        let alike = Alike {
            tools: vec![tool],
            names,
            count: 1,
        };
        self.blocks.insert(key, alike);
        if self.blocks.len() > self.most
            && let Some((_, last)) = self.blocks.pop_last()
            && let Some(tool) = last.tools.first()
        {
            self.known.remove(&tool.alike());
            self.left.add(tool.rules().map(|rule| (rule, last.count)));
        }
    }

    /// Writes the whole of it.
    ///
    /// # Errors
    /// If it cannot be written.
    pub fn finish(self, overview: &Overview, to: &mut dyn Write) -> io::Result<()> {
        let write = |to: &mut dyn Write, text: String| to.write_all(text.as_bytes());
        write(to, self.list.text(overview, &self.twice, self.width))?;
        let mut cautions: Vec<(Words, NameList)> = Vec::new();
        let mut blocks: Vec<(Key, Alike)> = Vec::new();
        for alike in self.blocks.into_values() {
            blocks.extend(apart(alike, self.sort));
        }
        blocks.sort_by(|a, b| a.0.cmp(&b.0));
        let of_no_tool = record_faults::taken(&mut blocks);
        let of_no_tool = record_faults::text(&of_no_tool, &self.concerned, self.look, self.width);
        let place = record_faults::place(&blocks, self.sort);
        for (nth, (_, alike)) in blocks.iter_mut().enumerate() {
            if nth == place {
                write(to, of_no_tool.clone())?;
            }
            let Some(tool) = alike.tools.first_mut() else {
                continue;
            };
            tool.tell_twice(&self.twice);
            for caution in tool.cautions() {
                let known = cautions.iter_mut().find(|(known, _)| known == caution);
                match known {
                    Some((_, tools)) => tools.add(&tool.short_name()),
                    None => {
                        let mut tools = NameList::of(CAUTIONED);
                        tools.add(&tool.short_name());
                        cautions.push((caution.clone(), tools));
                    }
                }
            }
            let several = (alike.count > 1).then_some((&alike.names, alike.count));
            write(to, tool.text(several, self.look, self.width))?;
        }
        if place == blocks.len() {
            write(to, of_no_tool)?;
        }
        let left = self.left.words(["block", "blocks"]);
        let left = left.map_or_else(String::new, |words| wrapped_to(self.width, &words, 0, 2));
        write(to, left)?;
        write(to, self.counted.text(self.width))?;
        let library = &overview.library;
        let cautions = cautions.iter().map(|(caution, tools)| {
            let listed = tools.listed().join(", ") + &tools.rest();
            let words = format!("caution ({listed}): {}", visible(caution));
            wrapped_to(self.width, &words, 0, 2)
        });
        let rest = [
            below::shop_files_to(self.width, library),
            relaxed(self.width, &library.weakened),
            in_lines(self.width, "the shop's default", &library.defaults),
            below::unknown_columns(std::iter::once(self.columns)),
            not_read(library),
            cautions.collect(),
            wrapped_to(self.width, NOTICE, 0, 0),
            short_summary(overview, self.width),
        ];
        write(to, rest.concat())
    }
}

/// What shop files weaken, each in a line of its own.
fn relaxed(width: usize, all: &[Weakened]) -> String {
    let lines = all.iter().map(|one| {
        let who = below::relaxer(one);
        in_lines(
            width,
            &format!("relaxed by {who}"),
            std::slice::from_ref(&one.text),
        )
    });
    lines.collect()
}

/// Each in a line of its own, with what it is.
fn in_lines(width: usize, what: &str, all: &[String]) -> String {
    let lines = all.iter().map(|one| format!("{what}: {}", visible(one)));
    lines.map(|line| wrapped_to(width, &line, 0, 2)).collect()
}

/// One block for all of many; else one a tool.
fn apart(alike: Alike, sort: Sort) -> Vec<(Key, Alike)> {
    if alike.count > ALIKE {
        let first = alike.tools.first().map(|tool| Key::of(tool, sort, tool.at));
        return first.map(|key| (key, alike)).into_iter().collect();
    }
    let each = alike.tools.into_iter().map(|tool| {
        let mut names = NameList::of(1);
        names.add(&tool.name());
        let own = Key::of(&tool, sort, tool.at);
        let one = Alike {
            names,
            count: 1,
            tools: vec![tool],
        };
        (own, one)
    });
    each.collect()
}

/// Whether a finding has a line of its own: what is only noted, not judged or accepted is counted.
fn is_shown(finding: &Finding) -> bool {
    finding.accepted.is_none()
        && finding.outcome == Outcome::NotMet
        && finding.level >= Some(Level::Warning)
}
