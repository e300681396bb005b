//! The command line: one file a command.

mod args;
mod columns;
mod facts;
mod judged;
mod lint;
mod near;
mod options;
mod output;
mod question;
mod rules;
mod share;
mod window;

use std::io::Write as _;
use std::process::ExitCode;

use clap::Parser as _;

use crate::text::visible;

use args::{Cli, Command};

/// Exit status: nothing that fails.
const NOTHING_FAILS: u8 = 0;
/// Exit status: something fails.
const FAILS: u8 = 1;
/// Exit status: could not run, or an input was unreadable.
const COULD_NOT: u8 = 2;

/// Runs the program and returns its exit status.
#[must_use]
pub fn run() -> ExitCode {
    let cli = match Cli::try_parse_from(options::arranged(std::env::args_os())) {
        Ok(cli) => cli,
        Err(error) => {
            // Help and version are no errors and go to standard output; a closed pipe is none.
            let _ = told(&error);
            return ExitCode::from(if error.use_stderr() {
                COULD_NOT
            } else {
                NOTHING_FAILS
            });
        }
    };
    let status = match &cli.command {
        Command::Lint(arguments) => on_all_cores(|| lint::run(arguments)),
        Command::Facts(arguments) => on_all_cores(|| facts::run(arguments)),
        Command::Window(arguments) => on_all_cores(|| window::run(arguments)),
        Command::Rules(arguments) => rules::run(arguments),
        Command::Columns(arguments) => columns::run(arguments),
    };
    ExitCode::from(status)
}

/// Stack of a worker, bytes: what the main thread has by custom.
const STACK: usize = 8 << 20;

/// Does the work on all cores; on the current thread alone where the machine grants no other, as
/// a container or a login with a limit may.
fn on_all_cores(work: impl FnOnce() -> u8 + Send) -> u8 {
    if let Ok(pool) = rayon::ThreadPoolBuilder::new().stack_size(STACK).build() {
        return pool.install(work);
    }
    // The pool that all parallel work falls back to: only the current thread belongs to it. If it
    // cannot be set, it is there already.
    let alone = rayon::ThreadPoolBuilder::new().num_threads(1);
    let _ = alone.use_current_thread().build_global();
    work()
}

/// Says what clap says; a message that repeats control characters of an argument is made safe.
fn told(error: &clap::Error) -> std::io::Result<()> {
    let text = error.to_string();
    if text.lines().all(|line| visible(line) == line) {
        return error.print();
    }
    for line in text.lines() {
        writeln!(std::io::stderr(), "{}", visible(line))?;
    }
    Ok(())
}
