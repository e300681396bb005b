//! Loading rule packs: every name, type and dimension is settled here, or refused at a place.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use include_dir::{Dir, DirEntry, include_dir};
use serde::Deserialize;
use toml::Spanned;

use crate::text::{Source, Span, closest};

use super::RuleError;
use super::check::{Checked, Meaning, Names, Scope, Symbol, Type, check_truth};
use super::limit::{Limit, LimitFile};
use super::parser::Mistake;
use super::rule::{Basis, Bound, Consequence, Level, Milder, Rule, Rulebook};
use super::template::Template;
use super::toml_text::{self, inside};

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

const LIMITS: &str = "tables/limits.toml";

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

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct LimitsFile {
    #[serde(default)]
    limit: BTreeMap<Spanned<String>, LimitFile>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct RuleFile {
    title: String,
    level: Level,
    basis: Basis,
    consequence: Consequence,
    beside: Option<Spanned<String>>,
    #[serde(default)]
    bounds: Vec<Bound>,
    when: Option<Spanned<String>>,
    expect: Option<Spanned<String>>,
    message: Spanned<String>,
    why: Spanned<String>,
    advice: Spanned<String>,
    caution: Option<Spanned<String>>,
    unjudged: Option<Spanned<String>>,
    #[serde(default)]
    milder: Vec<MilderFile>,
    #[serde(default)]
    limit: BTreeMap<Spanned<String>, LimitFile>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct MilderFile {
    when: Spanned<String>,
    level: Level,
    message: Option<Spanned<String>>,
    why: Option<Spanned<String>>,
    advice: Option<Spanned<String>>,
}

impl Rulebook {
    /// Loads packs, one after the other.
    ///
    /// # Errors
    /// Everything that is wrong in any file, each at its place.
    pub fn load(packs: &[Pack], names: &dyn Names) -> Result<Rulebook, Vec<RuleError>> {
        let mut errors = Vec::new();
        let mut book = Rulebook {
            rules: Vec::new(),
            limits: Vec::new(),
        };
        let files = packs.iter().flat_map(|pack| &pack.files);
        let mut rules = Vec::new();
        for (name, shown, text) in files {
            let source = match Source::from_bytes(shown.clone(), text.clone().into_bytes()) {
                Ok(source) => source,
                Err(why) => {
                    errors.push(RuleError::of_file(shown.clone(), why.to_string()));
                    continue;
                }
            };
            if name == LIMITS {
                let added = shared_limits(&source, names, &mut book.limits);
                errors.extend(added.err());
            } else {
                rules.push((name.trim_end_matches(".toml"), source));
            }
        }
        book.limits.sort_by(|a, b| a.name.cmp(&b.name));
        for (id, source) in &rules {
            let loaded = rule(id, source, names, &book);
            match loaded {
                Ok(rule) => book.rules.push(rule),
                Err(error) => errors.push(error),
            }
        }
        book.rules.sort_by(|a, b| a.id.cmp(&b.id));
        errors.extend(dangling(&rules, &book));
        if errors.is_empty() {
            Ok(book)
        } else {
            Err(errors)
        }
    }
}

/// Rules that are to be shown beside a rule that there is not.
fn dangling(rules: &[(&str, Source)], book: &Rulebook) -> Vec<RuleError> {
    let lost = book.rules.iter().filter_map(|rule| {
        let beside = rule.beside.as_ref()?;
        let (_, source) = rules.iter().find(|(id, _)| *id == rule.id)?;
        let message = format!("there is no rule `{beside}` to stand beside");
        let at = source.text().find(beside.as_str()).unwrap_or(0);
        let span = Span::new(at, at + beside.len());
        book.rule(beside)
            .is_none()
            .then(|| RuleError::at(source, span, message))
    });
    lost.collect()
}

fn shared_limits(
    source: &Source,
    names: &dyn Names,
    limits: &mut Vec<Limit>,
) -> Result<(), RuleError> {
    let file: LimitsFile = toml_text::parse(source)?;
    for (name, limit) in file.limit {
        if names.find(name.get_ref()).is_some() || limits.iter().any(|l| l.name == *name.get_ref())
        {
            return Err(defined_twice(source, &name));
        }
        limits.push(limit.read(name.get_ref(), source)?);
    }
    Ok(())
}

fn defined_twice(source: &Source, name: &Spanned<String>) -> RuleError {
    let message = format!("`{}` is defined already; find another name", name.get_ref());
    RuleError::at(source, toml_text::span(name), message)
}

/// Topic and name in small letters and hyphens.
fn well_named(id: &str) -> bool {
    let word = |word: &str| {
        !word.is_empty()
            && word
                .bytes()
                .all(|byte| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'-')
    };
    id.split_once('/')
        .is_some_and(|(topic, name)| word(topic) && word(name))
}

fn rule(id: &str, source: &Source, names: &dyn Names, book: &Rulebook) -> Result<Rule, RuleError> {
    let whole = Span::default();
    if !well_named(id) {
        let message =
            format!("`{id}` is no name of a rule; expected topic/rule-name.toml in small letters");
        return Err(RuleError::at(source, whole, message));
    }
    if book.rule(id).is_some() {
        let message = format!(
            "rule `{id}` is defined already; change it in shankwise.toml, or find another name"
        );
        return Err(RuleError::at(source, whole, message));
    }
    let file: RuleFile = toml_text::parse(source)?;
    let fault = names.fault(id);
    if file.expect.is_none() && fault.is_none() {
        let message = "a rule needs `expect`; only the words for a fault of form have none, and there is no such fault";
        return Err(RuleError::at(source, whole, message));
    }
    let mut limits = Vec::new();
    for (name, limit) in file.limit {
        if names.find(name.get_ref()).is_some() || book.limit(name.get_ref()).is_some() {
            return Err(defined_twice(source, &name));
        }
        limits.push(limit.read(name.get_ref(), source)?);
    }
    let scope = RuleScope {
        names,
        private: &limits,
        shared: &book.limits,
        words: fault.filter(|_| file.expect.is_none()),
    };
    let reader = Reader {
        source,
        scope: &scope,
    };
    let optional = |text: &Option<Spanned<String>>| text.as_ref().map(|t| reader.condition(t));
    let milder = file.milder.iter().map(|milder| reader.milder(milder));
    let mut rule = Rule {
        id: id.to_owned(),
        file: source.name().to_owned(),
        title: file.title,
        level: file.level,
        basis: file.basis,
        consequence: file.consequence,
        beside: file.beside.map(Spanned::into_inner),
        bounds: file.bounds,
        when: optional(&file.when).transpose()?,
        expect: optional(&file.expect).transpose()?,
        message: reader.template(&file.message)?,
        why: reader.template(&file.why)?,
        advice: reader.template(&file.advice)?,
        caution: reader.optional(file.caution.as_ref())?,
        unjudged: reader.optional(file.unjudged.as_ref())?,
        milder: milder.collect::<Result<_, RuleError>>()?,
        limits: Vec::new(),
        of_operation: false,
        off: false,
    };
    let of_operation = rule.expressions().any(|checked| checked.of_operation);
    rule.of_operation = of_operation;
    rule.limits = limits;
    Ok(rule)
}

/// Reads the texts of one rule file.
struct Reader<'a> {
    source: &'a Source,
    scope: &'a RuleScope<'a>,
}

impl Reader<'_> {
    fn at(&self, text: &Spanned<String>, (part, message): Mistake) -> RuleError {
        RuleError::at(self.source, inside(self.source, text, part), message)
    }

    fn condition(&self, text: &Spanned<String>) -> Result<Checked, RuleError> {
        check_truth(text.get_ref(), self.scope).map_err(|mistake| self.at(text, mistake))
    }

    fn optional(&self, text: Option<&Spanned<String>>) -> Result<Template, RuleError> {
        text.map_or(Ok(Template::default()), |text| self.template(text))
    }

    fn milder(&self, file: &MilderFile) -> Result<Milder, RuleError> {
        let words = |text: &Option<Spanned<String>>| text.as_ref().map(|t| self.template(t));
        Ok(Milder {
            when: self.condition(&file.when)?,
            level: file.level,
            message: words(&file.message).transpose()?,
            why: words(&file.why).transpose()?,
            advice: words(&file.advice).transpose()?,
        })
    }

    fn template(&self, text: &Spanned<String>) -> Result<Template, RuleError> {
        Template::read(text.get_ref(), self.scope).map_err(|mistake| self.at(text, mistake))
    }
}

/// What the names in a rule mean: facts and properties, its own limits, the shared ones; in
/// the words for a fault of form what the fault brings along.
struct RuleScope<'a> {
    names: &'a dyn Names,
    private: &'a [Limit],
    shared: &'a [Limit],
    words: Option<&'static [&'static str]>,
}

impl Scope for RuleScope<'_> {
    fn meaning(&self, name: &str) -> Result<Meaning, String> {
        if let Some(words) = self.words {
            return fault_word(words, name);
        }
        let limit = |limits: &[Limit]| limits.iter().position(|limit| limit.name == name);
        let of_limit = |symbol, limits: &[Limit], at: usize| Meaning {
            symbol,
            of_type: limits
                .get(at)
                .map_or(Type::Truth, |limit| Type::Number(limit.unit)),
            of_operation: false,
        };
        if let Some(at) = limit(self.private) {
            return Ok(of_limit(Symbol::Private(at), self.private, at));
        }
        if let Some(at) = limit(self.shared) {
            return Ok(of_limit(Symbol::Shared(at), self.shared, at));
        }
        if let Some(outside) = self.names.find(name) {
            return Ok(Meaning {
                symbol: Symbol::Outside(outside.id),
                of_type: outside.of_type,
                of_operation: outside.of_operation,
            });
        }
        if let Some(why) = self.names.ambiguous(name) {
            return Err(why);
        }
        let limits = self.private.iter().chain(self.shared);
        let all = self.names.all();
        let known = limits.map(|limit| limit.name.as_str());
        let known = known.chain(all.iter().map(String::as_str));
        Err(match closest(name, known) {
            Some(near) => format!("unknown name `{name}`; did you mean `{near}`?"),
            None => format!(
                "unknown name `{name}`; `shankwise columns` and `shankwise facts --list` name them all"
            ),
        })
    }
}

fn fault_word(words: &[&'static str], name: &str) -> Result<Meaning, String> {
    match words.iter().position(|word| *word == name) {
        Some(at) => Ok(Meaning {
            symbol: Symbol::Outside(u32::try_from(at).unwrap_or(u32::MAX)),
            of_type: Type::Text,
            of_operation: false,
        }),
        None => Err(format!(
            "this fault does not bring `{name}` along; it brings: {}",
            words.join(", ")
        )),
    }
}
