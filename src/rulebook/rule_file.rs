//! Loading rule packs: every name, type and dimension is settled here, or refused at a place.

use toml::Spanned;

use crate::text::{Source, Span};

use super::RuleError;
use super::limit::Limit;
use super::pack::{LIMITS, PAIRS, Pack};
use super::parser::Mistake;
use super::rule::{Certain, Compares, Demand, Milder, Rule, Rulebook, StandsFor};
use super::rule_keys::{CertainFile, LimitsFile, MilderFile, PairsFile, RuleFile};
use super::scope::RuleScope;
use super::template::Template;
use super::toml_text::{self, inside};
use super::type_check::{Checked, Names, Symbol, check, check_truth};
use super::words::{Bound, CuredBy};

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
            let loaded = if *id == PAIRS.trim_end_matches(".toml") {
                pairs(source, names, &book)
            } else {
                vec![rule_of_a_file(id, source, names, &book)]
            };
            for loaded in loaded {
                match loaded {
                    Ok(rule) => book.rules.push(rule),
                    Err(error) => errors.push(error),
                }
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
        let (_, source) = rules
            .iter()
            .find(|(_, source)| source.name() == rule.file)?;
        let message = format!("there is no rule `{beside}` to be shown beside");
        // A comment may name it too: the place is that of the key's value.
        let file: Option<RuleFile> = toml_text::parse(source).ok();
        let value = file.and_then(|file| file.beside);
        let span = value.map_or(Span::default(), |value| {
            toml_text::inside(source, &value, Span::new(0, beside.len()))
        });
        book.rule(beside)
            .is_none()
            .then(|| RuleError::at(source, span, message))
    });
    lost.collect()
}

/// Topic of the rules that the table of pairs holds.
const SUITS: &str = "suits";

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
    let message = format!(
        "`{}` is already defined; choose another name",
        name.get_ref()
    );
    RuleError::at(source, toml_text::span(name), message)
}

/// Whether a key is there and true.
fn says(key: Option<&Spanned<bool>>) -> bool {
    key.is_some_and(|key| *key.get_ref())
}

impl RuleFile {
    /// The first key that says what its answer stands for.
    fn stands_for(&self) -> Option<&Spanned<bool>> {
        let keys = [
            &self.judges_grip,
            &self.judges_reach,
            &self.stops_advice,
            &self.judges_full_grip,
            &self.refuses_question,
        ];
        keys.into_iter().find_map(Option::as_ref)
    }
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

/// A rule's name in words, where it has no better one.
fn plain_name(id: &str) -> String {
    let name = id.rsplit('/').next().unwrap_or(id);
    name.replace('-', " ")
}

fn rule_of_a_file(
    id: &str,
    source: &Source,
    names: &dyn Names,
    book: &Rulebook,
) -> Result<Rule, RuleError> {
    let whole = Span::default();
    if !well_named(id) {
        let message =
            format!("`{id}` is not a rule name; expected topic/rule-name.toml in lower case");
        return Err(RuleError::at(source, whole, message));
    }
    rule(id, whole, toml_text::parse(source)?, source, names, book)
}

/// The rules of the table of pairs, each under its own name in the topic `suits`.
fn pairs(source: &Source, names: &dyn Names, book: &Rulebook) -> Vec<Result<Rule, RuleError>> {
    let file: PairsFile = match toml_text::parse(source) {
        Ok(file) => file,
        Err(error) => return vec![Err(error)],
    };
    let all = file.pair.into_iter().map(|(name, body)| {
        let span = toml_text::span(&name);
        let id = format!("{SUITS}/{}", name.get_ref());
        if !well_named(&id) {
            let message = format!(
                "`{}` is not the name of a pair; expected lower case and hyphens",
                name.get_ref()
            );
            return Err(RuleError::at(source, span, message));
        }
        rule(&id, span, body, source, names, book)
    });
    all.collect()
}

/// A rule from its keys, wherever they stand.
fn rule(
    id: &str,
    at: Span,
    file: RuleFile,
    source: &Source,
    names: &dyn Names,
    book: &Rulebook,
) -> Result<Rule, RuleError> {
    if book.rule(id).is_some() {
        let message = format!(
            "rule `{id}` is already defined; change it in shankwise.toml, or choose another name"
        );
        return Err(RuleError::at(source, at, message));
    }
    let fault = names.fault(id);
    if file.expect.is_none() && fault.is_none() {
        let message = "a rule needs `expect`; only the text for a fault of form has none, and there is no such fault";
        return Err(RuleError::at(source, at, message));
    }
    if let Some(key) = file.stands_for().filter(|_| file.expect.is_none()) {
        let message = "only a rule with `expect` can say so";
        return Err(RuleError::at(source, toml_text::span(key), message));
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
    let certain = file.certain.iter().map(|case| reader.certain(case, book));
    let demands = file.demands.iter().map(|text| reader.demand(text));
    let doubts = file.doubts.iter().map(|name| reader.doubt(name));
    let mut rule = Rule {
        id: id.to_owned(),
        file: source.name().to_owned(),
        title: file.title.into(),
        level: file.level,
        basis: file.basis,
        consequence: file.consequence,
        beside: file.beside.map(Spanned::into_inner),
        bounds: file.bounds.clone(),
        binds: file.binds.unwrap_or_else(|| plain_name(id)),
        when: optional(&file.when).transpose()?,
        expect: optional(&file.expect).transpose()?,
        message: reader.template(&file.message)?,
        why: reader.template(&file.why)?,
        advice: reader.template(&file.advice)?,
        without_moving: reader.optional(file.without_moving.as_ref())?,
        besides: reader.optional(file.besides.as_ref())?,
        where_none: file.where_none.unwrap_or_default(),
        caution: reader.optional(file.caution.as_ref())?,
        unjudged: reader.optional(file.unjudged.as_ref())?,
        milder: milder.collect::<Result<_, RuleError>>()?,
        certain: certain.collect::<Result<_, RuleError>>()?,
        limits: Vec::new(),
        of_operation: false,
        off: false,
        stands_for: StandsFor {
            grip: says(file.judges_grip.as_ref()),
            reach: says(file.judges_reach.as_ref()),
            stop: says(file.stops_advice.as_ref()),
            full_grip: says(file.judges_full_grip.as_ref()),
            nonsense: says(file.refuses_question.as_ref()),
        },
        cured_by: cured_by(file.cured_by, &file.bounds),
        demands: demands.collect::<Result<_, RuleError>>()?,
        doubts: doubts.collect::<Result<_, RuleError>>()?,
    };
    let of_operation = rule.expressions().any(|checked| checked.of_operation);
    rule.of_operation = of_operation;
    rule.limits = limits;
    Ok(rule)
}

/// What corrects a rule; one that bounds the stick-out and says nothing is corrected by that.
fn cured_by(stated: Vec<CuredBy>, bounds: &[Bound]) -> Vec<CuredBy> {
    if stated.is_empty() && !bounds.is_empty() {
        return vec![CuredBy::StickOut];
    }
    stated
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

    fn certain(&self, file: &CertainFile, book: &Rulebook) -> Result<Certain, RuleError> {
        let lost = |name: &&Spanned<String>| book.limit(name.get_ref()).is_none();
        if let Some(name) = file.despite.iter().find(lost) {
            let message = format!("there is no shared limit `{}`", name.get_ref());
            return Err(RuleError::at(self.source, toml_text::span(name), message));
        }
        let despite = file.despite.iter().map(|name| name.get_ref().clone());
        Ok(Certain {
            when: self.condition(&file.when)?,
            despite: despite.collect(),
        })
    }

    /// `chip_flute_length >= reach`: a property of a part, and the number that it must have.
    fn demand(&self, text: &Spanned<String>) -> Result<Demand, RuleError> {
        let wrong = |why: &str| RuleError::at(self.source, toml_text::span(text), why.to_owned());
        let signs = [
            (">=", Compares::AtLeast),
            ("<=", Compares::AtMost),
            ("==", Compares::Equals),
        ];
        let mut split = signs.into_iter().filter_map(|(sign, compares)| {
            let (name, number) = text.get_ref().split_once(sign)?;
            Some((name.trim(), number.trim(), compares))
        });
        let how = "a demand is a property of a part, `>=`, `<=` or `==`, and a number";
        let (name, number, compares) = split.next().ok_or_else(|| wrong(how))?;
        let read = |text: &str| check(text, self.scope).map_err(|(_, why)| wrong(&why));
        // The whole is a condition, so that its dimensions are checked too.
        check_truth(text.get_ref(), self.scope).map_err(|mistake| self.at(text, mistake))?;
        let (property, number) = (read(name)?, read(number)?);
        match property.symbols.as_slice() {
            [(own, Symbol::Outside(id))]
                if own == name && !self.scope.names.buys(*id, compares) =>
            {
                let sign = compares.sign();
                Err(wrong(&format!(
                    "advice has no words for a part with `{name} {sign}`"
                )))
            }
            [(own, Symbol::Outside(id))] if own == name => Ok(Demand {
                property: *id,
                name: name.to_owned(),
                compares,
                number,
            }),
            _ => Err(wrong(how)),
        }
    }

    /// The name of a property that is doubted.
    fn doubt(&self, text: &Spanned<String>) -> Result<String, RuleError> {
        let name = text.get_ref();
        let read = check(name, self.scope).map_err(|mistake| self.at(text, mistake))?;
        match read.symbols.as_slice() {
            [(own, Symbol::Outside(_))] if own == name => Ok(name.clone()),
            _ => Err(RuleError::at(
                self.source,
                toml_text::span(text),
                "only a property can be doubted".to_owned(),
            )),
        }
    }

    fn template(&self, text: &Spanned<String>) -> Result<Template, RuleError> {
        Template::read(text.get_ref(), self.scope).map_err(|mistake| self.at(text, mistake))
    }
}
