//! The command line: one file a command.

mod args;
mod columns;
mod facts;
mod lint;
mod output;
mod rules;

use std::process::ExitCode;

use clap::Parser as _;

use args::{Cli, Command};

/// Exit status: nothing that fails.
const HOLDS: u8 = 0;
/// Exit status: something fails.
const FAILS: u8 = 1;
/// Exit status: could not run, or an input was unreadable.
const COULD_NOT: u8 = 2;

/// Runs the program and returns its exit status.
#[must_use]
pub fn run() -> ExitCode {
    let cli = match Cli::try_parse() {
        Ok(cli) => cli,
        Err(error) => {
            // Help and version are no errors and go to standard output; a closed pipe is none.
            let _ = error.print();
            return ExitCode::from(if error.use_stderr() { COULD_NOT } else { HOLDS });
        }
    };
    let status = match &cli.command {
        Command::Lint(arguments) => lint::run(arguments),
        Command::Facts(arguments) => facts::run(arguments),
        Command::Rules(arguments) => rules::run(arguments),
        Command::Columns(arguments) => columns::run(arguments),
    };
    ExitCode::from(status)
}
