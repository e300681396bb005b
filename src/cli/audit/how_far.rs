//! How far an audit has come.

use std::io::{self, IsTerminal as _, Write as _};
use std::sync::atomic::{AtomicUsize, Ordering};

use crate::audit::Ended;
use crate::text::{counted, visible};

/// How far the audit has come: a bar on a terminal, else a line a library.
pub(super) struct Progress {
    bar: Option<indicatif::ProgressBar>,
    lines: bool,
    many: usize,
    done: AtomicUsize,
}

impl Progress {
    pub(super) fn of(quiet: bool, many: usize) -> Progress {
        let is_terminal = io::stderr().is_terminal();
        let length = u64::try_from(many).unwrap_or(u64::MAX);
        let bar = (is_terminal && !quiet).then(|| indicatif::ProgressBar::new(length));
        Progress {
            bar,
            lines: !is_terminal && !quiet,
            many,
            done: AtomicUsize::new(0),
        }
    }

    /// One more library is written; `also` is told above the bar.
    pub(super) fn step(&self, ended: &Ended, also: impl FnOnce()) {
        let done = self.done.fetch_add(1, Ordering::Relaxed) + 1;
        match &self.bar {
            Some(bar) => {
                bar.suspend(also);
                bar.inc(1);
            }
            None => also(),
        }
        if self.lines {
            let [errors, warnings, ..] = ended.counts.levels;
            let _ = writeln!(
                io::stderr(),
                "{done} of {}: {}: {}, {}, {}, {}",
                self.many,
                visible(&ended.key),
                ended.status.name(),
                counted(ended.counts.assemblies(), "tool"),
                counted(errors, "error"),
                counted(warnings, "warning"),
            );
        }
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        if let Some(bar) = &self.bar {
            bar.finish_and_clear();
        }
    }
}
