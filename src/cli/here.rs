//! The library in the current folder, where no path is given.

use std::fs;
use std::path::{Path, PathBuf};

use crate::library::Kind;

use super::refusal::{Refusal, shown};

/// Files that are named where none can be chosen.
const NAMED: usize = 10;

/// The paths that are named; without any, the library in the current folder.
pub(super) fn named(paths: &[PathBuf]) -> Result<Vec<PathBuf>, Refusal> {
    match paths {
        [] => library().map(|path| vec![path]),
        paths => Ok(paths.to_vec()),
    }
}

/// The folder itself if it has a table of assemblies, else the only file in it that may be a library; what
/// was seen where it is neither.
fn library() -> Result<PathBuf, Refusal> {
    let folder = Path::new(".");
    let table = Kind::Assembly.table();
    if Kind::Assembly.lies_in(folder) {
        return Ok(folder.to_owned());
    }
    let files = files(folder)?;
    match files.as_slice() {
        [one] => Ok(PathBuf::from(one)),
        [] => Err(Refusal::new(
            format!(
                "the current folder has neither {table} nor a CSV file, a workbook or an XML document"
            ),
            "name a library",
        )),
        many => {
            let more = match many.len().saturating_sub(NAMED) {
                0 => String::new(),
                more => format!(" and {more} more"),
            };
            let named = many.iter().take(NAMED).map(|name| shown(name));
            let named = named.collect::<Vec<_>>().join(", ");
            Err(Refusal::new(
                format!(
                    "the current folder has no {table}, and {} files that may be a library",
                    many.len()
                ),
                format!("name one: {named}{more}"),
            ))
        }
    }
}

/// CSV files, workbooks and XML documents in the folder, by name; hidden ones are not meant.
fn files(folder: &Path) -> Result<Vec<String>, Refusal> {
    let unread = |why: std::io::Error| {
        Refusal::new(
            format!("the current folder cannot be read: {why}"),
            "name a library",
        )
    };
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).map_err(unread)? {
        let entry = entry.map_err(unread)?;
        // A name that is no text cannot be shown, but named as an argument.
        let Ok(name) = entry.file_name().into_string() else {
            continue;
        };
        let ending = Path::new(&name).extension();
        let is_table = ending.is_some_and(|ending| {
            ["csv", "xml", "xlsx", "ods"]
                .iter()
                .any(|known| ending.eq_ignore_ascii_case(known))
        });
        if is_table && !name.starts_with('.') && entry.path().is_file() {
            found.push(name);
        }
    }
    found.sort();
    Ok(found)
}
