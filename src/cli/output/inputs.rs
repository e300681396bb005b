//! What a run reads: `--out` never goes over any of it.

use std::fs::{self, Metadata};
use std::path::{Path, PathBuf};

use crate::library::Kind;
use crate::rulebook::{Layer, PropertyNames, Shop};

use super::super::args::SetupArgs;
use super::super::setup::HERE;
use super::target::{Target, followed};

/// What a run reads, or would read if it were there.
#[derive(Debug, Default)]
pub(super) struct Inputs {
    files: Vec<PathBuf>,
    rules: Vec<PathBuf>,
    stdin: bool,
}

impl Inputs {
    /// What is read of these libraries with this setup; of none, for a question.
    pub(super) fn of(paths: &[PathBuf], setup: &SetupArgs) -> Inputs {
        let mut inputs = Inputs {
            files: Vec::new(),
            rules: setup.rules.clone(),
            stdin: false,
        };
        if paths.is_empty() {
            inputs.shop_files(Path::new(HERE), setup);
        }
        for path in paths {
            if path == Path::new("-") {
                inputs.stdin = true;
            } else {
                inputs.library(path);
            }
            inputs.shop_files(path, setup);
        }
        let folders: Vec<PathBuf> = inputs.rules.iter().flat_map(|f| within(f)).collect();
        inputs.files.extend(folders);
        inputs
    }

    fn library(&mut self, path: &Path) {
        if path.is_dir() {
            let tables = Kind::ALL.into_iter().flat_map(Kind::tables);
            self.files.extend(tables.map(|table| path.join(table)));
        } else {
            self.files.push(path.to_owned());
        }
    }

    /// The shop files of a library, and the folders of rules that they name; what is wrong with
    /// them is told where they are used.
    fn shop_files(&mut self, library: &Path, setup: &SetupArgs) {
        let mut shop = Shop::default();
        let any = PropertyNames {
            known: &|_| Ok(()),
            can_be: &|_, _| Ok(()),
            measures: &|_, _| Ok(()),
            is_value: &|_, _| Ok(()),
        };
        for file in setup.shop_files(library).unwrap_or_default() {
            // A pipe can be read only once.
            if file.path.is_file()
                && let Ok(layer) = Layer::read(file)
            {
                let _ = layer.add_to(&mut shop, any);
            }
        }
        self.rules.append(&mut shop.rules);
        self.files.extend(setup.shop_places(library));
    }

    /// Why a target must not be written; `None` if nothing that is read stands there.
    pub(super) fn clash(&self, target: &Target) -> Option<String> {
        let (path, node) = match target {
            Target::Stdout => return None,
            Target::File { path, old } => (path, old.as_ref()),
            Target::Through { path, node } => (path, Some(node)),
        };
        let Some(node) = node else {
            return self.would_read(path).then(|| {
                "the next run would read this file as part of the library or of the rules; give --out another name"
                    .to_owned()
            });
        };
        let known = self.files.iter().find(|file| {
            let read = fs::metadata(file);
            read.is_ok_and(|read| is_same(node, &read, path, file))
        });
        let known = known.map(|file| file.display().to_string());
        let stdin = || self.stdin && stdin().is_some_and(|read| is_same(node, &read, path, path));
        let known = known.or_else(|| stdin().then(|| "standard input".to_owned()));
        known.map(|known| {
            format!("this run reads it ({known}), and what is read is never changed; give --out another name")
        })
    }

    /// Whether a file of this name, of which there is none, would be read by the next run.
    fn would_read(&self, path: &Path) -> bool {
        let is_table = |file: &PathBuf| {
            let file = followed(file).ok().flatten();
            // Some file systems take both cases of a letter for one.
            file.is_some_and(|file| file.parent() == path.parent() && same_name(&file, path))
        };
        let is_rule = |folder: &PathBuf| {
            let mut above = path.ancestors().skip(1).take(2);
            let folder = fs::canonicalize(folder);
            is_toml(path) && folder.is_ok_and(|folder| above.any(|above| above == folder))
        };
        self.files.iter().any(is_table) || self.rules.iter().any(is_rule)
    }
}

/// Rule files of a folder, as a rule pack reads them.
fn within(folder: &Path) -> Vec<PathBuf> {
    let list = |path: &Path| {
        let entries = fs::read_dir(path).into_iter().flatten().flatten();
        entries.map(|entry| entry.path()).collect::<Vec<_>>()
    };
    let (folders, mut files): (Vec<_>, Vec<_>) =
        list(folder).into_iter().partition(|path| path.is_dir());
    files.extend(folders.iter().flat_map(|topic| list(topic)));
    files.retain(|file| is_toml(file));
    files
}

fn is_toml(path: &Path) -> bool {
    path.extension()
        .is_some_and(|ending| ending.eq_ignore_ascii_case("toml"))
}

fn same_name(a: &Path, b: &Path) -> bool {
    match (a.file_name(), b.file_name()) {
        (Some(a), Some(b)) => a.eq_ignore_ascii_case(b),
        _ => false,
    }
}

/// Whether two names are of one file. A terminal or another character device may be read and
/// written at once.
#[cfg(unix)]
fn is_same(a: &Metadata, b: &Metadata, _: &Path, _: &Path) -> bool {
    use std::os::unix::fs::{FileTypeExt as _, MetadataExt as _};
    (a.dev(), a.ino()) == (b.dev(), b.ino()) && !a.file_type().is_char_device()
}

#[cfg(not(unix))]
fn is_same(_: &Metadata, _: &Metadata, a: &Path, b: &Path) -> bool {
    let path = |path| fs::canonicalize(path).ok();
    path(a).is_some() && path(a) == path(b)
}

/// What standard input comes from.
#[cfg(unix)]
fn stdin() -> Option<Metadata> {
    use std::os::fd::AsFd as _;
    let own = std::io::stdin().as_fd().try_clone_to_owned().ok()?;
    fs::File::from(own).metadata().ok()
}

#[cfg(not(unix))]
fn stdin() -> Option<Metadata> {
    None
}
