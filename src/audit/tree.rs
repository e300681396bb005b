//! Which libraries a tree of folders holds, and what else was seen there.
//!
//! A folder with `assemblies.csv`, an XML document of ours, and a flat table or a workbook with
//! enough known columns are libraries. `.shankwiseignore`, in any folder, names what is not looked at, in the
//! syntax of gitignore; hidden files and folders are not looked at either. Links are followed
//! once everything else was seen, and no folder or file is looked at twice.

use std::collections::HashSet;
use std::fs::{self, FileType, Metadata};
use std::path::{Path, PathBuf};

use ignore::gitignore::Gitignore;
use serde::{Deserialize, Serialize};

use crate::library::{Headers, Kind, Recognised, recognise};

/// The file that names what is not looked at.
const IGNORES: &str = ".shankwiseignore";

/// A library that was found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Candidate {
    /// Where it is.
    pub path: PathBuf,
    /// What it is called from run to run: its path from the folder that was named, with `/`.
    pub key: String,
}

/// What is no library, or could not be looked at.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Passed {
    /// As a library at its place would be called.
    pub key: String,
    /// The file or folder as it is shown.
    pub file: String,
    /// Why.
    pub reason: String,
}

/// How much was seen.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Seen {
    /// Files, whatever they are.
    pub files: usize,
    /// Files and folders that are hidden, or named in `.shankwiseignore`.
    pub ignored: usize,
    /// CSV files and XML documents that are no library, and links to what was seen already.
    pub unrecognised: usize,
    /// Files and folders that could not be looked at.
    pub unreadable: usize,
}

/// What a tree holds.
#[derive(Debug, Default)]
pub struct Tree {
    /// The libraries, in the order of their keys.
    pub libraries: Vec<Candidate>,
    /// CSV files and XML documents that are no library.
    pub passed_over: Vec<Passed>,
    /// What could not be looked at.
    pub unreadable: Vec<Passed>,
    /// Keys of what is named in `.shankwiseignore` and might be a library, or hold some.
    pub ignored: Vec<String>,
    /// How much was seen.
    pub seen: Seen,
}

/// What the shop says of the headers and sheets of a folder's libraries.
pub type OfFolder<'c> = dyn Fn(&Path) -> Headers + 'c;

/// Looks for libraries below folders; a root may be a library itself. `skipped` are not looked
/// into.
#[must_use]
pub fn tree(roots: &[PathBuf], skipped: &[PathBuf], headers: &OfFolder<'_>) -> Tree {
    let skipped = skipped
        .iter()
        .filter_map(|path| fs::canonicalize(path).ok());
    let mut walk = Walk {
        headers,
        several: roots.len() > 1,
        root: Path::new(""),
        seen: skipped.collect(),
        links: Vec::new(),
        found: Tree::default(),
    };
    for root in roots {
        walk.root = root;
        walk.of_root(root);
        while let Some((link, ignores)) = walk.links.pop() {
            walk.follow(&link, &ignores);
        }
    }
    let mut found = walk.found;
    found.libraries.sort_by(|a, b| a.key.cmp(&b.key));
    found.passed_over.sort();
    found.unreadable.sort();
    found.ignored.sort();
    found
}

struct Walk<'w> {
    headers: &'w OfFolder<'w>,
    several: bool,
    root: &'w Path,
    /// Folders that were looked into, and files that links led to.
    seen: HashSet<PathBuf>,
    /// Links that were met, with what is ignored where they stand.
    links: Vec<(PathBuf, Vec<Gitignore>)>,
    found: Tree,
}

/// What lies in a folder.
struct Entry {
    path: PathBuf,
    name: String,
    of: FileType,
}

impl Walk<'_> {
    fn of_root(&mut self, root: &Path) {
        match fs::metadata(root) {
            Ok(node) if node.is_dir() => self.folder(root, Vec::new()),
            // Whoever names a file means it: what it is, reading says.
            Ok(_) => self.take(root),
            Err(why) => self.cannot(root, &why.to_string()),
        }
    }

    fn folder(&mut self, folder: &Path, mut ignores: Vec<Gitignore>) {
        if !self.is_first(folder) {
            return;
        }
        let entries = match entries(folder) {
            Ok(entries) => entries,
            Err(why) => return self.cannot(folder, &why.to_string()),
        };
        if entries.iter().any(|entry| entry.name == IGNORES) {
            let (own, error) = Gitignore::new(folder.join(IGNORES));
            if let Some(why) = error {
                self.cannot(&folder.join(IGNORES), &why.to_string());
            }
            ignores.push(own);
        }
        let table = |entry: &Entry| {
            let mut kinds = Kind::ALL.into_iter();
            kinds.any(|kind| kind.tables().contains(&entry.name.as_str()))
        };
        let mut rows = entries.iter();
        let is_library = rows.any(|entry| Kind::Assembly.tables().contains(&entry.name.as_str()));
        if is_library {
            self.take(folder);
        }
        for entry in entries {
            if entry.name.starts_with('.') {
                self.found.seen.ignored += 1;
            } else if is_ignored(&entry, &ignores) {
                self.found.seen.ignored += 1;
                if entry.of.is_dir() || is_table(&entry.path) {
                    let key = self.key(&entry.path);
                    self.found.ignored.push(key);
                }
            } else if entry.of.is_symlink() {
                self.links.push((entry.path, ignores.clone()));
            } else if entry.of.is_dir() {
                self.folder(&entry.path, ignores.clone());
            } else {
                self.found.seen.files += 1;
                if !(is_library && table(&entry)) {
                    self.file(&entry.path);
                }
            }
        }
    }

    /// Looks at a link's end, once all else was seen.
    fn follow(&mut self, link: &Path, ignores: &[Gitignore]) {
        let node: Metadata = match fs::metadata(link) {
            Ok(node) => node,
            Err(why) => return self.cannot(link, &format!("is a link that leads nowhere: {why}")),
        };
        let inside = fs::canonicalize(link).unwrap_or_default();
        let mut known = inside.ancestors().skip(1);
        if self.seen.contains(&inside) || (node.is_file() && known.any(|at| self.seen.contains(at)))
        {
            return self.pass(link, "is a link to what was looked at under its own name");
        }
        if node.is_dir() {
            self.folder(link, ignores.to_vec());
        } else {
            self.seen.insert(inside);
            self.found.seen.files += 1;
            self.file(link);
        }
    }

    /// Whether a folder was not looked into before.
    fn is_first(&mut self, folder: &Path) -> bool {
        fs::canonicalize(folder).is_ok_and(|own| self.seen.insert(own))
    }

    fn file(&mut self, path: &Path) {
        if !is_table(path) {
            return;
        }
        if !path.is_file() {
            return self.pass(path, "is a pipe or a device");
        }
        let folder = path.parent().unwrap_or(Path::new(""));
        match recognise(path, &(self.headers)(folder)) {
            Ok(Recognised::Library(_)) => self.take(path),
            Ok(Recognised::Foreign(reason)) => self.pass(path, &reason),
            Err(why) => self.cannot(path, &why.to_string()),
        }
    }

    fn take(&mut self, path: &Path) {
        let key = self.key(path);
        self.found.libraries.push(Candidate {
            path: shown_path(path).to_owned(),
            key,
        });
    }

    /// What a library at this place is called.
    fn key(&self, path: &Path) -> String {
        let inside = path.strip_prefix(self.root).unwrap_or(path);
        let mut parts: Vec<String> = inside
            .components()
            .map(|part| part.as_os_str().to_string_lossy().into_owned())
            .collect();
        if self.several || parts.is_empty() {
            parts.insert(0, shown(self.root));
        }
        parts.join("/")
    }

    fn pass(&mut self, path: &Path, reason: &str) {
        self.found.seen.unrecognised += 1;
        let passed = self.passed(path, reason.to_owned());
        self.found.passed_over.push(passed);
    }

    fn cannot(&mut self, path: &Path, why: &str) {
        self.found.seen.unreadable += 1;
        let passed = self.passed(path, format!("cannot be looked at: {why}"));
        self.found.unreadable.push(passed);
    }

    fn passed(&self, path: &Path, reason: String) -> Passed {
        Passed {
            key: self.key(path),
            file: shown(path),
            reason,
        }
    }
}

fn is_ignored(entry: &Entry, ignores: &[Gitignore]) -> bool {
    let is_dir = entry.of.is_dir() || (entry.of.is_symlink() && entry.path.is_dir());
    let nearest_first = ignores.iter().rev();
    let mut said = nearest_first.map(|list| list.matched(&entry.path, is_dir));
    said.find(|said| !said.is_none())
        .is_some_and(|said| said.is_ignore())
}

/// Whether a file may be a library by its name.
fn is_table(path: &Path) -> bool {
    let ending = path.extension().unwrap_or_default();
    let mut endings = ["csv", "xml", "xlsx", "ods", "xlsm", "xlsb", "xls"].iter();
    endings.any(|one| ending.eq_ignore_ascii_case(one))
}

/// A path as it is shown: as it was typed, without `./` before it.
#[must_use]
pub fn shown(path: &Path) -> String {
    shown_path(path).display().to_string()
}

fn shown_path(path: &Path) -> &Path {
    let short = path.strip_prefix(".").unwrap_or(path);
    if short.as_os_str().is_empty() {
        path
    } else {
        short
    }
}

/// What lies in a folder, in the order of names: the system's own is any.
fn entries(folder: &Path) -> std::io::Result<Vec<Entry>> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        found.push(Entry {
            name: entry.file_name().to_string_lossy().into_owned(),
            path: entry.path(),
            of: entry.file_type()?,
        });
    }
    found.sort_by(|a, b| a.path.cmp(&b.path));
    Ok(found)
}
