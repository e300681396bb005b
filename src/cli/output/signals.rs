//! Signals that end the program remove the temporary files first.

use std::io;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, Once, PoisonError};

use tempfile::NamedTempFile;

/// The temporary files that stand now. Whoever makes, renames or removes one holds the lock, so
/// that a signal finds it either there or gone.
static UNFINISHED: Mutex<Vec<PathBuf>> = Mutex::new(Vec::new());

fn unfinished() -> MutexGuard<'static, Vec<PathBuf>> {
    UNFINISHED.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Makes a temporary file, which a signal will remove from now on.
pub(super) fn begin(make: impl FnOnce() -> io::Result<NamedTempFile>) -> io::Result<NamedTempFile> {
    let mut unfinished = unfinished();
    let file = make()?;
    unfinished.push(file.path().to_owned());
    Ok(file)
}

/// Does the last step with a temporary file, after which a signal does not remove it.
pub(super) fn finish<T>(path: &Path, step: impl FnOnce() -> T) -> T {
    let mut unfinished = unfinished();
    let done = step();
    unfinished.retain(|one| one != path);
    done
}

/// Watches for the signals that end the program, from the first call on.
pub(super) fn watch() {
    static WATCHED: Once = Once::new();
    WATCHED.call_once(unix::watch);
}

/// Where a limit on the size of files is met, writing fails as on a full disk: else the signal
/// would end the program in the middle of it.
pub(super) fn refuse_what_is_too_large() {
    static REFUSED: Once = Once::new();
    REFUSED.call_once(unix::refuse_what_is_too_large);
}

#[cfg(unix)]
mod unix {
    use std::ffi::c_int;
    use std::fs;
    use std::sync::Arc;
    use std::sync::atomic::AtomicBool;
    use std::sync::mpsc::{Sender, channel};
    use std::thread::Builder;

    use signal_hook::consts::{SIGHUP, SIGINT, SIGQUIT, SIGTERM, SIGXFSZ};
    use signal_hook::iterator::Signals;
    use signal_hook::low_level::emulate_default_handler;

    /// What a user, a shell or a closed terminal ends a program with.
    const ENDING: [c_int; 4] = [SIGHUP, SIGINT, SIGQUIT, SIGTERM];

    pub(super) fn watch() {
        let (ready, started) = channel();
        let watcher = Builder::new().name("signals".to_owned());
        // A machine that grants no thread leaves the file to the next run.
        if watcher.spawn(move || wait(&ready)).is_ok() {
            let _ = started.recv();
        }
    }

    fn wait(ready: &Sender<()>) {
        let ignored = ignored();
        let ending = ENDING
            .iter()
            .filter(|signal| ignored >> (**signal - 1) & 1 == 0);
        let Ok(mut signals) = Signals::new(ending) else {
            return;
        };
        // Nobody listens only where the program has ended.
        let _ = ready.send(());
        for signal in signals.forever() {
            let unfinished = super::unfinished();
            for path in unfinished.iter() {
                let _ = fs::remove_file(path);
            }
            // The lock is held until the end: nothing is made or renamed any more.
            let _ = emulate_default_handler(signal);
        }
    }

    /// The signals that whoever started the program has it ignore, a bit each from signal 1: so
    /// does `nohup`, and a shell for what it runs in the background.
    fn ignored() -> u64 {
        let status = fs::read_to_string("/proc/self/status").unwrap_or_default();
        let mut lines = status.lines();
        let mask = lines.find_map(|line| line.strip_prefix("SigIgn:"));
        let mask = mask.and_then(|mask| u64::from_str_radix(mask.trim(), 16).ok());
        mask.unwrap_or(0)
    }

    pub(super) fn refuse_what_is_too_large() {
        // With any handler the call that writes fails instead.
        let _ = signal_hook::flag::register(SIGXFSZ, Arc::new(AtomicBool::new(false)));
    }
}

#[cfg(not(unix))]
mod unix {
    pub(super) fn watch() {}

    pub(super) fn refuse_what_is_too_large() {}
}
