//! From the options of `shankwise window` to a library of one row.
//!
//! The properties come from the vocabulary, so they are read by hand and not by clap; their
//! values are read as a table's cells are, with the same units, fractions and faults.

use std::ffi::OsString;

use clap::{ArgAction, CommandFactory as _};

use crate::input::Fault;
use crate::library::{
    Field, Input, Kind, Library, PROPERTIES, ReadSettings, ValueType, fields_of, load, normal,
};
use crate::text::{closest, visible};
use crate::units::{Decimal, Spelling, Unit, own_unit};

use super::args::{Cli, LengthUnit};

/// The name under which the question is shown.
const NAME: &str = "the question";
/// The tool number that the row has if none is asked with.
const NUMBER: &str = "1";

/// A property as it is asked with.
#[derive(Debug)]
pub(super) struct Stated {
    /// The option as it was written, without its dashes.
    option: String,
    value: String,
    fields: Vec<Field>,
}

/// The arguments of `window` with its own options first and all properties behind `--`, so
/// that both may be mixed; other commands as they are.
pub(super) fn arranged(arguments: impl Iterator<Item = OsString>) -> Vec<OsString> {
    let mut arguments = arguments.peekable();
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
    let mut properties = Vec::new();
    while let Some(argument) = arguments.next() {
        let text = argument.to_string_lossy().into_owned();
        if text == "--" {
            continue;
        }
        let name = text.strip_prefix("--").unwrap_or("");
        let (name, has_value) = match name.split_once('=') {
            Some((name, _)) => (name, true),
            None => (name, false),
        };
        let option = window
            .get_arguments()
            .find(|option| option.get_long() == Some(name));
        let takes_value = match option {
            Some(option) => matches!(option.get_action(), ArgAction::Set | ArgAction::Append),
            None => text.starts_with("--"),
        };
        let is_option = option.is_some() || text == "-h";
        let list = if is_option { &mut own } else { &mut properties };
        list.push(argument);
        let follows = |next: &OsString| !next.to_string_lossy().starts_with("--");
        if takes_value && !has_value && arguments.peek().is_some_and(follows) {
            list.extend(arguments.next());
        }
    }
    if !properties.is_empty() {
        own.push("--".into());
        own.extend(properties);
    }
    own
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
                "`{shown}` stands behind no option; write it as --overall-length {shown}"
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
            "--{name} states again what --{other} states; state it once"
        ));
    }
    let value = value.filter(|value| !value.trim().is_empty());
    let Some(value) = value else {
        return Err(format!("--{name} has no value; {}", expected(&fields)));
    };
    if value.contains(char::is_control) {
        let value = shown(&value);
        return Err(format!(
            "--{name} `{value}` cannot be read: it holds control characters; {}",
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
fn shown(text: &str) -> String {
    let cut: String = text.chars().take(40).collect();
    let more = if cut.len() < text.len() { "…" } else { "" };
    format!("{}{more}", visible(&cut))
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
    let own = window.into_iter().flat_map(clap::Command::get_arguments);
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
        Some(ValueType::Quantity(unit)) => format!("expected a number in {}", unit.symbol()),
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

/// How the question is read: as the shop's files are, in the units that it is asked in.
pub(super) fn settings(
    shop: &ReadSettings,
    units: Option<LengthUnit>,
    stated: &[Stated],
) -> ReadSettings {
    let inch = Spelling::find("in", Unit::Mm);
    let length = match (units, inch) {
        (Some(LengthUnit::In), Some(inch)) => inch,
        (None, Some(inch)) if all_in_inches(stated) => inch,
        (Some(LengthUnit::Mm), _) => Spelling::millimetre(),
        _ => shop.length,
    };
    // The default for torques belongs to the system of units: an inch question has none.
    let torque = match (length.name, shop.length.name) {
        (now, before) if now == before => shop.torque,
        ("in", _) => None,
        _ => Spelling::find("N·m", Unit::Nm),
    };
    ReadSettings {
        name: None,
        length,
        torque,
        // Options are named by the vocabulary, not by the shop's headers.
        columns: Vec::new(),
    }
}

fn all_in_inches(stated: &[Stated]) -> bool {
    let is_length = |one: &&Stated| {
        let value = one.fields.first().map(|field| field.property().value);
        matches!(value, Some(ValueType::Quantity(Unit::Mm)))
    };
    let mut lengths = stated.iter().filter(is_length).peekable();
    let in_inches = |one: &Stated| {
        let unit = own_unit(&one.value, Unit::Mm, Decimal::Point);
        unit.is_some_and(|unit| unit.name == "in")
    };
    lengths.peek().is_some() && lengths.all(in_inches)
}

/// The library of the one row that the question describes, or what of it cannot be read.
pub(super) fn library(stated: &[Stated], settings: &ReadSettings) -> Result<Library, Vec<String>> {
    let mut cells: Vec<(&str, &str)> = stated
        .iter()
        .map(|one| (one.option.as_str(), one.value.as_str()))
        .collect();
    if !stated.iter().any(|one| one.fields == [Field::ToolNumber]) {
        cells.insert(0, ("tool_number", NUMBER));
    }
    let line = |cells: Vec<&str>| {
        let quoted = cells.iter().map(|cell| cell.replace('"', "\"\""));
        let quoted: Vec<String> = quoted.map(|cell| format!("\"{cell}\"")).collect();
        quoted.join(",")
    };
    let header = line(cells.iter().map(|cell| cell.0).collect());
    let row = line(cells.iter().map(|cell| cell.1).collect());
    // A table of one column has no delimiter to be told by; the header always has two.
    let text = format!("{header},\"\"\n{row},\"\"\n");
    let loaded = load(Input::Bytes(NAME, text.as_bytes()), settings);
    let errors = loaded.errors.iter().map(|error| error.reason.clone());
    let errors: Vec<String> = errors.collect();
    let Some(mut library) = loaded.library.filter(|_| errors.is_empty()) else {
        return Err(errors);
    };
    let wrong: Vec<String> = library
        .faults
        .iter()
        .filter_map(|fault| of_an_option(fault, stated))
        .collect();
    if !wrong.is_empty() {
        return Err(wrong);
    }
    // What a question leaves out is no fault of form: the answer says what it lacks.
    library.faults.clear();
    Ok(library)
}

/// What is wrong with an option's value; `None` if the fault is about what was left out.
fn of_an_option(fault: &Fault, stated: &[Stated]) -> Option<String> {
    let place = fault.places.first().filter(|place| !place.absent)?;
    let arg = |name: &str| {
        let arg = fault.args.iter().find(|(known, _)| *known == name);
        arg.map_or("", |(_, text)| text.as_str())
    };
    let of_field = |one: &&Stated| {
        let mut fields = one.fields.iter();
        fields.any(|field| field.property().name == arg("property") || field.short() == place.field)
    };
    let problem = match arg("problem") {
        "" if arg("expected").is_empty() => "it is no value of this property".to_owned(),
        "" => format!("expected {}", arg("expected")),
        problem => problem
            .replace("leave the cell empty", "leave the option out")
            .replace("two numbers in one cell", "two numbers")
            .replace("this file", "a question")
            .replace("this library", "this question"),
    };
    Some(match stated.iter().find(of_field) {
        Some(one) => format!(
            "--{} `{}` cannot be read: {problem}",
            shown(&one.option),
            shown(&one.value)
        ),
        None => format!("the question cannot be read: {} {problem}", fault.kind),
    })
}
