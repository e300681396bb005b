//! The shop's file, `shankwise.toml`: units, columns, limits, levels, accepted findings.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Component, Path, PathBuf};
use std::sync::Arc;

use toml::Spanned;

use crate::text::{Place, Source, Sources, Span, closest};
use crate::units::{Spelling, Unit};

use super::RuleError;
use super::accept_entry::Accept;
use super::accept_keys::Stated;
use super::column_keys::{PropertyNames, ShopColumn};
use super::defaults::{FindWord, Reader, ShopDefaults};
use super::limit::{self, Limit};
use super::material::ShopMaterial;
use super::rule::Rulebook;
use super::shop_files::ShopFile;
use super::shop_keys::{File, LENGTHS, RecogniseFile, RuleChange, ShopLevel, TORQUES};
use super::terms::Terms;
use super::toml_text::{self, span};
use super::words::{Basis, Level};

/// One shop file.
#[derive(Debug)]
pub struct Layer {
    source: Arc<Source>,
    from: ShopFile,
    file: File,
}

/// What a shop file changes in the rules.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Change {
    /// What is changed, from what to what, and why.
    pub text: String,
    /// Whether a rule is weakened by it.
    pub weakens: bool,
    /// The file that says so.
    pub by: ShopFile,
}

/// All shop files together: what they say apart from the rules.
#[derive(Debug, Default)]
pub struct Shop {
    /// Name of the library.
    pub name: Option<String>,
    /// The sheet of a workbook that is the library.
    pub sheet: Option<String>,
    /// Unit of lengths without unit.
    pub length: Option<&'static Spelling>,
    /// Unit of torques without unit.
    pub torque: Option<&'static Spelling>,
    /// Headers and the properties they mean.
    pub columns: Vec<ShopColumn>,
    /// What it says of lines that are no records.
    pub recognise: RecogniseFile,
    /// Accepted findings, those of the nearest file first.
    pub accepted: Vec<Accept>,
    /// Findings that are accepted of a library that is not there.
    pub accepted_of_none: Vec<Accept>,
    /// On what terms findings may be accepted.
    pub terms: Terms,
    /// The shop files that accept something, or say something of columns: what their places are in.
    pub sources: Sources,
    /// Folders of further rules.
    pub rules: Vec<PathBuf>,
    /// Workpiece materials of its own; of two with one name the last counts.
    pub materials: Vec<ShopMaterial>,
    /// What it takes for granted where no record states it.
    pub defaults: ShopDefaults,
}

/// Where an entry stands: the file and the byte in it.
pub type Spot = (String, u32);

impl Shop {
    /// Leaves out all that is accepted: a question is none of the libraries that it is accepted of.
    pub fn accept_nothing(&mut self) {
        self.accepted.clear();
        self.accepted_of_none.clear();
    }

    /// Leaves out what is accepted of other libraries than this one, and sets aside what is
    /// accepted of none that there is.
    ///
    /// Its path begins in the folder of the file that names it, else in one of the roots. What is
    /// there and can be no library is none.
    pub fn keep_accepted(
        &mut self,
        of: Option<&Path>,
        roots: &[PathBuf],
        is_library: &dyn Fn(&Path) -> bool,
    ) {
        let own = of.and_then(|of| fs::canonicalize(of).ok());
        for accept in std::mem::take(&mut self.accepted) {
            let named = accept
                .library
                .as_ref()
                .map(|named| named.place(roots, is_library));
            match named {
                None => self.accepted.push(accept),
                Some(None) => self.accepted_of_none.push(accept),
                Some(place) if place == own => self.accepted.push(accept),
                Some(_) => {}
            }
        }
    }

    /// Where the entries stand that are of no library: the file and the byte in it. Every library
    /// below the file sees them.
    #[must_use]
    pub fn spots_of_none(&self) -> Vec<Spot> {
        let all = self.accepted_of_none.iter();
        all.map(|accept| self.spot(accept)).collect()
    }

    /// Keeps of the entries that are of no library those at these places.
    pub fn keep_of_none(&mut self, at: &[Spot]) {
        let all = std::mem::take(&mut self.accepted_of_none).into_iter();
        self.accepted_of_none = all
            .filter(|accept| at.contains(&self.spot(accept)))
            .collect();
    }

    fn spot(&self, accept: &Accept) -> Spot {
        let place = accept.spots.rule;
        (self.sources.name(place).to_owned(), place.span.start)
    }
}

impl Layer {
    /// Reads a shop file.
    pub fn read(from: ShopFile) -> Result<Layer, RuleError> {
        let shown = from.name();
        let bytes = std::fs::read(&from.path)
            .map_err(|why| RuleError::of_file(shown.clone(), format!("cannot be read: {why}")))?;
        let source = Source::from_bytes(shown.clone(), bytes)
            .map_err(|why| RuleError::of_file(shown, why.to_string()))?;
        let file = toml_text::parse(&source)?;
        let source = Arc::new(source);
        Ok(Layer { source, from, file })
    }

    /// All that it says, as parsed: keys in their order, without comments.
    #[must_use]
    pub fn parsed(&self) -> serde_json::Value {
        let keys: Option<BTreeMap<String, toml::Value>> = toml::from_str(self.source.text()).ok();
        serde_json::json!(keys)
    }

    fn error(&self, span: Span, message: impl Into<String>) -> RuleError {
        RuleError::at(&self.source, span, message)
    }

    /// Adds what it says apart from the rules; `names` knows the columns' targets.
    pub fn add_to(&self, shop: &mut Shop, names: PropertyNames<'_>) -> Result<(), RuleError> {
        if let Some(name) = &self.file.name {
            shop.name = Some(name.clone());
        }
        if let Some(sheet) = &self.file.sheet {
            shop.sheet = Some(sheet.clone());
        }
        for folder in &self.file.rules {
            shop.rules.push(self.rules_folder(folder)?);
        }
        let length = &self.file.units.length;
        if let Some(length) = self.unit(length.as_ref(), Unit::Mm, &LENGTHS)? {
            shop.length = Some(length);
        }
        let torque = &self.file.units.torque;
        if let Some(torque) = self.unit(torque.as_ref(), Unit::Nm, &TORQUES)? {
            shop.torque = Some(torque);
        }
        let said = self.file.recognise;
        let known = &mut shop.recognise;
        known.title_lines = said.title_lines.or(known.title_lines);
        known.units_line = said.units_line.or(known.units_line);
        known.repeated_headers = said.repeated_headers.or(known.repeated_headers);
        known.headings = said.headings.or(known.headings);
        known.totals = said.totals.or(known.totals);
        let mut columns = Vec::new();
        let mut id = None;
        for (header, target) in &self.file.columns {
            let column = target.get_ref().of(header.get_ref(), names);
            let column = column.map_err(|message| self.error(span(target), message))?;
            let spot = if self.from.own {
                Some(span(header))
            } else {
                None
            };
            columns.push(ShopColumn {
                spot: spot.map(|span| Place {
                    source: *id.get_or_insert_with(|| shop.sources.share_in(&self.source)),
                    span,
                }),
                ..column
            });
        }
        // The first that fits counts: the nearer file goes before.
        shop.columns.splice(..0, columns);
        self.accepted(shop)?;
        self.materials(shop)
    }

    /// Adds what it accepts, and on what terms.
    fn accepted(&self, shop: &mut Shop) -> Result<(), RuleError> {
        let terms = &self.file.acceptance;
        terms.add_to(&mut shop.terms, &self.source)?;
        if self.file.accept.is_empty() {
            return Ok(());
        }
        let id = shop.sources.share_in(&self.source);
        let accepted = self.file.accept.iter();
        let accepted = accepted.map(|accept| accept.read((&self.source, id), &self.from));
        let accepted = accepted.collect::<Result<Vec<_>, _>>()?;
        shop.accepted.splice(..0, accepted);
        Ok(())
    }

    /// Refuses what it accepts where that names no rule, lacks a last day or states a value that
    /// its property cannot have; `stated` knows the properties.
    ///
    /// # Errors
    /// The first of them, at its place.
    pub fn check_accepted(
        &self,
        book: &Rulebook,
        terms: &Terms,
        stated: &Stated<'_>,
    ) -> Result<(), RuleError> {
        for accept in &self.file.accept {
            if book.rule(accept.rule().get_ref()).is_none() {
                return Err(self.unknown_rule(accept.rule(), book));
            }
            accept.check(&self.source, book, terms, stated)?;
        }
        Ok(())
    }

    /// Adds what it takes for granted; `words` knows the words of properties.
    ///
    /// # Errors
    /// A value that its property cannot have, at its place.
    pub fn add_defaults(&self, shop: &mut Shop, words: &FindWord<'_>) -> Result<(), RuleError> {
        let reader = Reader {
            source: &self.source,
            words,
            inches: shop.length.is_some_and(|length| length.name != "mm"),
        };
        reader.add(&self.file.defaults, &mut shop.defaults)
    }

    /// Adds its materials; what a layer before says of the same name is overruled.
    fn materials(&self, shop: &mut Shop) -> Result<(), RuleError> {
        let mut own: Vec<ShopMaterial> = Vec::new();
        for file in &self.file.material {
            let material = file.read(&self.source)?;
            if own.iter().any(|known| known.name == material.name) {
                let message = format!("material `{}` is already stated", material.name);
                return Err(self.error(span(file.name()), message));
            }
            own.push(material);
        }
        let overruled = |known: &ShopMaterial| own.iter().any(|own| own.name == known.name);
        shop.materials.retain(|known| !overruled(known));
        shop.materials.extend(own);
        Ok(())
    }

    /// A shop file reaches only into its own folder.
    fn rules_folder(&self, folder: &Spanned<String>) -> Result<PathBuf, RuleError> {
        let path = Path::new(folder.get_ref());
        let stays = path
            .components()
            .all(|part| matches!(part, Component::Normal(_) | Component::CurDir));
        if !stays {
            let message =
                "a shop file may name only folders inside its own folder; name others with --rules";
            return Err(self.error(span(folder), message));
        }
        Ok(self.from.folder().join(path))
    }

    fn unit(
        &self,
        written: Option<&Spanned<String>>,
        unit: Unit,
        allowed: &[&str],
    ) -> Result<Option<&'static Spelling>, RuleError> {
        let Some(written) = written else {
            return Ok(None);
        };
        let found = Spelling::find(written.get_ref(), unit);
        match found.filter(|spelling| allowed.contains(&spelling.name)) {
            Some(spelling) => Ok(Some(spelling)),
            None => {
                let message = format!(
                    "`{}` cannot be the unit here; expected {}",
                    written.get_ref(),
                    allowed.join(" or ")
                );
                Err(self.error(span(written), message))
            }
        }
    }

    /// Changes the rules as the file says; returns what was changed.
    pub fn apply(&self, book: &mut Rulebook) -> Result<Vec<Change>, RuleError> {
        let mut changes = Vec::new();
        for (name, value) in &self.file.limit {
            let at = book.limits.iter().position(|l| l.name == *name.get_ref());
            let Some(limit) = at.and_then(|at| book.limits.get_mut(at)) else {
                return Err(self.unknown_limit(name, &book.limits));
            };
            changes.push(self.change_limit(limit, name.get_ref(), value, "")?);
        }
        for (id, change) in &self.file.rule {
            self.change_rule(id, change, book, &mut changes)?;
        }
        Ok(changes)
    }

    fn change_rule(
        &self,
        id: &Spanned<String>,
        change: &RuleChange,
        book: &mut Rulebook,
        changes: &mut Vec<Change>,
    ) -> Result<(), RuleError> {
        let at = book.rules.iter().position(|rule| rule.id == *id.get_ref());
        let Some(rule) = at.and_then(|at| book.rules.get_mut(at)) else {
            return Err(self.unknown_rule(id, book));
        };
        if let Some(level) = &change.level {
            let before = (rule.off, rule.level);
            let (off, level) = match level.get_ref() {
                ShopLevel::Off => (true, rule.level),
                ShopLevel::Error => (false, Level::Error),
                ShopLevel::Warning => (false, Level::Warning),
                ShopLevel::Note => (false, Level::Note),
            };
            (rule.off, rule.level) = (off, level);
            let word = |(off, level): (bool, Level)| if off { "off" } else { level.name() };
            let reason = match change.reason.as_str() {
                "" => "no reason given",
                reason => reason,
            };
            changes.push(Change {
                text: format!(
                    "rule {}: {} instead of {} ({reason})",
                    rule.id,
                    word((off, level)),
                    word(before)
                ),
                weakens: (off && !before.0) || level < before.1,
                by: self.from.clone(),
            });
        }
        for (name, value) in &change.limit {
            let at = rule.limits.iter().position(|l| l.name == *name.get_ref());
            let label = format!("{} of {}", name.get_ref(), rule.id);
            let Some(limit) = at.and_then(|at| rule.limits.get_mut(at)) else {
                return Err(self.unknown_limit(name, &rule.limits));
            };
            changes.push(self.change_limit(limit, &label, value, &change.reason)?);
        }
        Ok(())
    }

    fn change_limit(
        &self,
        limit: &mut Limit,
        label: &str,
        value: &Spanned<toml::Value>,
        reason: &str,
    ) -> Result<Change, RuleError> {
        let (number, written) = limit::number(value, limit.unit, &self.source)?;
        limit.refuse_outside(number, value, &self.source)?;
        let reason = match reason {
            "" => String::new(),
            reason => format!(" ({reason})"),
        };
        let before = limit::with_unit(&limit.written, limit.unit);
        let after = limit::with_unit(&written, limit.unit);
        let change = Change {
            text: format!("limit {label}: {after} instead of {before}{reason}"),
            weakens: limit.is_loosened_by(number),
            by: self.from.clone(),
        };
        limit.value = number;
        limit.written = written;
        limit.basis = Basis::Shop;
        self.source.name().clone_into(&mut limit.source);
        Ok(change)
    }

    fn unknown_limit(&self, name: &Spanned<String>, limits: &[Limit]) -> RuleError {
        let known: Vec<&str> = limits.iter().map(|limit| limit.name.as_str()).collect();
        let name_text = name.get_ref();
        let message = match closest(name_text, known.iter().copied()) {
            Some(near) => format!("there is no limit `{name_text}`; did you mean `{near}`?"),
            None => format!(
                "there is no limit `{name_text}` here; there are: {}",
                known.join(", ")
            ),
        };
        self.error(span(name), message)
    }

    fn unknown_rule(&self, id: &Spanned<String>, book: &Rulebook) -> RuleError {
        let id_text = id.get_ref();
        let known = book.rules.iter().map(|rule| rule.id.as_str());
        let message = match closest(id_text, known) {
            Some(near) => format!("there is no rule `{id_text}`; did you mean `{near}`?"),
            None => format!("there is no rule `{id_text}`; `shankwise rules` lists them"),
        };
        self.error(span(id), message)
    }
}
