//! Whether standard output was closed when the program began.
//!
//! Before `main`, Rust opens `/dev/null` in the place of a closed standard output, so that no file
//! opened later gets its number. From then on all that is written succeeds, and nothing tells it
//! from a caller's own `/dev/null`. Only what runs before sees it: the loader calls the functions
//! in `.init_array` first.

use std::sync::atomic::{AtomicBool, Ordering};

static CLOSED: AtomicBool = AtomicBool::new(false);

/// Whether it was closed; elsewhere than on Linux that is not known.
pub(super) fn at_start() -> bool {
    CLOSED.load(Ordering::Relaxed)
}

#[cfg(target_os = "linux")]
mod early {
    use std::io;
    use std::os::fd::AsFd as _;
    use std::sync::atomic::Ordering;

    /// The error of a descriptor that is not open: EBADF.
    const NOT_OPEN: i32 = 9;

    #[expect(
        unsafe_code,
        reason = "a section has to be named; the function in it has the type that the loader calls"
    )]
    #[used]
    #[unsafe(link_section = ".init_array")]
    static LOOK: extern "C" fn() = look;

    extern "C" fn look() {
        // A copy of the descriptor, closed again at once.
        if let Err(why) = io::stdout().as_fd().try_clone_to_owned() {
            super::CLOSED.store(why.raw_os_error() == Some(NOT_OPEN), Ordering::Relaxed);
        }
    }
}
