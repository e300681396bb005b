//! The options of `shankwise window` that state a property: made from the vocabulary, so that a
//! new property is an option, with its help and its completion, without a line here.

use std::env;
use std::ffi::OsString;
use std::sync::LazyLock;

use clap::{Arg, ArgMatches, Args, Command, FromArgMatches};

use crate::library::{Field, Kind, PROPERTIES, Property, fields_of};

use super::option_values;

/// A property as it is asked with.
#[derive(Clone, Debug)]
pub(super) struct Stated {
    /// The option as it was written, without its dashes.
    pub option: String,
    /// Its value, unread.
    pub value: String,
    /// The fields that it stands for; several where records share a property.
    pub fields: Vec<Field>,
}

/// All that is stated, in the order of the command line.
#[derive(Debug)]
pub(super) struct PropertyArgs {
    pub stated: Vec<Stated>,
}

/// What to do with a word that stands behind no option.
pub(super) const OF_NO_OPTION: &str = "put its property in front, such as --overall-length 83; put a value of several words in quotes";

/// The arguments with each value that begins with a minus joined to its option, as in
/// `--face-setback=-1`: behind a blank the parser takes it for an option.
pub(super) fn joined(arguments: impl Iterator<Item = OsString>) -> Vec<OsString> {
    let mut found: Vec<OsString> = Vec::new();
    for argument in arguments {
        let is_negative = argument.to_str().is_some_and(|text| {
            let number = text.strip_prefix('-').unwrap_or("");
            number.starts_with(|c: char| c.is_ascii_digit() || matches!(c, '.' | ','))
        });
        let option = found.last_mut().filter(|last| {
            let name = last.to_str();
            is_negative && name.is_some_and(|name| find(name).is_some())
        });
        match option {
            Some(option) => {
                option.push("=");
                option.push(argument);
            }
            None => found.push(argument),
        }
    }
    found
}

/// An option that states a property.
#[derive(Debug)]
pub(super) struct PropertyOption {
    long: String,
    /// Symbols, which help and completion show too.
    symbols: Vec<String>,
    /// Other spellings.
    aliases: Vec<String>,
    fields: Vec<Field>,
}

static OPTIONS: LazyLock<Vec<PropertyOption>> = LazyLock::new(|| {
    let properties = || {
        PROPERTIES
            .iter()
            .filter(|one| Kind::OF_A_ROW.contains(&one.kind))
    };
    let of_kind = |kind: Kind, name: &str| format!("{}-{}", kind.name(), hyphened(name));
    let mut options = Vec::new();
    for property in properties() {
        add(&mut options, &hyphened(property.name), false);
    }
    for property in properties() {
        add(&mut options, &of_kind(property.kind, property.name), false);
    }
    for property in properties() {
        for symbol in property.symbols {
            add(&mut options, symbol, true);
            add(&mut options, &of_kind(property.kind, symbol), false);
        }
    }
    for kind in Kind::OF_A_ROW {
        add(&mut options, &of_kind(kind, "id"), false);
    }
    add(&mut options, "id", false);
    options
});

/// Adds a name: to the option that states the same, else as an option of its own.
fn add(options: &mut Vec<PropertyOption>, name: &str, is_symbol: bool) {
    let fields = fields_of(name, Kind::Assembly);
    if fields.is_empty() || options.iter().any(|option| option.is_called(name)) {
        return;
    }
    let Some(option) = options.iter_mut().find(|option| option.fields == fields) else {
        let mut option = PropertyOption {
            long: name.to_owned(),
            symbols: Vec::new(),
            aliases: Vec::new(),
            fields,
        };
        option.spell(name);
        options.push(option);
        return;
    };
    if is_symbol {
        option.symbols.push(name.to_owned());
    } else {
        option.aliases.push(name.to_owned());
    }
    option.spell(name);
}

fn hyphened(name: &str) -> String {
    name.replace('_', "-")
}

/// The option of this name, its dashes in front.
pub(super) fn find(name: &str) -> Option<&'static PropertyOption> {
    let name = name.strip_prefix("--")?;
    OPTIONS.iter().find(|option| option.is_called(name))
}

impl PropertyOption {
    fn is_called(&self, name: &str) -> bool {
        let mut names = self.symbols.iter().chain(&self.aliases);
        self.long == name || names.any(|known| known == name)
    }

    /// Other ways to write one of its names: as a column, and a symbol in small letters.
    fn spell(&mut self, name: &str) {
        for other in [name.replace('-', "_"), name.to_lowercase()] {
            if !self.is_called(&other) {
                self.aliases.push(other);
            }
        }
    }

    fn property(&self) -> Option<&'static Property> {
        self.fields.first().map(|field| field.property())
    }

    fn argument(&'static self) -> Arg {
        let property = self.property();
        // Whoever needs a record in front finds it in the long help.
        let is_plain = property.is_some_and(|one| self.long == hyphened(one.name));
        let is_needed = self.fields.iter().any(|field| field.property().starred);
        let argument = Arg::new(self.long.as_str())
            .long(self.long.as_str())
            .visible_aliases(self.symbols.iter().map(String::as_str))
            .aliases(self.aliases.iter().map(String::as_str))
            .hide_short_help(!is_needed || !is_plain)
            .help(self.help());
        let Some(property) = property else {
            return argument;
        };
        argument
            .help_heading(heading(property.kind))
            .value_name(option_values::name(property.value))
            .value_parser(option_values::Written(property.value))
    }

    /// What it means; of which records, where several share it.
    fn help(&self) -> String {
        let meaning = self.property().map_or("", |property| property.meaning);
        let mut letters = meaning.chars();
        let first = letters.next().map(|first| first.to_uppercase().to_string());
        let meaning = first.unwrap_or_default() + letters.as_str();
        let kinds: Vec<&str> = self.fields.iter().map(|one| one.kind().name()).collect();
        match kinds.as_slice() {
            [] | [_] => meaning,
            several => format!("{meaning} (the same for {})", several.join(", ")),
        }
    }

    /// What its value should look like.
    pub(super) fn expected(&self) -> String {
        let value = self.property().map(|property| property.value);
        value.map_or_else(String::new, option_values::expected)
    }
}

const fn heading(kind: Kind) -> &'static str {
    match kind {
        Kind::Cutter => "Cutter",
        Kind::Collet => "Collet",
        Kind::Nut => "Nut",
        Kind::Holder => "Holder",
        Kind::Operation => "Job",
        Kind::Assembly | Kind::Stock => "Tool as set up",
    }
}

impl Args for PropertyArgs {
    fn augment_args(command: Command) -> Command {
        // Other commands need not wait for some hundred options.
        command.defer(|command| command.args(OPTIONS.iter().map(PropertyOption::argument)))
    }

    fn augment_args_for_update(command: Command) -> Command {
        PropertyArgs::augment_args(command)
    }
}

impl FromArgMatches for PropertyArgs {
    fn from_arg_matches(matches: &ArgMatches) -> Result<PropertyArgs, clap::Error> {
        let found = OPTIONS.iter().filter_map(|option| {
            let value = matches.get_one::<String>(&option.long)?;
            let stated = Stated {
                option: option.as_written(),
                value: value.clone(),
                fields: option.fields.clone(),
            };
            Some((matches.index_of(&option.long), stated))
        });
        let mut found: Vec<_> = found.collect();
        found.sort_by_key(|(at, _)| *at);
        let stated = found.into_iter().map(|(_, stated)| stated).collect();
        Ok(PropertyArgs { stated })
    }

    fn update_from_arg_matches(&mut self, matches: &ArgMatches) -> Result<(), clap::Error> {
        *self = PropertyArgs::from_arg_matches(matches)?;
        Ok(())
    }
}

impl PropertyOption {
    /// The name by which it stands on the command line: messages call it so.
    pub(super) fn as_written(&self) -> String {
        let arguments = env::args_os().filter_map(|argument| argument.into_string().ok());
        let mut names = arguments.filter_map(|argument| {
            let name = argument.strip_prefix("--")?;
            let name = name.split('=').next().unwrap_or_default();
            self.is_called(name).then(|| name.to_owned())
        });
        names.next().unwrap_or_else(|| self.long.clone())
    }
}
