//! `shankwise columns`: what tables may hold.

use std::fmt::Write as _;

use crate::library::{Kind, PROPERTIES, Property, ValueType};
use crate::text::closest;
use crate::write::{Look, columns_json, strict_xsd, to_json_line, xsd};

use super::COULD_NOT;
use super::args::{ColumnsArgs, ListForm, XsdForm};
use super::output::{look_of, write};
use super::refusal::{Refusal, shown};

/// Lists the columns of all tables or of one, or prints a template.
pub(super) fn run(arguments: &ColumnsArgs) -> u8 {
    let look = look_of(arguments.colour.color, None);
    match arguments.xsd {
        Some(XsdForm::Shape) => return write(&xsd(), look),
        Some(XsdForm::Strict) => return write(&strict_xsd(), look),
        None => {}
    }
    let kinds = match &arguments.record {
        None => Kind::ALL.to_vec(),
        Some(name) => match Kind::ALL.into_iter().find(|kind| kind.name() == name) {
            Some(kind) => vec![kind],
            None => {
                let names = Kind::ALL.iter().map(|kind| kind.name());
                let near = closest(name, names.clone());
                let all = format!("there are: {}", names.collect::<Vec<_>>().join(", "));
                let what = format!("there is no record `{}`", shown(name));
                Refusal::no_such(what, near, &all).tell(look);
                return COULD_NOT;
            }
        },
    };
    let text: String = if arguments.template {
        kinds.into_iter().map(template).collect()
    } else if arguments.form == ListForm::Json {
        to_json_line(&columns_json(&kinds))
    } else {
        let listed = kinds.into_iter().map(|kind| list(kind, look));
        listed.collect()
    };
    write(&text, look)
}

fn of(kind: Kind) -> impl Iterator<Item = &'static Property> {
    PROPERTIES
        .iter()
        .filter(move |property| property.kind == kind)
}

/// A header line with units, ready to be filled in.
fn template(kind: Kind) -> String {
    let names: Vec<String> = of(kind)
        .map(|property| match property.value {
            ValueType::Quantity(unit) => format!("{} [{}]", property.name, unit.shown()),
            _ => property.name.to_owned(),
        })
        .collect();
    names.join(",") + "\n"
}

fn list(kind: Kind, look: Look) -> String {
    let (bold, end) = match look {
        Look::Colour => ("\u{1b}[1m", "\u{1b}[0m"),
        Look::Drawn | Look::Plain => ("", ""),
    };
    let mut text = format!("{bold}{}{end} ({})\n", kind.name(), kind.table());
    for property in of(kind) {
        let value = match property.value {
            ValueType::Quantity(unit) => unit.shown().to_owned(),
            ValueType::Count => "whole number".to_owned(),
            ValueType::Size => "number".to_owned(),
            ValueType::Thread => "thread".to_owned(),
            ValueType::Flag => "yes | no".to_owned(),
            ValueType::Text => "text".to_owned(),
            ValueType::Id => "id".to_owned(),
            ValueType::Reference(_) => "id of a part".to_owned(),
            ValueType::Word(words) => {
                let all: Vec<&str> = words.iter().map(|word| word.word).collect();
                all.join(" | ")
            }
        };
        let star = if property.starred { "*" } else { " " };
        let symbols = match property.symbols {
            [] => String::new(),
            symbols => format!(" ({})", symbols.join(", ")),
        };
        // Writing to a String cannot fail.
        let _ = writeln!(
            text,
            " {star} {}{symbols}: {value}\n       {}",
            property.name, property.meaning
        );
    }
    text.push_str(" * needed by the main rules\n\n");
    text
}
