//! Which shop files a library has: the one in its own folder, and those above it.
//!
//! They are looked for upwards as far as the folder of the repository that the library lies in.
//! Where there is no repository, only its own folder and the one above it are looked at: a file
//! that somebody left in a home folder must not judge every library below it.

use std::env;
use std::fs;
use std::path::{Path, PathBuf};

use crate::text::{Unread, closest, names, no_file};

use super::RuleError;

/// Name of the shop's file.
pub const SHOP_FILE: &str = "shankwise.toml";
/// What lies in the root of a repository and nowhere below it.
const ROOTS: [&str; 5] = [".git", ".hg", ".jj", ".bzr", ".svn"];

/// A shop file that is used.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ShopFile {
    /// The file.
    pub path: PathBuf,
    /// Whether it is the library's own; else it is the plant's.
    pub own: bool,
}

impl ShopFile {
    /// The file as it is shown.
    #[must_use]
    pub fn name(&self) -> String {
        self.path.display().to_string()
    }

    /// The folder that its paths begin in.
    pub(super) fn folder(&self) -> &Path {
        self.path.parent().unwrap_or(Path::new(""))
    }
}

/// The shop files that count, the one that counts least first: what the user names, those above
/// the library from the outermost on, its own. A library on standard input, and a question, have
/// the working folder: the empty path.
///
/// # Errors
/// If something under the name of a shop file is no file: its limits and units would be lost.
pub fn shop_files(near: Option<&Path>, config: Option<&Path>) -> Result<Vec<ShopFile>, RuleError> {
    let mut found = Vec::new();
    let folders = near.map_or_else(Vec::new, shop_folders);
    for (path, own) in files_in(&folders) {
        if let Some(reason) = no_file(&path) {
            return Err(RuleError::of_file(path.display().to_string(), reason));
        }
        if path.is_file() {
            found.push(ShopFile { path, own });
        }
    }
    let named = config.map(|config| ShopFile {
        path: config.to_owned(),
        own: false,
    });
    let again = |named: &ShopFile| found.iter().any(|one| is_same(&one.path, &named.path));
    let named = named.filter(|named| !again(named));
    Ok(named.into_iter().chain(found).collect())
}

/// The files that may be shop files, and whether each is the library's own.
fn files_in(folders: &[PathBuf]) -> impl Iterator<Item = (PathBuf, bool)> {
    let last = folders.len().saturating_sub(1);
    let files = folders.iter().enumerate();
    files.map(move |(at, folder)| (folder.join(SHOP_FILE), at == last))
}

/// Whether two paths lead to one place.
fn is_same(a: &Path, b: &Path) -> bool {
    let path = |path: &Path| fs::canonicalize(path).ok();
    path(a).is_some_and(|a| Some(a) == path(b))
}

/// The folders in which shop files are looked for, the outermost first and the library's own last.
#[must_use]
pub fn shop_folders(near: &Path) -> Vec<PathBuf> {
    let own = folder_of(near);
    let here = if own.as_os_str().is_empty() {
        Path::new(".")
    } else {
        own
    };
    let whole = fs::canonicalize(here).unwrap_or_default();
    let chain: Vec<&Path> = whole.ancestors().collect();
    let root = chain.iter().position(|folder| is_root(folder));
    let above = chain.iter().skip(1).take(root.unwrap_or(1));
    let above = above.map(|folder| shown(folder, own.is_absolute()));
    let mut folders: Vec<PathBuf> = above.collect();
    folders.reverse();
    folders.push(own.to_owned());
    folders
}

fn is_root(folder: &Path) -> bool {
    let mut marks = ROOTS.iter();
    marks.any(|mark| folder.join(mark).symlink_metadata().is_ok())
}

/// A folder as the user would name it: from the working folder, unless the library is named
/// otherwise.
fn shown(folder: &Path, absolute: bool) -> PathBuf {
    let here = env::current_dir().and_then(fs::canonicalize);
    let Some(here) = here.ok().filter(|_| !absolute) else {
        return folder.to_owned();
    };
    if let Ok(below) = folder.strip_prefix(&here) {
        return below.to_owned();
    }
    match here.strip_prefix(folder) {
        Ok(rest) => rest.components().map(|_| "..").collect(),
        Err(_) => folder.to_owned(),
    }
}

/// The folder that a library is, or that its file lies in.
fn folder_of(library: &Path) -> &Path {
    if library.is_dir() {
        library
    } else {
        library.parent().unwrap_or(Path::new(""))
    }
}

/// Files whose name is nearly that of a shop file, in any folder where one is looked for.
#[must_use]
pub fn near_shop_files(near: &Path) -> Vec<Unread> {
    let folders = shop_folders(near);
    folders.iter().flat_map(|folder| slips(folder)).collect()
}

/// Files whose name is nearly the shop's file's: another case, and where there is none, another
/// ending or a slip of the hand.
fn slips(folder: &Path) -> Vec<Unread> {
    let names = names(folder);
    let is_there = names.iter().any(|name| name == SHOP_FILE);
    let near = |name: &&String| {
        let lower = name.to_lowercase();
        let slip = || {
            lower.starts_with(SHOP_FILE)
                || (lower.ends_with("ml") && closest(&lower, [SHOP_FILE]).is_some())
        };
        **name != SHOP_FILE && (lower == SHOP_FILE || (!is_there && slip()))
    };
    let found = names.iter().filter(near);
    let found = found.map(|name| {
        let file = folder.join(name).display().to_string();
        Unread::new(
            file,
            "is not the shop's file; did you mean `shankwise.toml`?",
        )
    });
    found.collect()
}
