//! The program: arguments in, exit status out.

use std::process::ExitCode;

fn main() -> ExitCode {
    shankwise::cli::run()
}

#[cfg(unix)]
ctor::declarative::ctor! {
    /// Runs before `main`, where nothing of the standard library may be relied on: it makes one
    /// system call and sets one byte. The library could not have it: there `unsafe` is forbidden.
    #[ctor(unsafe)]
    fn ask_of_standard_output() {
        if rustix::io::fcntl_getfd(rustix::stdio::stdout()).is_err() {
            shankwise::cli::standard_output_is_closed();
        }
    }
}
