//! From shop files and options to what one library is judged with.

use std::path::{Path, PathBuf};

use crate::library::{Kind, ReadSettings, Setting, SettingSet, Settings, fields_of};
use crate::rulebook::{Basis, Change, Layer, Pack, RuleError, Rulebook, Shop, built_in};
use crate::text::closest;
use crate::units::{Spelling, Unit, split_unit};

use super::names::VocabularyNames;

/// Which rules are asked for, by id or topic.
#[derive(Clone, Debug, Default)]
pub struct Selection {
    /// Only these; all if empty.
    pub only: Vec<String>,
    /// Not these.
    pub except: Vec<String>,
}

impl Selection {
    /// Whether a rule is asked for.
    #[must_use]
    pub fn takes(&self, id: &str) -> bool {
        let matches = |wanted: &String| names(wanted, id);
        (self.only.is_empty() || self.only.iter().any(matches)) && !self.except.iter().any(matches)
    }
}

fn names(wanted: &str, id: &str) -> bool {
    let topic = id.split('/').next();
    wanted == id || topic == Some(wanted.trim_end_matches('/'))
}

/// Why a library cannot be judged at all.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SetupError {
    /// Rule packs or shop files that cannot be used.
    Rules(Vec<RuleError>),
    /// A rule or topic that there is not; what was meant.
    NoSuchRule(String, Option<String>),
}

/// What one library is judged with.
#[derive(Debug)]
pub struct Setup {
    /// The rules.
    pub book: Rulebook,
    /// What the shop says apart from the rules.
    pub shop: Shop,
    /// What the shop changed.
    pub changes: Vec<Change>,
    /// The shop file nearest to the library.
    pub config: Option<String>,
}

impl Setup {
    /// Loads rules and shop files: built in, then `config`, then the library's own.
    pub fn load(
        library: Option<&Path>,
        config: Option<&Path>,
        rules: &[PathBuf],
        with_built_in: bool,
    ) -> Result<Setup, SetupError> {
        let one = |error| SetupError::Rules(vec![error]);
        let mut layers = Vec::new();
        if let Some(config) = config {
            layers.push(Layer::read(config, false).map_err(one)?);
        }
        if let Some(own) = library.and_then(own_file) {
            layers.push(Layer::read(&own, true).map_err(one)?);
        }
        let mut shop = Shop::default();
        for layer in &layers {
            layer.add_to(&mut shop, &is_property).map_err(one)?;
        }
        let mut packs = vec![if with_built_in {
            built_in()
        } else {
            built_in().without_rules()
        }];
        for folder in rules.iter().chain(&shop.rules) {
            packs.push(Pack::read(folder).map_err(one)?);
        }
        let mut book = Rulebook::load(&packs, &VocabularyNames).map_err(SetupError::Rules)?;
        let mut changes = Vec::new();
        for layer in &layers {
            changes.extend(layer.apply(&mut book).map_err(one)?);
        }
        Ok(Setup {
            book,
            shop,
            changes,
            config: layers.last().map(|layer| layer.name().to_owned()),
        })
    }

    /// How the library's files are to be read.
    #[must_use]
    pub fn read_settings(&self) -> ReadSettings {
        let length = self.shop.length.unwrap_or(Spelling::millimetre());
        let metric = length.name != "in";
        let torque = match self.shop.torque {
            None if metric => Spelling::find("N·m", Unit::Nm),
            stated => stated,
        };
        ReadSettings {
            name: self.shop.name.clone(),
            length,
            torque,
            columns: self.shop.columns.clone(),
        }
    }

    /// Refuses a selection that names a rule or topic there is not.
    pub fn check(&self, selection: &Selection) -> Result<(), SetupError> {
        for wanted in selection.only.iter().chain(&selection.except) {
            if self.book.rules.iter().any(|rule| names(wanted, &rule.id)) {
                continue;
            }
            let ids = self.book.rules.iter().map(|rule| rule.id.as_str());
            let topics = ids.clone().filter_map(|id| id.split('/').next());
            let near = closest(wanted, ids.chain(topics));
            return Err(SetupError::NoSuchRule(
                wanted.clone(),
                near.map(str::to_owned),
            ));
        }
        Ok(())
    }
}

/// The shop file beside a library: in its folder, or in the folder of its file.
fn own_file(library: &Path) -> Option<PathBuf> {
    let folder = if library.is_dir() {
        library
    } else {
        library.parent().unwrap_or(Path::new(""))
    };
    let own = folder.join("shankwise.toml");
    own.is_file().then_some(own)
}

/// Whether a `[columns]` entry names a property of any record.
fn is_property(name: &str) -> bool {
    let (bare, _) = split_unit(name);
    Kind::ALL
        .into_iter()
        .any(|kind| !fields_of(bare, kind).is_empty())
}

/// The settings of facts, from the shared limits.
#[must_use]
pub fn settings_of(book: &Rulebook) -> Settings {
    Settings::new(|setting| {
        book.limit(setting.name())
            .map_or(f64::NAN, |limit| limit.value)
    })
}

/// Settings whose limit is from memory: assumed until a shop states its own.
#[must_use]
pub(super) fn assumed_settings(book: &Rulebook) -> SettingSet {
    let from_memory = |setting: &&Setting| {
        let limit = book.limit(setting.name());
        limit.is_some_and(|limit| limit.basis == Basis::FromMemory)
    };
    let all = Setting::ALL.iter().filter(from_memory);
    all.fold(SettingSet::default(), |set, setting| {
        set.union(SettingSet::of(*setting))
    })
}
