//! The command line: one file a command.

mod accept;
mod accept_args;
mod accepted;
mod args;
mod audit;
mod audit_args;
mod cards;
mod cards_args;
mod columns;
mod comma;
mod completions;
mod convert;
mod convert_args;
mod day;
mod example_socket;
mod facts;
mod here;
mod judged;
mod lint;
mod man;
mod near;
mod option_values;
mod options;
mod output;
mod progress;
mod question;
mod refusal;
mod report;
mod rules;
mod schema;
mod setup;
mod share;
mod shop_entry;
mod start;
mod start_args;
mod unreadable;
mod usage;
mod window;

use std::io::Write as _;
use std::process::ExitCode;

use clap::Parser as _;

use crate::write::Look;

pub use output::standard_output_is_closed;

use args::{Cli, Color, Command};

/// Exit status: nothing that fails.
const NOTHING_FAILS: u8 = 0;
/// Exit status: something fails.
const FAILS: u8 = 1;
/// Exit status: could not run, or an input was unreadable.
const COULD_NOT: u8 = 2;

/// Runs the program and returns its exit status.
#[must_use]
pub fn run() -> ExitCode {
    let cli = match Cli::try_parse_from(options::joined(std::env::args_os())) {
        Ok(cli) => cli,
        Err(error) => {
            return ExitCode::from(told(&error));
        }
    };
    let status = match &cli.command {
        Command::Start(arguments) => on_all_cores(|| start::run(arguments)),
        Command::Lint(arguments) => on_all_cores(|| lint::run(arguments)),
        Command::Audit(arguments) => audit::run(arguments),
        Command::Report(arguments) => report::run(arguments),
        Command::Cards(arguments) => on_all_cores(|| cards::run(arguments)),
        Command::Convert(arguments) => on_all_cores(|| convert::run(arguments)),
        Command::Facts(arguments) => on_all_cores(|| facts::run(arguments)),
        Command::Window(arguments) => on_all_cores(|| window::run(arguments)),
        Command::Accept(arguments) => on_all_cores(|| accept::run(arguments)),
        Command::Accepted(arguments) => on_all_cores(|| accepted::run(arguments)),
        Command::Rules(arguments) => rules::run(arguments),
        Command::Columns(arguments) => columns::run(arguments),
        Command::Schema(arguments) => schema::run(arguments),
        Command::Completions(arguments) => completions::run(arguments),
        Command::Man(arguments) => man::run(arguments),
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

/// Says what clap says, and returns the status. Help and version are no errors: they are output
/// like any other.
fn told(error: &clap::Error) -> u8 {
    let look = output::look_of(Color::Auto, None);
    let help = match look {
        Look::Colour => error.render().ansi().to_string(),
        Look::Drawn | Look::Plain => error.render().to_string(),
    };
    if !error.use_stderr() {
        return output::write(&help, look);
    }
    let arguments = std::env::args_os().map(|one| one.to_string_lossy().into_owned());
    let arguments: Vec<String> = arguments.collect();
    match usage::refusal(error, &arguments) {
        Some(refusal) => refusal.tell(look),
        // Where standard error is closed there is nobody to tell.
        None => drop(std::io::stderr().write_all(help.as_bytes())),
    }
    COULD_NOT
}
