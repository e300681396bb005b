//! Text for a terminal, and plain text for screen readers and logs: blocks of errors and warnings,
//! then notes, what is not judged, where to begin, and the counts.

mod below;
mod block;
mod blocks;
mod colours;
mod coverage;
mod diagnostic;
mod digest;
mod facts;
mod figure;
mod kept;
mod lines;
mod not_judged;
mod one_line;
mod plan;
mod rule_limits;
mod show;
mod summary;
mod trouble;
mod unreadable;

use std::collections::HashSet;
use std::io::{self, Write};

use crate::sheet::{Finding, Item, Level, Outcome, Overview, Plan, Report};

use super::NOTICE;
use super::wrap::{name, wrapped};
use below::Columns;
use block::drawn;
use blocks::{Block, blocks};
use kept::{Kept, Left, Order, order};
use lines::Lines;
use not_judged::Waiting;
use plan::plan_text;
use rule_limits::Printed;
use summary::summary;

pub use below::{not_read, shop_files, shop_files_line};
pub use digest::{Digest, Sort};
pub use facts::{facts_end, facts_of};
pub use figure::Figure;
pub use one_line::brief;
pub use show::Show;
pub use trouble::{Trouble, error_text, parted};
pub use unreadable::{unreadable_brief, unreadable_text};

/// How text looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Look {
    /// Drawn, with colour.
    Colour,
    /// Drawn, without colour.
    Drawn,
    /// Narrated, line by line, for screen readers and logs.
    Plain,
}

/// Blocks, notes and records of a kind that text shows unless asked for more.
pub const MOST: usize = 200;

/// What a text is to show.
#[derive(Clone, Copy, Debug)]
pub struct TextOptions {
    /// How it looks.
    pub look: Look,
    /// What it shows; unless it says so, notes only where nothing worse is left.
    pub show: Option<Show>,
    /// Most blocks, notes, records and names of a list.
    pub most: usize,
    /// Whether drawings keep to ASCII.
    pub ascii: bool,
}

/// The text of one library, put together while its findings pass by: it keeps what it will show,
/// and of the rest the counts.
pub struct Text {
    options: TextOptions,
    blocks: Kept<Block>,
    left: Left,
    notes: Lines,
    gaps: Waiting,
    never: Lines,
    accepted: Kept<(String, String)>,
    accepted_left: Left,
    columns: [Columns; 3],
    /// Faults of no assembly so far.
    faults: usize,
}

impl Text {
    /// Of nothing yet.
    #[must_use]
    pub fn of(options: TextOptions) -> Text {
        let most = options.most;
        Text {
            options,
            blocks: Kept::of(most),
            left: Left::default(),
            notes: Lines::of(most),
            gaps: Waiting::of(most),
            never: Lines::of(most),
            accepted: Kept::of(most),
            accepted_left: Left::default(),
            columns: [Columns::none(), Columns::none(), Columns::none()],
            faults: 0,
        }
    }

    /// Takes an assembly, or a fault of none; of its findings only those that are `wanted`.
    pub fn take(&mut self, item: Item, wanted: impl Fn(&Finding) -> bool) {
        match item {
            Item::Fault(fault) => {
                self.faults += 1;
                let one = (self.faults, *fault);
                self.findings(Some(one).into_iter().filter(|(_, fault)| wanted(fault)));
            }
            Item::Sheet(sheet) => {
                let findings = sheet.findings.into_iter().enumerate();
                self.findings(findings.filter(|(_, finding)| wanted(finding)));
            }
        }
    }

    /// Takes findings of one assembly, each with its number among them.
    fn findings(&mut self, findings: impl Iterator<Item = (usize, Finding)>) {
        let show = self.options.show.unwrap_or(Show::all());
        let (mut own, mut notes, mut never) = (Vec::new(), Vec::new(), Vec::new());
        for (nth, finding) in findings {
            let at = order(&finding, nth);
            if let Some(accepted) = &finding.accepted {
                let line = below::accepted_line(&finding, accepted);
                let last = self.accepted.put(at, (finding.rule, line));
                if let Some((rule, _)) = last {
                    self.accepted_left.add([(rule.as_str(), 1)].into_iter());
                }
                continue;
            }
            self.column(at, &finding);
            if finding.outcome == Outcome::NotJudged {
                self.gaps.add(at, &finding);
                if finding.missing.is_empty() {
                    never.push((nth, finding));
                }
            } else if finding.level == Some(Level::Note) {
                notes.push((nth, finding));
            } else if show.takes(finding.level) {
                own.push((nth, finding));
            }
        }
        for (nth, block) in blocks(own) {
            let at = order(&block.head, nth);
            if let Some(last) = self.blocks.put(at, block) {
                self.left.add(last.rules());
            }
        }
        for (nth, block) in blocks(notes) {
            self.notes.add(order(&block.head, nth), block);
        }
        for (nth, block) in blocks(never) {
            self.never.add(order(&block.head, nth), block);
        }
    }

    fn column(&mut self, at: Order, finding: &Finding) {
        let [errors, warnings, notes] = &mut self.columns;
        let columns = match finding.level {
            Some(Level::Error) => errors,
            Some(Level::Warning) => warnings,
            Some(Level::Note) | None => notes,
        };
        if let (true, Some(place)) = (below::is_column(finding), finding.places.first()) {
            columns.add(at, place);
        }
    }

    /// Writes the whole of it.
    ///
    /// # Errors
    /// If it cannot be written.
    pub fn finish(self, overview: &Overview, to: &mut dyn Write) -> io::Result<()> {
        let show = self.show(overview);
        self.told(overview, &overview.plan, "", to)?;
        to.write_all(summary(overview, show).as_bytes())
    }

    /// Writes what is said of a few tools, and draws them; the counts and the verdict stay the
    /// library's. `clean` are those of them of which nothing was found.
    ///
    /// # Errors
    /// If it cannot be written.
    pub fn finish_of_tools(
        self,
        overview: &Overview,
        numbers: &[&str],
        clean: &[&str],
        figures: &[Figure],
        to: &mut dyn Write,
    ) -> io::Result<()> {
        let show = self.show(overview);
        let (look, ascii) = (self.options.look, self.options.ascii);
        let figures = figures.iter();
        let figures = figures.map(|figure| figure.text(overview.units, look, ascii));
        let figures: String = figures.collect();
        for number in clean {
            let words = format!("tool {}: every rule that was judged is met", name(number));
            to.write_all(wrapped(&words, 0, 4).as_bytes())?;
        }
        self.told(overview, &Plan::default(), &figures, to)?;
        to.write_all(only(numbers).as_bytes())?;
        to.write_all(summary(overview, show).as_bytes())
    }

    fn show(&self, overview: &Overview) -> Show {
        let shown = self.options.show;
        shown.unwrap_or_else(|| Show::by_default(&overview.summary))
    }

    /// All but the counts, with `figures` behind what was found.
    fn told(
        self,
        overview: &Overview,
        plan: &Plan,
        figures: &str,
        to: &mut dyn Write,
    ) -> io::Result<()> {
        let show = self.show(overview);
        let mut explained: HashSet<String> = HashSet::new();
        let mut printed = Printed::default();
        for block in self.blocks.into_values() {
            let first = explained.insert(block.head.why.to_string());
            let limits = printed.line(block.findings());
            let text = drawn(&block, first, &limits, self.options.look);
            to.write_all((text + "\n").as_bytes())?;
        }
        if let Some(words) = self.left.words(["block", "blocks"]) {
            to.write_all((wrapped(&words, 0, 2) + "\n").as_bytes())?;
        }
        if show.note {
            to.write_all(below::notes(self.notes, &mut printed).as_bytes())?;
        }
        if show.not_judged {
            to.write_all(below::not_judged(self.gaps, self.never).as_bytes())?;
        }
        to.write_all(figures.as_bytes())?;
        let library = &overview.library;
        let shown = [show.error, show.warning, show.note];
        let hidden = self.columns.into_iter().zip(shown);
        let hidden = hidden.filter(|(_, shown)| !shown);
        let rest = [
            plan_text(plan),
            below::accepted(self.accepted, &self.accepted_left),
            below::shop_files(library),
            below::defaults(&library.defaults),
            below::unknown_columns(hidden.map(|(columns, _)| columns)),
            not_read(library),
            wrapped(NOTICE, 0, 0),
        ];
        to.write_all(rest.concat().as_bytes())
    }
}

/// That only these tools are shown.
fn only(numbers: &[&str]) -> String {
    let numbers: Vec<_> = numbers.iter().map(|number| name(number)).collect();
    let (is_shown, own) = match numbers.as_slice() {
        [one] => (format!("tool {one} is"), format!("tool {one}")),
        many => (
            format!("tools {} are", many.join(", ")),
            "these tools".to_owned(),
        ),
    };
    let only = format!(
        "Only {is_shown} shown; counts and verdict are those of the whole library, the exit status is that of {own}."
    );
    wrapped(&only, 0, 0)
}

/// The text of a report that is in memory whole.
#[must_use]
pub fn report(report: &Report, plan: &Plan, look: Look, show: Show) -> String {
    let mut text = Text::of(TextOptions {
        look,
        show: Some(show),
        most: usize::MAX,
        ascii: false,
    });
    let mut findings: Vec<Finding> = report.findings.clone();
    // Stable: the findings of one assembly stay in their order.
    findings.sort_by_key(|finding| finding.assembly_index);
    for own in findings.chunk_by(|a, b| a.assembly_index == b.assembly_index) {
        text.findings(own.iter().cloned().enumerate());
    }
    let mut written = Vec::new();
    // Writing to memory cannot fail.
    let _ = text.finish(&Overview::of(report, plan), &mut written);
    String::from_utf8_lossy(&written).into_owned()
}
