//! How far long work has come: on a terminal's standard error alone, and gone when it is done.

use std::fs;
use std::io::{self, IsTerminal as _};
use std::path::Path;
use std::time::{Duration, Instant};

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};

use crate::library::Kind;
use crate::text::visible;

use super::args::{OutputArgs, OutputForm};

/// Work that ends sooner shows nothing.
const WAIT: Duration = Duration::from_millis(500);
/// Tables of so many bytes take about half a second to read.
const LONG: u64 = 4 << 20;
/// What is shown while a library is judged.
const JUDGING: &str = "judging {msg} [{bar:24}] {human_pos} of {human_len} tools";

/// Whether anything may be shown.
#[derive(Clone, Copy, Debug)]
pub(super) struct Shows(bool);

impl Shows {
    /// Only to a person who looks: standard error is a terminal, and nothing else appears there
    /// in the meantime. JSON, one line a finding and facts are written while they are made.
    pub(super) fn of(arguments: &OutputArgs, written_at_the_end: bool) -> Shows {
        let held =
            written_at_the_end && matches!(arguments.form, OutputForm::Text | OutputForm::Plain);
        let elsewhere = arguments.out.is_some() || !io::stdout().is_terminal();
        let dumb = std::env::var_os("TERM").is_some_and(|term| term == "dumb");
        let seen = io::stderr().is_terminal() && !dumb;
        Shows(seen && !arguments.quiet && (held || elsewhere))
    }

    /// Nothing: the work is short, or nobody waits for it.
    pub(super) const fn none() -> Shows {
        Shows(false)
    }

    /// Says that a library is read, if that will take a while; until it is dropped.
    pub(super) fn reading(self, path: &Path) -> Option<Reading> {
        let bar = (self.0 && bytes(path) >= LONG).then(|| {
            let bar = ProgressBar::new_spinner();
            bar.set_message(format!("reading {}", visible(&path.display().to_string())));
            bar.set_style(style("{msg}"));
            bar.tick();
            bar
        });
        bar.map(Reading)
    }

    /// Counts the tools of a library as they are judged; until it is dropped.
    pub(super) fn judging(self, name: &str, tools: usize) -> Judging {
        let target = ProgressDrawTarget::hidden();
        let tools = u64::try_from(tools).unwrap_or(u64::MAX);
        let bar = self.0.then(|| {
            let bar = ProgressBar::with_draw_target(Some(tools), target);
            bar.set_style(style(JUDGING).progress_chars("=> "));
            bar.set_message(visible(name).into_owned());
            bar
        });
        Judging {
            bar,
            begun: Instant::now(),
        }
    }
}

fn style(template: &str) -> ProgressStyle {
    ProgressStyle::with_template(template).unwrap_or_else(|_| ProgressStyle::default_bar())
}

/// How long the tables of a library are.
fn bytes(path: &Path) -> u64 {
    let length = |path: &Path| fs::metadata(path).map_or(0, |file| file.len());
    if path.is_dir() {
        let tables = Kind::ALL.into_iter().flat_map(Kind::tables);
        return tables.map(|table| length(&path.join(table))).sum();
    }
    length(path)
}

/// What is said while a library is read.
pub(super) struct Reading(ProgressBar);

impl Drop for Reading {
    fn drop(&mut self) {
        self.0.finish_and_clear();
    }
}

/// What is counted while a library is judged.
pub(super) struct Judging {
    bar: Option<ProgressBar>,
    begun: Instant,
}

impl Judging {
    /// One more tool is judged.
    pub(super) fn step(&self) {
        let Some(bar) = &self.bar else {
            return;
        };
        if bar.is_hidden() && self.begun.elapsed() >= WAIT {
            bar.set_draw_target(ProgressDrawTarget::stderr());
        }
        bar.inc(1);
    }
}

impl Drop for Judging {
    fn drop(&mut self) {
        if let Some(bar) = &self.bar {
            bar.finish_and_clear();
        }
    }
}
