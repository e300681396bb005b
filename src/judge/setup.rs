//! From shop files and options to what one library is judged with.

use std::path::{Path, PathBuf};
use std::sync::LazyLock;

use crate::library::standard_sizes::Material;
use crate::library::{
    ClampingKind, ClosedList as _, Constant, CutterMaterial, Defaults, FLAG, Framing, Kind,
    NoRecord, NutStyle, Own, OwnColumn, PROPERTIES, Ranges, ReadSettings, Setting, SettingSet,
    Settings, ValueType, constant, fields_of, find_word, normal,
};
use crate::rulebook::{
    Basis, Change, Layer, Pack, PropertyNames, RuleError, Rulebook, Shop, ShopColumn, ShopDefaults,
    ShopFile, built_in, layers_sha256, near_shop_files, shop_files,
};
use crate::text::{Unread, closest};
use crate::units::{Asked, Spelling, Unit, split_unit};

use super::accepted::stated;
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
    /// Whether every rule is asked for.
    #[must_use]
    pub const fn is_whole(&self) -> bool {
        self.only.is_empty() && self.except.is_empty()
    }

    /// Whether a rule is asked for.
    #[must_use]
    pub fn takes(&self, id: &str) -> bool {
        let asked = |wanted: &String| matches(wanted, id);
        (self.only.is_empty() || self.only.iter().any(asked)) && !self.except.iter().any(asked)
    }
}

fn matches(wanted: &str, id: &str) -> bool {
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

/// What the user names.
#[derive(Clone, Copy, Debug, Default)]
pub struct Named<'a> {
    /// The plant's shop file.
    pub config: Option<&'a Path>,
    /// Where the paths of libraries begin besides in the folder of that file.
    pub roots: &'a [PathBuf],
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
    /// The shop files that were used; the last counts most.
    pub files: Vec<ShopFile>,
    /// Files that were meant for the shop's file or for rules, and are not read.
    pub unread: Vec<Unread>,
    /// Other files in the folders of rules that are not read.
    pub passed_over: Vec<Unread>,
    /// SHA-256 of the rules before the shop changes them; none where they are the built-in ones.
    pub rules_sha256: Option<String>,
    /// SHA-256 of what the shop files say, if there is one.
    pub config_sha256: Option<String>,
}

/// The built-in rules, read once however many libraries are judged; they load, as a test holds.
static BUILT_IN: LazyLock<Option<Rulebook>> =
    LazyLock::new(|| Rulebook::load(&[built_in()], &VocabularyNames).ok());

/// Their SHA-256: it takes a part of a millisecond, which only who asks has to wait for.
static BUILT_IN_SHA256: LazyLock<String> =
    LazyLock::new(|| BUILT_IN.as_ref().map_or_else(String::new, Rulebook::sha256));

impl Setup {
    /// SHA-256 of the rules and shared limits before the shop changes them.
    #[must_use]
    pub fn rules_sha256(&self) -> &str {
        let own = self.rules_sha256.as_deref();
        own.unwrap_or_else(|| &BUILT_IN_SHA256)
    }

    /// Loads rules and shop files: built in, then `config`, then what lies above the library,
    /// then its own. `near` is the library, or the empty path for the working folder; without
    /// it no shop file is looked for.
    pub fn load(
        near: Option<&Path>,
        config: Option<&Path>,
        rules: &[PathBuf],
        with_built_in: bool,
    ) -> Result<Setup, SetupError> {
        let named = Named { config, roots: &[] };
        Setup::load_named(near, named, rules, with_built_in)
    }

    /// The same for one of many libraries.
    ///
    /// # Errors
    /// If a shop file or a rule cannot be used.
    pub fn load_named(
        near: Option<&Path>,
        Named { config, roots }: Named<'_>,
        rules: &[PathBuf],
        with_built_in: bool,
    ) -> Result<Setup, SetupError> {
        let one = |error| SetupError::Rules(vec![error]);
        let files = shop_files(near, config).map_err(one)?;
        let layers = files.iter().cloned().map(Layer::read);
        let layers = layers.collect::<Result<Vec<_>, _>>().map_err(one)?;
        let mut shop = Shop::default();
        let names = PropertyNames {
            known: &known,
            can_be: &can_be,
            measures: &measures,
            is_value: &|name, text| constant(name, text).map(|_| ()),
        };
        for layer in &layers {
            layer.add_to(&mut shop, names).map_err(one)?;
            layer.add_defaults(&mut shop, &word).map_err(one)?;
        }
        let is_library = |path: &Path| !path.is_dir() || Kind::Assembly.lies_in(path);
        shop.keep_accepted(near, roots, &is_library);
        let mut packs = vec![if with_built_in {
            built_in()
        } else {
            built_in().without_rules()
        }];
        for folder in rules.iter().chain(&shop.rules) {
            packs.push(Pack::read(folder).map_err(one)?);
        }
        let alone = BUILT_IN
            .as_ref()
            .filter(|_| with_built_in && packs.len() == 1);
        let mut book = match alone {
            Some(book) => book.clone(),
            None => Rulebook::load(&packs, &VocabularyNames).map_err(SetupError::Rules)?,
        };
        let rules_sha256 = alone.is_none().then(|| book.sha256());
        let mut unread = near.map_or_else(Vec::new, near_shop_files);
        let mut passed_over = Vec::new();
        for pack in packs {
            unread.extend(pack.unread);
            passed_over.extend(pack.passed_over);
        }
        let mut changes = Vec::new();
        for layer in &layers {
            changes.extend(layer.apply(&mut book).map_err(one)?);
        }
        for layer in &layers {
            let terms = &shop.terms;
            layer.check_accepted(&book, terms, &stated).map_err(one)?;
        }
        Ok(Setup {
            book,
            shop,
            changes,
            files,
            unread,
            passed_over,
            rules_sha256,
            config_sha256: layers_sha256(&layers),
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
            sheet: self.shop.sheet.clone(),
            length,
            torque,
            columns: self.shop.columns.iter().map(own_column).collect(),
            framing: framing(&self.shop),
            own: own(&self.shop),
            asked: Asked::default(),
        }
    }

    /// Refuses a selection that names a rule or topic there is not.
    pub fn check(&self, selection: &Selection) -> Result<(), SetupError> {
        for wanted in selection.only.iter().chain(&selection.except) {
            if self.book.rules.iter().any(|rule| matches(wanted, &rule.id)) {
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

fn framing(shop: &Shop) -> Framing {
    let said = shop.recognise;
    let all = [
        (said.title_lines, NoRecord::TitleLines),
        (said.units_line, NoRecord::UnitsLine),
        (said.repeated_headers, NoRecord::RepeatedHeader),
        (said.headings, NoRecord::Heading),
        (said.totals, NoRecord::Total),
    ];
    let off = all.into_iter().filter(|(said, _)| *said == Some(false));
    off.fold(Framing::default(), |framing, (_, line)| {
        framing.without(line)
    })
}

fn own_column(column: &ShopColumn) -> OwnColumn {
    OwnColumn {
        header: column.header.clone(),
        property: column.property.clone(),
        unit: column.unit.clone(),
        values: column.values.clone(),
        ignored: column.ignored,
    }
}

/// What a shop says where the records are silent.
fn own(shop: &Shop) -> Own {
    let materials = shop.materials.iter().map(|material| Material {
        name: material.name.clone(),
        group: material.group.clone(),
        kc11: material.kc11,
        mc: material.mc,
        basis: Basis::Shop.name().to_owned(),
    });
    Own {
        materials: materials.collect(),
        defaults: Defaults {
            constants: constants(shop),
            ..defaults(&shop.defaults)
        },
    }
}

/// What is the same in all rows; that it can be read was seen when the file was.
fn constants(shop: &Shop) -> Vec<Constant> {
    let stated = shop.columns.iter().filter_map(|column| {
        let name = column.property.as_ref().unwrap_or(&column.header);
        constant(name, column.constant.as_ref()?).ok()
    });
    stated.flatten().collect()
}

fn defaults(shop: &ShopDefaults) -> Defaults {
    let bores = shop.bore_length.iter();
    let minimums = shop.clamping_length_min.iter();
    let setbacks = shop.face_setback.iter();
    Defaults {
        constants: Vec::new(),
        clearance: shop.clearance,
        cutter_material: shop.cutter_material.and_then(CutterMaterial::named),
        face_setback: setbacks
            .filter_map(|(style, length)| Some((NutStyle::named(style)?, *length)))
            .collect(),
        bore_length: bores.map(|row| (row.size, row.bore, row.length)).collect(),
        clamping_length_min: minimums
            .filter_map(|row| Some((ClampingKind::named(row.kind)?, row.shank, row.length)))
            .collect(),
    }
}

/// The word of a property that a text spells.
fn word(property: &str, text: &str) -> Result<&'static str, String> {
    let known = PROPERTIES.iter().find(|known| known.name == property);
    let Some(ValueType::Word(list)) = known.map(|known| known.value) else {
        return Err(format!("`{property}` has no list of words"));
    };
    if let Some(word) = find_word(list, text) {
        return Ok(word.word);
    }
    let all: Vec<&str> = list.iter().map(|word| word.word).collect();
    Err(no_word(text, &all))
}

/// The values that a name may have in any record.
fn value_types(name: &str) -> impl Iterator<Item = ValueType> {
    let (bare, _) = split_unit(name);
    let fields = Kind::ALL.into_iter().flat_map(|kind| fields_of(bare, kind));
    fields.map(|field| field.property().value)
}

/// Whether words may stand for a value of a property, or why not. A number is not translated: it
/// would come out as sure whatever the cell says.
fn can_be(name: &str, text: &str) -> Result<(), String> {
    let mut words: Vec<&'static str> = Vec::new();
    for value in value_types(name) {
        let list = match value {
            ValueType::Word(list) => list,
            ValueType::Flag => FLAG,
            ValueType::Quantity(_) | ValueType::Count | ValueType::Size => {
                return Err(format!(
                    "`{name}` is a number, and `values` translates words"
                ));
            }
            _ => return Ok(()),
        };
        if find_word(list, text).is_some() {
            return Ok(());
        }
        for word in list {
            if !words.contains(&word.word) {
                words.push(word.word);
            }
        }
    }
    Err(no_word(text, &words))
}

/// Whether a unit measures a property, or why not.
fn measures(name: &str, unit: &str) -> Result<(), String> {
    let mut why = format!("`{name}` has no unit");
    for value in value_types(name) {
        let ValueType::Quantity(wanted) = value else {
            continue;
        };
        match Spelling::named(unit, wanted) {
            Ok(_) => return Ok(()),
            Err(problem) => why = problem.explain(wanted, Asked::InCell),
        }
    }
    Err(why)
}

fn no_word(text: &str, all: &[&'static str]) -> String {
    match closest(text, all.iter().copied()) {
        Some(near) => format!("`{text}` is not a known word; did you mean `{near}`?"),
        None => format!(
            "`{text}` is not a known word; expected one of: {}",
            all.join(", ")
        ),
    }
}

/// Whether a `[columns]` entry names a property of any record, or why not.
fn known(name: &str) -> Result<(), String> {
    if value_types(name).next().is_some() {
        return Ok(());
    }
    let (bare, _) = split_unit(name);
    let names = PROPERTIES.iter().map(|property| property.name);
    Err(match closest(&normal(bare), names) {
        Some(near) => format!("`{name}` is not a property; did you mean `{near}`?"),
        None => format!("`{name}` is not a property; `shankwise columns` lists them"),
    })
}

/// The settings of facts, from the shared limits.
#[must_use]
pub fn settings_of(book: &Rulebook) -> Settings {
    Settings::new(|setting| {
        book.limit(setting.name())
            .map_or(f64::NAN, |limit| limit.value)
    })
}

/// The ranges that stand for what nobody states, from the shared limits.
#[must_use]
pub(super) fn ranges_of(book: &Rulebook) -> Ranges {
    Ranges::new(|name| book.limit(name).map_or(0.0, |limit| limit.value))
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
