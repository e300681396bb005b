//! The words of a finding as data: a template with its values, or words that many findings share.
//! They are put together where somebody reads them, and then once: what is only counted has none.

use std::fmt;
use std::ops::Deref;
use std::sync::{Arc, OnceLock};

use crate::rulebook::{Piece, Template};
use crate::units::Unit;
use crate::units::print::{self, DisplayUnits, Rounding};

/// What stands beside an estimate.
const ESTIMATED: &str = " (estimated)";

/// Words that may not have been put together yet; to whoever reads them they are a text.
#[derive(Clone)]
pub struct Words(Inner);

#[derive(Clone)]
enum Inner {
    /// Words as they are.
    Plain(Arc<str>),
    /// A template and its values.
    Filled(Arc<Filled>),
    /// Others, one behind the other.
    Joined(Arc<Joined>),
}

struct Filled {
    template: Template,
    values: Vec<ShownValue>,
    units: DisplayUnits,
    text: OnceLock<Box<str>>,
}

struct Joined {
    parts: [Words; 2],
    text: OnceLock<Box<str>>,
}

/// A value of a message: what it is, and how it is to be printed.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum ShownValue {
    /// Nobody knows it.
    NotKnown,
    /// Yes or no.
    Truth(bool),
    /// A word of a closed list.
    Word(&'static str),
    /// A text of the input, safe to be shown.
    Text(Box<str>),
    /// A number without unit.
    Bare(f64),
    /// A quantity.
    Quantity {
        /// How much, in `unit`.
        value: f64,
        unit: Unit,
        estimated: bool,
    },
    /// A quantity that the failing condition compares with another: printed so that both differ.
    Against {
        value: f64,
        other: f64,
        unit: Unit,
        estimated: bool,
    },
    /// What is between two such quantities.
    Between {
        from: f64,
        less: f64,
        unit: Unit,
        estimated: bool,
    },
    /// A ratio in percent.
    Percent(f64, Rounding),
}

impl ShownValue {
    fn write(&self, units: DisplayUnits, to: &mut String) {
        let (words, estimated) = match *self {
            ShownValue::NotKnown => return to.push_str("not known"),
            ShownValue::Truth(truth) => return to.push_str(if truth { "yes" } else { "no" }),
            ShownValue::Word(word) => return to.push_str(word),
            ShownValue::Text(ref text) => return to.push_str(text),
            ShownValue::Bare(number) => (format!("{number}"), false),
            ShownValue::Percent(ratio, way) => (print::percent(ratio, way), false),
            ShownValue::Quantity {
                value,
                unit,
                estimated: true,
            } => (print::estimate(value, unit, units), true),
            ShownValue::Quantity { value, unit, .. } => (print::value(value, unit, units), false),
            ShownValue::Against {
                value,
                other,
                unit,
                estimated: true,
            } => (print::estimate_against(value, other, unit, units), true),
            ShownValue::Against {
                value, other, unit, ..
            } => (print::pair(value, other, unit, units).0, false),
            ShownValue::Between {
                from,
                less,
                unit,
                estimated,
            } => (print::difference(from, less, unit, units), estimated),
        };
        to.push_str(&words);
        if estimated {
            to.push_str(ESTIMATED);
        }
    }
}

impl Words {
    /// A template with its values, one for each of its expressions in their order.
    pub(super) fn filled(
        template: &Template,
        values: Vec<ShownValue>,
        units: DisplayUnits,
    ) -> Words {
        Words(Inner::Filled(Arc::new(Filled {
            template: template.clone(),
            values,
            units,
            text: OnceLock::new(),
        })))
    }

    /// Whether they would speak of a value that nobody knows.
    pub(super) fn speaks_of_unknown(&self) -> bool {
        match &self.0 {
            Inner::Plain(_) => false,
            Inner::Filled(filled) => filled.values.contains(&ShownValue::NotKnown),
            Inner::Joined(joined) => joined.parts.iter().any(Words::speaks_of_unknown),
        }
    }

    /// The same, and others behind them.
    #[must_use]
    pub fn and(&self, more: impl Into<Words>) -> Words {
        Words(Inner::Joined(Arc::new(Joined {
            parts: [self.clone(), more.into()],
            text: OnceLock::new(),
        })))
    }

    /// The text.
    #[must_use]
    pub fn as_str(&self) -> &str {
        match &self.0 {
            Inner::Plain(text) => text,
            Inner::Filled(filled) => filled.text.get_or_init(|| filled.written().into()),
            Inner::Joined(joined) => joined
                .text
                .get_or_init(|| joined.parts.iter().map(Words::as_str).collect()),
        }
    }

    /// Whether they say nothing.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        match &self.0 {
            Inner::Plain(text) => text.is_empty(),
            Inner::Filled(filled) => !filled.template.has_text() && self.as_str().is_empty(),
            Inner::Joined(joined) => joined.parts.iter().all(Words::is_empty),
        }
    }
}

impl Filled {
    fn written(&self) -> String {
        let mut text = String::new();
        let mut values = self.values.iter();
        for part in self.template.parts.iter() {
            match part {
                Piece::Text(plain) => text.push_str(plain),
                Piece::Value(_) | Piece::Percent(_) => {
                    if let Some(value) = values.next() {
                        value.write(self.units, &mut text);
                    }
                }
            }
        }
        text
    }
}

impl Default for Words {
    fn default() -> Words {
        Words(Inner::Plain(Arc::default()))
    }
}

impl Deref for Words {
    type Target = str;

    fn deref(&self) -> &str {
        self.as_str()
    }
}

impl fmt::Display for Words {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self)
    }
}

impl fmt::Debug for Words {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Debug::fmt(self.as_str(), f)
    }
}

impl PartialEq for Words {
    fn eq(&self, other: &Words) -> bool {
        self.as_str() == other.as_str()
    }
}

impl Eq for Words {}

impl PartialEq<str> for Words {
    fn eq(&self, other: &str) -> bool {
        self.as_str() == other
    }
}

impl PartialEq<&str> for Words {
    fn eq(&self, other: &&str) -> bool {
        self.as_str() == *other
    }
}

impl From<Arc<str>> for Words {
    fn from(text: Arc<str>) -> Words {
        Words(Inner::Plain(text))
    }
}

impl From<String> for Words {
    fn from(text: String) -> Words {
        Words(Inner::Plain(text.into()))
    }
}

impl From<&str> for Words {
    fn from(text: &str) -> Words {
        Words(Inner::Plain(text.into()))
    }
}
