//! What `--out` names: a file that is replaced, or something that is written through.

use std::fs::{self, File, Metadata, OpenOptions};
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

/// Links that one name may lead through, as many as Linux follows.
const LINKS: usize = 40;

/// Names of standard output. Opened by its name, a log that a shell appends to would be written
/// from its start, and a socket could not be opened at all.
const STDOUT: [&str; 3] = ["/dev/stdout", "/dev/fd/1", "/proc/self/fd/1"];

/// Folders whose entries are open descriptors, not files.
const DESCRIPTORS: [&str; 2] = ["/proc", "/dev/fd"];

/// What `--out` names, links followed.
pub(super) enum Target {
    /// Standard output, under a name of its own.
    Stdout,
    /// A regular file, or none yet: replaced whole.
    File {
        /// Its name, in its folder's canonical path; no link.
        path: PathBuf,
        /// What is there now.
        old: Option<Metadata>,
    },
    /// A device, a pipe, a descriptor: written to, and never replaced.
    Through {
        /// As it was named.
        path: PathBuf,
        /// What it is.
        node: Metadata,
    },
}

impl Target {
    /// What a path names.
    pub(super) fn of(path: &Path) -> io::Result<Target> {
        if STDOUT.iter().any(|name| path == Path::new(name)) {
            return Ok(Target::Stdout);
        }
        let old = match fs::metadata(path) {
            Ok(node) if node.is_dir() => return Err(ErrorKind::IsADirectory.into()),
            Ok(node) if !node.is_file() => return Ok(Target::open(path, node)),
            Ok(node) => Some(node),
            // Nothing is there, or a link to nothing, which makes what it names.
            Err(why) if why.kind() == ErrorKind::NotFound => None,
            Err(why) => return Err(why),
        };
        match (followed(path)?, old) {
            (None, Some(node)) => Ok(Target::open(path, node)),
            (None, None) => Err(ErrorKind::NotFound.into()),
            (Some(path), old) => Ok(Target::File { path, old }),
        }
    }

    fn open(path: &Path, node: Metadata) -> Target {
        Target::Through {
            path: path.to_owned(),
            node,
        }
    }

    /// Opens what is written through.
    pub(super) fn through(path: &Path, node: &Metadata) -> io::Result<File> {
        // A file that is known by its descriptor may hold what others wrote before.
        let append = node.is_file();
        OpenOptions::new().write(true).append(append).open(path)
    }
}

/// The name at the end of a path's links, in its folder's canonical path; `None` if it is an
/// open descriptor.
pub(super) fn followed(path: &Path) -> io::Result<Option<PathBuf>> {
    let mut at = path.to_owned();
    for _ in 0..LINKS {
        let name = at.file_name().filter(|name| {
            // `report/` and `report/.` name a folder, which is not what is written here.
            let bytes = at.as_os_str().as_encoded_bytes();
            bytes.ends_with(name.as_encoded_bytes())
        });
        let name = name.ok_or(ErrorKind::IsADirectory)?;
        let folder = match at.parent() {
            Some(folder) if !folder.as_os_str().is_empty() => folder,
            _ => Path::new("."),
        };
        let folder = fs::canonicalize(folder)?;
        if DESCRIPTORS.iter().any(|known| folder.starts_with(known)) {
            return Ok(None);
        }
        let own = folder.join(name);
        match fs::read_link(&own) {
            Ok(next) => at = folder.join(next),
            Err(_) => return Ok(Some(own)),
        }
    }
    Err(io::Error::other("too many links"))
}
