//! A file is replaced whole or not at all, and no half one is left behind.
//!
//! The text is written beside the file, under a name of its own, and takes the file's name once
//! it is whole. A run holds a lock on its temporary file while it works, so that a temporary
//! file without one is what a killed run has left: the next run into that folder removes it.

use std::fs::{self, File, Metadata, OpenOptions, TryLockError};
use std::io::{self, BufWriter, ErrorKind, Write};
use std::path::{Path, PathBuf};

use tempfile::NamedTempFile;

use super::signals;

/// How names of temporary files begin, by which a later run knows them.
const PREFIX: &str = ".shankwise-";
/// How they end.
const SUFFIX: &str = ".tmp";
/// Letters between the two.
const LETTERS: usize = 6;
/// How often a run makes a new file for one that another run has just swept.
const TRIES: usize = 10;

/// A file that is being written beside the one whose place it will take.
pub(super) struct Pending {
    path: PathBuf,
    old: Option<Metadata>,
    /// There until it has taken its place, or has been dropped.
    file: Option<BufWriter<NamedTempFile>>,
}

impl Pending {
    /// Begins to write what will stand in the place of a file, `old` if there is one, whose mode
    /// is kept.
    pub(super) fn begin(path: PathBuf, old: Option<Metadata>) -> io::Result<Pending> {
        if old.is_some() {
            // A folder lets its user replace a file that he may not write; we do not.
            OpenOptions::new().write(true).open(&path)?;
        }
        let folder = path.parent().unwrap_or(Path::new("."));
        signals::watch();
        let file = temporary(folder, old.is_some())?;
        // The file stands and is locked before others are swept: runs at once see each other.
        sweep(folder, &file);
        let file = Some(BufWriter::new(file));
        Ok(Pending { path, old, file })
    }

    /// The file is whole and takes its place.
    pub(super) fn commit(mut self) -> io::Result<()> {
        let Some(file) = self.file.take() else {
            return Ok(());
        };
        let file = match file.into_inner() {
            Ok(file) => file,
            Err(error) => {
                let (why, file) = error.into_parts();
                self.file = Some(file);
                return Err(why);
            }
        };
        let ready = || {
            if let Some(old) = &self.old {
                keep(&file, old)?;
            }
            file.as_file().sync_all()
        };
        let own = file.path().to_owned();
        match ready() {
            Ok(()) => signals::finish(&own, || {
                let persisted = file.persist(&self.path);
                persisted.map(drop).map_err(|error| error.error)
            }),
            Err(why) => {
                signals::finish(&own, || drop(file));
                Err(why)
            }
        }
    }
}

impl Write for Pending {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        match &mut self.file {
            Some(file) => file.write(bytes),
            None => Err(ErrorKind::NotConnected.into()),
        }
    }

    fn flush(&mut self) -> io::Result<()> {
        self.file.as_mut().map_or(Ok(()), BufWriter::flush)
    }
}

impl Drop for Pending {
    /// What was not finished leaves nothing behind.
    fn drop(&mut self) {
        if let Some(file) = self.file.take() {
            let (file, _) = file.into_parts();
            let own = file.path().to_owned();
            signals::finish(&own, || drop(file));
        }
    }
}

/// A locked temporary file, of which the signals know. One that replaces a file is its user's
/// alone until it takes over the mode; a new one has the permissions of any new file: a report
/// is no private one.
fn temporary(folder: &Path, private: bool) -> io::Result<NamedTempFile> {
    for _ in 0..TRIES {
        let file = signals::begin(|| {
            let mut builder = tempfile::Builder::new();
            builder.prefix(PREFIX).suffix(SUFFIX).rand_bytes(LETTERS);
            permit(&mut builder, private);
            builder.tempfile_in(folder)
        })?;
        match file.as_file().try_lock() {
            Ok(()) if is_there(&file) => return Ok(file),
            // Another run took it for a stale one before it was locked.
            Ok(()) | Err(TryLockError::WouldBlock) => {}
            // Where files cannot be locked nothing is swept either.
            Err(TryLockError::Error(_)) => return Ok(file),
        }
    }
    Err(ErrorKind::ResourceBusy.into())
}

/// Removes what killed runs of this user have left in a folder. What cannot be removed stays:
/// it is no reason not to write.
fn sweep(folder: &Path, own: &NamedTempFile) {
    let (Ok(entries), Ok(this)) = (fs::read_dir(folder), own.as_file().metadata()) else {
        return;
    };
    for entry in entries.flatten() {
        let name = entry.file_name();
        let path = entry.path();
        let known = name.to_str().is_some_and(is_ours) && path != own.path();
        let stale = |node: &Metadata| node.is_file() && same_user(node, &this);
        if !known || !entry.metadata().is_ok_and(|node| stale(&node)) {
            continue;
        }
        let Ok(file) = File::options().read(true).write(true).open(&path) else {
            continue;
        };
        if file.try_lock().is_ok() {
            let _ = fs::remove_file(&path);
        }
    }
}

fn is_ours(name: &str) -> bool {
    let middle = name.strip_prefix(PREFIX);
    let middle = middle.and_then(|rest| rest.strip_suffix(SUFFIX));
    middle.is_some_and(|middle| {
        middle.len() == LETTERS && middle.chars().all(|letter| letter.is_ascii_alphanumeric())
    })
}

#[cfg(unix)]
fn permit(builder: &mut tempfile::Builder<'_, '_>, private: bool) {
    use std::os::unix::fs::PermissionsExt as _;
    let mode = if private { 0o600 } else { 0o666 };
    builder.permissions(fs::Permissions::from_mode(mode));
}

#[cfg(not(unix))]
fn permit(_: &mut tempfile::Builder<'_, '_>, _: bool) {}

/// Whether the file still has its name.
#[cfg(unix)]
fn is_there(file: &NamedTempFile) -> bool {
    use std::os::unix::fs::MetadataExt as _;
    file.as_file().metadata().is_ok_and(|node| node.nlink() > 0)
}

#[cfg(not(unix))]
fn is_there(file: &NamedTempFile) -> bool {
    file.path().exists()
}

/// Whether two files are one user's: what others put there is not ours to open or to remove.
#[cfg(unix)]
fn same_user(a: &Metadata, b: &Metadata) -> bool {
    use std::os::unix::fs::MetadataExt as _;
    a.uid() == b.uid()
}

#[cfg(not(unix))]
fn same_user(_: &Metadata, _: &Metadata) -> bool {
    true
}

/// Gives the file the mode of the one that it replaces, and its owner as far as its user may.
#[cfg(unix)]
fn keep(file: &NamedTempFile, old: &Metadata) -> io::Result<()> {
    use std::os::unix::fs::{MetadataExt as _, PermissionsExt as _, fchown};
    // Only root may give a file away; others may give it to a group of theirs.
    if fchown(file, Some(old.uid()), Some(old.gid())).is_err() {
        let _ = fchown(file, None, Some(old.gid()));
    }
    let mode = old.permissions().mode() & 0o777;
    file.as_file()
        .set_permissions(fs::Permissions::from_mode(mode))
}

#[cfg(not(unix))]
fn keep(file: &NamedTempFile, old: &Metadata) -> io::Result<()> {
    file.as_file().set_permissions(old.permissions())
}
