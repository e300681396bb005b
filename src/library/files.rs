//! Which files a library consists of.

use std::fs;
use std::path::Path;

use crate::input::assets;
use crate::text::{Source, closest, names, no_file, quoted};

use super::{Kind, ReadError};

/// One file of a library: the kind of record it holds, its name as shown, its bytes.
pub(super) struct File {
    pub kind: Kind,
    pub name: String,
    pub bytes: Vec<u8>,
}

/// A document of assets beside the tables of a folder: what it says of a tool is added to its row.
pub const ASSETS: &str = "assets.xml";

/// Reads one file.
pub(super) fn one(kind: Kind, path: &Path) -> Result<File, ReadError> {
    let name = path.display().to_string();
    match fs::read(path) {
        Ok(bytes) => Ok(File { kind, name, bytes }),
        Err(why) => {
            let hint = if why.kind() == std::io::ErrorKind::NotFound {
                "; check the path: a library is a folder with assemblies.csv, a CSV file, a workbook or an XML document"
            } else {
                ""
            };
            Err(ReadError::of(name, format!("cannot be read: {why}{hint}")))
        }
    }
}

/// Endings of files that may be libraries.
const ENDINGS: [&str; 6] = ["csv", "tsv", "txt", "xlsx", "ods", "xml"];

/// Whether other files beside one may be libraries.
pub(super) fn has_neighbours(path: &Path) -> bool {
    let folder = match path.parent() {
        Some(folder) if folder != Path::new("") => folder,
        _ => Path::new("."),
    };
    let own = path.file_name().map(|name| name.to_string_lossy());
    let may_be = |name: &String| {
        let ending = name
            .rsplit_once('.')
            .map(|(_, ending)| ending.to_lowercase());
        let is_other = own.as_ref().is_none_or(|own| own != name);
        is_other && ending.is_some_and(|ending| ENDINGS.contains(&ending.as_str()))
    };
    names(folder).iter().any(may_be)
}

/// Reads the tables of a folder; each that cannot be read is an error of its kind.
pub(super) fn folder(path: &Path) -> Vec<(Kind, Result<File, ReadError>)> {
    if !Kind::Assembly.lies_in(path) {
        let near = names(path)
            .into_iter()
            .find(|name| closest(name, [Kind::Assembly.table()]).is_some());
        let hint = match near {
            Some(near) => format!("is `{}` meant for it?", quoted(&near)),
            None => "name the folder of one library, or a file".to_owned(),
        };
        let reason = format!("has no assemblies.csv, so it is not a library; {hint}");
        let error = ReadError::of(path.display().to_string(), reason);
        return vec![(Kind::Assembly, Err(error))];
    }
    let tables = Kind::ALL.into_iter().flat_map(|kind| tables(kind, path));
    let beside = path.join(ASSETS);
    let beside = beside.symlink_metadata().is_ok().then(|| {
        let file = match no_file(&beside) {
            None => one(Kind::Assembly, &beside),
            Some(reason) => Err(ReadError::of(beside.display().to_string(), reason)),
        };
        (Kind::Assembly, file)
    });
    tables.chain(beside).collect()
}

/// The tables of a folder for a document of assets that lies elsewhere; an error where there are
/// none.
pub(super) fn beside(path: &Path) -> Vec<(Kind, Result<File, ReadError>)> {
    let all = Kind::ALL.into_iter().flat_map(|kind| tables(kind, path));
    let all: Vec<_> = all.collect();
    if !all.is_empty() {
        return all;
    }
    let reason = if path.is_dir() {
        "has no table of a library; expected collets.csv, holders.csv or assemblies.csv in it"
    } else {
        "is not a folder; name the one with collets.csv, holders.csv and assemblies.csv"
    };
    let error = ReadError::of(path.display().to_string(), reason);
    vec![(Kind::Collet, Err(error))]
}

/// A file that is a document of assets.
pub(super) fn of_assets(file: File) -> Result<File, ReadError> {
    let source = Source::from_bytes(file.name.clone(), file.bytes.clone());
    let source = source.map_err(|why| ReadError::of(file.name.clone(), why.to_string()))?;
    if assets::is_one(source.text()) {
        return Ok(file);
    }
    let reason =
        "is not a document of MTConnect assets; only to one are tables of another folder added";
    Err(ReadError::of(file.name, reason))
}

/// The table of a kind. Of several files for it the first is read, and each other is an error: one
/// of them is out of date.
fn tables(kind: Kind, folder: &Path) -> Vec<(Kind, Result<File, ReadError>)> {
    let names = kind.tables().into_iter();
    let there = names.filter(|name| folder.join(name).symlink_metadata().is_ok());
    let mut read = None;
    there
        .map(|name| {
            let path = folder.join(name);
            let shown = path.display().to_string();
            let file = match (read, no_file(&path)) {
                (Some(first), _) => Err(ReadError::of(
                    shown,
                    format!("is not read, as `{first}` lies beside it and is the same table; keep one of them"),
                )),
                (None, Some(reason)) => Err(ReadError::of(shown, reason)),
                (None, None) => one(kind, &path),
            };
            read = read.or(Some(name));
            (kind, file)
        })
        .collect()
}
