//! Whether standard output was open when the program began.
//!
//! Before `main`, Rust opens `/dev/null` in the place of a standard stream that the caller has
//! closed. Afterwards nothing tells it from one that was sent there on purpose, as services do, and
//! a report that nobody gets would count as written. So `main.rs` asks before that.

use std::io::{self, Error, Stdout};
use std::sync::atomic::{AtomicBool, Ordering};

/// Whether it was closed.
static CLOSED: AtomicBool = AtomicBool::new(false);

/// Says that the caller has closed it: whatever is to be written there cannot be.
pub fn standard_output_is_closed() {
    CLOSED.store(true, Ordering::Relaxed);
}

/// Standard output.
///
/// # Errors
/// If the caller has closed it.
pub(super) fn stdout() -> io::Result<Stdout> {
    if CLOSED.load(Ordering::Relaxed) {
        return Err(Error::other("it is closed"));
    }
    Ok(io::stdout())
}
