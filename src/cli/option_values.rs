//! Values of the options that state a property: their names in the help, what is expected of them,
//! and how the parser takes them.

use std::ffi::OsStr;

use clap::builder::{PossibleValue, TypedValueParser};
use clap::error::{ContextKind, ContextValue, ErrorKind};
use clap::{Arg, Command};

use crate::library::ValueType;
use crate::units::Unit;

/// What a value should look like.
pub(super) fn expected(value: ValueType) -> String {
    match value {
        ValueType::Quantity(Unit::Mm) => {
            "expected a length such as 40, 40mm or '1 1/2 in'".to_owned()
        }
        ValueType::Quantity(unit) => format!("expected a number in {}", unit.shown()),
        ValueType::Count | ValueType::Size => "expected a number".to_owned(),
        ValueType::Flag => "expected yes or no".to_owned(),
        ValueType::Thread => "expected a thread such as M40x1.5".to_owned(),
        ValueType::Word(words) => {
            let all: Vec<&str> = words.iter().map(|word| word.word).collect();
            format!("expected one of: {}", all.join(", "))
        }
        ValueType::Text | ValueType::Id | ValueType::Reference(_) => "expected a text".to_owned(),
    }
}

/// What stands for a value in the help.
pub(super) fn name(value: ValueType) -> &'static str {
    match value {
        ValueType::Quantity(Unit::One) | ValueType::Size => "NUMBER",
        ValueType::Quantity(unit) => unit.shown(),
        ValueType::Count => "COUNT",
        ValueType::Thread => "THREAD",
        ValueType::Flag => "YES/NO",
        ValueType::Word(_) => "WORD",
        ValueType::Id | ValueType::Reference(_) => "ID",
        ValueType::Text => "TEXT",
    }
}

/// Takes a value as it is written: the library reads it, with its unit and its fractions.
#[derive(Clone)]
pub(super) struct Written(pub ValueType);

impl TypedValueParser for Written {
    type Value = String;

    fn parse_ref(
        &self,
        command: &Command,
        argument: Option<&Arg>,
        value: &OsStr,
    ) -> Result<String, clap::Error> {
        let Some(text) = value.to_str() else {
            return Err(clap::Error::new(ErrorKind::InvalidUtf8).with_cmd(command));
        };
        // What follows may be the next option.
        if !text.trim().is_empty() && !text.starts_with("--") {
            return Ok(text.to_owned());
        }
        let mut error = clap::Error::new(ErrorKind::InvalidValue).with_cmd(command);
        if let Some(argument) = argument {
            let name = ContextValue::String(argument.to_string());
            error.insert(ContextKind::InvalidArg, name);
        }
        Err(error)
    }

    fn possible_values(&self) -> Option<Box<dyn Iterator<Item = PossibleValue> + '_>> {
        match self.0 {
            // A shell takes what has a blank in it for two words.
            ValueType::Word(words) => Some(Box::new(
                words
                    .iter()
                    .map(|word| PossibleValue::new(word.word.replace(' ', "-"))),
            )),
            ValueType::Flag => Some(Box::new(["yes", "no"].into_iter().map(PossibleValue::new))),
            _ => None,
        }
    }
}
