//! What lies under a name on disk, where a file is wanted.

use std::fs;
use std::io;
use std::path::Path;

/// Why what lies there cannot be read as a file; none if it is one, or if nothing lies there.
/// A pipe would be waited for without end, so nothing is opened to find out.
#[must_use]
pub fn no_file(path: &Path) -> Option<String> {
    let link = path.symlink_metadata().ok()?;
    let what = match path.metadata() {
        Ok(found) if found.is_file() => return None,
        Ok(found) if found.is_dir() => "is a folder".to_owned(),
        Ok(_) => "is a pipe or a device".to_owned(),
        Err(why) if link.is_symlink() => format!("is a link that leads to no file ({why})"),
        Err(why) => format!("cannot be read: {why}"),
    };
    Some(format!("{what}; expected a file"))
}

/// Names of what lies in a folder, in order; hidden files, and what cannot be listed, left out.
#[must_use]
pub fn names(folder: &Path) -> Vec<String> {
    let here = Path::new(".");
    let folder = if folder.as_os_str().is_empty() {
        here
    } else {
        folder
    };
    let entries = fs::read_dir(folder).into_iter().flatten();
    let mut names: Vec<String> = entries
        .filter_map(io::Result::ok)
        .map(|entry| entry.file_name().to_string_lossy().into_owned())
        .filter(|name| !name.starts_with('.'))
        .collect();
    names.sort();
    names
}
