//! `shankwise completions`: what a shell completes a command line with.

use clap::CommandFactory as _;

use super::args::{Cli, CompletionsArgs};
use super::output::{look_of, write};

/// Prints the script of a shell.
pub(super) fn run(arguments: &CompletionsArgs) -> u8 {
    let mut script = Vec::new();
    let mut cli = Cli::command();
    clap_complete::generate(arguments.shell, &mut cli, "shankwise", &mut script);
    let look = look_of(arguments.colour.color, None);
    write(&String::from_utf8_lossy(&script), look)
}
