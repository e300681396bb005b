//! Rule packs: rule files and limits tables as text, built in or from a folder.

use std::fs;
use std::path::Path;

use include_dir::{Dir, DirEntry, include_dir};

use crate::text::{Unread, names, no_file};

use super::RuleError;

static BUILT_IN: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/rules");

/// Rule files and limits tables, as text.
#[derive(Clone, Debug, Default)]
pub struct Pack {
    /// Name within the pack (`grip/short-grip.toml`), name as shown, text.
    pub files: Vec<(String, String, String)>,
    /// Files that look as if they were rules and are not read.
    pub unread: Vec<Unread>,
    /// Other files that are not read.
    pub passed_over: Vec<Unread>,
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
                if !name.starts_with("tables/") || name == LIMITS || name == PAIRS {
                    pack.files.push((name, shown, text));
                }
            }
        }
    }
}

/// The table of shared limits, within a pack.
pub(super) const LIMITS: &str = "tables/limits.toml";

/// The table of what suits what, within a pack.
pub(super) const PAIRS: &str = "tables/pairs.toml";

/// Whether a file is a copy of a rule that is read: `x.toml~` or `x.toml.bak` beside `x.toml`.
fn is_copy(path: &Path) -> bool {
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    let own = name
        .split_once(".toml")
        .map(|(stem, _)| format!("{stem}.toml"));
    own.is_some_and(|own| path.with_file_name(own).is_file())
}

fn is_toml(path: &Path) -> bool {
    path.extension()
        .is_some_and(|ending| ending.eq_ignore_ascii_case("toml"))
}

impl Pack {
    /// Reads a folder of `<topic>/<rule>.toml`, `tables/limits.toml` and `tables/pairs.toml`.
    pub fn read(folder: &Path) -> Result<Pack, RuleError> {
        let shown = |path: &Path| path.display().to_string();
        let list = |folder: &Path| match fs::read_dir(folder) {
            Ok(_) => {
                let names = names(folder);
                Ok(names
                    .iter()
                    .map(|name| folder.join(name))
                    .collect::<Vec<_>>())
            }
            Err(why) => {
                let reason = format!("cannot be read: {why}");
                Err(RuleError::of_file(shown(folder), reason))
            }
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
        for file in files {
            if !is_toml(&file) || file.is_dir() {
                pack.pass_over(&file);
                continue;
            }
            if let Some(reason) = no_file(&file) {
                return Err(RuleError::of_file(shown(&file), reason));
            }
            let text = fs::read_to_string(&file).map_err(|why| {
                RuleError::of_file(shown(&file), format!("cannot be read: {why}"))
            })?;
            let name = file.strip_prefix(folder).unwrap_or(&file);
            let name = name.to_string_lossy().replace('\\', "/");
            pack.files.push((name, shown(&file), text));
        }
        if pack.files.is_empty() {
            let message = "has no rule; expected files such as reach/my-rule.toml";
            return Err(RuleError::of_file(shown(folder), message));
        }
        Ok(pack)
    }

    /// Notes what is no rule file: one with `.toml` in its name, or a folder with such files in
    /// it, was meant for one.
    fn pass_over(&mut self, path: &Path) {
        let file = path.display().to_string();
        let meant = |path: &Path| {
            let name = path.file_name().unwrap_or_default().to_string_lossy();
            let name = name.to_lowercase();
            [".toml", ".tml"].iter().any(|ending| name.contains(ending))
        };
        if path.is_dir() {
            let holds_rules = names(path).iter().any(|name| meant(Path::new(name)));
            if holds_rules {
                let reason = "is a folder too deep; rules are in topic/rule-name.toml";
                self.unread.push(Unread::new(file, reason));
            } else {
                let reason = "is a folder without rules";
                self.passed_over.push(Unread::new(file, reason));
            }
        } else if meant(path) && !is_copy(path) {
            let reason = "is not a rule by its name; expected topic/rule-name.toml";
            self.unread.push(Unread::new(file, reason));
        } else {
            let reason = "is not a rule; rules end in .toml";
            self.passed_over.push(Unread::new(file, reason));
        }
    }

    /// Only the words for faults of form and the limits: what is left when the built-in rules
    /// are not wanted, for reading must never go wrong in silence.
    #[must_use]
    pub fn without_rules(self) -> Pack {
        let is_rule = |text: &str| {
            let keys = toml::from_str::<toml::Table>(text);
            keys.is_ok_and(|keys| keys.contains_key("expect") || keys.contains_key("pair"))
        };
        let files = self.files.into_iter();
        Pack {
            files: files.filter(|(_, _, text)| !is_rule(text)).collect(),
            ..Pack::default()
        }
    }
}
