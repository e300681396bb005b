//! What to do with one tool, as steps that can be followed one after the other.

use std::borrow::Cow;

use crate::sheet::{Brief, Finding, Level};
use crate::text::visible;

use super::super::Look;
use super::block_text::{bold, stressed};

/// Most characters of all steps before those of warnings are only counted: some three lines.
const LONGEST: usize = 230;
/// Most characters of titles behind the steps, the first aside.
const TITLES: usize = 50;

/// Whether a finding has a line of its own above the steps.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Lined {
    Yes,
    No,
}

/// The steps of one tool.
#[derive(Default)]
pub(super) struct Steps<'t> {
    all: Vec<ToDo<'t>>,
    /// Titles of what has no line, and goes with a step of another finding.
    same: Vec<Cow<'t, str>>,
    /// Titles of errors that are only asked again.
    again: Vec<Cow<'t, str>>,
    /// Where the rest is shown.
    more: String,
    /// Whether the check is to be run again behind them.
    pub rerun: bool,
}

struct ToDo<'t> {
    /// What it corrects, where that stands in no line.
    of: Option<&'t str>,
    brief: &'t Brief,
    is_error: bool,
}

impl<'t> Steps<'t> {
    /// None yet; `more` says where the rest is shown.
    pub(super) fn of(more: String) -> Steps<'t> {
        Steps {
            more,
            ..Steps::default()
        }
    }

    /// Takes what one finding asks for.
    pub(super) fn take(&mut self, finding: &'t Finding, brief: &'t Brief, lined: Lined) {
        self.rerun |= brief.asks_rerun();
        let title = (lined == Lined::No).then_some(finding.title.as_str());
        let is_error = finding.level == Some(Level::Error);
        let known = self.all.iter().any(|step| step.brief == brief);
        if !known && !brief.is_empty() {
            self.all.push(ToDo {
                of: title,
                brief,
                is_error,
            });
        } else if let Some(title) = title.filter(|_| known) {
            add(&mut self.same, title.into());
        } else if let Some(title) = title.filter(|_| is_error) {
            add(&mut self.again, title.into());
        }
    }

    /// Takes what another finding explains: it has no step of its own.
    pub(super) fn same(&mut self, title: impl Into<Cow<'t, str>>) {
        add(&mut self.same, title.into());
    }

    /// `do: 1) …  2) …`; `None` if there is nothing to do.
    pub(super) fn text(&self, look: Look) -> Option<String> {
        let (mut said, more) = self.said(look);
        if self.rerun {
            let again = match self.again.as_slice() {
                [] => String::new(),
                titles => format!(" for: {}", visible(&titles.join(", "))),
            };
            let again = format!("check again{again}");
            match said.as_mut_slice() {
                // Of one step that is no step of its own.
                [only] => *only = format!("{only}, then {again}"),
                _ => said.push(again),
            }
        }
        let label = match look {
            Look::Colour => bold("do:"),
            Look::Plain | Look::Drawn => "do:".to_owned(),
        };
        (!said.is_empty()).then(|| {
            let behind = self.behind(more);
            format!("{label} {}{behind}", numbered(&said))
        })
    }

    /// The steps in words, and how many warnings have one that does not fit.
    fn said(&self, look: Look) -> (Vec<String>, usize) {
        let mut said: Vec<String> = Vec::new();
        let (mut length, mut more) = (0, 0);
        for step in &self.all {
            let of = step.of.map(|title| format!("{}: ", visible(title)));
            let words = of.unwrap_or_default() + &stressed(step.brief, look);
            let own = words.chars().count();
            if !step.is_error && length + own > LONGEST && !said.is_empty() {
                more += 1;
            } else {
                length += own;
                said.push(words);
            }
        }
        (said, more)
    }

    /// What goes with the steps, and what they leave.
    fn behind(&self, more: usize) -> String {
        let mut length = 0;
        let shown = self.same.iter().take_while(|title| {
            let is_first = length == 0;
            length += title.chars().count();
            is_first || length <= TITLES
        });
        let mut shown: Vec<String> = shown.map(|title| visible(title).into_owned()).collect();
        let rest = self.same.len() - shown.len();
        if rest > 0 {
            shown.push(format!("{rest} more"));
        }
        let ends = (!shown.is_empty()).then(|| format!("also corrects: {}", shown.join(", ")));
        let left = (more > 0).then(|| {
            let s = if more == 1 { "" } else { "s" };
            format!("{more} warning{s}: {}", self.more)
        });
        let all: Vec<String> = ends.into_iter().chain(left).collect();
        if all.is_empty() {
            return String::new();
        }
        format!("  ({})", all.join("; "))
    }
}

/// Each once.
fn add<'t>(titles: &mut Vec<Cow<'t, str>>, title: Cow<'t, str>) {
    if !titles.contains(&title) {
        titles.push(title);
    }
}

/// Several steps with their numbers: `1) …  2) …`.
fn numbered(steps: &[String]) -> String {
    if let [one] = steps {
        return one.clone();
    }
    let steps = steps.iter().enumerate();
    let steps = steps.map(|(at, step)| format!("{}) {step}", at + 1));
    steps.collect::<Vec<_>>().join("  ")
}
