//! The values of an entry: what a property was when its finding was accepted.

use crate::library::{Field, Kind, PROPERTIES, Property, ValueType, find_word};
use crate::units::{self, Asked, Decimal, Scalar, Spelling, Unit};

/// The property of an operation, or of the assembly itself, that an entry names.
pub(super) fn property(name: &str) -> Option<&'static Property> {
    let torque = Field::NutTorque.property();
    let of_operation = |property: &&Property| property.kind == Kind::Operation;
    let mut known = PROPERTIES.iter().filter(of_operation).chain([torque]);
    known.find(|property| property.name == name)
}

/// Says what is wrong with a value of an entry, if anything is.
pub(in super::super) fn stated(name: &str, text: &str) -> Result<(), String> {
    let Some(property) = property(name) else {
        return Err(format!(
            "`{name}` is not a property of an operation; `shankwise columns operation` lists them"
        ));
    };
    if text.is_empty() {
        return Ok(());
    }
    read(property, text).map(drop)
}

/// Reads a value that an entry states.
pub(super) fn read<'a>(property: &Property, text: &'a str) -> Result<Scalar<&'a str>, String> {
    let one = Spelling::find(Unit::One.symbol(), Unit::One);
    let number = |unit, default| {
        let read = units::read(text, unit, default, Decimal::Point);
        let read = read.map_err(|problem| match problem {
            // An entry speaks for itself: no default of a library makes it longer or shorter.
            units::Problem::UnitMissing => {
                format!(
                    "expected a number with its unit, such as \"{text} {}\"",
                    unit.symbol()
                )
            }
            problem => problem.explain(unit, Asked::InCell),
        });
        read.map(Scalar::Number)
    };
    match property.value {
        ValueType::Quantity(Unit::One) | ValueType::Count | ValueType::Size => {
            number(Unit::One, one)
        }
        ValueType::Quantity(unit) => number(unit, None),
        ValueType::Word(words) => find_word(words, text).map(Scalar::Word).ok_or_else(|| {
            let all: Vec<&str> = words.iter().map(|word| word.word).collect();
            format!(
                "`{text}` is not a known word; expected one of: {}",
                all.join(", ")
            )
        }),
        ValueType::Flag => match text {
            "yes" => Ok(Scalar::Truth(true)),
            "no" => Ok(Scalar::Truth(false)),
            _ => Err("expected yes or no".to_owned()),
        },
        ValueType::Thread | ValueType::Text | ValueType::Id | ValueType::Reference(_) => {
            Ok(Scalar::Text(text))
        }
    }
}
