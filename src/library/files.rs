//! Which files a library consists of.

use std::fs;
use std::io;
use std::path::Path;

use crate::text::closest;

use super::{Kind, ReadError};

/// One file of a library: the kind of record it holds, its name as shown, its bytes.
pub(super) struct File {
    pub kind: Kind,
    pub name: String,
    pub bytes: Vec<u8>,
}

/// Reads one file.
pub(super) fn one(kind: Kind, path: &Path) -> Result<File, ReadError> {
    let name = path.display().to_string();
    match fs::read(path) {
        Ok(bytes) => Ok(File { kind, name, bytes }),
        Err(why) => Err(ReadError::of(name, format!("cannot be read: {why}"))),
    }
}

/// Reads the tables of a folder; each that cannot be read is an error of its kind.
pub(super) fn folder(path: &Path) -> Vec<(Kind, Result<File, ReadError>)> {
    if !path.join(Kind::Assembly.table()).is_file() {
        let reason = "holds no assemblies.csv, so it is not a library; name the folder of one library, or a file";
        let error = ReadError::of(path.display().to_string(), reason);
        return vec![(Kind::Assembly, Err(error))];
    }
    Kind::ALL
        .into_iter()
        .map(|kind| (kind, path.join(kind.table())))
        .filter(|(_, path)| path.symlink_metadata().is_ok())
        .map(|(kind, path)| (kind, one(kind, &path)))
        .collect()
}

/// Tables whose name is a slip of the hand, each with the name that was meant: they would be
/// left out in silence.
pub(super) fn stray(path: &Path) -> Vec<(String, &'static str)> {
    let Ok(entries) = fs::read_dir(path) else {
        return Vec::new();
    };
    let names = entries
        .filter_map(io::Result::ok)
        .map(|entry| entry.file_name().to_string_lossy().into_owned())
        .filter(|name| name.to_lowercase().ends_with(".csv"))
        .filter(|name| Kind::ALL.iter().all(|kind| kind.table() != name));
    let mut stray: Vec<(String, &'static str)> = names
        .filter_map(|name| {
            let near = closest(&name, Kind::ALL.iter().map(|kind| kind.table()))?;
            Some((name, near))
        })
        .collect();
    stray.sort();
    stray
}
