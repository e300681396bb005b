//! Rule packs: rule files and limits tables as text, built in or from a folder.

use std::fs;
use std::path::{Path, PathBuf};

use include_dir::{Dir, DirEntry, include_dir};

use super::RuleError;

static BUILT_IN: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/rules");

/// Rule files and limits tables, as text.
#[derive(Clone, Debug, Default)]
pub struct Pack {
    /// Name within the pack (`grip/short-grip.toml`), name as shown, text.
    pub files: Vec<(String, String, String)>,
}

/// The pack that is part of the program.
#[must_use]
pub fn built_in() -> Pack {
    let mut pack = Pack::default();
    collect(&BUILT_IN, &mut pack);
    pack
}

fn collect(dir: &Dir<'_>, pack: &mut Pack) {
    for entry in dir.entries() {
        match entry {
            DirEntry::Dir(dir) => collect(dir, pack),
            DirEntry::File(file) => {
                let name = file.path().to_string_lossy().replace('\\', "/");
                let text = file.contents_utf8().unwrap_or_default().to_owned();
                let shown = format!("(built in) rules/{name}");
                // Other tables are the library's, not the rulebook's.
                if !name.starts_with("tables/") || name == LIMITS {
                    pack.files.push((name, shown, text));
                }
            }
        }
    }
}

/// The table of shared limits, within a pack.
pub(super) const LIMITS: &str = "tables/limits.toml";

impl Pack {
    /// Reads a folder of `<topic>/<rule>.toml` and `tables/limits.toml`.
    pub fn read(folder: &Path) -> Result<Pack, RuleError> {
        let shown = |path: &Path| path.display().to_string();
        let list = |path: &Path| {
            let entries = fs::read_dir(path).and_then(Iterator::collect::<Result<Vec<_>, _>>);
            let mut paths: Vec<_> = entries
                .map_err(|why| RuleError::of_file(shown(path), format!("cannot be read: {why}")))?
                .into_iter()
                .map(|entry| entry.path())
                .collect();
            paths.sort();
            Ok(paths)
        };
        let mut pack = Pack::default();
        // A rule file that lies in no topic is read too, to be refused: left out in silence, it
        // would judge nothing.
        let mut files = Vec::new();
        for path in list(folder)? {
            if path.is_dir() {
                files.extend(list(&path)?);
            } else {
                files.push(path);
            }
        }
        let is_toml = |path: &PathBuf| {
            path.extension()
                .is_some_and(|e| e.eq_ignore_ascii_case("toml"))
        };
        for file in files.into_iter().filter(is_toml) {
            let text = fs::read_to_string(&file).map_err(|why| {
                RuleError::of_file(shown(&file), format!("cannot be read: {why}"))
            })?;
            let name = file.strip_prefix(folder).unwrap_or(&file);
            let name = name.to_string_lossy().replace('\\', "/");
            pack.files.push((name, shown(&file), text));
        }
        if pack.files.is_empty() {
            let message = "holds no rule; expected files such as reach/my-rule.toml";
            return Err(RuleError::of_file(shown(folder), message));
        }
        Ok(pack)
    }

    /// Only the words for faults of form and the limits: what is left when the built-in rules
    /// are not wanted, for reading must never go wrong in silence.
    #[must_use]
    pub fn without_rules(self) -> Pack {
        let is_rule = |text: &str| {
            let keys = toml::from_str::<toml::Table>(text);
            keys.is_ok_and(|keys| keys.contains_key("expect"))
        };
        let files = self.files.into_iter();
        Pack {
            files: files.filter(|(_, _, text)| !is_rule(text)).collect(),
        }
    }
}
