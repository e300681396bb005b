//! A folder into which one run at a time writes several files, each whole or not at all.

use std::fs::{self, File, TryLockError};
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};

use super::replace::Pending;
use super::signals;
use super::target::Target;

/// A folder that this run alone writes into, until it is dropped.
pub(in super::super) struct Folder {
    path: PathBuf,
    /// Holds the lock; none where a folder cannot be locked.
    _lock: Option<File>,
}

/// A file of the folder that is being written.
pub(in super::super) struct Files(Pending);

impl Folder {
    /// Takes a folder, which is made if it is not there.
    ///
    /// # Errors
    /// If it is none, or another run writes into it.
    pub(in super::super) fn take(path: &Path) -> io::Result<Folder> {
        match fs::metadata(path) {
            Ok(node) if node.is_dir() => {}
            Ok(_) => return Err(ErrorKind::NotADirectory.into()),
            Err(why) if why.kind() == ErrorKind::NotFound => fs::create_dir_all(path)?,
            Err(why) => return Err(why),
        }
        signals::refuse_what_is_too_large();
        Ok(Folder {
            path: path.to_owned(),
            _lock: locked(path)?,
        })
    }

    /// Begins a file of it.
    ///
    /// # Errors
    /// If something else than a file has its name, or it cannot be written.
    pub(in super::super) fn file(&self, name: &str) -> io::Result<Files> {
        match Target::of(&self.path.join(name))? {
            Target::File { path, old } => Pending::begin(path, old).map(Files),
            Target::Stdout | Target::Through { .. } => Err(io::Error::other(
                "expected a file, and found a pipe or a device",
            )),
        }
    }
}

/// The folder itself is locked: nothing is left in it.
fn locked(path: &Path) -> io::Result<Option<File>> {
    let Ok(folder) = File::open(path) else {
        return Ok(None);
    };
    match folder.try_lock() {
        Ok(()) => Ok(Some(folder)),
        Err(TryLockError::WouldBlock) => Err(io::Error::other(
            "another run writes into it; wait until that has ended",
        )),
        // Where folders cannot be locked, runs at once replace each file whole.
        Err(TryLockError::Error(_)) => Ok(None),
    }
}

impl Files {
    /// The file is whole and takes its place.
    pub(in super::super) fn commit(self) -> io::Result<()> {
        self.0.commit()
    }
}

impl Write for Files {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.0.write(bytes)
    }

    fn flush(&mut self) -> io::Result<()> {
        self.0.flush()
    }
}
