//! Faults of form, as data: what kind, which words, where. They know no rule.

use std::borrow::Cow;

use crate::text::{Place, quoted};

/// A word that a fault's message may show.
pub type Arg = (&'static str, String);

/// Something in the input that is not as it should be.
///
/// Its words, level and advice stand in the rule file of the same kind.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// The rule file that words it, such as `record/row-ragged`.
    pub kind: &'static str,
    /// What the message can show, by name.
    pub args: Vec<Arg>,
    /// Where: the cell that is wrong first.
    pub places: Vec<FaultPlace>,
    /// The assembly's tool number, if the fault belongs to one.
    pub tool_number: Option<String>,
    /// The assembly's id, if the fault belongs to one.
    pub assembly: Option<String>,
    /// The property that is missing or assumed, qualified by its record, if that is the fault.
    pub missing: Option<&'static str>,
}

/// One place of a fault and the field that stands there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FaultPlace {
    /// Where.
    pub place: Place,
    /// Name of the field or column; empty for a whole record.
    pub field: Cow<'static, str>,
    /// Whether the place is a record that lacks the field, shown by its start only.
    pub absent: bool,
}

/// Every kind of fault that input and library can raise, with the words it brings along; and
/// one that the advice raises in the same way. A rule file of the same name words each; a test
/// holds both lists together.
pub static KINDS: &[(&str, &[&str])] = &[
    (
        "reach/no-window",
        &["lower", "min", "upper", "max", "short_by"],
    ),
    (
        "record/cell-unreadable",
        &["property", "text", "problem", "kind", "starred"],
    ),
    ("record/column-twice", &["column", "first"]),
    (
        "record/field-missing",
        &["property", "meaning", "record", "why"],
    ),
    ("record/negative-length", &["property", "text", "expected"]),
    ("record/number-taken-twice", &["number", "line"]),
    ("record/part-twice", &["part", "id", "line"]),
    ("record/part-unknown", &["part", "id", "table", "hint"]),
    ("record/part-unused", &["part", "id"]),
    ("record/row-ragged", &["cells", "columns", "how"]),
    ("record/stated-two-ways", &["property", "first", "second"]),
    ("record/unit-missing", &["property", "text", "problem"]),
    ("record/unknown-column", &["column", "table", "hint"]),
    ("record/unknown-element", &["element", "parent", "hint"]),
    ("record/unknown-table", &["table", "near"]),
    (
        "record/value-assumed",
        &["property", "meaning", "record", "why"],
    ),
];

impl Fault {
    /// A fault of one place.
    #[must_use]
    pub fn new(kind: &'static str, place: Place, field: impl Into<Cow<'static, str>>) -> Fault {
        Fault {
            kind,
            args: Vec::new(),
            places: vec![FaultPlace::stated(place, field.into())],
            tool_number: None,
            assembly: None,
            missing: None,
        }
    }

    /// Adds a word of the program's own for the message.
    #[must_use]
    pub fn with(mut self, name: &'static str, value: impl Into<String>) -> Fault {
        self.args.push((name, value.into()));
        self
    }

    /// Adds a name or a cell from input for the message, cut to what a line bears.
    #[must_use]
    pub fn quoting(self, name: &'static str, text: &str) -> Fault {
        self.with(name, quoted(text))
    }

    /// Adds a further place.
    #[must_use]
    pub fn also(mut self, place: Place, field: impl Into<Cow<'static, str>>) -> Fault {
        self.places.push(FaultPlace::stated(place, field.into()));
        self
    }
}

impl FaultPlace {
    /// A place where something stands; the name of a column is input too, and cut.
    fn stated(place: Place, field: Cow<'static, str>) -> FaultPlace {
        let field = match quoted(&field) {
            Cow::Borrowed(_) => field,
            Cow::Owned(cut) => Cow::Owned(cut),
        };
        FaultPlace {
            place,
            field,
            absent: false,
        }
    }
}
