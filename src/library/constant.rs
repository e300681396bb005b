//! A value that a shop states once for all rows of its list.

use super::cell::{self, Settled};
use super::chunk::Stated;
use super::columns::fields_of;
use super::decimal_marks::{Open, Seen};
use super::stating::Stating;
use super::{Field, Kind, Provenance, ReadSettings, Reckoned, ValueType, View};
use crate::input::Cell;
use crate::text::Place;
use crate::units::{Decimal, Scalar};

/// A field that no row states, and its value in all of them.
#[derive(Clone, Debug, PartialEq)]
pub struct Constant {
    /// The field.
    pub field: Field,
    /// Its value.
    pub value: Scalar<String>,
}

/// The fields of a row that a name stands for, with a value that is the same in all of them. A
/// quantity carries its unit: what a bare number means depends on who reads it.
///
/// # Errors
/// What is wrong with the name or the value.
pub fn constant(name: &str, text: &str) -> Result<Vec<Constant>, String> {
    let fields = fields_of(name, Kind::Assembly);
    if fields.is_empty() {
        return Err(format!("`{name}` is not a property of a row of tools"));
    }
    let all = fields.into_iter().map(|field| {
        let value = value(field, text)?;
        Ok(Constant { field, value })
    });
    all.collect()
}

fn value(field: Field, text: &str) -> Result<Scalar<String>, String> {
    let property = field.property();
    let is_name = field == Field::ToolNumber
        || matches!(
            property.value,
            ValueType::Id | ValueType::Reference(_) | ValueType::Thread
        );
    if is_name {
        return Err(format!(
            "`{}` cannot be the same in all rows",
            property.name
        ));
    }
    let target = Stating {
        fields: vec![field],
        // Only this makes a bare number lack its unit.
        broken_unit: true,
        ..Stating::default()
    };
    let unread = || format!("`{}` has no value here", property.name);
    let settled = Settled::new(&target, &ReadSettings::default(), Decimal::Point);
    let settled = settled.ok_or_else(unread)?;
    let cell = Cell {
        column: 0,
        text: text.trim().into(),
        place: Place::default(),
        unit: None,
    };
    let seen = &mut Seen::default();
    match cell::read(&cell, &settled, (seen, Open::default())) {
        Ok(Stated::Number(number)) => Ok(Scalar::Number(number)),
        Ok(Stated::Word(word, _)) => Ok(Scalar::Word(word)),
        Ok(Stated::Flag(flag)) => Ok(Scalar::Truth(flag)),
        Ok(Stated::Text(text)) => Ok(Scalar::Text(text.into_owned())),
        Ok(Stated::Thread(_)) => Err(unread()),
        Err(fault) => {
            let mut args = fault.args.iter();
            let problem = args.find(|(name, _)| matches!(*name, "problem" | "expected"));
            Err(problem.map_or_else(unread, |(_, problem)| {
                format!("`{text}` cannot be read: {problem}")
            }))
        }
    }
}

impl<'a, P: Provenance> View<'a, P> {
    /// What the shop states for all rows; none where the row has no such part or no operation.
    pub(super) fn constant(&self, field: Field) -> Option<Reckoned<Scalar<&'a str>, P>> {
        let all = &self.library.own.defaults.constants;
        let known = all.iter().find(|known| known.field == field)?;
        let kind = field.kind();
        let is_there = match kind {
            Kind::Assembly | Kind::Stock => true,
            Kind::Operation => self.operation.is_some(),
            _ => self.names(kind) && !self.is_unresolved(kind),
        };
        let value = match &known.value {
            Scalar::Number(number) => Scalar::Number(*number),
            Scalar::Word(word) => Scalar::Word(word),
            Scalar::Text(text) => Scalar::Text(text.as_str()),
            Scalar::Truth(truth) => Scalar::Truth(*truth),
        };
        is_there.then(|| Reckoned::free(value))
    }
}
