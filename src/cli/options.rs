//! The options of `shankwise window`: its own are clap's, properties come from the vocabulary.

use std::ffi::OsString;

use clap::{ArgAction, Command, CommandFactory as _};

use crate::library::{Field, Kind, PROPERTIES, ValueType, fields_of, normal};
use crate::text::{closest, quoted, visible};
use crate::units::Unit;

use super::args::Cli;

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

/// The arguments of `window` with its own options first and all properties behind `--`, so
/// that both may be mixed; other commands as they are.
pub(super) fn arranged(arguments: impl Iterator<Item = OsString>) -> Vec<OsString> {
    let mut arguments = arguments;
    let mut own: Vec<OsString> = arguments.by_ref().take(2).collect();
    let mut cli = Cli::command();
    cli.build();
    let window = match own.get(1).and_then(|name| name.to_str()) {
        Some("window") => cli.find_subcommand("window"),
        _ => None,
    };
    let Some(window) = window else {
        own.extend(arguments);
        return own;
    };
    let (options, properties) = parted(window, arguments);
    own.extend(options);
    if !properties.is_empty() {
        own.push("--".into());
        own.extend(properties);
    }
    own
}

/// The command's own options, and all else, each with its value.
fn parted(
    window: &Command,
    arguments: impl Iterator<Item = OsString>,
) -> (Vec<OsString>, Vec<OsString>) {
    let mut arguments = arguments.peekable();
    let (mut options, mut properties) = (Vec::new(), Vec::new());
    while let Some(argument) = arguments.next() {
        let text = argument.to_string_lossy().into_owned();
        if text == "--" {
            continue;
        }
        let named = text.strip_prefix("--").unwrap_or("");
        let (name, has_value) = match named.split_once('=') {
            Some((name, _)) => (name, true),
            None => (named, false),
        };
        let mut known = window.get_arguments();
        let option = known.find(|option| option.get_long() == Some(name));
        let takes_value = match option {
            Some(option) => matches!(option.get_action(), ArgAction::Set | ArgAction::Append),
            None => text.starts_with("--"),
        };
        let is_own = option.is_some() || text == "-h";
        let list = if is_own {
            &mut options
        } else {
            &mut properties
        };
        list.push(argument);
        let follows = |next: &OsString| !next.to_string_lossy().starts_with("--");
        if takes_value && !has_value {
            list.extend(arguments.next_if(follows));
        }
    }
    (options, properties)
}

/// The properties that are asked with, or what is wrong with each that cannot be read.
pub(super) fn stated(arguments: &[String]) -> Result<Vec<Stated>, Vec<String>> {
    let mut found: Vec<Stated> = Vec::new();
    let mut wrong = Vec::new();
    let mut arguments = arguments.iter().peekable();
    while let Some(argument) = arguments.next() {
        let Some(option) = argument.strip_prefix("--") else {
            let shown = shown(argument);
            wrong.push(format!(
                "`{shown}` belongs to no option: put its property in front, such as --overall-length 83; put a value of several words in quotes"
            ));
            continue;
        };
        let (option, value) = match option.split_once('=') {
            Some((option, value)) => (option, Some(value.to_owned())),
            None => {
                let value = arguments.next_if(|next| !next.starts_with("--"));
                (option, value.cloned())
            }
        };
        match one(option, value, &found) {
            Ok(one) => found.push(one),
            Err(why) => wrong.push(why),
        }
    }
    if wrong.is_empty() {
        Ok(found)
    } else {
        Err(wrong)
    }
}

fn one(option: &str, value: Option<String>, before: &[Stated]) -> Result<Stated, String> {
    let fields = fields_of(option, Kind::Assembly);
    let name = shown(option);
    if fields.is_empty() {
        return Err(format!("there is no option `--{name}`; {}", hint(option)));
    }
    let same = |other: &&Stated| other.fields == fields;
    if let Some(other) = before.iter().find(same) {
        let other = shown(&other.option);
        if other == name {
            return Err(format!("--{name} is stated twice; state it once"));
        }
        return Err(format!(
            "--{name} and --{other} state the same property; state it once"
        ));
    }
    let value = value.filter(|value| !value.trim().is_empty());
    let Some(value) = value else {
        return Err(format!("--{name} has no value; {}", expected(&fields)));
    };
    if value.contains(char::is_control) {
        let value = shown(&value);
        return Err(format!(
            "--{name} `{value}` cannot be read: it contains control characters; {}",
            expected(&fields)
        ));
    }
    Ok(Stated {
        option: option.to_owned(),
        value,
        fields,
    })
}

/// Text of an option as a message may show it.
pub(super) fn shown(text: &str) -> String {
    visible(&quoted(text)).into_owned()
}

fn hyphened(name: &str) -> String {
    name.replace('_', "-")
}

/// The option that was meant, or where all of them are listed.
fn hint(option: &str) -> String {
    let kinds = [Kind::Assembly, Kind::Operation];
    let of_a_row = PROPERTIES
        .iter()
        .filter(|property| kinds.contains(&property.kind) || Kind::PARTS.contains(&property.kind));
    let cli = Cli::command();
    let window = cli.find_subcommand("window");
    let own = window.into_iter().flat_map(Command::get_arguments);
    let own = own.filter_map(|option| option.get_long().map(normal));
    let names: Vec<String> = of_a_row
        .map(|property| property.name.to_owned())
        .chain(own)
        .collect();
    match closest(&normal(option), names.iter().map(String::as_str)) {
        Some(near) => format!("did you mean `--{}`?", hyphened(near)),
        None => "`shankwise columns` lists all properties, `shankwise help window` the rest".into(),
    }
}

/// What the value of an option should look like.
fn expected(fields: &[Field]) -> String {
    let value = fields.first().map(|field| field.property().value);
    match value {
        Some(ValueType::Quantity(Unit::Mm)) => {
            "expected a length such as 40, 40mm or '1 1/2 in'".to_owned()
        }
        Some(ValueType::Quantity(unit)) => format!("expected a number in {}", unit.shown()),
        Some(ValueType::Count | ValueType::Size) => "expected a number".to_owned(),
        Some(ValueType::Flag) => "expected yes or no".to_owned(),
        Some(ValueType::Thread) => "expected a thread such as M40x1.5".to_owned(),
        Some(ValueType::Word(words)) => {
            let all: Vec<&str> = words.iter().map(|word| word.word).collect();
            format!("expected one of: {}", all.join(", "))
        }
        _ => "expected a text".to_owned(),
    }
}
