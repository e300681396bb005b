//! Faults of form, as data: what kind, which words, where. They know no rule.

use std::borrow::Cow;

use crate::text::{Place, quoted};

/// A word that a fault's message may show.
pub type Arg = (&'static str, Cow<'static, str>);

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
    /// Number of the assembly that it belongs to, if it does to one.
    pub of: Option<usize>,
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

/// The kinds by name: the only rules that the program itself must know.
pub mod kind {
    /// No stick-out meets all rules; the advice raises it.
    pub const NO_WINDOW: &str = "reach/no-window";
    /// What the shop accepts ends within days.
    pub const ACCEPTED_ENDS_SOON: &str = "record/accepted-ends-soon";
    /// What the shop accepted until a day that has passed.
    pub const ACCEPTED_EXPIRED: &str = "record/accepted-expired";
    /// What the shop accepts for longer than the plant permits.
    pub const ACCEPTED_TOO_LONG: &str = "record/accepted-too-long";
    /// What the shop accepts of a tool, operation or library that there is not.
    pub const ACCEPTED_UNMATCHED: &str = "record/accepted-unmatched";
    /// What the shop accepts and is not found.
    pub const ACCEPTED_UNUSED: &str = "record/accepted-unused";
    /// What the shop accepts without saying how much.
    pub const ACCEPTED_WHATEVER: &str = "record/accepted-whatever";
    /// An asset that departs from its standard.
    pub const ASSET_DEPARTS: &str = "record/asset-departs";
    /// Rows of a table that hold nothing.
    pub const BLANK_ROWS: &str = "record/blank-rows";
    /// A cell that is no value of its property.
    pub const CELL_UNREADABLE: &str = "record/cell-unreadable";
    /// A header that a shop file names and no table has.
    pub const COLUMN_NOT_THERE: &str = "record/column-not-there";
    /// Two columns of one name.
    pub const COLUMN_TWICE: &str = "record/column-twice";
    /// A starred property that is not stated.
    pub const FIELD_MISSING: &str = "record/field-missing";
    /// A line of a table that is no record.
    pub const LINE_PASSED_OVER: &str = "record/line-passed-over";
    /// A length below 0.
    pub const NEGATIVE_LENGTH: &str = "record/negative-length";
    /// Two assemblies of one tool number.
    pub const NUMBER_TAKEN_TWICE: &str = "record/number-taken-twice";
    /// Two parts of one id.
    pub const PART_TWICE: &str = "record/part-twice";
    /// A part that is named and nowhere described.
    pub const PART_UNKNOWN: &str = "record/part-unknown";
    /// A part that no assembly names.
    pub const PART_UNUSED: &str = "record/part-unused";
    /// Rows or columns of a sheet that are hidden.
    pub const HIDDEN_CELLS: &str = "record/hidden-cells";
    /// Cells of a sheet that are merged into one.
    pub const MERGED_CELLS: &str = "record/merged-cells";
    /// A sheet of a workbook that is not read.
    pub const SHEET_NOT_READ: &str = "record/sheet-not-read";
    /// A row with too many or too few cells.
    pub const ROW_RAGGED: &str = "record/row-ragged";
    /// One property stated twice, and differently.
    pub const STATED_TWO_WAYS: &str = "record/stated-two-ways";
    /// A diameter and a corner radius that stand in one cell.
    pub const TWO_IN_A_CELL: &str = "record/two-in-a-cell";
    /// A number whose unit is needed and not stated.
    pub const UNIT_MISSING: &str = "record/unit-missing";
    /// A column that is not read.
    pub const UNKNOWN_COLUMN: &str = "record/unknown-column";
    /// An element or attribute that is not read.
    pub const UNKNOWN_ELEMENT: &str = "record/unknown-element";
    /// A table that is not read.
    pub const UNKNOWN_TABLE: &str = "record/unknown-table";
    /// A starred property that is only assumed.
    pub const VALUE_ASSUMED: &str = "record/value-assumed";
}

/// Every kind of fault that input and library can raise, with the words it brings along; one
/// that the advice raises in the same way; and those of what a shop file accepts. A rule file of the same name words each; a test
/// holds both lists together.
pub static KINDS: &[(&str, &[&str])] = &[
    (
        kind::NO_WINDOW,
        &["lower", "min", "upper", "max", "short_by"],
    ),
    (
        kind::ACCEPTED_ENDS_SOON,
        &["tool", "rule", "by", "until", "days"],
    ),
    (kind::ACCEPTED_EXPIRED, &["tool", "rule", "by", "until"]),
    (
        kind::ACCEPTED_TOO_LONG,
        &["tool", "rule", "by", "until", "days", "longest"],
    ),
    (kind::ACCEPTED_UNMATCHED, &["tool", "rule", "by", "what"]),
    (kind::ACCEPTED_UNUSED, &["tool", "rule", "by"]),
    (kind::ACCEPTED_WHATEVER, &["tool", "rule", "by"]),
    (kind::ASSET_DEPARTS, &["what"]),
    (kind::BLANK_ROWS, &["rows"]),
    (
        kind::CELL_UNREADABLE,
        &["property", "text", "problem", "kind", "starred"],
    ),
    (kind::COLUMN_NOT_THERE, &["column", "hint"]),
    (kind::COLUMN_TWICE, &["column", "first"]),
    (
        kind::FIELD_MISSING,
        &["property", "meaning", "record", "why"],
    ),
    (kind::HIDDEN_CELLS, &["what", "verb"]),
    (kind::LINE_PASSED_OVER, &["what", "key"]),
    (kind::MERGED_CELLS, &["area", "first"]),
    (kind::NEGATIVE_LENGTH, &["property", "text", "expected"]),
    (kind::NUMBER_TAKEN_TWICE, &["number", "line"]),
    (kind::PART_TWICE, &["part", "id", "line"]),
    (kind::PART_UNKNOWN, &["part", "id", "table", "hint"]),
    (kind::PART_UNUSED, &["part", "id"]),
    (kind::ROW_RAGGED, &["cells", "columns", "how"]),
    (kind::SHEET_NOT_READ, &["sheets", "how", "near"]),
    (kind::STATED_TWO_WAYS, &["property", "first", "second"]),
    (kind::TWO_IN_A_CELL, &["text", "diameter", "radius"]),
    (kind::UNIT_MISSING, &["property", "text", "problem"]),
    (kind::UNKNOWN_COLUMN, &["column", "table", "hint"]),
    (kind::UNKNOWN_ELEMENT, &["element", "parent", "hint"]),
    (kind::UNKNOWN_TABLE, &["table", "near"]),
    (
        kind::VALUE_ASSUMED,
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
            of: None,
            missing: None,
        }
    }

    /// Adds a word of the program's own for the message.
    #[must_use]
    pub fn with(mut self, name: &'static str, value: impl Into<Cow<'static, str>>) -> Fault {
        self.args.push((name, value.into()));
        self
    }

    /// Adds a name or a cell from input for the message, cut to what a line bears.
    #[must_use]
    pub fn quoting(self, name: &'static str, text: &str) -> Fault {
        self.with(name, quoted(text).into_owned())
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
