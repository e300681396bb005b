//! The program: arguments in, exit status out.

use std::process::ExitCode;

fn main() -> ExitCode {
    shankwise::cli::run()
}
